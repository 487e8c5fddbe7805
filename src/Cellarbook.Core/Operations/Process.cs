using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Wine goes into a process and comes out as something else; what was mixed in and the contraction are shown. Nil at the end of its entry. The
/// contraction is what went in less what was measured out.
/// </summary>
public abstract record ProcessOperation : Operation
{
    /// <summary>Wine put in; a source without a volume is put in whole.</summary>
    public IReadOnlyList<Part>? Sources { get; init; }

    /// <summary>What was measured out, with its strength. A single one without a volume was not measured: wine, water and spirit of known strengths tell it.</summary>
    public IReadOnlyList<Part>? Targets { get; init; }

    /// <summary>Kind of the result; left out: as it was (sparkling for a sparkling process).</summary>
    public ProductKind? Product { get; init; }

    private protected abstract (string Used, string Made) Categories { get; }

    private protected virtual ProductKind? Result => Product;

    private protected abstract void PostMixedIn(Deciding deciding);

    /// <summary>Posts what came out of the stores into what was made.</summary>
    private protected virtual void PostUsed(Deciding deciding, IReadOnlyList<(Account Account, Volume Volume)> made)
    {
    }

    /// <summary>What was mixed in, with its strength, where mass and alcohol tell the result's volume; null where they don't (sugar, must).</summary>
    private protected virtual IReadOnlyList<(Volume Volume, Strength? Strength)>? MixedIn => null;

    internal override void Decide(Deciding deciding)
    {
        if (Sources is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "sources", "Say which wine was put in.");
        if (Targets is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "targets", "Say what was measured out, and where it went.");
        if (deciding.Refused) return;
        var drawn = Transfer.FindSources(deciding, Sources!);
        foreach (var (source, i) in drawn.Select((source, i) => (source, i)))
            if (source.Place.Account.Section == Section.Must) deciding.Refuse(RefusalCode.MustIntoWine, $"sources[{i}]", $"{source.Place.Account.Name} in {source.Place.Account.Place} is must. Declare it wine first.");
        if (deciding.Refused) return;
        foreach (var source in drawn) deciding.At(source.Path).Post(Categories.Used, source.Place.Account, Account.Process, source.Volume);
        PostMixedIn(deciding);
        if (deciding.Refused) return;
        var unmeasured = Targets is [{ Litres: null }] ? Unmeasured(deciding, drawn) : null;
        var into = deciding.Postings.Aggregate(Volume.None, (sum, posting) => sum + posting.Volume);
        var made = Volume.None;
        foreach (var (target, i) in Targets!.Select((target, i) => (target, i)))
        {
            var lot = target.Lot ?? drawn[0].Place.Account.Name;
            var vessel = target.Vessel ?? (target.Lot is null || target.Lot == drawn[0].Place.Account.Name ? drawn[0].Place.Account.Place : null);
            if (deciding.Destination(Section.Bulk, lot, vessel, $"targets[{i}]") is not { } account || !deciding.Positive(target.Litres ?? unmeasured, $"targets[{i}].litres")) continue;
            var result = target.Litres ?? unmeasured!.Value;
            made += result;
            deciding.At($"targets[{i}].litres", $"targets[{i}].vessel").Post(Categories.Made, Account.Process, account, result, target.Abv, Result);
            if (target.Abv is null) deciding.Raise("strength_by_volume", "No strength was stated for the result; it is the litres of pure alcohol over the volume measured out until one is.");
        }

        if (into > made) deciding.Post("PROCESS_CONTRACTION", Account.Process, Account.Contraction, into - made);
        else deciding.Post("PROCESS_CONTRACTION", Account.Contraction, Account.Process, made - into);
        if (!deciding.Refused) PostUsed(deciding, [.. deciding.Postings.Where(posting => posting.Category.Code == Categories.Made).Select(posting => (posting.To, posting.Volume))]);
        if (made > into && unmeasured is null) deciding.Raise("more_than_put_in", $"{made - into} more was measured out than was put in; it counts as negative contraction.");
    }

    /// <summary>
    /// A result that nobody measured: mass and alcohol of the parts are conserved, so its volume with the contraction follows (OIML R 22), to the
    /// nearest millilitre. Null where a part's strength is not known.
    /// </summary>
    private Volume? Unmeasured(Deciding deciding, IReadOnlyList<Transfer.Drawn> drawn)
    {
        if (MixedIn is not { } mixed) return null;
        var parts = drawn.Select(source => (source.Volume, source.Place.Standing.Strength)).Concat(mixed).ToArray();
        if (parts.Any(part => part.Item2 is null || !part.Item1.IsPositive)) return null;
        var blend = new Chemistry.Blend(Litres(parts[0].Item1), Abv(parts[0].Item2!.Value));
        foreach (var (volume, strength) in parts.Skip(1)) blend = Chemistry.Blending.ByMass(blend.Litres, blend.Abv, Litres(volume), Abv(strength!.Value));
        if (!double.IsFinite(blend.Litres)) return null;
        var result = Volume.OfMillilitres((long)Math.Round(blend.Litres * 1000, MidpointRounding.AwayFromZero));
        deciding.Assume($"The result was not measured: {result} follow from mass and alcohol of the parts, with the contraction. Gauge it when you can.");
        return result;

        static double Litres(Volume volume) => volume.Microlitres / 1e6;
        static double Abv(Strength strength) => strength.Hundredths / 100.0;
    }
}

/// <summary>Spirit added.</summary>
public sealed record Fortify : ProcessOperation
{
    /// <summary>Spirit that went in.</summary>
    public Volume? SpiritLitres { get; init; }

    /// <summary>Its strength.</summary>
    public Strength? SpiritAbv { get; init; }

    /// <summary>Its batch.</summary>
    public string? Batch { get; init; }

    private protected override IReadOnlyList<(Volume Volume, Strength? Strength)> MixedIn => [(SpiritLitres ?? Volume.None, SpiritAbv)];

    private protected override (string Used, string Made) Categories => ("FORTIFY_USED", "FORTIFY_MADE");

    private protected override void PostMixedIn(Deciding deciding)
    {
        if (deciding.Positive(SpiritLitres, "spiritLitres", "volume of spirit")) deciding.Post("FORTIFY_SPIRIT", Account.Spirit, Account.Process, SpiritLitres!.Value, SpiritAbv);
    }
}

/// <summary>Sugar, juice, concentrate or own must added to wine for sweetness.</summary>
public sealed record Sweeten : ProcessOperation
{
    /// <summary>Volume that the sugar, juice or concentrate took up.</summary>
    public Volume? SweetenerLitres { get; init; }

    /// <summary>What it was.</summary>
    public string? Material { get; init; }

    /// <summary>Its weight.</summary>
    public Mass? Grams { get; init; }

    /// <summary>Its batch, where it isn't kept in the stores.</summary>
    public string? Batch { get; init; }

    /// <summary>The delivery it came from; left out: the oldest in store; "unknown" for none in the book.</summary>
    public string? Delivery { get; init; }

    /// <summary>Own must that went in.</summary>
    public Part? Must { get; init; }

    internal override IEnumerable<string> MaterialsNamed => Material is null ? [] : [Material];

    private protected override (string Used, string Made) Categories => ("SWEETEN_USED", "SWEETEN_MADE");

    private protected override void PostUsed(Deciding deciding, IReadOnlyList<(Account Account, Volume Volume)> made)
    {
        if (Material is null || Grams is null) return;
        if (Grams is { Milligrams: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, "grams", "The weight must be above nil.");
        else UsedMaterial.Use(deciding, new(Material, Delivery, new(Grams, null, null, null, null)) { Batch = Batch, AsPackets = true }, made, "");
    }

    private protected override void PostMixedIn(Deciding deciding)
    {
        if (Must is not null && deciding.PlaceOf(Must.Lot, Must.Vessel, "must") is { } place)
        {
            if (place.Account.Section != Section.Must) deciding.Refuse(RefusalCode.WrongAccount, "must", $"{Must.Lot} is wine. Put it among the sources.");
            else if (deciding.Positive(Must.Litres ?? place.Volume, "must.litres")) deciding.At("must.litres").Post("SWEETEN_MUST", place.Account, Account.Process, Must.Litres ?? place.Volume);
        }
        if (SweetenerLitres is not null || Must is null)
            if (deciding.Positive(SweetenerLitres, "sweetenerLitres", "volume of the sweetener")) deciding.Post("SWEETEN_SUGAR", Account.Sweetener, Account.Process, SweetenerLitres!.Value);
    }
}

/// <summary>Water, or water and sugar, added to wine.</summary>
public sealed record Ameliorate : ProcessOperation
{
    /// <summary>Volume added.</summary>
    public Volume? WaterLitres { get; init; }

    private protected override IReadOnlyList<(Volume Volume, Strength? Strength)> MixedIn => [(WaterLitres ?? Volume.None, Strength.Nil)];

    private protected override (string Used, string Made) Categories => ("AMELIORATE_USED", "AMELIORATE_MADE");

    private protected override void PostMixedIn(Deciding deciding)
    {
        if (deciding.Positive(WaterLitres, "waterLitres", "volume added")) deciding.Post("AMELIORATE_WATER", Account.Water, Account.Process, WaterLitres!.Value);
    }
}

/// <summary>Wines blended as a process: every part is used, the result is made, with its measured strength.</summary>
public sealed record Blend : ProcessOperation
{
    private protected override IReadOnlyList<(Volume Volume, Strength? Strength)> MixedIn => [];

    private protected override (string Used, string Made) Categories => ("BLEND_USED", "BLEND_MADE");

    private protected override void PostMixedIn(Deciding deciding)
    {
    }
}

/// <summary>Still wine made sparkling or carbonated.</summary>
public sealed record MakeSparkling : ProcessOperation
{
    /// <summary>Tirage or dosage that went in; may be nil.</summary>
    public Volume? DosageLitres { get; init; }

    private protected override (string Used, string Made) Categories => ("SPARKLE_USED", "SPARKLE_MADE");

    private protected override ProductKind? Result => Product ?? ProductKind.Sparkling;

    private protected override void PostMixedIn(Deciding deciding)
    {
        if (DosageLitres is { } dosage && dosage < Volume.None) deciding.Refuse(RefusalCode.NotPositive, "dosageLitres", "A dosage can't be below nil.");
        else deciding.Post("SPARKLE_DOSAGE", Account.Sweetener, Account.Process, DosageLitres ?? Volume.None);
    }
}
