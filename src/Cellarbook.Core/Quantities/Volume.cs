namespace Cellarbook.Core.Quantities;

/// <summary>A volume of liquid in whole microlitres. Sums are checked: an overflow is a bug, not a figure.</summary>
public readonly record struct Volume(long Microlitres) : IComparable<Volume>
{
    /// <summary>No volume.</summary>
    public static readonly Volume None;

    /// <summary>The most that one figure may say: a thousand million litres. It leaves room for sums.</summary>
    public static readonly Volume Most = new(1_000_000_000_000_000);

    /// <summary>A volume of whole millilitres.</summary>
    public static Volume OfMillilitres(long millilitres) => new(checked(millilitres * 1_000));

    /// <summary>A volume of whole litres.</summary>
    public static Volume OfLitres(long litres) => new(checked(litres * 1_000_000));

    /// <summary>Reads decimal litres; finer than a microlitre is a fault.</summary>
    public static ExactNumber.Fault ReadLitres(ReadOnlySpan<char> text, out Volume volume) => Read(text, 6, out volume);

    /// <summary>Reads decimal millilitres; finer than a microlitre is a fault.</summary>
    public static ExactNumber.Fault ReadMillilitres(ReadOnlySpan<char> text, out Volume volume) => Read(text, 3, out volume);

    /// <summary>Decimal litres without needless zeros, such as "22.4".</summary>
    public string Litres => ExactNumber.Write(Microlitres, 6);

    /// <summary>True above nil.</summary>
    public bool IsPositive => Microlitres > 0;

    /// <summary>True at nil.</summary>
    public bool IsNil => Microlitres == 0;

    /// <inheritdoc/>
    public int CompareTo(Volume other) => Microlitres.CompareTo(other.Microlitres);

    /// <inheritdoc/>
    public override string ToString() => Litres + " L";

    /// <summary>The sum.</summary>
    public static Volume operator +(Volume a, Volume b) => new(checked(a.Microlitres + b.Microlitres));

    /// <summary>The difference, which may be below nil.</summary>
    public static Volume operator -(Volume a, Volume b) => new(checked(a.Microlitres - b.Microlitres));

    /// <summary>The opposite.</summary>
    public static Volume operator -(Volume a) => new(checked(-a.Microlitres));

    /// <summary>Less than.</summary>
    public static bool operator <(Volume a, Volume b) => a.Microlitres < b.Microlitres;

    /// <summary>More than.</summary>
    public static bool operator >(Volume a, Volume b) => a.Microlitres > b.Microlitres;

    /// <summary>At most.</summary>
    public static bool operator <=(Volume a, Volume b) => a.Microlitres <= b.Microlitres;

    /// <summary>At least.</summary>
    public static bool operator >=(Volume a, Volume b) => a.Microlitres >= b.Microlitres;

    private static ExactNumber.Fault Read(ReadOnlySpan<char> text, int decimals, out Volume volume)
    {
        var fault = ExactNumber.Read(text, decimals, out var units);
        if (fault == ExactNumber.Fault.None && (units > Most.Microlitres || units < -Most.Microlitres)) fault = ExactNumber.Fault.TooLarge;
        volume = new(fault == ExactNumber.Fault.None ? units : 0);
        return fault;
    }
}
