namespace Cellarbook.Core.Quantities;

/// <summary>Alcoholic strength at 20 °C in whole hundredths of a per cent by volume: 12.5 % vol is 1250.</summary>
public readonly record struct Strength(int Hundredths) : IComparable<Strength>
{
    /// <summary>Water.</summary>
    public static readonly Strength Nil;

    /// <summary>Reads decimal % vol between 0 and 100; finer than 0.01 is a fault.</summary>
    public static ExactNumber.Fault ReadPercent(ReadOnlySpan<char> text, out Strength strength)
    {
        var fault = ExactNumber.Read(text, 2, out var units);
        if (fault == ExactNumber.Fault.None && units is < 0 or > 100_00) fault = ExactNumber.Fault.TooLarge;
        strength = new(fault == ExactNumber.Fault.None ? (int)units : 0);
        return fault;
    }

    /// <summary>Decimal % vol without needless zeros, such as "12.5".</summary>
    public string Percent => ExactNumber.Write(Hundredths, 2);

    /// <inheritdoc/>
    public int CompareTo(Strength other) => Hundredths.CompareTo(other.Hundredths);

    /// <inheritdoc/>
    public override string ToString() => Percent + " % vol";
}

/// <summary>
/// Alcohol on its way through a mix, in µL × hundredths of a per cent. Volumes are taken as additive here; what contracts is shown apart.
/// The one rounding: <see cref="StrengthIn"/> gives whole hundredths, half up.
/// </summary>
public readonly record struct Alcohol(Int128 Parts)
{
    /// <summary>The alcohol in a volume of a strength.</summary>
    public static Alcohol In(Volume volume, Strength strength) => new((Int128)volume.Microlitres * strength.Hundredths);

    /// <summary>The strength this alcohol gives to a volume above nil: nearest hundredth, half up.</summary>
    public Strength StrengthIn(Volume volume) => new((int)((2 * Parts + volume.Microlitres) / (2 * (Int128)volume.Microlitres)));

    /// <summary>The sum.</summary>
    public static Alcohol operator +(Alcohol a, Alcohol b) => new(a.Parts + b.Parts);
}
