using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Casks topped up: how much went into each, and from what. What went in is what had evaporated; that loss is posted first, so that a cask never
/// holds more than its capacity.
/// </summary>
public sealed record TopUp : Operation
{
    /// <summary>Casks topped, each with what went in.</summary>
    public IReadOnlyList<Part>? Casks { get; init; }

    /// <summary>Own wine or must it came from.</summary>
    public Part? From { get; init; }

    /// <summary>Own bottles it came from, opened whole.</summary>
    public Leaving? FromBottles { get; init; }

    /// <summary>Bought wine it came from: its strength, where stated.</summary>
    public Bought? FromBought { get; init; }

    /// <summary>True when it was water: must is let down, wine is thinned in a process.</summary>
    public bool? FromWater { get; init; }

    /// <summary>Bought wine, tax paid.</summary>
    public sealed record Bought
    {
        /// <summary>What it was.</summary>
        public string? What { get; init; }

        /// <summary>Stated strength.</summary>
        public Strength? Abv { get; init; }
    }

    internal override void Decide(Deciding deciding)
    {
        if (Casks is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "casks", "Say which casks were topped.");
        if (new object?[] { From, FromBottles, FromBought, FromWater is true ? FromWater : null }.Count(source => source is not null) != 1) deciding.Refuse(RefusalCode.Missing, "from", "Say what it was topped from: own wine, own bottles, bought wine or water; one of them.");
        if (deciding.Refused) return;
        var casks = new List<(Place Place, Volume Volume)>();
        foreach (var (cask, i) in Casks!.Select((cask, i) => (cask, i)))
        {
            var lot = cask.Lot ?? (cask.Vessel is null ? null : deciding.Cellar.Vessel(cask.Vessel).Lot);
            if (lot is null && cask.Vessel is not null && deciding.VesselKnown(cask.Vessel, $"casks[{i}].vessel")) deciding.Refuse(RefusalCode.MoreThanIsThere, $"casks[{i}].vessel", $"{cask.Vessel} is empty; filling it is a transfer.");
            else if (deciding.PlaceOf(lot, cask.Vessel, $"casks[{i}]") is { } place && deciding.Positive(cask.Litres, $"casks[{i}].litres"))
            {
                if (cask.Litres > place.Volume) deciding.Refuse(RefusalCode.MoreThanIsThere, $"casks[{i}].litres", $"{cask.Litres} can't have gone from {place.Account.Place}: it held {place.Volume}. Gauge it first; the rest is a transfer.");
                casks.Add((place, cask.Litres!.Value));
            }
        }
        if (deciding.Refused) return;
        foreach (var ((place, volume), i) in casks.Select((cask, i) => (cask, i))) WaysOut.Post(deciding.At($"casks[{i}].litres"), "evaporation", place.Account, volume, "casks");
        if (From is not null) FromOwn(deciding, casks);
        else if (FromBottles is not null) FromOpened(deciding, casks);
        else if (FromWater is true) Thin(deciding, casks);
        else
            foreach (var ((place, volume), i) in casks.Select((cask, i) => (cask, i)))
                if (Wine(deciding, place)) deciding.At($"casks[{i}].litres").Post("WINE_BOUGHT_BULK", Account.Counter("EXT:TAXPAID"), place.Account, volume, FromBought!.Abv);
    }

    private void FromOwn(Deciding deciding, List<(Place Place, Volume Volume)> casks)
    {
        if (deciding.PlaceOf(From!.Lot, From.Vessel, "from") is not { } source) return;
        foreach (var ((place, volume), i) in casks.Select((cask, i) => (cask, i)))
        {
            if (source.Account.Section == Section.Must && place.Account.Section == Section.Bulk) deciding.Refuse(RefusalCode.MustIntoWine, "from", "Must can't top up wine. Declare it wine first.");
            else if (source.Account.Section == Section.Bulk && place.Account.Section == Section.Must) deciding.Refuse(RefusalCode.WineIntoMust, "from", "Wine can't go into must. Declare that must wine first.");
            else deciding.At("from", $"casks[{i}].litres").Post(source.Account.Section == Section.Must ? "MUST_TRANSFER" : "LOT_TRANSFER", source.Account, place.Account, volume);
        }
    }

    /// <summary>Whole bottles are emptied into the casks, in order; what the casks don't take is left in the last bottle and lost.</summary>
    private void FromOpened(Deciding deciding, List<(Place Place, Volume Volume)> casks)
    {
        if (deciding.ShelfOf(FromBottles!.Bottling, FromBottles.Shelf, "fromBottles") is not { } shelf) return;
        if (FromBottles.Bottles is not { IsPositive: true } bottles)
        {
            deciding.Refuse(RefusalCode.Missing, "fromBottles.bottles", "Give the number of bottles opened.");
            return;
        }
        var needed = casks.Aggregate(Volume.None, (sum, cask) => sum + cask.Volume);
        var opened = bottles * shelf.BottleSize;
        if (opened < needed)
        {
            deciding.Refuse(RefusalCode.DoesNotAddUp, "fromBottles.bottles", $"{bottles} bottles hold {opened}, but {needed} went in. Check the figures.");
            return;
        }
        if (!casks.TrueForAll(cask => Wine(deciding, cask.Place))) return;
        // The bottles become bulk wine in the first cask and go on from there to the others; what was too much is spilt.
        var first = casks[0].Place.Account;
        deciding.At("fromBottles.bottles", "casks[0].litres").PostBottles("UNBOTTLED", shelf.Account, first, bottles, shelf.BottleSize);
        foreach (var ((place, volume), i) in casks.Select((cask, i) => (cask, i)).Skip(1)) deciding.At($"casks[{i}].litres").Post("LOT_TRANSFER", first, place.Account, volume);
        WaysOut.Post(deciding.At("fromBottles.bottles"), "spill", first, opened - needed, "fromBottles");
    }

    /// <summary>What is left of a wine and the water meet in a process, cask by cask, so that the book shows how much was thinned by how much.</summary>
    private static void Thin(Deciding deciding, List<(Place Place, Volume Volume)> casks)
    {
        foreach (var ((place, volume), i) in casks.Select((cask, i) => (cask, i)))
        {
            var left = place.Volume - volume;
            if (place.Account.Section == Section.Must) deciding.At($"casks[{i}].litres").Post("WATER_ADDED_MUST", Account.Water, place.Account, volume);
            else if (!left.IsPositive) deciding.Refuse(RefusalCode.MoreThanIsThere, $"casks[{i}].litres", $"Nothing of the wine would be left in {place.Account.Place}: water alone is no top-up.");
            else
            {
                deciding.At($"casks[{i}].litres").Post("AMELIORATE_USED", place.Account, Account.Process, left);
                deciding.Post("AMELIORATE_WATER", Account.Water, Account.Process, volume);
                deciding.At($"casks[{i}].litres").Post("AMELIORATE_MADE", Account.Process, place.Account, place.Volume);
            }
        }
        if (casks.Exists(cask => cask.Place.Account.Section == Section.Bulk)) deciding.Raise("strength_by_volume", "The wine is thinner by the water; its strength is worked out by volume until one is stated.");
    }

    private static bool Wine(Deciding deciding, Place place)
    {
        if (place.Account.Section == Section.Bulk) return true;
        deciding.Refuse(RefusalCode.WineIntoMust, "casks", $"{place.Account.Place} holds must: wine can't go into must. Declare it wine first.");
        return false;
    }
}
