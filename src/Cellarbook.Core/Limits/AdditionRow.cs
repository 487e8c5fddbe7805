using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>A line of the additions register: one material of one delivery put into one place.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Day">The day it was done.</param>
/// <param name="Lot">The lot it went into.</param>
/// <param name="Vessel">The vessel.</param>
/// <param name="IsMust">True when it was must.</param>
/// <param name="Treated">The volume it went into.</param>
/// <param name="Material">The material in words.</param>
/// <param name="Amount">How much, with its unit.</param>
public sealed record AdditionRow(long Entry, DateOnly Day, string Lot, string Vessel, bool IsMust, Volume Treated, string Material, string Amount)
{
    /// <summary>The volume afterwards: more where sugar or water raised it. Doses are counted in it.</summary>
    public Volume After { get; init; }

    /// <summary>The time, where it was stated.</summary>
    public TimeOnly? Time { get; init; }

    /// <summary>Who did it.</summary>
    public string DoneBy { get; init; } = "";

    /// <summary>Code of the material in the catalogue; empty for free text.</summary>
    public string Code { get; init; } = "";

    /// <summary>Its E number.</summary>
    public string ENumber { get; init; } = "";

    /// <summary>additive, processing-aid or what else it is.</summary>
    public string Role { get; init; } = "";

    /// <summary>The allergen it is or holds.</summary>
    public string Allergen { get; init; } = "";

    /// <summary>The delivery it came from; empty when unknown.</summary>
    public string Delivery { get; init; } = "";

    /// <summary>The supplier's batch; "unknown" where nobody knows it.</summary>
    public string Batch { get; init; } = "unknown";

    /// <summary>True when the delivery was taken as the oldest in store and not named.</summary>
    public bool IsAssumed { get; init; }

    /// <summary>Who supplied it.</summary>
    public string Supplier { get; init; } = "";

    /// <summary>Paper of the delivery.</summary>
    public string DeliveryDocument { get; init; } = "";

    /// <summary>The substance the limit speaks of, in words; empty where the content isn't stated.</summary>
    public string Substance { get; init; } = "";

    /// <summary>Dose of that substance by this addition.</summary>
    public Dose? Dose { get; init; }

    /// <summary>All of that substance added so far to the wine in this place, over its volume.</summary>
    public Dose? TotalSoFar { get; init; }

    /// <summary>The limit, with its set; empty where none is in force.</summary>
    public Sentence Limit { get; init; } = Sentence.Empty;

    /// <summary>The verdict afterwards; empty where no limit is in force.</summary>
    public string Verdict { get; init; } = "";

    /// <summary>The verdict's sum, in words.</summary>
    public Sentence Arithmetic { get; init; } = Sentence.Empty;

    /// <summary>Where the limit is written.</summary>
    public string Source { get; init; } = "";

    /// <summary>Titratable acidity last read before it, g/L.</summary>
    public string AcidityBefore { get; init; } = "";

    /// <summary>Titratable acidity first read after it, g/L.</summary>
    public string AcidityAfter { get; init; } = "";

    /// <summary>What the wine was: kind and strength.</summary>
    public string Wine { get; init; } = "";

    /// <summary>Why.</summary>
    public string Reason { get; init; } = "";

    /// <summary>The paper behind the entry.</summary>
    public string Document { get; init; } = "";

    /// <summary>Anything else.</summary>
    public string Note { get; init; } = "";
}
