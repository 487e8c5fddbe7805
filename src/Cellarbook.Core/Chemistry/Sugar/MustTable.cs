namespace Cellarbook.Core.Chemistry;

/// <summary>Grape must by OIV-MA-AS2-02 Table II: % sucrose by mass, refractive index, density and fermentable sugar. Straight lines between whole degrees.</summary>
/// <remarks>The density column is density at 20 °C, not specific gravity: an SG taken for kg/L overstates the strength by 0.3 % vol.</remarks>
public static class MustTable
{
    private static readonly double[] BrixColumn, IndexColumn, DensityColumn, SugarColumn, SugarPerKilogramColumn;

    /// <summary>The method of this class.</summary>
    public static readonly Formula Oiv = new("OIV must table", "OIV-MA-AS2-02 Table II, as reprinted in the French decree of 14 Sept 2011 Annex IV", SourceCheck.Read,
        "grape must, 10 to 30 % sucrose by mass (SG 20/20 1.0410 to 1.1307), before fermentation");

    static MustTable()
    {
        PublishedTable table = PublishedTable.Open("table_oiv_must_as2_02.csv");
        BrixColumn = table.Numbers("brix_pct_sucrose");
        IndexColumn = table.Numbers("n20d");
        DensityColumn = table.Numbers("density_20_kg_l");
        SugarColumn = table.Numbers("sugar_g_l");
        SugarPerKilogramColumn = table.Numbers("sugar_g_kg");
        Brix = new ValidRange(BrixColumn[0], BrixColumn[^1], "°Brix");
        DensityRange = new ValidRange(DensityColumn[0], DensityColumn[^1], "kg/L");
        IndexRange = new ValidRange(IndexColumn[0], IndexColumn[^1], "");
        Gravity = new ValidRange(DensityColumn[0] / WaterDensity.Oiv20KgPerLitre, DensityColumn[^1] / WaterDensity.Oiv20KgPerLitre, "SG 20/20");
    }

    /// <summary>°Brix of the table.</summary>
    public static ValidRange Brix { get; }

    /// <summary>Densities of the table, kg/L at 20 °C.</summary>
    public static ValidRange DensityRange { get; }

    /// <summary>Refractive indices of the table.</summary>
    public static ValidRange IndexRange { get; }

    /// <summary>Specific gravities 20/20 that belong to the densities of the table.</summary>
    public static ValidRange Gravity { get; }

    /// <summary>Density at 20 °C in kg/L.</summary>
    public static double DensityKgPerLitre(double brix) => Interpolation.Linear(BrixColumn, DensityColumn, brix);

    /// <summary>Refractive index at 20 °C, sodium D line.</summary>
    public static double RefractiveIndex(double brix) => Interpolation.Linear(BrixColumn, IndexColumn, brix);

    /// <summary>Fermentable sugar of must, g/L.</summary>
    public static double SugarGramsPerLitre(double brix) => Interpolation.Linear(BrixColumn, SugarColumn, brix);

    /// <summary>Fermentable sugar of must, g/kg.</summary>
    public static double SugarGramsPerKilogram(double brix) => Interpolation.Linear(BrixColumn, SugarPerKilogramColumn, brix);

    /// <summary>°Brix from a refractive index.</summary>
    public static double BrixFromRefractiveIndex(double refractiveIndex) => Interpolation.Linear(IndexColumn, BrixColumn, refractiveIndex);

    /// <summary>°Brix from a density at 20 °C in kg/L.</summary>
    public static double BrixFromDensity(double kgPerLitre) => Interpolation.Linear(DensityColumn, BrixColumn, kgPerLitre);

    /// <summary>Fermentable sugar in g/L from SG 20/20, which is first turned into density.</summary>
    public static double SugarGramsPerLitreFromGravity(double gravity) =>
        Interpolation.Linear(DensityColumn, SugarColumn, DensityFromGravity(gravity));

    /// <summary>Density of must in kg/L at 20 °C of a fermentable sugar content in g/L.</summary>
    public static double DensityFromSugar(double sugarGramsPerLitre) => Interpolation.Linear(SugarColumn, DensityColumn, sugarGramsPerLitre);

    /// <summary>kg/L at 20 °C from SG 20/20 (OIV-MA-AS2-01A).</summary>
    public static double DensityFromGravity(double gravity) => gravity * WaterDensity.Oiv20KgPerLitre;

    /// <summary>SG 20/20 from kg/L at 20 °C.</summary>
    public static double GravityFromDensity(double kgPerLitre) => kgPerLitre / WaterDensity.Oiv20KgPerLitre;
}
