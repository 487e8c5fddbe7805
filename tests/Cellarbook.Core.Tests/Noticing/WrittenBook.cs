using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Noticing;
using Xunit;

namespace Cellarbook.Core.Tests.Noticing;

/// <summary>A book written day by day, for looking at afterwards.</summary>
internal sealed class WrittenBook
{
    private static readonly DateOnly Late = new(2026, 12, 31);

    public Book.Book Book { get; } = new();

    public EntryIndex Index { get; } = new();

    /// <summary>A book in which all of this was recorded, in this order; a refusal fails the test.</summary>
    public static WrittenBook Of(params string[] operations)
    {
        var written = new WrittenBook();
        foreach (var operation in operations) written.Write(operation);
        return written;
    }

    public long Write(string operation)
    {
        var refusals = new List<Refusal>();
        var read = OperationJson.Read(Encoding.UTF8.GetBytes(operation), refusals);
        Assert.Empty(refusals);
        var trial = Book.Propose(read!, Late);
        Assert.Empty(trial.Refusals);
        Book.Accept(trial);
        return Book.LastNumber;
    }

    /// <summary>What stands out on a day, as words: "LooksOver L1 V1".</summary>
    public string[] StandsOutOn(string day) =>
        [.. StandsOut.Find(Book, Index, DateOnly.Parse(day, System.Globalization.CultureInfo.InvariantCulture), Habits.Usual).Order(StandsOut.Pressing).Select(finding => $"{finding.What} {finding.Lot} {finding.Vessel}".Trim())];
}
