namespace Cellarbook.Core.Quantities;

/// <summary>
/// A part of a material in millionths of its unit (a nanogram, a picolitre, a millionth of a piece): fine enough that a share of it in every bottle
/// can be told, and whole, so that the shares add up.
/// </summary>
public readonly record struct FineAmount(long Millionths) : IComparable<FineAmount>
{
    /// <summary>None of it.</summary>
    public static readonly FineAmount None;

    /// <summary>So much of a material.</summary>
    public static FineAmount Of(MaterialAmount amount) => new(checked(amount.Units * 1_000_000));

    /// <summary>The nearest whole unit, half away from nil, for showing.</summary>
    public MaterialAmount Nearest => new((Millionths + (Millionths < 0 ? -500_000 : 500_000)) / 1_000_000);

    /// <summary>Decimal grams, millilitres or pieces without needless zeros.</summary>
    public string Text(MaterialUnit unit) => ExactNumber.Write(Millionths, unit == MaterialUnit.Pieces ? 6 : 9);

    /// <summary>True at nil.</summary>
    public bool IsNil => Millionths == 0;

    /// <inheritdoc/>
    public int CompareTo(FineAmount other) => Millionths.CompareTo(other.Millionths);

    /// <summary>The sum.</summary>
    public static FineAmount operator +(FineAmount a, FineAmount b) => new(checked(a.Millionths + b.Millionths));

    /// <summary>The difference.</summary>
    public static FineAmount operator -(FineAmount a, FineAmount b) => new(checked(a.Millionths - b.Millionths));

    /// <summary>The opposite.</summary>
    public static FineAmount operator -(FineAmount a) => new(checked(-a.Millionths));
}
