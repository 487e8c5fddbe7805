using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Forms;

/// <summary>A lot in a vessel, with what lies there.</summary>
public sealed record FilledPlace(string Lot, string Vessel, bool IsMust, Volume Volume, Strength? Strength)
{
    /// <summary>As the value of a choice.</summary>
    public string Value => Lot + FieldReading.At + Vessel;
}

/// <summary>Bottles on a shelf.</summary>
public sealed record FilledShelf(string Bottling, string Shelf, BottleCount Bottles, Volume Size)
{
    /// <summary>As the value of a choice.</summary>
    public string Value => Bottling + FieldReading.At + Shelf;
}

/// <summary>What the cellar holds on a day, for a form to choose from.</summary>
public sealed record CellarChoices
{
    private CellarChoices()
    {
    }

    /// <summary>Must and wine, by lot and vessel.</summary>
    public required IReadOnlyList<FilledPlace> Filled { get; init; }

    /// <summary>Bottles, by bottling and shelf.</summary>
    public required IReadOnlyList<FilledShelf> Bottled { get; init; }

    /// <summary>Must and wine as choices.</summary>
    public required IReadOnlyList<Choice> Places { get; init; }

    /// <summary>Must alone.</summary>
    public required IReadOnlyList<Choice> Must { get; init; }

    /// <summary>Wine in bulk alone.</summary>
    public required IReadOnlyList<Choice> Wine { get; init; }

    /// <summary>Bottles as choices.</summary>
    public required IReadOnlyList<Choice> Shelves { get; init; }

    /// <summary>Names of shelves in use.</summary>
    public required IReadOnlyList<Choice> ShelfNames { get; init; }

    /// <summary>Vessels to put something into: empty ones first.</summary>
    public required IReadOnlyList<Choice> Vessels { get; init; }

    /// <summary>Fruit by parcel.</summary>
    public required IReadOnlyList<Choice> Fruit { get; init; }

    /// <summary>Codes of lots with something left.</summary>
    public required IReadOnlyList<Choice> Lots { get; init; }

    /// <summary>Number of the last entry when this was looked up.</summary>
    public required long LastNumber { get; init; }

    /// <summary>The place of that lot and vessel, if something lies there.</summary>
    public FilledPlace? Find(string? lot, string? vessel) =>
        lot is null && vessel is null ? null : Filled.FirstOrDefault(place => (lot is null || place.Lot == lot) && (vessel is null || place.Vessel == vessel));

    /// <summary>Looks the cellar up, as it stands now or stood at the end of a day.</summary>
    public static CellarChoices Of(Book book, DateOnly? day, Show show)
    {
        var cellar = day is { } past ? book.AsOf(past) : book.Now;
        var places = cellar.Places.Where(place => !place.IsEmpty).ToArray();
        var filled = places.Where(place => place.Account.Section is Section.Must or Section.Bulk).OrderBy(place => place.Account.Name, StringComparer.Ordinal).ThenBy(place => place.Account.Place, StringComparer.Ordinal)
            .Select(place => new FilledPlace(place.Account.Name, place.Account.Place, place.Account.Section == Section.Must, place.Volume, place.Account.Section == Section.Must ? null : place.Standing.Strength)).ToArray();
        var bottled = places.Where(place => place.Account.Section == Section.Bottled).OrderBy(place => place.Account.Name, StringComparer.Ordinal).ThenBy(place => place.Account.Place, StringComparer.Ordinal)
            .Select(place => new FilledShelf(place.Account.Name, place.Account.Place, place.Bottles, place.BottleSize)).ToArray();
        Choice Said(FilledPlace place) => new(place.Value, () => Sentence.Of($"{place.Lot} {In(place.Vessel)}: {show.Volume(place.Volume)} {(place.IsMust ? Sentence.Of("must") : "wine")}"));
        return new()
        {
            Filled = filled,
            Bottled = bottled,
            Places = [.. filled.Select(Said)],
            Must = [.. filled.Where(place => place.IsMust).Select(Said)],
            Wine = [.. filled.Where(place => !place.IsMust).Select(Said)],
            Shelves = [.. bottled.Select(shelf => new Choice(shelf.Value, () => Sentence.Of($"{shelf.Bottling} {On(shelf.Shelf)}: {show.Bottles(shelf.Bottles)} of {show.BottleSize(shelf.Size)}")))],
            ShelfNames = [.. bottled.Select(shelf => shelf.Shelf).Where(shelf => shelf != Account.Unplaced).Distinct().Select(shelf => new Choice(shelf, Sentence.Verbatim(shelf)))],
            Vessels = [.. book.Vessels.Keys.Concat(cellar.Vessels.Select(vessel => vessel.Code)).Distinct().Order(StringComparer.Ordinal).Select(code => (Code: code, Hold: cellar.Vessel(code))).OrderBy(vessel => vessel.Hold.Accounts.IsEmpty ? 0 : 1)
                .Select(vessel => (vessel.Code, vessel.Hold, Facts: book.Vessels.GetValueOrDefault(vessel.Code))).Select(vessel => new Choice(vessel.Code, () => Vessel(vessel.Facts, vessel.Hold, show))), new(Account.Unplaced, "in no named vessel")],
            Fruit = [.. places.Where(place => place.Account.Section == Section.Fruit).Select(place => new Choice(place.Account.Name, $"{place.Account.Name}: {show.Weight(place.Weight)}"))],
            Lots = [.. filled.Select(place => place.Lot).Distinct().Select(lot => new Choice(lot, () => Sentence.Verbatim(lot)))],
            LastNumber = book.LastNumber,
        };
    }

    /// <summary>"in V1", or "in no named vessel".</summary>
    public static Sentence In(string vessel) => vessel == Account.Unplaced ? (Sentence)"in no named vessel" : $"in {vessel}";

    /// <summary>"on shelf A", or "on no named shelf".</summary>
    public static Sentence On(string shelf) => shelf == Account.Unplaced ? (Sentence)"on no named shelf" : $"on {shelf}";

    private static Sentence Vessel(Core.Operations.VesselFacts? facts, VesselHold hold, Show show)
    {
        var name = facts is null || facts.Name == hold.Code ? hold.Code : $"{hold.Code} {facts.Name}";
        var capacity = facts?.Capacity is { } full ? show.Volume(full) : null;
        if (hold.Accounts.IsEmpty) return capacity is null ? Sentence.Of($"{name}: empty") : $"{name}: empty, {capacity}";
        return capacity is null ? Sentence.Of($"{name}: {show.Volume(hold.Held)}, {hold.Lot}") : $"{name}: {show.Volume(hold.Held)} of {capacity}, {hold.Lot}";
    }
}
