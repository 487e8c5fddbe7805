using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Importing;

/// <summary>A row of a journal file, read but not yet judged against the book.</summary>
internal readonly record struct JournalRow(string EventId, DateOnly Date, int Place, long? Order, ImportedRow Row, DateOnly? EnteredOn, string? EnteredBy, ToldAccounts? Told);
