using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Passbook;

/// <summary>A line of a lot's passbook: what one deed put in and took out, and what was left of the lot in bulk after it.</summary>
public sealed record PassbookLine(PlacedDeed Placed, Volume In, Volume Out, Volume Balance);

/// <summary>So much that came from, or went to, another lot.</summary>
public sealed record PassbookKin(string Lot, Volume Volume);

/// <summary>A lot as a passbook reads: line by line in book order. Summed up by kind it is its account (<see cref="Statements.LotAccount"/>).</summary>
public sealed class LotPassbook
{
    private LotPassbook(IReadOnlyList<PassbookLine> lines, IReadOnlyList<PassbookKin> from, IReadOnlyList<PassbookKin> to) => (Lines, CameFrom, WentTo) = (lines, from, to);

    /// <summary>Every line, oldest first.</summary>
    public IReadOnlyList<PassbookLine> Lines { get; }

    /// <summary>Lots that flowed into this one, directly or through a process.</summary>
    public IReadOnlyList<PassbookKin> CameFrom { get; }

    /// <summary>Lots this one flowed into, directly or through a process.</summary>
    public IReadOnlyList<PassbookKin> WentTo { get; }

    /// <summary>Works out the passbook of a lot; empty for one that isn't in the book.</summary>
    public static LotPassbook Of(Book.Book book, EntryIndex index, string lot)
    {
        var lines = new List<PassbookLine>();
        var (from, to) = (new SortedDictionary<string, Volume>(StringComparer.Ordinal), new SortedDictionary<string, Volume>(StringComparer.Ordinal));
        var balance = Volume.None;
        foreach (var placed in BookOrder.Of(book, index.OfLot(book, lot), deed => Concerns(deed, lot)))
        {
            var (put, taken) = (Volume.None, Volume.None);
            foreach (var posting in placed.Deed.Postings)
            {
                var (gives, receives) = (IsOf(posting.From, lot), IsOf(posting.To, lot));
                if (gives == receives) continue;
                if (receives) put += posting.Volume;
                else taken += posting.Volume;
                if (placed.IsStruck) continue;
                if (receives && IsBulkOrMust(posting.From)) Add(from, posting.From.Name, posting.Volume);
                else if (gives && IsBulkOrMust(posting.To)) Add(to, posting.To.Name, posting.Volume);
            }
            if (!placed.IsStruck)
            {
                balance += put - taken;
                Through(placed.Deed, lot, from, to);
            }
            lines.Add(new(placed, put, taken, balance));
        }
        return new(lines, [.. from.Select(pair => new PassbookKin(pair.Key, pair.Value))], [.. to.Select(pair => new PassbookKin(pair.Key, pair.Value))]);
    }

    /// <summary>Through a process, the volumes that met in it: what another lot put in, what another lot got out.</summary>
    private static void Through(Deed deed, string lot, SortedDictionary<string, Volume> from, SortedDictionary<string, Volume> to)
    {
        foreach (var process in LotFlow.Processes(deed))
        {
            if (process.Any(posting => posting.From.Section == Section.Process && IsOf(posting.To, lot)))
                foreach (var posting in process.Where(posting => posting.To.Section == Section.Process && IsBulkOrMust(posting.From) && posting.From.Name != lot)) Add(from, posting.From.Name, posting.Volume);
            if (process.Any(posting => posting.To.Section == Section.Process && IsOf(posting.From, lot)))
                foreach (var posting in process.Where(posting => posting.From.Section == Section.Process && IsBulkOrMust(posting.To) && posting.To.Name != lot)) Add(to, posting.To.Name, posting.Volume);
        }
    }

    private static bool Concerns(Deed deed, string lot) =>
        (deed.Operation as NoteOperation)?.Lot == lot || deed.Postings.Any(posting => IsOf(posting.From, lot) || IsOf(posting.To, lot));

    private static bool IsOf(Account account, string lot) => IsBulkOrMust(account) && account.Name == lot;

    private static bool IsBulkOrMust(Account account) => account.Section is Section.Must or Section.Bulk;

    private static void Add(SortedDictionary<string, Volume> kin, string lot, Volume volume) => kin[lot] = kin.GetValueOrDefault(lot) + volume;
}
