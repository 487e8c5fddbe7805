using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Importing;

/// <summary>A row of a journal file, read but not yet judged against the book.</summary>
internal sealed record JournalRow(string EventId, DateOnly Date, int Place, long? Order, ImportedRow Row)
{
    public DateOnly? EnteredOn { get; init; }

    public string? EnteredBy { get; init; }

    public ToldAccounts? Told { get; init; }
}
