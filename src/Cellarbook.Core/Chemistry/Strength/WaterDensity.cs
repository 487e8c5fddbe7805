namespace Cellarbook.Core.Chemistry;

/// <summary>Density of air-free water at 101.325 kPa. Three formulas stand side by side because each calculation must keep to the water of its own formula.</summary>
public static class WaterDensity
{
    /// <summary>Validity of <see cref="KgPerCubicMetre"/>.</summary>
    public static readonly ValidRange Celsius = new(0, 40, "°C");

    /// <summary>Validity of <see cref="KellKgPerCubicMetre"/>.</summary>
    public static readonly ValidRange KellCelsius = new(0, 150, "°C");

    /// <summary>Density of water at 20 °C by which the OIV turns density into relative density, kg/L (OIV-MA-AS2-01A).</summary>
    public const double Oiv20KgPerLitre = 0.998203;

    /// <summary>The default.</summary>
    public static readonly Formula Tanaka = new("Tanaka water density", "Tanaka et al. 2001, Metrologia 38, 301 (CIPM)", SourceCheck.Read,
        "0 to 40 °C (ITS-90), air-free water at 101.325 kPa");

    /// <summary>Water above 40 °C.</summary>
    public static readonly Formula Kell = new("Kell water density", "Kell 1975, J. Chem. Eng. Data 20, 97", SourceCheck.Read, "0 to 150 °C (IPTS-68)");

    /// <summary>Tanaka 2001, kg/m³; standard uncertainty below 0.001 kg/m³. NaN outside 0–40 °C.</summary>
    public static double KgPerCubicMetre(double celsius)
    {
        if (!Celsius.Contains(celsius))
        {
            return double.NaN;
        }

        double from = celsius - 3.983035;
        return 999.974950 * (1 - (from * from * (celsius + 301.797) / (522528.9 * (celsius + 69.34881))));
    }

    /// <summary>Kell 1975, kg/m³. NaN outside 0–150 °C. The denominator is 16.879850e-3; one public text prints two digits swapped.</summary>
    public static double KellKgPerCubicMetre(double celsius)
    {
        if (!KellCelsius.Contains(celsius))
        {
            return double.NaN;
        }

        double t = celsius;
        double top = 999.83952 + (t * (16.945176 + (t * (-7.9870401e-3 + (t * (-46.170461e-6 + (t * (105.56302e-9 - (t * 280.54253e-12)))))))));
        return top / (1 + (16.879850e-3 * t));
    }

    /// <summary>Bettin and Spieweck 1990, kg/m³: the water term of the sucrose formula. NaN outside 0–80 °C.</summary>
    public static double OfSucroseFormulaKgPerCubicMetre(double celsius)
    {
        if (!SucroseDensity.Celsius.Contains(celsius))
        {
            return double.NaN;
        }

        double t = celsius;
        double top = 999.83952 + (t * (16.952577 + (t * (-7.9905127e-3 + (t * (-46.241757e-6 + (t * (105.84601e-9 - (t * 281.03006e-12)))))))));
        return top / (1 + (16.887236e-3 * t));
    }
}
