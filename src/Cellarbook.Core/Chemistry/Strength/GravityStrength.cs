namespace Cellarbook.Core.Chemistry;

/// <summary>Strength estimated from original and final gravity. All are estimates; the strength that counts is the measured one.</summary>
public static class GravityStrength
{
    /// <summary>Factor of the linear rule of thumb, % vol per unit of gravity.</summary>
    public const double LinearFactor = 131.25;

    /// <summary>Divisor of the older rule in degrees of gravity per % vol.</summary>
    public const double CustomaryDivisor = 7.36;

    /// <summary>Standard uncertainty of the linear model itself, % vol (a judgement).</summary>
    public const double LinearModelAbv = 0.3;

    /// <summary>Uncertainty shown for a two-gravity estimate when that of the readings is not given, % vol (common practice, no source).</summary>
    public const double CustomaryUncertaintyAbv = 0.5;

    /// <summary>Gravities taken.</summary>
    public static readonly ValidRange Gravity = new(0.980, 1.170, "SG 20/20");

    private const string TwoGravities = "SG 0.980 to 1.170 both at 20/20, final not above original, nothing added in between";

    /// <summary>The linear rule.</summary>
    public static readonly Formula LinearRule = new("Linear rule of thumb", "131.25 (OG - FG), common practice, no source", SourceCheck.Read, TwoGravities);

    /// <summary>The divisor.</summary>
    public static readonly Formula DivisorRule = new("Divisor rule", "1000 (OG - FG) / 7.36, common practice, from memory", SourceCheck.Remembered, TwoGravities);

    /// <summary>Real extract.</summary>
    public static readonly Formula BallingRule = new("Balling real-extract relation", "Balling 0.1808, 0.8192, 2.0665, 0.010665 (De Clerck, ASBC), from memory", SourceCheck.Remembered, TwoGravities);

    /// <summary>Rational approximation.</summary>
    public static readonly Formula HallRule = new("Hall rational approximation", "Hall 1995, from memory", SourceCheck.Remembered, TwoGravities + "; at wine gravities 0.5 to 0.6 % vol above Balling");

    /// <summary>UK factor table.</summary>
    public static readonly Formula HmrcTable = new("HMRC factor table", "HMRC Notice 226 s. 30.3 (Laboratory of the Government Chemist)", SourceCheck.Read,
        "gravity drop up to 100.7 in degrees; made for beer; steps at the edges of its bands");

    /// <summary>OIV potential.</summary>
    public static readonly Formula OivLessResidual = new("OIV potential less residual sugar", "OIV-MA-AS2-02 Table II, sugar divided by the factor of the chosen rules, less measured residual sugar by the same factor",
        SourceCheck.Read, "original SG 20/20 1.0410 to 1.1307, grape must; residual sugar measured");

    private static readonly double[] HmrcTops, HmrcFactors;

    static GravityStrength()
    {
        PublishedTable table = PublishedTable.Open("table_hmrc_abv_factors.csv");
        HmrcTops = table.Numbers("gravity_drop_to");
        HmrcFactors = table.Numbers("factor");
    }

    /// <summary>% vol = factor × (OG − FG).</summary>
    public static double Linear(double originalGravity, double finalGravity, double factor) =>
        Valid(originalGravity, finalGravity) ? factor * (originalGravity - finalGravity) : double.NaN;

    /// <summary>% vol = 1000 (OG − FG) / divisor.</summary>
    public static double Divisor(double originalGravity, double finalGravity, double divisor) =>
        Valid(originalGravity, finalGravity) && divisor > 0 ? 1000 * (originalGravity - finalGravity) / divisor : double.NaN;

    /// <summary>% vol by the real extract: RE = 0.1808 OE + 0.8192 AE; alcohol by weight = (OE − RE) / (2.0665 − 0.010665 OE).</summary>
    public static double Balling(double originalGravity, double finalGravity)
    {
        if (!Valid(originalGravity, finalGravity))
        {
            return double.NaN;
        }

        double original = BrixScale.PlatoFromGravity(originalGravity), apparent = BrixScale.PlatoFromGravity(finalGravity);
        double real = (0.1808 * original) + (0.8192 * apparent);
        double byWeight = (original - real) / (2.0665 - (0.010665 * original));
        return byWeight * finalGravity * WaterDensity.Oiv20KgPerLitre * 1000 / EthanolWater.Ethanol20KgPerCubicMetre;
    }

    /// <summary>% vol = 76.08 (OG − FG) / (1.775 − OG) × FG / 0.794.</summary>
    public static double Hall(double originalGravity, double finalGravity) => Valid(originalGravity, finalGravity)
        ? 76.08 * (originalGravity - finalGravity) / (1.775 - originalGravity) * finalGravity / 0.794
        : double.NaN;

    /// <summary>% vol by the UK table: drop in degrees to one decimal, times the factor of its band. NaN above 100.7.</summary>
    public static double Hmrc(double originalGravity, double finalGravity)
    {
        if (!Valid(originalGravity, finalGravity))
        {
            return double.NaN;
        }

        double drop = HmrcDrop(originalGravity, finalGravity);
        for (int band = 0; band < HmrcTops.Length; band++)
        {
            if (drop <= HmrcTops[band])
            {
                return drop * HmrcFactors[band];
            }
        }

        return double.NaN;
    }

    /// <summary>Gravity drop in degrees, to the one decimal the UK table has.</summary>
    public static double HmrcDrop(double originalGravity, double finalGravity) =>
        Math.Round(1000 * (originalGravity - finalGravity), 1, MidpointRounding.AwayFromZero);

    /// <summary>% vol = (sugar of the original must − residual sugar) / factor. NaN when more sugar is left than there was.</summary>
    public static double OivPotentialLessResidual(double originalGravity, double residualSugarGramsPerLitre, double gramsPerLitrePerAbv)
    {
        double fermented = MustTable.SugarGramsPerLitreFromGravity(originalGravity) - residualSugarGramsPerLitre;
        return residualSugarGramsPerLitre >= 0 ? PotentialAlcohol.AbvFromSugar(fermented, gramsPerLitrePerAbv) : double.NaN;
    }

    private static bool Valid(double originalGravity, double finalGravity) =>
        Gravity.Contains(originalGravity) && Gravity.Contains(finalGravity) && finalGravity <= originalGravity;
}
