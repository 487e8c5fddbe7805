namespace Cellarbook.Core.Quantities;

/// <summary>A content or a dose of a substance in whole nanograms per litre: 30 mg/L is 30 000 000.</summary>
public readonly record struct Dose(long NanogramsPerLitre) : IComparable<Dose>
{
    /// <summary>Nothing per litre.</summary>
    public static readonly Dose None;

    /// <summary>Reads decimal mg/L; finer than 1 ng/L is a fault.</summary>
    public static ExactNumber.Fault ReadMilligramsPerLitre(ReadOnlySpan<char> text, out Dose dose) => Read(text, 6, out dose);

    /// <summary>Reads decimal g/L; finer than 1 ng/L is a fault.</summary>
    public static ExactNumber.Fault ReadGramsPerLitre(ReadOnlySpan<char> text, out Dose dose) => Read(text, 9, out dose);

    /// <summary>Reads decimal g/hL (1 g/hL is 10 mg/L); finer than 1 ng/L is a fault.</summary>
    public static ExactNumber.Fault ReadGramsPerHectolitre(ReadOnlySpan<char> text, out Dose dose) => Read(text, 7, out dose);

    /// <summary>A dose of whole mg/L.</summary>
    public static Dose OfMilligramsPerLitre(long milligrams) => new(checked(milligrams * 1_000_000));

    /// <summary>Decimal mg/L without needless zeros.</summary>
    public string MilligramsPerLitre => ExactNumber.Write(NanogramsPerLitre, 6);

    /// <summary>Decimal g/L without needless zeros.</summary>
    public string GramsPerLitre => ExactNumber.Write(NanogramsPerLitre, 9);

    /// <summary>Decimal g/hL without needless zeros.</summary>
    public string GramsPerHectolitre => ExactNumber.Write(NanogramsPerLitre, 7);

    /// <summary>Times a factor given as a fraction of whole numbers above nil: whole ng/L, half up.</summary>
    public Dose Times(long numerator, long denominator) =>
        new(checked((long)((2 * (Int128)NanogramsPerLitre * numerator + denominator) / (2 * (Int128)denominator))));

    /// <summary>True above nil.</summary>
    public bool IsPositive => NanogramsPerLitre > 0;

    /// <inheritdoc/>
    public int CompareTo(Dose other) => NanogramsPerLitre.CompareTo(other.NanogramsPerLitre);

    /// <inheritdoc/>
    public override string ToString() => MilligramsPerLitre + " mg/L";

    /// <summary>The sum.</summary>
    public static Dose operator +(Dose a, Dose b) => new(checked(a.NanogramsPerLitre + b.NanogramsPerLitre));

    /// <summary>The difference, which may be below nil.</summary>
    public static Dose operator -(Dose a, Dose b) => new(checked(a.NanogramsPerLitre - b.NanogramsPerLitre));

    /// <summary>Less than.</summary>
    public static bool operator <(Dose a, Dose b) => a.NanogramsPerLitre < b.NanogramsPerLitre;

    /// <summary>More than.</summary>
    public static bool operator >(Dose a, Dose b) => a.NanogramsPerLitre > b.NanogramsPerLitre;

    private static ExactNumber.Fault Read(ReadOnlySpan<char> text, int decimals, out Dose dose)
    {
        var fault = ExactNumber.Read(text, decimals, out var units);
        dose = new(fault == ExactNumber.Fault.None ? units : 0);
        return fault;
    }
}
