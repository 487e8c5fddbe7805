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
        var placed = new List<(PlacedDeed Placed, int At)>();
        foreach (var day in entries.SelectMany(entry => entry.Deeds.Where(concerns).Select(deed => (entry, deed))).GroupBy(pair => pair.deed.Day))
        {
            var page = book.FirstPageFrom(day.Key) is var at && at < book.Pages.Count && book.Pages[at].Day == day.Key ? book.Pages[at].Deeds : [];
            var positions = new Dictionary<Deed, int>(ReferenceEqualityComparer.Instance);
            for (var i = 0; i < page.Count; i++) positions[page[i]] = i;
            foreach (var (entry, deed) in day)
                placed.Add(positions.TryGetValue(deed, out var position)
                    ? (new(entry, deed, IsStruck: false), 2 * position + 1)
                    : (new(entry, deed, IsStruck: true), 2 * (page.FindIndex(later => later.Entry > entry.Number) is var later and >= 0 ? later : page.Count)));
        }
        return [.. placed.OrderBy(pair => pair.Placed.Deed.Day).ThenBy(pair => pair.At).ThenBy(pair => pair.Placed.Entry.Number).Select(pair => pair.Placed)];
    }
}
