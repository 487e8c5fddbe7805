using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Xunit;

namespace Cellarbook.Core.Tests.Demo;

/// <summary>The demonstration book as a visitor meets it: seed/demo/book.jsonl, recorded line by line through the one door.</summary>
public static class DemonstrationBook
{
    /// <summary>The day on which it is read here: two weeks after its last entry.</summary>
    public static readonly DateOnly Today = new(2026, 11, 24);

    /// <summary>Its first day and its last.</summary>
    public static readonly DateOnly First = new(2025, 9, 1), Last = new(2026, 11, 10);

    /// <summary>The lines of the file.</summary>
    public static IReadOnlyList<string> Lines { get; } = File.ReadAllLines(Path.Combine(Folder, "book.jsonl"));

    private static readonly Lazy<Book.Book> Shared = new(() => Record(Lines));

    /// <summary>The book they make; not to be changed.</summary>
    public static Book.Book Whole => Shared.Value;

    /// <summary>The folder seed/demo of the project.</summary>
    public static string Folder
    {
        get
        {
            var folder = new DirectoryInfo(AppContext.BaseDirectory);
            while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "Cellarbook.sln"))) folder = folder.Parent;
            return Path.Combine(Assert.IsType<DirectoryInfo>(folder).FullName, "seed", "demo");
        }
    }

    /// <summary>Operations that hold: what was taken back is left out, what was written instead is in.</summary>
    public static IEnumerable<Operation> Written => Whole.Entries.Where(entry => entry.TakenBackBy is null && entry.Operation is not Correct)
        .Select(entry => entry.Operation!).Concat(Corrections.SelectMany(correct => correct.Write ?? []));

    /// <summary>Corrections, in order of number.</summary>
    public static IEnumerable<Correct> Corrections => Whole.Entries.Select(entry => entry.Operation).OfType<Correct>();

    /// <summary>Every posting in book order.</summary>
    public static IEnumerable<Posting> Postings => Whole.Pages.SelectMany(page => page.Deeds).SelectMany(deed => deed.Postings);

    /// <summary>Records lines, each as POST /api/v1/operations takes it; stops with the number of the line that is refused.</summary>
    public static Book.Book Record(IReadOnlyList<string> lines)
    {
        var book = new Book.Book();
        for (var i = 0; i < lines.Count; i++) book.Accept(Good(book, lines[i], i + 1));
        return book;
    }

    /// <summary>Reads and proposes one line, which must be good.</summary>
    public static Trial Good(Book.Book book, string line, int number)
    {
        var refusals = new List<Refusal>();
        var operation = OperationJson.Read(Encoding.UTF8.GetBytes(line), refusals);
        Assert.True(operation is not null, $"line {number}: {string.Join(" ", refusals.Select(refusal => refusal.Sentence))}");
        var trial = book.Propose(operation, Today);
        Assert.True(trial.IsGood, $"line {number}: {string.Join(" ", trial.Refusals.Select(refusal => refusal.Sentence))}");
        return trial;
    }

    /// <summary>Litres as a double, for the plausibility of figures only.</summary>
    public static double Litres(Volume volume) => volume.Microlitres / 1e6;
}
