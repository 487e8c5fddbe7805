using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>How much of a material was used, as it may be said: one of these.</summary>
/// <param name="Grams">Weight.</param>
/// <param name="Millilitres">Volume.</param>
/// <param name="Pieces">Tablets, sachets, corks.</param>
/// <param name="GramsPerHectolitre">Rate: grams in 100 L.</param>
/// <param name="MgPerLitre">Rate: milligrams in a litre.</param>
/// <param name="MlPer23Litres">Rate: millilitres in 23 L, as recipes have it.</param>
internal sealed record SaidAmount(Mass? Grams, Millilitres? Millilitres, Reading? Pieces, Reading? GramsPerHectolitre, Reading? MgPerLitre, Reading? MlPer23Litres = null)
{
    /// <summary>True when it says anything.</summary>
    public bool Says => Grams is not null || Millilitres is not null || Pieces is not null || GramsPerHectolitre is not null || MgPerLitre is not null || MlPer23Litres is not null;

    /// <summary>The field it is said in.</summary>
    public string Leaf => Grams is not null ? "grams" : Millilitres is not null ? "millilitres" : Pieces is not null ? "pieces" : GramsPerHectolitre is not null ? "gramsPerHectolitre" : MgPerLitre is not null ? "mgPerLitre" : "mlPer23Litres";

    /// <summary>True when the material is counted in what was said.</summary>
    public bool Suits(Material material) => material.Unit switch
    {
        MaterialUnit.Milligrams => Grams is not null || GramsPerHectolitre is not null || MgPerLitre is not null,
        MaterialUnit.Microlitres => Millilitres is not null || MlPer23Litres is not null || (material.GramsPerLitre is not null && Pieces is null),
        _ => Pieces is { } pieces && ExactNumber.Read(pieces.Text, 0, out _) == ExactNumber.Fault.None,
    };

    /// <summary>
    /// The amount in the material's unit, for a volume where it is a rate: the nearest whole unit, half up. Weighed liquids and measured-out pieces go
    /// by the catalogue's density and weight. Null, and refused, when the unit is wrong for the material.
    /// </summary>
    public MaterialAmount? Of(Deciding deciding, Material material, Volume volume, string path, bool mayBeNil = false)
    {
        if (mayBeNil && IsNil(material)) return MaterialAmount.None;
        if (path.Length > 0) path += ".";
        if (Grams is { } grams) return FromMilligrams(deciding, material, grams.Milligrams, path + "grams");
        if (Millilitres is { } millilitres) return FromMicrolitres(deciding, material, millilitres.Volume.Microlitres, path + "millilitres");
        if (Pieces is { } pieces) return FromPieces(deciding, material, pieces, path + "pieces");
        if (GramsPerHectolitre is { } perHectolitre) return Rate(deciding, perHectolitre, 100_000, volume, path + "gramsPerHectolitre") is { } mg ? FromMilligrams(deciding, material, mg, path + "gramsPerHectolitre") : null;
        if (MgPerLitre is { } perLitre) return Rate(deciding, perLitre, 1_000_000, volume, path + "mgPerLitre") is { } mg ? FromMilligrams(deciding, material, mg, path + "mgPerLitre") : null;
        if (MlPer23Litres is { } per23) return Rate(deciding, per23, 23_000, volume, path + "mlPer23Litres") is { } ul ? FromMicrolitres(deciding, material, ul, path + "mlPer23Litres") : null;
        return null;
    }

    private bool IsNil(Material material) => material.Unit switch
    {
        MaterialUnit.Milligrams => Grams is { Milligrams: 0 },
        MaterialUnit.Microlitres => Millilitres is { Volume.IsNil: true },
        _ => Pieces is { Value: 0 },
    };

    /// <summary>A rate times a volume in thousandths: figure × volume ÷ so many microlitres, half up.</summary>
    private static long? Rate(Deciding deciding, Reading figure, long perMicrolitres, Volume volume, string path)
    {
        if (ExactNumber.Read(figure.Text, 9, out var billionths) == ExactNumber.Fault.None)
        {
            var whole = ((Int128)billionths * volume.Microlitres * 2 + (Int128)perMicrolitres * 1_000_000_000) / ((Int128)perMicrolitres * 2_000_000_000);
            if (whole > MaterialAmount.Most.Units) deciding.Refuse(RefusalCode.TooLargeNumber, path, "That is more than the book can count. Check the rate.");
            else if (whole <= 0) deciding.Refuse(RefusalCode.NotPositive, path, "At this rate the amount is nil. Check the rate and the volume.");
            else return (long)whole;
        }
        return null;
    }

    private static MaterialAmount? FromMilligrams(Deciding deciding, Material material, long milligrams, string path)
    {
        switch (material.Unit)
        {
            case MaterialUnit.Milligrams:
                return Checked(deciding, milligrams, path);
            case MaterialUnit.Microlitres when material.GramsPerLitre is { } density:
                // 1 g/L is 1 mg in 1000 µL.
                return Checked(deciding, ((Int128)milligrams * 2_000_000 + density.Milligrams) / (2 * (Int128)density.Milligrams), path);
            default:
                return Wrong(deciding, material, "grams", path);
        }
    }

    private static MaterialAmount? FromMicrolitres(Deciding deciding, Material material, long microlitres, string path) =>
        material.Unit == MaterialUnit.Microlitres ? Checked(deciding, microlitres, path) : Wrong(deciding, material, "millilitres", path);

    private static MaterialAmount? FromPieces(Deciding deciding, Material material, Reading pieces, string path)
    {
        if (material.Unit != MaterialUnit.Pieces) return Wrong(deciding, material, "pieces", path);
        if (ExactNumber.Read(pieces.Text, 0, out var whole) == ExactNumber.Fault.None) return Checked(deciding, whole, path);
        deciding.Refuse(RefusalCode.TooFine, path, $"{material.Said} is counted in whole pieces. For a part of one, weigh it and use a material that is counted in grams.");
        return null;
    }

    private static MaterialAmount? Checked(Deciding deciding, Int128 units, string path)
    {
        if (units <= 0) deciding.Refuse(RefusalCode.NotPositive, path, "The amount must be above nil.");
        else if (units > MaterialAmount.Most.Units) deciding.Refuse(RefusalCode.TooLargeNumber, path, "That is more than the book can count. Check the figure.");
        else return new((long)units);
        return null;
    }

    private static MaterialAmount? Wrong(Deciding deciding, Material material, string said, string path)
    {
        deciding.Refuse(RefusalCode.WrongUnit, path, $"{material.Said} is counted in {Sentence.Seed(material.UnitWord)}, not in {Sentence.Seed(said)}. Give {Sentence.Seed(material.UnitWord)}.");
        return null;
    }
}
