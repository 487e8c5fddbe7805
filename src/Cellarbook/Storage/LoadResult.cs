using Cellarbook.Core.Book;
using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>
/// The stored entries, streamed once, and what was found wrong with them. Findings are complete when the entries have been read to the end.
/// </summary>
public sealed class LoadResult
{
    private readonly Func<SqliteConnection> open;
    private readonly Findings findings;
    private readonly IProgress<int>? progress;

    internal LoadResult(Func<SqliteConnection> open, Findings findings, IProgress<int>? progress)
    {
        this.open = open;
        this.findings = findings;
        this.progress = progress;
    }

    /// <summary>Entries in order of number, as far as they can be rebuilt. Each enumeration reads the file anew.</summary>
    public IEnumerable<Entry> Entries => Read();

    /// <summary>What was found wrong: schema, guards, chain, and after <see cref="ToBook"/> the laws.</summary>
    public IReadOnlyList<Finding> Findings => findings.List;

    /// <summary>Entries read.</summary>
    public long EntriesRead { get; private set; }

    /// <summary>Postings read.</summary>
    public long PostingsRead { get; private set; }

    /// <summary>Contacts read.</summary>
    public long ContactsRead { get; private set; }

    /// <summary>Contacts that were blanked.</summary>
    public long ContactsBlanked { get; private set; }

    /// <summary>Where the chain ends: the last entry's number and hash; null until the entries have been read to the end.</summary>
    public ChainHead? Head { get; private set; }

    /// <summary>
    /// The book they make. Breaches of law are added to the findings. Where a spoilt book can't be folded at all, it ends before the first
    /// entry that something is wrong with.
    /// </summary>
    public Book ToBook(Func<string, KnownEvent?>? findEvent)
    {
        var violations = new List<Violation>();
        Book book;
        try
        {
            book = Book.Load(Entries, findEvent, violations);
        }
        catch (Exception fault) when (findings.Any && fault is not SqliteException)
        {
            var firstBad = findings.List.Min(finding => finding.Entry) ?? 1;
            violations.Clear();
            book = Book.Load(Entries.TakeWhile(entry => entry.Number < firstBad), findEvent, violations);
        }
        foreach (var violation in violations) findings.Add(violation.Entry, $"It breaks a law of the book: {violation.Sentence}");
        return book;
    }

    private IEnumerable<Entry> Read()
    {
        using var connection = open();
        using var snapshot = connection.BeginTransaction(deferred: true);
        using var reader = new EntryReader(connection, findings);
        using var entries = reader.Read(progress).GetEnumerator();
        while (Next(entries)) yield return entries.Current;
        EntriesRead = reader.Count;
        PostingsRead = reader.Postings;
        (ContactsRead, ContactsBlanked) = (reader.Contacts, reader.ContactsBlanked);
        Head = reader.End;
    }

    private bool Next(IEnumerator<Entry> entries)
    {
        try
        {
            return entries.MoveNext();
        }
        catch (SqliteException fault) when (BookFaults.Of(fault) is BookFault.Damaged or BookFault.NotABook or BookFault.DiskFault)
        {
            findings.Add(null, $"The file is damaged; reading it ended early: {fault.Message}");
            return false;
        }
    }
}
