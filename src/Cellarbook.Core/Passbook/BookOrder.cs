using Cellarbook.Core.Book;

namespace Cellarbook.Core.Passbook;

/// <summary>A deed where it stands in the book.</summary>
/// <param name="Entry">The entry it belongs to.</param>
/// <param name="Deed">What was done.</param>
/// <param name="IsStruck">True when the entry was taken back while its period was open: the ledger leaves it out, the page shows it struck.</param>
public sealed record PlacedDeed(Entry Entry, Deed Deed, bool IsStruck);

/// <summary>Puts deeds of chosen entries in book order, those taken back included, each before what stands in its place.</summary>
public static class BookOrder
{
    /// <summary>The deeds of the entries that <paramref name="concerns"/> picks, oldest first.</summary>
    public static IReadOnlyList<PlacedDeed> Of(Book.Book book, IEnumerable<Entry> entries, Func<Deed, bool> concerns)
    {
        var standing = new Dictionary<Deed, PlacedDeed>(ReferenceEqualityComparer.Instance);
        var struck = new List<PlacedDeed>();
        // The one deed of a day, or null where there are several and the day says their order.
        var days = new Dictionary<DateOnly, PlacedDeed?>();
        foreach (var entry in entries)
        {
            var isStruck = book.IsLeftOut(entry);
            foreach (var deed in entry.Deeds)
            {
                if (!concerns(deed)) continue;
                var one = new PlacedDeed(entry, deed, isStruck && deed.TakesBack is null);
                days[deed.Day] = days.ContainsKey(deed.Day) ? null : one;
                if (one.IsStruck) struck.Add(one);
                else standing.Add(deed, one);
            }
        }
        var placed = new List<PlacedDeed>(standing.Count + struck.Count);
        foreach (var (day, alone) in days.OrderBy(pair => pair.Key))
        {
            if (alone is not null)
            {
                placed.Add(alone);
                continue;
            }
            var left = struck.Count == 0 ? [] : struck.FindAll(one => one.Deed.Day == day);
            left.Sort((one, other) => one.Entry.Number.CompareTo(other.Entry.Number));
            foreach (var deed in DeedsOn(book, day))
            {
                // What was struck goes before the first that was written after it.
                while (left.Count > 0 && deed.Entry > left[0].Entry.Number)
                {
                    placed.Add(left[0]);
                    left.RemoveAt(0);
                }
                if (standing.TryGetValue(deed, out var stands)) placed.Add(stands);
            }
            placed.AddRange(left);
        }
        return placed;
    }

    private static IReadOnlyList<Deed> DeedsOn(Book.Book book, DateOnly day) =>
        book.FirstPageFrom(day) is var at && at < book.Pages.Count && book.Pages[at].Day == day ? book.Pages[at].Deeds : [];
}
