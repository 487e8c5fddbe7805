namespace Cellarbook.Core.Chemistry;

/// <summary>Carbon dioxide in solution and the pressure it makes in a closed bottle.</summary>
public static class DissolvedGas
{
    /// <summary>Fermentable sugar in g/L above which a still bottle with live yeast is a hazard (a judgement, not a standard).</summary>
    public const double WarningSugarGramsPerLitre = 2;

    /// <summary>Excess pressure at 20 °C above which EU law speaks of semi-sparkling, bar (Reg (EU) 1308/2013 Annex VII, from memory).</summary>
    public const double SemiSparklingBar = 1;

    /// <summary>Excess pressure at 20 °C from which EU law speaks of sparkling, bar (Reg (EU) 1308/2013 Annex VII, from memory).</summary>
    public const double SparklingBar = 3;

    /// <summary>United States ceiling for still wine, g/L (26 USC 5041, from memory).</summary>
    public const double UsStillCeilingGramsPerLitre = 3.92;

    /// <summary>Temperatures taken.</summary>
    public static readonly ValidRange Celsius = new(-1, 40, "°C");

    /// <summary>Solubility.</summary>
    public static readonly Formula Weiss = new("CO2 solubility in water", "Weiss 1974, Mar. Chem. 2, 203, salinity 0", SourceCheck.Read, "-1 to 40 °C, water; wine dissolves 5 to 15 % less (from memory)");

    /// <summary>Pressure.</summary>
    public static readonly Formula BottlePressure = new("Pressure on refermentation", "CO2 by stoichiometry, Weiss 1974 solubility and ideal gas in the headspace", SourceCheck.Derived,
        "-1 to 40 °C, headspace 0 to 50 % of the liquid; water solubility, real wine makes 5 to 15 % more pressure");

    /// <summary>CO₂ that water holds under 1 bar of it, g/L. NaN outside −1…40 °C.</summary>
    public static double GramsPerLitreBar(double celsius)
    {
        if (!Celsius.Contains(celsius))
        {
            return double.NaN;
        }

        double t = (celsius + 273.15) / 100;
        return Math.Exp(-58.0931 + (90.5069 / t) + (22.2940 * Math.Log(t))) * FermentGas.Co2GramsPerMole / 1.01325;
    }

    /// <summary>CO₂ left in solution under one atmosphere of it, g/L: what a finished, undisturbed ferment still holds.</summary>
    public static double SaturatedGramsPerLitre(double celsius) => GramsPerLitreBar(celsius) * 1.01325;

    /// <summary>Partial pressure of CO₂ in bar in a closed bottle once the sugar has fermented.</summary>
    /// <param name="sugarGramsPerLitre">Fermentable sugar.</param>
    /// <param name="initialCo2GramsPerLitre">CO₂ already dissolved.</param>
    /// <param name="celsius">Temperature of the bottle.</param>
    /// <param name="headspacePercent">Gas volume in % of the liquid.</param>
    public static double BottleBar(double sugarGramsPerLitre, double initialCo2GramsPerLitre, double celsius, double headspacePercent)
    {
        if (!(initialCo2GramsPerLitre is >= 0 and <= 20) || !(headspacePercent is >= 0 and <= 50))
        {
            return double.NaN;
        }

        double gas = headspacePercent / 100 * FermentGas.Co2GramsPerMole / (FermentGas.GasConstant * (celsius + 273.15)) * 100;
        return (initialCo2GramsPerLitre + FermentGas.Co2GramsPerLitre(sugarGramsPerLitre)) / (GramsPerLitreBar(celsius) + gas);
    }
}
