namespace Cellarbook.Core.Chemistry;

/// <summary>How many grams of sugar per litre a body of rules counts for one % vol.</summary>
/// <param name="Code">Code of the choice.</param>
/// <param name="GramsPerLitrePerAbv">The factor.</param>
/// <param name="Label">Who uses it.</param>
/// <param name="Source">Where it was found.</param>
/// <param name="Verified">text, derived or memory.</param>
public sealed record SugarFactor(string Code, double GramsPerLitrePerAbv, Sentence Label, Sentence Source, string Verified);

/// <summary>Strength that a sugar content would give when all of it ferments.</summary>
public static class PotentialAlcohol
{
    /// <summary>The factors known by name, from the data file; the first is the EU convention.</summary>
    public static IReadOnlyList<SugarFactor> Factors { get; } = Read();

    /// <summary>EU convention, 16.83 g/L per % vol.</summary>
    public static SugarFactor Eu => Factors[0];

    /// <summary>The method of this class.</summary>
    public static readonly Formula Method = new("Potential strength from fermentable sugar", "sugar g/L divided by the factor of the chosen rules (EU 16.83, OIV-MA-AS2-02 Table II)",
        SourceCheck.Read, "0 to 400 g/L sugar; factor not below the stoichiometric 15.43 g/L per % vol");

    /// <summary>% vol = sugar / factor. NaN outside 0–400 g/L, or for a factor no fermentation could reach (below 15.4) or above 25.</summary>
    public static double AbvFromSugar(double sugarGramsPerLitre, double gramsPerLitrePerAbv) =>
        sugarGramsPerLitre is >= 0 and <= 400 && gramsPerLitrePerAbv is >= 15.4 and <= 25 ? sugarGramsPerLitre / gramsPerLitrePerAbv : double.NaN;

    /// <summary>% vol from SG 20/20 through the OIV must table.</summary>
    public static double AbvFromGravity(double gravity, double gramsPerLitrePerAbv) =>
        AbvFromSugar(MustTable.SugarGramsPerLitreFromGravity(gravity), gramsPerLitrePerAbv);

    /// <summary>Factor that belongs to a yield of ethanol in g per g sugar.</summary>
    public static double FactorFromYield(double gramsEthanolPerGram) =>
        gramsEthanolPerGram is > 0 and <= 0.512 ? AlcoholicStrength.EthanolGramsPerLitrePerAbv / gramsEthanolPerGram : double.NaN;

    /// <summary>Yield of ethanol in g per g sugar that belongs to a factor.</summary>
    public static double YieldFromFactor(double gramsPerLitrePerAbv) =>
        gramsPerLitrePerAbv >= 15.4 ? AlcoholicStrength.EthanolGramsPerLitrePerAbv / gramsPerLitrePerAbv : double.NaN;

    private static SugarFactor[] Read()
    {
        PublishedTable table = PublishedTable.Open("table_sugar_per_strength.csv");
        var factors = new SugarFactor[table.Count];
        for (int row = 0; row < factors.Length; row++)
        {
            factors[row] = new SugarFactor(table.Text(row, "code"), table.Number(row, "g_l_per_pct"), Sentence.Seed(table.Text(row, "label")), Sentence.Seed(table.Text(row, "source")), table.Text(row, "verified"));
        }

        return factors;
    }
}
