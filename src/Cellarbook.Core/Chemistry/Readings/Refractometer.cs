namespace Cellarbook.Core.Chemistry;

/// <summary>Refractometer readings in must, and what can be had from them once there is alcohol.</summary>
public static class Refractometer
{
    private static readonly double[] Temperatures;
    private static readonly double[] Columns = [10, 15, 20, 25, 30];
    private static readonly double[][] Corrections;

    /// <summary>Temperature table.</summary>
    public static readonly Formula OivTemperature = new("OIV refractometer temperature table", "OIV-MA-AS2-02 Table I; 18, 19 and 21 °C from the 1936 international table, 22 °C and above from memory",
        SourceCheck.Read, "5 to 30 °C, 10 to 30 °Brix; only for an instrument without automatic compensation");

    /// <summary>Final gravity from two refractometer readings.</summary>
    public static readonly Formula TerrillCubic = new("Terrill cubic", "S. Terrill 2011, cubic correlation of refractometer readings, made on beer", SourceCheck.Read,
        "original 9 to 26 °Brix (SG 1.036 to 1.110), reading not above it; made on beer, a rough guide in wine");

    /// <summary>Final gravity from two refractometer readings, older.</summary>
    public static readonly Formula Bonham = new("Bonham cubic", "L. K. Bonham, The Use of Handheld Refractometers by Homebrewers, Zymurgy 24.1 (2001) 43", SourceCheck.Read,
        "original 9 to 26 °Brix, reading not above it; made on beer, a rough guide in wine");

    /// <summary>Strength from refractometer and hydrometer together.</summary>
    public static readonly Formula RogersonSymington = new("Rogerson and Symington relation", "F. Rogerson and C. Symington 2006, Am. J. Enol. Vitic. 57, 486 (abstract)", SourceCheck.Read,
        "fitted on 35 fortified wines (about 19 to 22 % vol); elsewhere between 0 and 25 % vol a rough guide");

    /// <summary>Original °Brix for which the beer correlations are taken.</summary>
    public static readonly ValidRange OriginalBrix = new(9, 26, "°Brix");

    static Refractometer()
    {
        PublishedTable table = PublishedTable.Open("table_refractometer_correction.csv");
        Temperatures = table.Numbers("t_c");
        Corrections = new double[table.Count][];
        for (int row = 0; row < table.Count; row++)
        {
            int at = row;
            Corrections[row] = [.. Columns.Select(c => table.Number(at, "brix_" + Show.Typed(c)))];
        }
    }

    /// <summary>°Brix to add to a reading at <paramref name="celsius"/>. NaN outside the table.</summary>
    public static double TemperatureCorrection(double brix, double celsius) => Interpolation.Bilinear(Temperatures, Columns, Corrections, celsius, brix);

    /// <summary>SG 20/20 now, from the original °Brix and the reading now, both temperature-corrected (Terrill 2011).</summary>
    public static double GravityByTerrill(double originalBrix, double readingBrix)
    {
        double i = originalBrix, f = readingBrix;
        return Paired(i, f)
            ? 1.0000 - (0.0044993 * i) + (0.011774 * f) + (0.00027581 * i * i) - (0.0012717 * f * f) - (0.00000728 * i * i * i) + (0.000063293 * f * f * f)
            : double.NaN;
    }

    /// <summary>SG 20/20 now, from the original °Brix and the reading now (Bonham 2001).</summary>
    public static double GravityByBonham(double originalBrix, double readingBrix)
    {
        double i = originalBrix, f = readingBrix;
        return Paired(i, f)
            ? 1.001843 - (0.002318474 * i) - (0.000007775 * i * i) - (0.000000034 * i * i * i) + (0.00574 * f) + (0.00003344 * f * f) + (0.000000086 * f * f * f)
            : double.NaN;
    }

    /// <summary>% vol from a refractometer's apparent °Brix and a hydrometer's gravity of the same sample, by apparent °Baumé with modulus 145.</summary>
    public static double AbvWithHydrometer(double readingBrix, double gravity)
    {
        double abv = (1.646 * readingBrix) - (2.703 * MustScales.BaumeFromGravity(gravity, MustScales.BaumeModulusUs)) - 1.794;
        return readingBrix is >= 0 and <= 40 && abv is >= 0 and <= 25 ? abv : double.NaN;
    }

    private static bool Paired(double original, double reading) => OriginalBrix.Contains(original) && reading >= 0 && reading <= original;
}
