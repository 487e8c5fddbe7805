using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>A book beside what a host would have stored of its imported events.</summary>
public sealed class ImportedBook
{
    public const string Head = "event_id,date,category,lot_from,vessel_from,lot_to,vessel_to,volume_ml,bottles,bottle_ml,abv_pct,reverses,from_account,to_account";

    private readonly Dictionary<string, KnownEvent> known = new(StringComparer.Ordinal);

    public ImportedBook() => Book = new() { FindEvent = id => known.GetValueOrDefault(id) };

    public Book.Book Book { get; }

    public static string Worked => File.ReadAllText(Csv.DataFile("records/worked_period.csv"));

    public static string SecondYear => File.ReadAllText(Csv.DataFile("records/second_year.csv"));

    /// <summary>Imports a whole file, which must go in.</summary>
    public Trial Take(string text)
    {
        var trial = Csv.Import(Book, text);
        Assert.Empty(trial.Refusals);
        foreach (var entry in trial.Entries) known.Add(entry.EventId!, new(entry.Number, (Imported)entry.Operation!));
        Book.Accept(trial);
        return trial;
    }

    /// <summary>Imports rows under the usual head.</summary>
    public Trial TakeRows(params string[] rows) => Take(Written(rows));

    /// <summary>Records an operation, which must be possible.</summary>
    public ImportedBook Record(Operation operation)
    {
        var trial = Book.Propose(operation, new(2030, 1, 1));
        Assert.Empty(trial.Refusals);
        Book.Accept(trial);
        return this;
    }

    /// <summary>Imports rows that must be refused, nothing recorded; gives the first refusal.</summary>
    public Refusal Refused(params string[] rows) => RefusedFile(Written(rows));

    public Refusal RefusedFile(string text)
    {
        var before = (Book.LastNumber, Stock(Book), Book.Pages.Sum(page => page.Effects.Count));
        var trial = Csv.Import(Book, text);
        Assert.False(trial.IsGood, "The file went in, but must be refused.");
        Assert.Throws<InvalidOperationException>(() => Book.Accept(trial));
        Assert.Equal(before, (Book.LastNumber, Stock(Book), Book.Pages.Sum(page => page.Effects.Count)));
        Assert.All(trial.Refusals, refusal => Assert.Matches("[.!?]$", refusal.Sentence.ToString()));
        return trial.Refusals[0];
    }

    public static string Written(params string[] rows) => string.Join('\n', rows.Prepend(Head)) + "\n";

    public static ImportedBook Of(string text)
    {
        var book = new ImportedBook();
        book.Take(text);
        return book;
    }

    /// <summary>Every posting, entry by entry, as text.</summary>
    public static string Postings(Book.Book book) => string.Join('\n', book.Entries.SelectMany(entry => entry.Deeds.SelectMany(deed => deed.Postings.Select(posting =>
        $"{entry.EventId} {deed.Day:yyyy-MM-dd} {posting.From} → {posting.To} {posting.Category} {posting.Volume} {posting.Bottles} × {posting.BottleSize} {posting.Strength} {posting.IsTakenBack}"))));

    /// <summary>Everything that lies anywhere, as text.</summary>
    public static string Stock(Book.Book book) => string.Join('\n', book.Now.Places.Where(place => !place.IsEmpty)
        .Select(place => $"{place.Account} {place.Volume} {place.Bottles} {place.Standing}").Order(StringComparer.Ordinal));
}
