using System.Globalization;

namespace Cellarbook.Core.Quantities;

/// <summary>An amount of a substance, such as of sulphur dioxide, in whole nanograms. Sums are checked: an overflow is a bug, not a figure.</summary>
public readonly record struct SubstanceAmount(long Nanograms) : IComparable<SubstanceAmount>
{
    /// <summary>Nothing of it.</summary>
    public static readonly SubstanceAmount None;

    /// <summary>The most that one figure may say: a thousand tonnes. It leaves room for sums.</summary>
    public static readonly SubstanceAmount Most = new(1_000_000_000_000_000_000);

    /// <summary>Reads decimal grams; finer than a nanogram is a fault.</summary>
    public static ExactNumber.Fault ReadGrams(ReadOnlySpan<char> text, out SubstanceAmount amount)
    {
        var fault = ExactNumber.Read(text, 9, out var units);
        if (fault == ExactNumber.Fault.None && Math.Abs((decimal)units) > Most.Nanograms) fault = ExactNumber.Fault.TooLarge;
        amount = new(fault == ExactNumber.Fault.None ? units : 0);
        return fault;
    }

    /// <summary>The amount in a mass of the pure substance.</summary>
    public static SubstanceAmount Of(Mass mass) => new(checked(mass.Milligrams * 1_000_000));

    /// <summary>What a dose brings into a volume: whole nanograms, half up.</summary>
    public static SubstanceAmount In(Dose dose, Volume volume) =>
        new(checked((long)((2 * (Int128)dose.NanogramsPerLitre * volume.Microlitres + 1_000_000) / 2_000_000)));

    /// <summary>The dose this amount makes in a volume above nil: whole ng/L, half up.</summary>
    public Dose PerLitre(Volume volume) =>
        new(checked((long)((2 * (Int128)Nanograms * 1_000_000 + volume.Microlitres) / (2 * (Int128)volume.Microlitres))));

    /// <summary>Times a factor given as a fraction of whole numbers above nil: whole nanograms, half up.</summary>
    public SubstanceAmount Times(long numerator, long denominator) =>
        new(checked((long)((2 * (Int128)Nanograms * numerator + denominator) / (2 * (Int128)denominator))));

    /// <summary>True above nil.</summary>
    public bool IsPositive => Nanograms > 0;

    /// <summary>True at nil.</summary>
    public bool IsNil => Nanograms == 0;

    /// <summary>Decimal grams without needless zeros.</summary>
    public string Grams => ExactNumber.Write(Nanograms, 9);

    /// <summary>Decimal milligrams without needless zeros.</summary>
    public string Milligrams => ExactNumber.Write(Nanograms, 6);

    /// <inheritdoc/>
    public int CompareTo(SubstanceAmount other) => Nanograms.CompareTo(other.Nanograms);

    /// <inheritdoc/>
    public override string ToString() => Nanograms.ToString(CultureInfo.InvariantCulture) + " ng";

    /// <summary>The sum.</summary>
    public static SubstanceAmount operator +(SubstanceAmount a, SubstanceAmount b) => new(checked(a.Nanograms + b.Nanograms));

    /// <summary>The difference, which may be below nil.</summary>
    public static SubstanceAmount operator -(SubstanceAmount a, SubstanceAmount b) => new(checked(a.Nanograms - b.Nanograms));
}
