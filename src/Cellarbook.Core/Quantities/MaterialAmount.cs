namespace Cellarbook.Core.Quantities;

/// <summary>What a material is counted in.</summary>
public enum MaterialUnit
{
    /// <summary>Whole milligrams; typed as grams.</summary>
    Milligrams,
    /// <summary>Whole microlitres; typed as millilitres.</summary>
    Microlitres,
    /// <summary>Whole pieces: tablets, sachets, corks, bottles.</summary>
    Pieces,
}

/// <summary>An amount of a material in whole units of that material: milligrams, microlitres or pieces. Sums are checked.</summary>
public readonly record struct MaterialAmount(long Units) : IComparable<MaterialAmount>
{
    /// <summary>None of it.</summary>
    public static readonly MaterialAmount None;

    /// <summary>The most that one figure may say: a thousand tonnes, or as many litres. It leaves room for sums.</summary>
    public static readonly MaterialAmount Most = new(1_000_000_000_000_000);

    /// <summary>True above nil.</summary>
    public bool IsPositive => Units > 0;

    /// <summary>True at nil.</summary>
    public bool IsNil => Units == 0;

    /// <inheritdoc/>
    public int CompareTo(MaterialAmount other) => Units.CompareTo(other.Units);

    /// <summary>The sum.</summary>
    public static MaterialAmount operator +(MaterialAmount a, MaterialAmount b) => new(checked(a.Units + b.Units));

    /// <summary>The difference, which may be below nil.</summary>
    public static MaterialAmount operator -(MaterialAmount a, MaterialAmount b) => new(checked(a.Units - b.Units));

    /// <summary>The opposite.</summary>
    public static MaterialAmount operator -(MaterialAmount a) => new(checked(-a.Units));

    /// <summary>Less than.</summary>
    public static bool operator <(MaterialAmount a, MaterialAmount b) => a.Units < b.Units;

    /// <summary>More than.</summary>
    public static bool operator >(MaterialAmount a, MaterialAmount b) => a.Units > b.Units;

    /// <summary>At most.</summary>
    public static bool operator <=(MaterialAmount a, MaterialAmount b) => a.Units <= b.Units;

    /// <summary>At least.</summary>
    public static bool operator >=(MaterialAmount a, MaterialAmount b) => a.Units >= b.Units;
}
