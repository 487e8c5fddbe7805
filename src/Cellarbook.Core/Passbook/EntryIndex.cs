using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Passbook;

/// <summary>
/// Which entries touch which lot, vessel or bottling. Entries are only ever added to a book, so this only ever grows: each question first takes
/// in what is new. Safe for use by several threads while the book doesn't change.
/// </summary>
public sealed class EntryIndex
{
    // Numbers of entries as int: a book in memory holds no more of them than a list can.
    private readonly Lock gate = new();
    private readonly Dictionary<string, List<int>> lots = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<int>> notes = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<int>> vessels = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<int>> bottlings = new(StringComparer.Ordinal);
    private int seen;

    /// <summary>Entries that moved a lot in bulk or noted something of it, in order of number.</summary>
    public IReadOnlyList<Entry> OfLot(Book.Book book, string lot) => Of(book, lots, lot);

    /// <summary>Those of them that noted something of it: readings, cultures, additions.</summary>
    public IReadOnlyList<Entry> NotesOfLot(Book.Book book, string lot) => Of(book, notes, lot);

    /// <summary>Entries that filled, emptied, named or changed a vessel, in order of number.</summary>
    public IReadOnlyList<Entry> OfVessel(Book.Book book, string vessel) => Of(book, vessels, vessel);

    /// <summary>Entries that moved bottles of a bottling, in order of number.</summary>
    public IReadOnlyList<Entry> OfBottling(Book.Book book, string bottling) => Of(book, bottlings, bottling);

    private IReadOnlyList<Entry> Of(Book.Book book, Dictionary<string, List<int>> names, string name)
    {
        lock (gate)
        {
            for (; seen < book.Entries.Count; seen++) Take(book.Entries[seen]);
            return names.TryGetValue(name, out var numbers) ? [.. numbers.Select(number => book.Find(number)!)] : [];
        }
    }

    private void Take(Entry entry)
    {
        if (entry.Operation is Vessel { Code: { } made }) Note(vessels, made, entry.Number);
        foreach (var deed in entry.Deeds)
        {
            foreach (var posting in deed.Postings)
            {
                Take(posting.From, entry.Number);
                Take(posting.To, entry.Number);
            }
            if (deed.Operation is not NoteOperation note) continue;
            if (note.Lot is not null)
            {
                Note(lots, note.Lot, entry.Number);
                Note(notes, note.Lot, entry.Number);
            }
            if (note.Vessel is not null and not Account.Unplaced) Note(vessels, note.Vessel, entry.Number);
        }
    }

    private void Take(Account account, long entry)
    {
        if (account.Section is Section.Must or Section.Bulk)
        {
            Note(lots, account.Name, entry);
            if (account.InVessel) Note(vessels, account.Place, entry);
        }
        else if (account.Section == Section.Bottled) Note(bottlings, account.Name, entry);
    }

    private static void Note(Dictionary<string, List<int>> names, string name, long entry)
    {
        if (!names.TryGetValue(name, out var numbers)) names.Add(name, numbers = new(1));
        if (numbers.Count == 0 || numbers[^1] != entry) numbers.Add((int)entry);
    }
}
