namespace Cellarbook.Core.Chemistry;

/// <summary>A source of nitrogen that yeast can use.</summary>
/// <param name="Code">Code of the choice.</param>
/// <param name="Label">Name.</param>
/// <param name="NitrogenFraction">Grams of nitrogen per gram.</param>
/// <param name="LimitGramsPerLitre">Stated maximum of the addition.</param>
/// <param name="LimitSource">Who states it.</param>
public sealed record NitrogenSource(string Code, Sentence Label, double NitrogenFraction, double LimitGramsPerLitre, string LimitSource);

/// <summary>Yeast-assimilable nitrogen (YAN): what there is, what is wanted, what brings it.</summary>
public static class Nutrient
{
    /// <summary>Nitrogen in ammonia: 14.007 / 17.031.</summary>
    public const double NitrogenInAmmonia = 14.007 / 17.031;

    private static readonly double[] NeedBrix, NeedNitrogen;

    /// <summary>The sources in the data file, diammonium phosphate first.</summary>
    public static IReadOnlyList<NitrogenSource> Sources { get; } = Read();

    /// <summary>Need by sugar.</summary>
    public static readonly Formula Need = new("YAN need by sugar", "common extension table (Bisson and Butzke 2000), linear between rows, from memory; strain demand moves it by 25 %", SourceCheck.Remembered,
        "21 to 27 °Brix; guidance, not a rule");

    /// <summary>Dose.</summary>
    public static readonly Formula Dose = new("Nitrogen dose by mass balance", "mg N/L wanted / nitrogen share of the salt", SourceCheck.Derived, "0 to 500 mg N/L");

    /// <summary>Formol titration.</summary>
    public static readonly Formula Formol = new("Formol titration", "one alkali equivalent per nitrogen: mL x N x 14007 / mL of sample", SourceCheck.Derived, "counts proline in part only; may read 10 to 20 % off");

    /// <summary>Sum.</summary>
    public static readonly Formula Sum = new("YAN from amino nitrogen and ammonia", "primary amino N + ammonia x 14.007/17.031", SourceCheck.Derived, "0 to 2000 mg/L each");

    static Nutrient()
    {
        PublishedTable table = PublishedTable.Open("table_yan_need.csv");
        NeedBrix = table.Numbers("brix_pct_sucrose");
        NeedNitrogen = table.Numbers("need_mg_n_l");
    }

    /// <summary>Customary need in mg N/L at a medium demand. NaN outside 21–27 °Brix.</summary>
    public static double NeedMgPerLitre(double brix) => Interpolation.Linear(NeedBrix, NeedNitrogen, brix);

    /// <summary>Grams of a source with that nitrogen share that bring a volume up by so much.</summary>
    public static double DoseGrams(double litres, double raiseMgNitrogenPerLitre, double nitrogenFraction) =>
        litres >= 0 && raiseMgNitrogenPerLitre is >= 0 and <= 500 && nitrogenFraction is > 0 and <= 0.5 ? litres * raiseMgNitrogenPerLitre / 1000 / nitrogenFraction : double.NaN;

    /// <summary>YAN in mg N/L by formol titration.</summary>
    public static double FormolMgPerLitre(double titrantMillilitres, double normality, double sampleMillilitres) =>
        titrantMillilitres >= 0 && normality > 0 && sampleMillilitres > 0 ? titrantMillilitres * normality * 14007 / sampleMillilitres : double.NaN;

    /// <summary>YAN in mg N/L from primary amino nitrogen and ammonia reported as NH₃.</summary>
    public static double TotalMgPerLitre(double aminoMgNitrogenPerLitre, double ammoniaMgPerLitre) =>
        aminoMgNitrogenPerLitre is >= 0 and <= 2000 && ammoniaMgPerLitre is >= 0 and <= 2000 ? aminoMgNitrogenPerLitre + (ammoniaMgPerLitre * NitrogenInAmmonia) : double.NaN;

    private static NitrogenSource[] Read()
    {
        PublishedTable table = PublishedTable.Open("table_nutrients.csv");
        var sources = new NitrogenSource[table.Count];
        for (int row = 0; row < sources.Length; row++)
        {
            sources[row] = new NitrogenSource(table.Text(row, "code"), Sentence.Seed(table.Text(row, "label")), table.Number(row, "nitrogen_fraction"), table.Number(row, "limit_g_l"), table.Text(row, "limit_source"));
        }

        return sources;
    }
}
