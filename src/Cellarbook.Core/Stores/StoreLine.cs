using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>A delivery as it lies in the stores on a day.</summary>
/// <param name="Place">Where and how much.</param>
/// <param name="Material">The material.</param>
/// <param name="IsOutOfDate">True when some of it is left after its best-before day.</param>
/// <param name="IsLow">True when of the material, all deliveries together, less than a fifth of the newest delivery is left (common practice, no source).</param>
public sealed record StoreLine(Place Place, Material Material, bool IsOutOfDate, bool IsLow)
{
    /// <summary>What is left of the material, all deliveries together.</summary>
    public MaterialAmount Left { get; init; }

    /// <summary>What a material's stock is low against: this part of its newest delivery.</summary>
    private const int LowPart = 5;

    /// <summary>Every delivery of every material, by name and age.</summary>
    /// <param name="book">The book.</param>
    /// <param name="day">Today, for what is out of date.</param>
    /// <param name="usedUp">True for deliveries of which nothing is left, too.</param>
    public static IReadOnlyList<StoreLine> All(Book.Book book, DateOnly day, bool usedUp = false)
    {
        var lines = new List<StoreLine>();
        foreach (var code in book.Now.MaterialsInStore)
        {
            if (book.Materials.Find(code) is not { } material) continue;
            var places = book.Now.DeliveriesOf(code).Select(book.Now.At).OrderBy(place => place.FirstDay).ToArray();
            var left = places.Aggregate(MaterialAmount.None, (sum, place) => sum + place.Material);
            var newest = places.Select(place => place.Delivery).LastOrDefault(facts => facts is { MixedFrom.IsEmpty: true, Kit: null });
            var low = newest is not null && newest.Amount.Units > 1 && left.Units * LowPart < newest.Amount.Units;
            lines.AddRange(places.Where(place => usedUp || place.Material.IsPositive || (low && place == places[^1])).Select(place => new StoreLine(place, material, place.Material.IsPositive && place.Delivery?.BestBefore < day, low) { Left = left }));
        }
        return [.. lines.OrderBy(line => line.Material.Name, StringComparer.Ordinal).ThenBy(line => line.Place.FirstDay)];
    }
}
