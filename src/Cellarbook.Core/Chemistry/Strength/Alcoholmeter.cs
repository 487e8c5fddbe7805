namespace Cellarbook.Core.Chemistry;

/// <summary>Readings of instruments in a distillate or spirit. Wine has extract and cannot be read this way.</summary>
public static class Alcoholmeter
{
    /// <summary>Cubic expansion of soda-lime glass, 1/K (OIML R 22).</summary>
    public const double SodaLimeGlassPerKelvin = 25e-6;

    /// <summary>Cubic expansion of borosilicate glass, 1/K (from memory).</summary>
    public const double BorosilicateGlassPerKelvin = 10e-6;

    /// <summary>The method of this class.</summary>
    public static readonly Formula Method = new("Alcoholmeter corrected to 20 °C", "OIML R 22 Table VIIIb construction: soda-lime glass instrument graduated at 20 °C",
        SourceCheck.Derived, "0 to 40 °C; distillate or spirit only, never wine with extract");

    /// <summary>SG hydrometer in a distillate.</summary>
    public static readonly Formula HydrometerMethod = new("Hydrometer in a distillate", "density from the reading with glass expansion, strength by OIML R 22 at that temperature", SourceCheck.Derived,
        "0 to 40 °C, instrument calibrated at 10 to 30 °C; distillate or spirit only, never wine with extract");

    /// <summary>Density in kg/m³ of a distillate in which an SG hydrometer reads so much. NaN outside the validity.</summary>
    /// <param name="gravity">SG as read.</param>
    /// <param name="celsius">Temperature of the distillate, 0–40 °C.</param>
    /// <param name="calibrationCelsius">Temperature at which the instrument is right.</param>
    /// <param name="glassPerKelvin">Cubic expansion of the glass.</param>
    public static double DensityFromHydrometer(double gravity, double celsius, double calibrationCelsius, double glassPerKelvin) =>
        gravity is >= 0.78 and <= 1.01 && Hydrometer.Celsius.Contains(celsius) && Hydrometer.CalibrationCelsius.Contains(calibrationCelsius)
            ? gravity * EthanolWater.KgPerCubicMetre(0, calibrationCelsius) / (1 + (glassPerKelvin * (celsius - calibrationCelsius)))
            : double.NaN;

    /// <summary>True % vol at 20 °C from the reading of an alcoholmeter graduated at 20 °C. NaN where there is none (0 % read in warm water).</summary>
    /// <param name="readingAbv">What the stem shows, % vol.</param>
    /// <param name="celsius">Temperature of the distillate, 0–40 °C.</param>
    /// <param name="glassPerKelvin">Cubic expansion of the glass.</param>
    public static double TrueAbv(double readingAbv, double celsius, double glassPerKelvin)
    {
        double density = AlcoholicStrength.KgPerCubicMetre(readingAbv, 20) * (1 - (glassPerKelvin * (celsius - 20)));
        return AlcoholicStrength.AbvFromDensity(density, celsius);
    }
}
