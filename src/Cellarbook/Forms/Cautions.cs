namespace Cellarbook.Forms;

/// <summary>
/// The usual cautions, where the hazard is: one plain sentence each. They are common practice, not advice; local rules and licensed practice
/// go before them.
/// </summary>
public static class Cautions
{
    /// <summary>Where must ferments.</summary>
    public static readonly Sentence CarbonDioxide = "Fermenting must gives off carbon dioxide, which kills unseen in a closed room: air the room first, never work alone in a pit or tank, and keep to your local safety rules.";

    /// <summary>Where a sulphite is handled.</summary>
    public static readonly Sentence Sulphite = "Sulphite gives off sharp fumes that can set off asthma: open a window, don't breathe in over the vessel, keep it off skin and eyes, and keep to the packet and your local rules.";

    /// <summary>Where sorbate is handled.</summary>
    public static readonly Sentence Sorbate = "Sorbate where malolactic bacteria live gives the wine a geranium smell that stays: add it only when they are absent or stopped, within the limit of your local rules.";

    /// <summary>Where bottles are closed.</summary>
    public static readonly Sentence TooEarly = "A bottle filled before the ferment is over can burst and hurt: bottle only when the gravity has stood still, and keep to your local rules.";

    /// <summary>Where pressure is made on purpose.</summary>
    public static readonly Sentence Pressure = "Bottles under pressure can burst: use bottles made for it, wear face and hand protection, and keep to licensed practice.";

    /// <summary>Where vessels are cleaned.</summary>
    public static readonly Sentence Cleaning = "Hot water and caustic cleaners burn: wear gloves and goggles, never mix cleaners, rinse, air the vessel before anyone leans in, and keep to the label and your local rules.";

    /// <summary>Where spirit is handled.</summary>
    public static readonly Sentence Spirit = "Spirit and its vapour catch fire: no flame or spark near it, air the room, and keep to your local rules; spirit may need a licence.";

    /// <summary>The cautions for a material, by what it is called.</summary>
    public static IEnumerable<Sentence> ForMaterial(string material)
    {
        if (material.Contains("sulph", StringComparison.OrdinalIgnoreCase) || material.Contains("sulf", StringComparison.OrdinalIgnoreCase) || material.Contains("SO2", StringComparison.OrdinalIgnoreCase)) yield return Sulphite;
        if (material.Contains("sorb", StringComparison.OrdinalIgnoreCase) && !material.Contains("ascorb", StringComparison.OrdinalIgnoreCase)) yield return Sorbate;
    }
}
