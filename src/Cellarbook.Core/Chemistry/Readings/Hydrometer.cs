namespace Cellarbook.Core.Chemistry;

/// <summary>Hydrometer readings brought to the calibration temperature of the instrument, or to 20 °C.</summary>
/// <remarks>The glass expands, then the liquid is brought to temperature with its own expansion. Bubbles lift the spindle: degas first.</remarks>
public static class Hydrometer
{
    /// <summary>Readings that a hydrometer for must and wine can give.</summary>
    public static readonly ValidRange Reading = new(0.980, 1.200, "SG");

    /// <summary>Sample temperatures taken.</summary>
    public static readonly ValidRange Celsius = new(0, 40, "°C");

    /// <summary>Calibration temperatures of instruments.</summary>
    public static readonly ValidRange CalibrationCelsius = new(10, 30, "°C");

    /// <summary>Must: the expansion of a sucrose solution.</summary>
    public static readonly Formula Must = new("Hydrometer in must", "soda-lime glass 25e-6/K (OIML R 22) and ICUMSA sucrose density polynomial", SourceCheck.Derived,
        "SG 0.980 to 1.200, sample 0 to 40 °C, instrument calibrated at 10 to 30 °C; must before or early in fermentation, degassed");

    /// <summary>Dry wine: the expansion of its ethanol and water.</summary>
    public static readonly Formula Wine = new("Hydrometer in wine", "soda-lime glass and OIML R 22 expansion of the wine's ethanol and water; agrees within 0.00002 with the example of Reg. (EEC) 2676/90",
        SourceCheck.Derived, "SG 0.980 to 1.050, sample 0 to 40 °C, 0 to 25 % vol; extract expands slightly more");

    /// <summary>The usual chart.</summary>
    public static readonly Formula WaterLike = new("Hydrometer, water-like shortcut", "water density ratio (Tanaka 2001) and glass expansion; common simplification", SourceCheck.Derived,
        "good near SG 1.000 and 20 to 30 °C only; at SG 1.100 and 10 °C wrong by 0.001");

    /// <summary>Must: SG at the calibration temperature from a reading at <paramref name="celsius"/>. NaN outside the validity.</summary>
    /// <param name="reading">SG as read.</param>
    /// <param name="celsius">Temperature of the sample.</param>
    /// <param name="calibrationCelsius">Temperature at which the instrument is right (20 °C, or 15.56 °C for 60 °F).</param>
    /// <param name="glassPerKelvin">Cubic expansion of the glass.</param>
    public static double InMust(double reading, double celsius, double calibrationCelsius, double glassPerKelvin) =>
        SucroseDensity.Gravity(MustMassFraction(reading, celsius, calibrationCelsius, glassPerKelvin), calibrationCelsius);

    /// <summary>Must: SG 20/20 from a reading with an instrument of any calibration.</summary>
    public static double InMustAt20(double reading, double celsius, double calibrationCelsius, double glassPerKelvin) =>
        SucroseDensity.Gravity(MustMassFraction(reading, celsius, calibrationCelsius, glassPerKelvin), 20);

    /// <summary>Wine: SG 20/20 from a reading, taking the expansion of ethanol and water of that strength.</summary>
    public static double InWineAt20(double reading, double celsius, double calibrationCelsius, double abv, double glassPerKelvin)
    {
        if (!Valid(reading, celsius, calibrationCelsius) || !(abv is >= 0 and <= 25) || reading > 1.05)
        {
            return double.NaN;
        }

        double density = reading * AlcoholicStrength.KgPerCubicMetre(0, calibrationCelsius) / (1 + (glassPerKelvin * (celsius - calibrationCelsius)));
        return WineDensityAt20(density, celsius, abv) / AlcoholicStrength.KgPerCubicMetre(0, 20);
    }

    /// <summary>Density of wine at 20 °C in kg/m³ from its density at another temperature and its strength.</summary>
    public static double WineDensityAt20(double kgPerCubicMetre, double celsius, double abv)
    {
        double p = AlcoholicStrength.MassFractionFromAbv(abv);
        return celsius is >= 0 and <= 40 ? kgPerCubicMetre - (EthanolWater.KgPerCubicMetre(p, celsius) - EthanolWater.KgPerCubicMetre(p, 20)) : double.NaN;
    }

    /// <summary>The shortcut of most charts: the liquid is taken to expand like water.</summary>
    public static double LikeWater(double reading, double celsius, double calibrationCelsius, double glassPerKelvin) => Valid(reading, celsius, calibrationCelsius)
        ? reading * WaterDensity.KgPerCubicMetre(calibrationCelsius) / WaterDensity.KgPerCubicMetre(celsius) / (1 + (glassPerKelvin * (celsius - calibrationCelsius)))
        : double.NaN;

    private static bool Valid(double reading, double celsius, double calibrationCelsius) =>
        Reading.Contains(reading) && Celsius.Contains(celsius) && CalibrationCelsius.Contains(calibrationCelsius);

    private static double MustMassFraction(double reading, double celsius, double calibrationCelsius, double glassPerKelvin) => Valid(reading, celsius, calibrationCelsius)
        ? SucroseDensity.MassFractionFromDensity(
            reading * WaterDensity.OfSucroseFormulaKgPerCubicMetre(calibrationCelsius) / (1 + (glassPerKelvin * (celsius - calibrationCelsius))), celsius)
        : double.NaN;
}
