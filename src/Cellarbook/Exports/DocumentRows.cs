using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;

namespace Cellarbook.Exports;

/// <summary>Takes the rows that stand beside a statement from a book.</summary>
public static class DocumentRows
{
    /// <summary>Bottles by bottling and shelf.</summary>
    public static IReadOnlyList<BottlesRow> Bottles(Cellar cellar, ClassScheme scheme) =>
        [.. cellar.Places.Where(place => place.Account.Section == Section.Bottled && place.Bottles.Bottles != 0)
            .OrderBy(place => place.Account.Name, StringComparer.Ordinal).ThenBy(place => place.Account.Place, StringComparer.Ordinal)
            .Select(place => (Place: place, Facts: cellar.Bottling(place.Account.Name)!))
            .Select(found => new BottlesRow(found.Place.Account.Name, found.Place.Account.Place, scheme.Of(found.Place.Standing).Code, found.Place.Standing.Strength, found.Facts.Size, found.Place.Bottles, found.Facts.FirstDay, found.Facts.Lots))];

    /// <summary>Postings of a period in book order; after them those of entries that were taken back while their period was open.</summary>
    public static IEnumerable<EntryRow> Entries(Book book, Period period, Func<Entry, EntryHeading> headingOf)
    {
        for (var i = book.FirstPageFrom(period.From); i < book.Pages.Count && book.Pages[i].Day <= period.To; i++)
            foreach (var deed in book.Pages[i].Deeds)
                foreach (var row in Rows(book.Find(deed.Entry)!, deed, null, headingOf)) yield return row;
        foreach (var entry in book.Entries)
        {
            if (!book.IsLeftOut(entry)) continue;
            foreach (var deed in entry.Deeds.Where(deed => deed.TakesBack is null && period.Holds(deed.Day)))
                foreach (var row in Rows(entry, deed, entry.TakenBackBy, headingOf)) yield return row;
        }
    }

    /// <summary>The word for what a deed is: its operation, "imported", or "takeBack".</summary>
    public static string KindOf(Deed deed) =>
        deed.TakesBack is not null ? "takeBack" : deed.Operation is { } operation ? OperationJson.KindOf(operation) : "imported";

    private static IEnumerable<EntryRow> Rows(Entry entry, Deed deed, long? leftOutBy, Func<Entry, EntryHeading> headingOf)
    {
        if (deed.Postings.Count == 0) yield break;
        var (kind, heading) = (KindOf(deed), headingOf(entry));
        // A statement speaks of must and wine; the stores have pages of their own.
        foreach (var posting in deed.Postings.Where(posting => !posting.Category.IsOfStores)) yield return new(entry.Number, deed.Day, deed.Time, kind, posting, leftOutBy, heading);
    }
}
