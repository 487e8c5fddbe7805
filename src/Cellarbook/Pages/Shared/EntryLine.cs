using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Pages.Shared;

/// <summary>An entry as a line of a list.</summary>
public sealed record EntryLine(long Number, DateOnly Day, Telling Telling, Sentence SmallPrint, IReadOnlyList<string> Lots, IReadOnlyList<string> Bottlings)
{
    /// <summary>The entry that took it back.</summary>
    public long? TakenBackBy { get; init; }

    /// <summary>Stands beside an entry whose measurement no longer agrees.</summary>
    public bool NoLongerAgrees { get; init; }
}

/// <summary>Reads entries from the store and tells them as lines.</summary>
public sealed class EntryLines(OpenBook book, Told told)
{
    /// <summary>Entries found, newest first, and where the next page begins.</summary>
    public (IReadOnlyList<EntryLine> Lines, long? Next) Newest(BookQuery query)
    {
        var page = book.Store.Search(query);
        return (book.Read<IReadOnlyList<EntryLine>>(found => [.. page.Entries.Select(entry => Of(found, entry))]), page.Next);
    }

    /// <summary>Entries by number, in the order given; those that aren't there are left out.</summary>
    public IReadOnlyList<EntryLine> Of(IEnumerable<long> numbers)
    {
        var stored = numbers.Select(number => book.Store.Read(number)).OfType<StoredEntry>().ToArray();
        return book.Read<IReadOnlyList<EntryLine>>(found => [.. stored.Select(entry => Of(found, entry))]);
    }

    private EntryLine Of(Book found, StoredEntry stored)
    {
        var operation = OperationJson.Stored(stored.InPlain);
        var entry = found.Find(stored.Number);
        var accounts = stored.Postings.SelectMany(posting => new[] { posting.From, posting.To }).ToArray();
        var lots = accounts.Where(account => account.Section is Section.Must or Section.Bulk).Select(account => account.Name)
            .Concat((operation is Correct { Write: { } written } ? written : [operation]).OfType<NoteOperation>().Select(note => note.Lot).OfType<string>()).Distinct().Take(6);
        var bottlings = accounts.Where(account => account.Section == Section.Bottled).Select(account => account.Name).Distinct().Take(6);
        return new(stored.Number, stored.Day, told.Of(operation is Imported ? null : operation, stored.Postings), Told.SmallPrint(operation), [.. lots], [.. bottlings])
        {
            TakenBackBy = entry?.TakenBackBy,
            NoLongerAgrees = entry is not null && found.DisagreementsOf(entry).Any(),
        };
    }
}
