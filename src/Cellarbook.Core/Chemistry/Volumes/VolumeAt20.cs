namespace Cellarbook.Core.Chemistry;

/// <summary>Volumes reduced to the temperature at which they are stated: 20 °C in Europe, 60 °F for United States quantities.</summary>
public static class VolumeAt20
{
    /// <summary>Cubic expansion of a steel gauge or tank, 1/K (OIML R 22 Table XI convention).</summary>
    public const double SteelPerKelvin = 36e-6;

    /// <summary>Cubic expansion of stainless steel, 1/K (from memory).</summary>
    public const double StainlessPerKelvin = 48e-6;

    /// <summary>The method of this class.</summary>
    public static readonly Formula Ratio = new("Volume at 20 °C by density ratio", "OIML R 22 density ratio; vessel expansion 36e-6/K steel (R 22 Table XI), 48e-6/K stainless (from memory)", SourceCheck.Derived,
        "0 to 40 °C, 0 to 100 % vol; wine taken as ethanol and water");

    /// <summary>Litres at 20 °C of a volume read at <paramref name="celsius"/> in a vessel calibrated at 20 °C.</summary>
    public static double Litres(double litres, double celsius, double abv, double vesselPerKelvin)
    {
        double p = AlcoholicStrength.MassFractionFromAbv(abv);
        return litres >= 0 && celsius is >= 0 and <= 40
            ? litres * EthanolWater.KgPerCubicMetre(p, celsius) / EthanolWater.KgPerCubicMetre(p, 20) * (1 + (vesselPerKelvin * (celsius - 20)))
            : double.NaN;
    }

    /// <summary>Litres at 60 °F of a volume read at <paramref name="celsius"/>.</summary>
    public static double LitresAt60Fahrenheit(double litres, double celsius, double abv)
    {
        double p = AlcoholicStrength.MassFractionFromAbv(abv);
        return litres >= 0 && celsius is >= 0 and <= 40
            ? litres * EthanolWater.KgPerCubicMetre(p, celsius) / EthanolWater.KgPerCubicMetre(p, AlcoholicStrength.SixtyFahrenheitCelsius)
            : double.NaN;
    }
}
