using System.Collections.Immutable;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>
/// What was stated of a wine that no volume tells: schemes, cases, zone and type. It follows the wine; where wines meet, only what holds for both
/// stays.
/// </summary>
public sealed record StatedFacts
{
    /// <summary>Nothing stated.</summary>
    public static readonly StatedFacts None = new();

    /// <summary>Schemes it is made under, such as "organic".</summary>
    public ImmutableSortedSet<string> Schemes { get; init; } = [];

    /// <summary>Cases that a limit asks for, such as "list-300" or "exceptional-year".</summary>
    public ImmutableSortedSet<string> Cases { get; init; } = [];

    /// <summary>Wine-growing zone.</summary>
    public string? Zone { get; init; }

    /// <summary>Type of wine where the product kind doesn't tell it: "liqueur", "quality-sparkling", "semi-sparkling", "partially-fermented".</summary>
    public string? Type { get; init; }

    /// <summary>Natural strength of the must, before any sugar went in.</summary>
    public Strength? NaturalStrength { get; init; }

    /// <summary>Fixed acid of the juice before fermentation, as tartaric acid.</summary>
    public Dose? FixedAcid { get; init; }

    /// <summary>The facts of wines that meet.</summary>
    public StatedFacts Meet(StatedFacts other) => Equals(other) ? this : new()
    {
        Schemes = Schemes.Intersect(other.Schemes),
        Cases = Cases.Intersect(other.Cases),
        Zone = Zone == other.Zone ? Zone : null,
        // Wine of grapes is of grapes alone: with another in it, it is none any more.
        Type = Type == other.Type || Type == LimitWords.NotOfGrapes ? Type : other.Type == LimitWords.NotOfGrapes ? other.Type : null,
        NaturalStrength = NaturalStrength == other.NaturalStrength ? NaturalStrength : null,
        FixedAcid = FixedAcid == other.FixedAcid ? FixedAcid : null,
    };

    /// <inheritdoc/>
    public bool Equals(StatedFacts? other) => other is not null && (ReferenceEquals(this, other) || (Zone == other.Zone && Type == other.Type && NaturalStrength == other.NaturalStrength && FixedAcid == other.FixedAcid && Schemes.SetEquals(other.Schemes) && Cases.SetEquals(other.Cases)));

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Zone, Type, NaturalStrength, FixedAcid, Schemes.Count, Cases.Count);
}
