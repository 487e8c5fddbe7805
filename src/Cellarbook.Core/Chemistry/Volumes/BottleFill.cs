namespace Cellarbook.Core.Chemistry;

/// <summary>What a volume makes in bottles.</summary>
/// <param name="Bottles">Full bottles.</param>
/// <param name="RestLitres">What is left over.</param>
public readonly record struct FilledBottles(long Bottles, double RestLitres);

/// <summary>Bottles from a volume and the tolerated error of a fill.</summary>
public static class BottleFill
{
    private static readonly double[] Tops;
    private static readonly PublishedTable Bands = PublishedTable.Open("table_tolerable_negative_error.csv");
    private static readonly double[] Percents, Fixed;

    /// <summary>Counting.</summary>
    public static readonly Formula Count = new("Whole bottles of a volume", "division in whole microlitres, remainder kept", SourceCheck.Derived, "bottles of 5 mL to 30 L");

    /// <summary>Tolerance.</summary>
    public static readonly Formula Tolerance = new("Tolerable negative error of a fill", "Directive 76/211/EEC Annex I 2.4; the band above 1000 mL from memory", SourceCheck.Read,
        "nominal 5 to 10 000 mL at 20 °C; mean of a batch not below nominal, none below nominal less twice this");

    static BottleFill()
    {
        Tops = Bands.Numbers("nominal_ml_to");
        Percents = new double[Bands.Count];
        Fixed = new double[Bands.Count];
        for (int row = 0; row < Bands.Count; row++)
        {
            Percents[row] = Bands.Text(row, "percent").Length == 0 ? 0 : Bands.Number(row, "percent");
            Fixed[row] = Bands.Text(row, "ml").Length == 0 ? 0 : Bands.Number(row, "ml");
        }
    }

    /// <summary>Whole bottles and the rest. Both sizes are taken to the nearest microlitre. NaN rest outside the validity.</summary>
    public static FilledBottles FromVolume(double litres, double bottleMillilitres)
    {
        if (!(litres is >= 0 and <= 1e9) || !(bottleMillilitres is >= 5 and <= 30_000))
        {
            return new FilledBottles(0, double.NaN);
        }

        long all = (long)Math.Round(litres * 1e6), each = (long)Math.Round(bottleMillilitres * 1e3);
        return new FilledBottles(all / each, all % each / 1e6);
    }

    /// <summary>Tolerable negative error in mL. NaN outside 5–10 000 mL.</summary>
    public static double TolerableNegativeErrorMillilitres(double nominalMillilitres)
    {
        if (!(nominalMillilitres >= 5))
        {
            return double.NaN;
        }

        for (int band = 0; band < Tops.Length; band++)
        {
            if (nominalMillilitres <= Tops[band])
            {
                return Percents[band] > 0 ? nominalMillilitres * Percents[band] / 100 : Fixed[band];
            }
        }

        return double.NaN;
    }
}
