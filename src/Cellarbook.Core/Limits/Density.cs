using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>A density in millionths of a kg/L (0.992 kg/L is 992 000), for limits that count per kilogram.</summary>
/// <param name="Millionths">kg/L × 10⁶, above nil.</param>
/// <param name="IsAssumed">True when it was not read from this wine.</param>
/// <param name="From">The reading it comes from, such as "gravity 0.994"; empty when assumed.</param>
public sealed record Density(long Millionths, bool IsAssumed, Sentence From)
{
    // Density of water at 20 °C, kg/m³ (998.2: CRC Handbook, from memory); specific gravities of the book are 20/20.
    private const long WaterGramsPerLitreTimesTen = 9_982;

    /// <summary>kg/L without needless zeros.</summary>
    public string KilogramsPerLitre => ExactNumber.Write(Millionths, 6);

    /// <summary>The density a specific gravity means, cut down to 0.000001 kg/L; null when the text is no gravity.</summary>
    public static Density? OfGravity(string gravity) =>
        ExactNumber.Read(gravity, 6, out var units) == ExactNumber.Fault.None && units is > 700_000 and < 1_600_000 ? new(units * WaterGramsPerLitreTimesTen / 10_000, false, $"gravity {gravity:figure}") : null;
}
