namespace Cellarbook.Core.Chemistry;

/// <summary>A limit of exposure to carbon dioxide.</summary>
/// <param name="Percent">CO₂ in the air, % by volume.</param>
/// <param name="Kind">eightHour, shortTerm, shortTermUs or danger.</param>
/// <param name="Label">Name.</param>
public sealed record ExposureLimit(double Percent, string Kind, Sentence Label);

/// <summary>Carbon dioxide set free by fermentation: C₆H₁₂O₆ → 2 C₂H₅OH + 2 CO₂.</summary>
public static class FermentGas
{
    /// <summary>Molar masses, g/mol, and the gas constant, J/(mol K).</summary>
    public const double HexoseGramsPerMole = 180.156, EthanolGramsPerMole = 46.068, Co2GramsPerMole = 44.0095, GasConstant = 8.314462618;

    /// <summary>Grams of ethanol per gram of hexose by stoichiometry.</summary>
    public const double EthanolPerHexose = 2 * EthanolGramsPerMole / HexoseGramsPerMole;

    /// <summary>Grams of CO₂ per gram of hexose by stoichiometry.</summary>
    public const double Co2PerHexose = 2 * Co2GramsPerMole / HexoseGramsPerMole;

    /// <summary>Stoichiometry.</summary>
    public static readonly Formula Stoichiometry = new("CO2 by stoichiometry", "2 x 44.0095 / 180.156 g per g hexose; ideal gas at 101.325 kPa", SourceCheck.Derived, "0 to 400 g/L sugar, 0 to 40 °C; upper bound, 90 to 95 % of it in practice");

    /// <summary>Room.</summary>
    public static readonly Formula Room = new("CO2 in a closed room", "well-mixed closed room: 1 - exp(-gas/room); limits 0.5, 1.5 to 3 and 4 % from memory", SourceCheck.Derived,
        "no ventilation, well mixed; CO2 collects at floor level, so the mixed figure flatters");

    /// <summary>The limits in the data file, lowest first.</summary>
    public static IReadOnlyList<ExposureLimit> Limits { get; } = Read();

    /// <summary>Grams of CO₂ per litre from grams of sugar per litre. NaN outside 0–400.</summary>
    public static double Co2GramsPerLitre(double sugarGramsPerLitre) => sugarGramsPerLitre is >= 0 and <= 400 ? sugarGramsPerLitre * Co2PerHexose : double.NaN;

    /// <summary>Litres of gas at 101.325 kPa per litre of must.</summary>
    public static double GasLitresPerLitre(double sugarGramsPerLitre, double celsius) => celsius is >= 0 and <= 40
        ? Co2GramsPerLitre(sugarGramsPerLitre) / Co2GramsPerMole * GasConstant * (celsius + 273.15) / 101.325
        : double.NaN;

    /// <summary>% CO₂ in a closed, well-mixed room into which so much gas goes.</summary>
    public static double RoomPercent(double gasLitres, double roomLitres) => gasLitres >= 0 && roomLitres > 0 ? 100 * (1 - Math.Exp(-gasLitres / roomLitres)) : double.NaN;

    /// <summary>Litres of gas that bring a closed room to a percentage.</summary>
    public static double GasLitresForPercent(double percent, double roomLitres) => percent is >= 0 and < 100 && roomLitres > 0 ? -roomLitres * Math.Log(1 - (percent / 100)) : double.NaN;

    private static ExposureLimit[] Read()
    {
        PublishedTable table = PublishedTable.Open("table_co2_exposure.csv");
        var limits = new ExposureLimit[table.Count];
        for (int row = 0; row < limits.Length; row++)
        {
            limits[row] = new ExposureLimit(table.Number(row, "percent"), table.Text(row, "kind"), Sentence.Seed(table.Text(row, "label")));
        }

        return limits;
    }
}
