using System.Globalization;

namespace Cellarbook.Core.Quantities;

/// <summary>A number of whole bottles.</summary>
public readonly record struct BottleCount(long Bottles) : IComparable<BottleCount>
{
    /// <summary>No bottles.</summary>
    public static readonly BottleCount None;

    /// <summary>True above nil.</summary>
    public bool IsPositive => Bottles > 0;

    /// <inheritdoc/>
    public int CompareTo(BottleCount other) => Bottles.CompareTo(other.Bottles);

    /// <inheritdoc/>
    public override string ToString() => Bottles.ToString(CultureInfo.InvariantCulture);

    /// <summary>The sum.</summary>
    public static BottleCount operator +(BottleCount a, BottleCount b) => new(checked(a.Bottles + b.Bottles));

    /// <summary>The difference, which may be below nil.</summary>
    public static BottleCount operator -(BottleCount a, BottleCount b) => new(checked(a.Bottles - b.Bottles));

    /// <summary>The opposite.</summary>
    public static BottleCount operator -(BottleCount a) => new(checked(-a.Bottles));

    /// <summary>Count × nominal size: what so many full bottles hold.</summary>
    public static Volume operator *(BottleCount count, Volume size) => new(checked(count.Bottles * size.Microlitres));
}
