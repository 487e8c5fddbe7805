using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>A part that was lost on the way, by its kind: lees, spill, filter, bottling, sample …</summary>
public sealed record Loss
{
    /// <summary>One of the words in <see cref="WaysOut"/>.</summary>
    public string? Kind { get; init; }

    /// <summary>How much.</summary>
    public Volume? Litres { get; init; }
}

/// <summary>A lot in a vessel, with a volume drawn from or put into it.</summary>
public sealed record Part
{
    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel; left out: the lot's one place.</summary>
    public string? Vessel { get; init; }

    /// <summary>How much; of a source left out: all that is there.</summary>
    public Volume? Litres { get; init; }

    /// <summary>Strength stated of what is put here.</summary>
    public Strength? Abv { get; init; }
}
