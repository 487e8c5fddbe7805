using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>Figures of limits for the eye.</summary>
public static class LimitsText
{
    /// <summary>Room with its unit: grams, millilitres, or whole pieces.</summary>
    public static string Room(SubstanceAmount room, MaterialUnit unit) => unit switch
    {
        MaterialUnit.Milligrams => Grams(room) + "\u00A0g",
        MaterialUnit.Microlitres => Grams(room) + "\u00A0mL",
        _ => ExactNumber.Write(room.Nanograms / 1_000_000, 0),
    };

    /// <summary>Grams cut down to 0.01 g, or to the milligram below a gram: room is never shown larger than it is.</summary>
    public static string Grams(SubstanceAmount amount) => amount.Nanograms >= 1_000_000_000 ? ExactNumber.Write(amount.Nanograms / 10_000_000, 2) : ExactNumber.Write(amount.Nanograms / 1_000_000, 3);
}
