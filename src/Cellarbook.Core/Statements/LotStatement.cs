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
    /// <param name="book">The book.</param>
    /// <param name="on">The day.</param>
    /// <param name="scheme">How classes are called.</param>
    /// <param name="only">The section wanted; null for all of them.</param>
    public static LotStatement Build(Book.Book book, DateOnly on, ClassScheme scheme, Section? only = null)
    {
        var lines = new List<LotLine>();
        foreach (var place in book.AsOf(on).Places)
            if (!place.IsEmpty && place.Account.Section is var section and (Section.Must or Section.Bulk or Section.Bottled) && (only is null || section == only))
                lines.Add(new(section, section == Section.Must ? "" : scheme.Of(place.Standing).Code, place.Account.Name, place.Volume, place.Bottles));
        lines.Sort((one, other) =>
        {
            var order = (int)one.Section - (int)other.Section;
            if (order == 0 && one.Class != other.Class) order = scheme.OrderOf(one.Class) - scheme.OrderOf(other.Class);
            return order != 0 ? order : string.CompareOrdinal(one.Lot, other.Lot);
        });
        var summed = new List<LotLine>(lines.Count);
        foreach (var line in lines)
            if (summed.Count > 0 && summed[^1] is var last && last.Section == line.Section && last.Class == line.Class && last.Lot == line.Lot) summed[^1] = last with { Volume = last.Volume + line.Volume, Bottles = last.Bottles + line.Bottles };
            else summed.Add(line);
        return new(on, summed);
    }
}
