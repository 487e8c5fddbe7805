using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// The volume in one vessel measured again, at any stage; the difference is posted either way. "Now empty" posts the rest to a named loss.
/// </summary>
public sealed record Gauge : Operation
{
    /// <summary>The vessel.</summary>
    public string? Vessel { get; init; }

    /// <summary>The lot, for wine in no named vessel.</summary>
    public string? Lot { get; init; }

    /// <summary>What was measured; nil when it is empty.</summary>
    public Volume? Litres { get; init; }

    /// <summary>Where the missing went, when known: lees, spill, evaporation …; left out: a gauge difference.</summary>
    public string? As { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (Litres is null) deciding.Refuse(RefusalCode.Missing, "litres", "Give the measured volume.");
        else if (Litres < Volume.None) deciding.Refuse(RefusalCode.NotPositive, "litres", "A volume can't be below nil.");
        var place = Find(deciding);
        if (place is null || deciding.Refused) return;
        var account = place.Account;
        var difference = Litres!.Value - place.Volume;
        var must = account.Section == Section.Must ? "_MUST" : "";
        var adjustment = Account.Counter("ADJ:GAUGE");
        if (difference.IsPositive) deciding.At("litres").Post("GAUGE_GAIN" + must, adjustment, account, difference);
        else if (As is not null) WaysOut.Post(deciding.At("litres"), As, account, -difference, "as");
        else deciding.At("litres").Post("GAUGE_LOSS" + must, account, adjustment, -difference);
        if (difference.IsNil) deciding.Raise("agrees", "The measured volume is what the book holds; nothing moves.");
    }

    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed)
    {
        if (Litres is { } litres && Meant(cellar, Lot, Vessel) is { } account) yield return (account, litres);
    }

    private Place? Find(Deciding deciding)
    {
        if (Lot is not null) return deciding.PlaceOf(Lot, Vessel, "");
        if (Vessel is null)
        {
            deciding.Refuse(RefusalCode.Missing, "vessel", "Name the vessel.");
            return null;
        }
        if (Vessel == Account.Unplaced)
        {
            deciding.Refuse(RefusalCode.Missing, "lot", "Name the lot that lies unplaced.");
            return null;
        }
        if (!deciding.VesselKnown(Vessel, "vessel")) return null;
        var there = deciding.Cellar.Vessel(Vessel).Accounts;
        if (!there.IsEmpty) return deciding.Cellar.At(there[0]);
        deciding.Refuse(RefusalCode.MoreThanIsThere, "vessel", $"{Vessel} is empty in the book on {Day:yyyy-MM-dd}. Name the lot, or record how the wine came in.");
        return null;
    }
}

/// <summary>Strength or kind of what lies in a place or a bottling measured or stated anew; the only thing besides a process that changes it.</summary>
public sealed record Regauge : Operation
{
    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel; left out: the lot's one place.</summary>
    public string? Vessel { get; init; }

    /// <summary>The bottling, instead of a lot.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf.</summary>
    public string? Shelf { get; init; }

    /// <summary>The strength.</summary>
    public Strength? Abv { get; init; }

    /// <summary>The kind.</summary>
    public ProductKind? Product { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (Abv is null && Product is null) deciding.Refuse(RefusalCode.Missing, "abv", "Give the strength, or the kind.");
        if (Bottling is not null)
        {
            if (deciding.ShelfOf(Bottling, Shelf, "") is not { } shelf || deciding.Refused) return;
            if (shelf.IsEmpty) deciding.Refuse(RefusalCode.MoreThanIsThere, "bottling", $"No bottles of {Bottling} are left to re-gauge.");
            else deciding.PostBottles("CLASS_CHANGE_BOTTLED", shelf.Account, shelf.Account, shelf.Bottles, shelf.BottleSize, Abv, Product);
            return;
        }
        if (deciding.PlaceOf(Lot, Vessel, "") is not { } place || deciding.Refused) return;
        if (place.Account.Section == Section.Must) deciding.Refuse(RefusalCode.WrongAccount, "lot", $"{Lot} is must and has no stated strength. Declare it wine first.");
        else if (place.IsEmpty) deciding.Refuse(RefusalCode.MoreThanIsThere, "lot", $"Nothing of {Lot} is left to re-gauge.");
        else deciding.Post("CLASS_CHANGE", place.Account, place.Account, place.Volume, Abv, Product);
    }

    internal override bool StatesAllThatLies => true;

    /// <summary>All that was there was re-gauged.</summary>
    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed) =>
        deed.Postings.Count > 0 ? [(deed.Postings[0].To, deed.Postings[0].Volume)] : [];
}
