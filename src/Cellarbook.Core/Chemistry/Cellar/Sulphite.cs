namespace Cellarbook.Core.Chemistry;

/// <summary>A carrier of sulphur dioxide with the share of it that is SO₂.</summary>
/// <param name="Code">Code of the choice.</param>
/// <param name="Label">Name.</param>
/// <param name="So2Fraction">Grams of SO₂ per gram, by formula masses.</param>
public sealed record SulphiteSalt(string Code, Sentence Label, double So2Fraction);

/// <summary>Sulphur dioxide: molecular share, free needed, doses.</summary>
public static class Sulphite
{
    /// <summary>First pKa of sulphurous acid that printed charts are made with.</summary>
    public const double CustomaryPKa = 1.81;

    /// <summary>Molar mass of SO₂, g/mol.</summary>
    public const double So2GramsPerMole = 64.064;

    /// <summary>pH of must and wine.</summary>
    public static readonly ValidRange Ph = new(2.5, 5.0, "pH");

    /// <summary>Strengths of the OIV table of pK.</summary>
    public static readonly ValidRange TableAbv = new(0, 15, "% vol");

    /// <summary>Temperatures of the OIV table of pK.</summary>
    public static readonly ValidRange TableCelsius = new(20, 40, "°C");

    /// <summary>Potassium metabisulphite, K₂S₂O₅, 222.31 g/mol.</summary>
    public static readonly SulphiteSalt Potassium = new("K", "Potassium metabisulphite", 2 * So2GramsPerMole / 222.31);

    /// <summary>Sodium metabisulphite, Na₂S₂O₅, 190.10 g/mol.</summary>
    public static readonly SulphiteSalt Sodium = new("Na", "Sodium metabisulphite", 2 * So2GramsPerMole / 190.10);

    /// <summary>Dissociation with a given pKa.</summary>
    public static readonly Formula HendersonHasselbalch = new("Molecular SO2 by dissociation", "Henderson-Hasselbalch, pKa as stated (printed charts: 1.81)", SourceCheck.Derived, "pH 2.5 to 5.0, free SO2 0 to 1000 mg/L");

    /// <summary>pK by strength and temperature.</summary>
    public static readonly Formula OivPk = new("OIV thermodynamic pKT by strength and temperature", "OIV-MA-AS323-04C Table 1 (Usseglio-Tomasset and Bosia)", SourceCheck.Read,
        "0 to 15 % vol, 20 to 40 °C; contradicts charts made with 1.81");

    /// <summary>Mass balance of a dose.</summary>
    public static readonly Formula Dose = new("Sulphite dose by mass balance", "rise in free / (1 - bound share) = SO2 to add; salt by formula masses K2S2O5 222.31, Na2S2O5 190.10, SO2 64.064", SourceCheck.Derived,
        "rise 0 to 500 mg/L, bound share 0 to 0.95");

    private static readonly double[] Strengths = [0, 5, 10, 15];
    private static readonly double[] Temperatures = [20, 25, 30, 35, 40];
    private static readonly double[][] ThermodynamicPk = Grid("pkt");
    private static readonly double[][] MixedPk = Grid("pkm");

    /// <summary>Molecular SO₂ in mg/L = free / (1 + 10^(pH − pKa)).</summary>
    public static double MolecularMgPerLitre(double freeMgPerLitre, double ph, double pKa) =>
        freeMgPerLitre is >= 0 and <= 1000 ? freeMgPerLitre * MolecularFraction(ph, pKa) : double.NaN;

    /// <summary>Molecular share of free SO₂, 0 to 1. NaN outside pH 2.5–5.</summary>
    public static double MolecularFraction(double ph, double pKa) => Ph.Contains(ph) && pKa is >= 1 and <= 3 ? 1 / (1 + Math.Pow(10, ph - pKa)) : double.NaN;

    /// <summary>Free SO₂ in mg/L that gives a molecular SO₂.</summary>
    public static double FreeNeededMgPerLitre(double molecularMgPerLitre, double ph, double pKa) =>
        molecularMgPerLitre is >= 0 and <= 5 ? molecularMgPerLitre / MolecularFraction(ph, pKa) : double.NaN;

    /// <summary>Thermodynamic pKT by strength and temperature. NaN outside the table.</summary>
    public static double ThermodynamicPKa(double abv, double celsius) => Interpolation.Bilinear(Strengths, Temperatures, ThermodynamicPk, abv, celsius);

    /// <summary>Mixed pKM at ionic strength 0.038 by strength and temperature (from memory). NaN outside the table.</summary>
    public static double MixedPKa(double abv, double celsius) => Interpolation.Bilinear(Strengths, Temperatures, MixedPk, abv, celsius);

    /// <summary>Grams of SO₂ to add so that the free rises, with the share that will bind.</summary>
    public static double So2Grams(double litres, double raiseFreeMgPerLitre, double boundFraction) =>
        litres >= 0 && raiseFreeMgPerLitre is >= 0 and <= 500 && boundFraction is >= 0 and <= 0.95 ? litres * raiseFreeMgPerLitre / 1000 / (1 - boundFraction) : double.NaN;

    /// <summary>Grams of a salt that carries <paramref name="so2Fraction"/> of its mass as SO₂.</summary>
    public static double SaltGrams(double litres, double raiseFreeMgPerLitre, double boundFraction, double so2Fraction) =>
        so2Fraction is > 0 and <= 1 ? So2Grams(litres, raiseFreeMgPerLitre, boundFraction) / so2Fraction : double.NaN;

    /// <summary>Millilitres of a solution with so many grams of SO₂ in 100 mL.</summary>
    public static double SolutionMillilitres(double litres, double raiseFreeMgPerLitre, double boundFraction, double so2GramsPer100Millilitres) =>
        so2GramsPer100Millilitres is > 0 and <= 20 ? So2Grams(litres, raiseFreeMgPerLitre, boundFraction) / so2GramsPer100Millilitres * 100 : double.NaN;

    /// <summary>Total SO₂ in mg/L that a dose adds: everything put in counts, bound or not.</summary>
    public static double TotalAddedMgPerLitre(double so2Grams, double litres) => litres > 0 ? so2Grams * 1000 / litres : double.NaN;

    /// <summary>SO₂ in mg/L by titration: mL × N × 32 032 / mL of sample (iodine, or alkali after aspiration).</summary>
    public static double TitrationMgPerLitre(double titrantMillilitres, double normality, double sampleMillilitres) =>
        titrantMillilitres >= 0 && normality > 0 && sampleMillilitres > 0 ? titrantMillilitres * normality * 500 * So2GramsPerMole / sampleMillilitres : double.NaN;

    private static double[][] Grid(string column)
    {
        PublishedTable table = PublishedTable.Open("table_so2_pk.csv");
        double[] flat = table.Numbers(column);
        return [.. Strengths.Select((_, row) => flat[(row * Temperatures.Length)..((row + 1) * Temperatures.Length)])];
    }
}
