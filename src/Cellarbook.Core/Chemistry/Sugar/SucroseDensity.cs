namespace Cellarbook.Core.Chemistry;

/// <summary>Density of sucrose solutions at any temperature (ICUMSA SPS-4, PTB), with the water of Bettin and Spieweck.</summary>
public static class SucroseDensity
{
    /// <summary>Temperatures of the formula (from memory).</summary>
    public static readonly ValidRange Celsius = new(0, 80, "°C");

    /// <summary>Mass fractions of the formula. Below zero it only serves to correct readings of liquids somewhat lighter than water.</summary>
    public static readonly ValidRange MassFraction = new(-0.05, 0.80, "");

    /// <summary>The formula of this class.</summary>
    public static readonly Formula Icumsa = new("Sucrose solution density (ICUMSA)", "ICUMSA SPS-4 / PTB sucrose density polynomial with the water of Bettin and Spieweck 1990",
        SourceCheck.Read, "0 to 80 % sucrose by mass, 0 to 80 °C; pure sucrose, must within about 0.0003");

    private static readonly double[][] Coefficients = Read();

    /// <summary>Density in kg/m³. NaN outside the validity.</summary>
    public static double KgPerCubicMetre(double massFraction, double celsius) =>
        MassFraction.Contains(massFraction) ? WaterDensity.OfSucroseFormulaKgPerCubicMetre(celsius) + Excess(massFraction, celsius) : double.NaN;

    /// <summary>Mass fraction of sucrose of that density; slightly negative for a liquid lighter than water. NaN when none fits.</summary>
    public static double MassFractionFromDensity(double kgPerCubicMetre, double celsius)
    {
        double water = WaterDensity.OfSucroseFormulaKgPerCubicMetre(celsius);
        return double.IsFinite(kgPerCubicMetre) && double.IsFinite(water)
            ? Roots.Between(new Curve(kgPerCubicMetre - water, celsius), MassFraction.Low, MassFraction.High)
            : double.NaN;
    }

    /// <summary>Relative density t/t of a sucrose solution to water of the same temperature.</summary>
    public static double Gravity(double massFraction, double celsius) =>
        KgPerCubicMetre(massFraction, celsius) / WaterDensity.OfSucroseFormulaKgPerCubicMetre(celsius);

    /// <summary>Mass fraction of sucrose from a relative density 20/20.</summary>
    public static double MassFractionFromGravity(double gravity) =>
        MassFractionFromDensity(gravity * WaterDensity.OfSucroseFormulaKgPerCubicMetre(20), 20);

    /// <summary>Relative density 60/60 °F from 20/20 for a liquid that expands like a sucrose solution.</summary>
    public static double Gravity60FahrenheitFromGravity(double gravity) =>
        Gravity(MassFractionFromGravity(gravity), AlcoholicStrength.SixtyFahrenheitCelsius);

    /// <summary>Relative density 20/20 from 60/60 °F for a liquid that expands like a sucrose solution.</summary>
    public static double GravityFromGravity60Fahrenheit(double gravity60)
    {
        double water = WaterDensity.OfSucroseFormulaKgPerCubicMetre(AlcoholicStrength.SixtyFahrenheitCelsius);
        return Gravity(MassFractionFromDensity(gravity60 * water, AlcoholicStrength.SixtyFahrenheitCelsius), 20);
    }

    private static double Excess(double w, double celsius)
    {
        double theta = (celsius - 20) / 100, power = 1, sum = 0;
        foreach (double[] row in Coefficients)
        {
            double inner = 0;
            for (int i = row.Length - 1; i >= 0; i--)
            {
                inner = (inner + row[i]) * w;
            }

            sum += inner * power;
            power *= theta;
        }

        return sum;
    }

    private static double[][] Read()
    {
        PublishedTable table = PublishedTable.Open("table_sucrose_density.csv");
        double[][] rows = [new double[6], new double[5], new double[4], new double[3], new double[2]];
        for (int row = 0; row < table.Count; row++)
        {
            rows[(int)table.Number(row, "theta_power")][(int)table.Number(row, "w_power") - 1] = table.Number(row, "value");
        }

        return rows;
    }

    private readonly record struct Curve(double Above, double Celsius) : ICurve
    {
        public double At(double x) => Excess(x, Celsius) - Above;
    }
}
