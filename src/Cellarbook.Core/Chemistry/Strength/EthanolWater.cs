using System.Runtime.CompilerServices;

namespace Cellarbook.Core.Chemistry;

/// <summary>Density of ethanol–water mixtures by the general formula of OIML R 22 (1975), equal to the Annex of Directive 76/766/EEC.</summary>
/// <remarks>
/// ρ(p,t) = A1 + Σ Ak p^(k−1) + Σ Bk d^k + Σ Σ C(i,k) p^k d^i with d = t − 20. The cross terms C vanish at 20 °C and in water,
/// so only figures at other temperatures and strengths prove them.
/// </remarks>
public static class EthanolWater
{
    private const int Terms = 12;

    /// <summary>Temperatures at which the formula holds, as long as the mixture is liquid.</summary>
    public static readonly ValidRange Celsius = new(-20, 40, "°C");

    /// <summary>Temperatures at which density falls strictly with strength, so that a strength can be read from it.</summary>
    public static readonly ValidRange InverseCelsius = new(0, 40, "°C");

    /// <summary>The formula of this class.</summary>
    public static readonly Formula R22 = new("OIML R 22 general formula", "OIML R 22 (1975), Directive 76/766/EEC Annex", SourceCheck.Read,
        "0 to 100 % ethanol, -20 to 40 °C while liquid; strength from density 0 to 40 °C; ethanol and water only, no extract");

    private static readonly double[] A = new double[Terms];
    private static readonly double[] B = new double[6];
    private static readonly double[][] C = [new double[11], new double[10], new double[9], new double[4], new double[2]];

    // Freezing points by mass fraction, CRC Handbook of Chemistry and Physics, from memory; they only guard against ice below 0 °C.
    private static readonly double[] FreezingFraction = [0, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30];
    private static readonly double[] FreezingCelsius = [0, -2.1, -4.5, -7.4, -10.9, -15.4, -20.5];

    static EthanolWater()
    {
        PublishedTable table = PublishedTable.Open("table_r22_coefficients.csv");
        for (int row = 0; row < table.Count; row++)
        {
            int k = (int)table.Number(row, "k") - 1;
            double value = table.Number(row, "value");
            switch (table.Text(row, "set"))
            {
                case "A": A[k] = value; break;
                case "B": B[k] = value; break;
                default: C[(int)table.Number(row, "i") - 1][k] = value; break;
            }
        }

        Ethanol20KgPerCubicMetre = KgPerCubicMetre(1, 20);
    }

    /// <summary>Density of pure ethanol at 20 °C, 789.24 kg/m³.</summary>
    public static double Ethanol20KgPerCubicMetre { get; }

    /// <summary>Density of a mixture in kg/m³. NaN outside 0–1, −20…40 °C, or where the mixture would be ice.</summary>
    /// <param name="massFraction">Mass of ethanol over mass of mixture, 0 to 1.</param>
    /// <param name="celsius">Temperature of the mixture.</param>
    public static double KgPerCubicMetre(double massFraction, double celsius)
    {
        if (!(massFraction is >= 0 and <= 1) || !IsLiquid(massFraction, celsius))
        {
            return double.NaN;
        }

        return AtTemperature(celsius).At(massFraction);
    }

    /// <summary>Mass fraction of ethanol from a density. NaN outside 0–40 °C, or when the density is above water or below ethanol.</summary>
    public static double MassFractionFromDensity(double kgPerCubicMetre, double celsius)
    {
        if (!InverseCelsius.Contains(celsius) || !double.IsFinite(kgPerCubicMetre))
        {
            return double.NaN;
        }

        Isotherm isotherm = AtTemperature(celsius);
        isotherm.Sought = kgPerCubicMetre;
        return Roots.Between(isotherm, 0, 1);
    }

    /// <summary>Coefficient of thermal expansion −(1/ρ) ∂ρ/∂t in 1/K, from the derivative of the formula. NaN outside the validity.</summary>
    public static double ExpansionPerKelvin(double massFraction, double celsius)
    {
        double density = KgPerCubicMetre(massFraction, celsius);
        if (double.IsNaN(density))
        {
            return double.NaN;
        }

        double d = celsius - 20, slope = 0, power = 1;
        for (int k = 0; k < B.Length; k++, power *= d)
        {
            slope += (k + 1) * B[k] * power;
        }

        power = 1;
        for (int i = 0; i < C.Length; i++, power *= d)
        {
            double sum = 0;
            for (int k = C[i].Length - 1; k >= 0; k--)
            {
                sum = (sum + C[i][k]) * massFraction;
            }

            slope += (i + 1) * power * sum;
        }

        return -slope / density;
    }

    private static bool IsLiquid(double massFraction, double celsius) =>
        celsius is >= 0 and <= 40
        || (Celsius.Contains(celsius) && celsius >= Interpolation.Linear(FreezingFraction, FreezingCelsius, Math.Min(massFraction, 0.30)));

    private static Isotherm AtTemperature(double celsius)
    {
        Isotherm f = default;
        A.AsSpan().CopyTo(f.Coefficients);
        double d = celsius - 20, power = d;
        if (d == 0)
        {
            return f;
        }

        for (int k = 0; k < B.Length; k++, power *= d)
        {
            f.Coefficients[0] += B[k] * power;
        }

        power = d;
        for (int i = 0; i < C.Length; i++, power *= d)
        {
            double[] row = C[i];
            for (int k = 0; k < row.Length; k++)
            {
                f.Coefficients[k + 1] += row[k] * power;
            }
        }

        return f;
    }

    [InlineArray(Terms)]
    private struct Polynomial
    {
        private double first;
    }

    /// <summary>The formula at one temperature: a polynomial in the mass fraction.</summary>
    private struct Isotherm : ICurve
    {
        public Polynomial Coefficients;
        public double Sought;

        public readonly double At(double x)
        {
            double sum = 0;
            for (int k = Terms - 1; k >= 0; k--)
            {
                sum = (sum * x) + Coefficients[k];
            }

            return sum - Sought;
        }
    }
}
