using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>What is on hand of one lot or bottling in one class.</summary>
/// <param name="Section">Must, bulk or bottled.</param>
/// <param name="Class">Class code; empty for must.</param>
/// <param name="Lot">The lot, or the bottling.</param>
/// <param name="Volume">How much, over all its places.</param>
/// <param name="Bottles">How many, in the bottled section.</param>
public sealed record LotLine(Section Section, string Class, string Lot, Volume Volume, BottleCount Bottles);

/// <summary>
/// Stock on one day, after all its entries, by section, class and lot, summed over places. Built from the cellar itself, not from the movements,
/// so that it can be held against the period statement.
/// </summary>
public sealed class LotStatement
{
    private LotStatement(DateOnly on, IReadOnlyList<LotLine> lines)
    {
        On = on;
        Lines = lines;
    }

    /// <summary>The day, at whose end the stock is stated.</summary>
    public DateOnly On { get; }

    /// <summary>Must, then bulk, then bottled; in each by class in the scheme's order, then by lot. What is empty is left out.</summary>
    public IReadOnlyList<LotLine> Lines { get; }

    /// <summary>Builds it.</summary>
    public static LotStatement Build(Book.Book book, DateOnly on, ClassScheme scheme) =>
        new(on, [.. book.AsOf(on).Places
            .Where(place => !place.IsEmpty && place.Account.Section is Section.Must or Section.Bulk or Section.Bottled)
            .GroupBy(place => (place.Account.Section, Class: place.Account.Section == Section.Must ? "" : scheme.Of(place.Standing).Code, place.Account.Name))
            .OrderBy(group => group.Key.Section).ThenBy(group => scheme.OrderOf(group.Key.Class)).ThenBy(group => group.Key.Name, StringComparer.Ordinal)
            .Select(group => new LotLine(group.Key.Section, group.Key.Class, group.Key.Name,
                group.Aggregate(Volume.None, (sum, place) => sum + place.Volume), group.Aggregate(BottleCount.None, (sum, place) => sum + place.Bottles)))]);
}
