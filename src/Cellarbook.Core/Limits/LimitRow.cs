namespace Cellarbook.Core.Limits;

/// <summary>One row of a limit set: what it limits, by how much, for which wine, since when, and where that is written.</summary>
public sealed record LimitRow
{
    /// <summary>Row in its file, counted from 1 below the head.</summary>
    public required int Number { get; init; }

    /// <summary>Substances it speaks of, each for itself.</summary>
    public required IReadOnlyList<Substance> Substances { get; init; }

    /// <summary>What it is measured against.</summary>
    public required LimitBasis Basis { get; init; }

    /// <summary>What it says.</summary>
    public required LimitKind Kind { get; init; }

    /// <summary>Its figure; null where it has none.</summary>
    public LimitValue? Value { get; init; }

    /// <summary>True when it holds for one treatment and not for the sum of all.</summary>
    public bool PerTreatment { get; init; }

    /// <summary>Colours it holds for.</summary>
    public WineColours Colours { get; init; } = WineColours.All;

    /// <summary>Residual sugar it holds for, ng/L; null for any.</summary>
    public Band? Sugar { get; init; }

    /// <summary>Strength it holds for, hundredths of a % vol; null for any.</summary>
    public Band? Strength { get; init; }

    /// <summary>Products it holds for.</summary>
    public WineProducts Products { get; init; } = WineProducts.All;

    /// <summary>Stages at which it allows or counts an addition.</summary>
    public WineStages Stages { get; init; } = WineStages.All;

    /// <summary>The scheme it belongs to; empty for any wine.</summary>
    public string Scheme { get; init; } = "";

    /// <summary>A case that must be stated of the wine, such as "list-300" or "for-metals"; empty for none.</summary>
    public string Case { get; init; } = "";

    /// <summary>Wine-growing zones; empty for any.</summary>
    public IReadOnlyList<string> Zones { get; init; } = [];

    /// <summary>First harvest year.</summary>
    public int? HarvestFrom { get; init; }

    /// <summary>Last harvest year.</summary>
    public int? HarvestTo { get; init; }

    /// <summary>First day of production it holds for.</summary>
    public DateOnly? From { get; init; }

    /// <summary>Last day of production it holds for.</summary>
    public DateOnly? To { get; init; }

    /// <summary>It holds only where this was added too; null where that doesn't matter.</summary>
    public Substance? With { get; init; }

    /// <summary>An increment adds to a limit below this only, ng/L; null for any.</summary>
    public long? BaseBelow { get; init; }

    /// <summary>Where it is written.</summary>
    public required string Source { get; init; }

    /// <summary>True when the source's text was read; false when it is from memory.</summary>
    public required bool Seen { get; init; }

    /// <summary>Where the text was seen.</summary>
    public string SeenAt { get; init; } = "";

    /// <summary>What else to know, in words.</summary>
    public string Note { get; init; } = "";

    /// <summary>True when two figures can be compared for it.</summary>
    public bool IsCompared => Kind == LimitKind.Prohibited || (Kind is LimitKind.Max or LimitKind.Min or LimitKind.Increment && Value is { } value && (value.Unit == LimitUnit.Strength ? Substances[0].Code == "strength" : value.Unit != LimitUnit.Words));

    /// <summary>True when its colours and products lie within the other's and are fewer: it then speaks instead of the other.</summary>
    public bool IsNarrowerThan(LimitRow other) =>
        (Colours & other.Colours) == Colours && (Products & other.Products) == Products && (Colours != other.Colours || Products != other.Products);
}
