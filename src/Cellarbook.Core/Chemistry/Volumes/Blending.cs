namespace Cellarbook.Core.Chemistry;

/// <summary>What comes of two liquids that are mixed.</summary>
/// <param name="Litres">Volume at 20 °C.</param>
/// <param name="Abv">% vol at 20 °C.</param>
public readonly record struct Blend(double Litres, double Abv);

/// <summary>Mixing by volume (Pearson's square) and by mass through OIML R 22, which knows the contraction.</summary>
public static class Blending
{
    /// <summary>Pearson.</summary>
    public static readonly Formula Pearson = new("Pearson's square", "V2 = V1 (T - q1)/(q2 - T); volumes taken as additive", SourceCheck.Derived,
        "target between the two; exact for what adds by volume, good for wine with wine, wrong by the contraction for spirit and water");

    /// <summary>Volume-weighted mean.</summary>
    public static readonly Formula Mean = new("Volume-weighted mean", "(V1 q1 + V2 q2)/(V1 + V2)", SourceCheck.Derived, "wine with wine; contraction left out");

    /// <summary>By mass.</summary>
    public static readonly Formula ByMassBalance = new("Mass balance with contraction", "OIML R 22 (1975) at 20 °C: mass and ethanol conserved", SourceCheck.Derived,
        "ethanol-water skeleton at 20 °C, extract left out; volumes stated at 20 °C");

    /// <summary>pH by the mean of [H⁺].</summary>
    public static readonly Formula HydrogenMean = new("pH by mean hydrogen ion", "-log10 of the volume-weighted mean of 10^-pH, no buffering", SourceCheck.Derived, "first guess only: wines are buffered, make a bench trial");

    /// <summary>Volume of the second liquid that brings the first to a target. NaN when the target does not lie between them.</summary>
    public static double PearsonLitres(double firstLitres, double first, double second, double target)
    {
        double share = (target - first) / (second - target);
        return firstLitres >= 0 && share >= 0 && double.IsFinite(share) ? firstLitres * share : double.NaN;
    }

    /// <summary>Volume-weighted mean of any quantity per volume. NaN for negative volumes or none at all.</summary>
    public static double VolumeWeighted(double firstLitres, double first, double secondLitres, double second) =>
        firstLitres >= 0 && secondLitres >= 0 && firstLitres + secondLitres > 0 ? ((firstLitres * first) + (secondLitres * second)) / (firstLitres + secondLitres) : double.NaN;

    /// <summary>Two ethanol–water liquids at 20 °C mixed with mass and ethanol conserved. NaN fields for negative volumes or strengths outside 0–100.</summary>
    public static Blend ByMass(double firstLitres, double firstAbv, double secondLitres, double secondAbv)
    {
        if (!(firstLitres >= 0 && secondLitres >= 0 && firstLitres + secondLitres > 0))
        {
            return new Blend(double.NaN, double.NaN);
        }

        double p1 = AlcoholicStrength.MassFractionFromAbv(firstAbv), p2 = AlcoholicStrength.MassFractionFromAbv(secondAbv);
        double m1 = firstLitres * EthanolWater.KgPerCubicMetre(p1, 20), m2 = secondLitres * EthanolWater.KgPerCubicMetre(p2, 20);
        double p = ((m1 * p1) + (m2 * p2)) / (m1 + m2);
        return new Blend((m1 + m2) / EthanolWater.KgPerCubicMetre(p, 20), AlcoholicStrength.AbvFromMassFraction(p));
    }

    /// <summary>Litres at 20 °C of a second liquid that bring the first to a strength, by mass. NaN when the target does not lie between them.</summary>
    public static double LitresForStrength(double firstLitres, double firstAbv, double secondAbv, double targetAbv)
    {
        double p1 = AlcoholicStrength.MassFractionFromAbv(firstAbv), p2 = AlcoholicStrength.MassFractionFromAbv(secondAbv), pt = AlcoholicStrength.MassFractionFromAbv(targetAbv);
        double share = (pt - p1) / (p2 - pt);
        return firstLitres >= 0 && share >= 0 && double.IsFinite(share)
            ? firstLitres * EthanolWater.KgPerCubicMetre(p1, 20) * share / EthanolWater.KgPerCubicMetre(p2, 20)
            : double.NaN;
    }

    /// <summary>pH of a blend by the mean of [H⁺]. NaN outside pH 2–7.</summary>
    public static double Ph(double firstLitres, double firstPh, double secondLitres, double secondPh) => firstPh is >= 2 and <= 7 && secondPh is >= 2 and <= 7
        ? -Math.Log10(VolumeWeighted(firstLitres, Math.Pow(10, -firstPh), secondLitres, Math.Pow(10, -secondPh)))
        : double.NaN;
}
