namespace Cellarbook.Core.Quantities;

/// <summary>An amount of money in whole millionths of the currency's unit; which currency stands beside it. Sums are checked.</summary>
public readonly record struct Money(long Millionths) : IComparable<Money>
{
    /// <summary>None.</summary>
    public static readonly Money None;

    /// <summary>The most that one figure may say; it leaves room for sums.</summary>
    public static readonly Money Most = new(1_000_000_000_000_000);

    /// <summary>True at nil.</summary>
    public bool IsNil => Millionths == 0;

    /// <summary>Reads a decimal amount; finer than a millionth is a fault.</summary>
    public static ExactNumber.Fault Read(ReadOnlySpan<char> text, out Money money)
    {
        var fault = ExactNumber.Read(text, 6, out var units);
        money = new(units);
        return fault;
    }

    /// <summary>The amount without needless zeros.</summary>
    public string Text => ExactNumber.Write(Millionths, 6);

    /// <summary>So many parts of a whole, to the nearest millionth, half up; nil of nothing, and never more than <see cref="Most"/>.</summary>
    public Money Times(long parts, long of) => of == 0 ? None : new((long)Int128.Min(((Int128)Millionths * parts * 2 + of) / (2 * (Int128)of), Most.Millionths));

    /// <inheritdoc/>
    public int CompareTo(Money other) => Millionths.CompareTo(other.Millionths);

    /// <summary>The sum.</summary>
    public static Money operator +(Money a, Money b) => new(checked(a.Millionths + b.Millionths));

    /// <summary>The difference, which may be below nil.</summary>
    public static Money operator -(Money a, Money b) => new(checked(a.Millionths - b.Millionths));

    /// <summary>Less than.</summary>
    public static bool operator <(Money a, Money b) => a.Millionths < b.Millionths;

    /// <summary>More than.</summary>
    public static bool operator >(Money a, Money b) => a.Millionths > b.Millionths;

    /// <summary>At most.</summary>
    public static bool operator <=(Money a, Money b) => a.Millionths <= b.Millionths;

    /// <summary>At least.</summary>
    public static bool operator >=(Money a, Money b) => a.Millionths >= b.Millionths;

    /// <inheritdoc/>
    public override string ToString() => Text;
}
