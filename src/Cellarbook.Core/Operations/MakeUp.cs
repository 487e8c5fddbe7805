using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>
/// A concentrate made up with water and sugar. Any two of bag, water and the mark reached tell the third. Concentrate that lies in the vessel
/// already needs no bag.
/// </summary>
public sealed record MakeUp : Operation
{
    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel.</summary>
    public string? Vessel { get; init; }

    /// <summary>Concentrate poured in now.</summary>
    public Volume? BagLitres { get; init; }

    /// <summary>Water poured in.</summary>
    public Volume? WaterLitres { get; init; }

    /// <summary>Volume in the vessel at the end, by its mark.</summary>
    public Volume? MarkLitres { get; init; }

    /// <summary>Sugar dissolved.</summary>
    public Mass? SugarGrams { get; init; }

    /// <summary>The volume the sugar took up: the measured rise, or the factor of the rules in use.</summary>
    public Volume? SugarLitres { get; init; }

    /// <summary>Sugar, acid and other materials put in, out of the stores.</summary>
    public IReadOnlyList<MaterialUse>? Materials { get; init; }

    /// <summary>Sugar reading before, °Brix.</summary>
    public Reading? BrixBefore { get; init; }

    /// <summary>Sugar reading after, °Brix.</summary>
    public Reading? BrixAfter { get; init; }

    /// <summary>Origins of the concentrate.</summary>
    public IReadOnlyList<OriginStated>? Origin { get; init; }

    internal override bool MakesUpConcentrate => true;

    internal override void Decide(Deciding deciding)
    {
        OriginStated.Check(deciding, Origin);
        if (deciding.Destination(Section.Must, Lot, Vessel, "") is not { } must) return;
        foreach (var (volume, path) in new[] { (BagLitres, "bagLitres"), (WaterLitres, "waterLitres"), (MarkLitres, "markLitres"), (SugarLitres, "sugarLitres") })
            if (volume is { } given && given < Volume.None) deciding.Refuse(RefusalCode.NotPositive, path, "A volume can't be below nil.");
        if (deciding.Refused) return;

        var lying = deciding.Cellar.At(must).Volume;
        var sugar = SugarLitres ?? Volume.None;
        if (SugarGrams is not null && SugarLitres is null) deciding.Raise("sugar_volume_unknown", "The sugar's own volume was not given, so the mark reached holds it as water.");
        var bag = BagLitres;
        var water = WaterLitres;
        if (MarkLitres is { } mark)
        {
            // Two of the three are known (concentrate lying there counts as the bag); volumes are taken as additive.
            if (bag is null && water is null && lying.IsNil) deciding.Refuse(RefusalCode.Missing, "waterLitres", "Give two of bag, water and mark.");
            else if (water is null) water = mark - lying - (bag ?? Volume.None) - sugar;
            else if (bag is null) bag = mark - lying - water.Value - sugar;
            else if (lying + bag.Value + water.Value + sugar != mark) deciding.Refuse(RefusalCode.DoesNotAddUp, "markLitres", $"{lying} there, {bag} bag, {water} water and {sugar} sugar make {lying + bag.Value + water.Value + sugar}, not {mark}. Leave one of the three out.");
        }
        else if (bag is null && water is null && sugar.IsNil) deciding.Refuse(RefusalCode.Missing, "markLitres", "Give two of bag, water and mark.");
        if (deciding.Refused) return;

        if (bag < Volume.None || water < Volume.None)
        {
            deciding.Refuse(RefusalCode.DoesNotAddUp, "markLitres", $"The mark of {MarkLitres} is less than what was put in. Check the figures.");
            return;
        }
        deciding.At("bagLitres", "vessel").Post("MUST_RECEIVED", Account.Counter("EXT:SUPPLIER"), must, bag ?? Volume.None);
        deciding.At("waterLitres", "vessel").Post("WATER_ADDED_MUST", Account.Water, must, water ?? Volume.None);
        deciding.At("sugarLitres", "vessel").Post("SUGAR_VOLUME_MUST", Account.Sugar, must, sugar);
        foreach (var (use, i) in (Materials ?? []).Select((use, i) => (use, i)))
            if (use.Find(deciding, $"materials[{i}]") is { } found) TakenFromStores.Post(deciding, found.Material, use.Delivery, found.Amount, [(Account.UsedIn(must), 1)], $"materials[{i}]", found.At);
    }

    internal override OriginMix? OriginBrought(Posting posting) => posting.From.Name == "EXT:SUPPLIER" ? OriginStated.Mix(Origin) : null;

    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed) =>
        MarkLitres is { } mark && deed.Postings.Count > 0 ? [(deed.Postings[0].To, mark)] : [];
}
