namespace Cellarbook.Core.Chemistry;

/// <summary>Natural strength of must by the German statutory table. The table decides, and it serves that purpose only.</summary>
public static class GermanNaturalStrength
{
    private static readonly double[] OechsleColumn, AbvColumn;

    /// <summary>The method of this class.</summary>
    public static readonly Formula Table = new("German statutory must-weight table", "Weinverordnung s. 17 and Anlage 8 (BGBl. I 2009, 866)", SourceCheck.Read,
        "whole degrees 40 to 150 °Oe; for the natural strength in Germany only");

    static GermanNaturalStrength()
    {
        PublishedTable table = PublishedTable.Open("table_de_weinv_anlage8.csv");
        OechsleColumn = table.Numbers("oechsle");
        AbvColumn = table.Numbers("natural_abv_pct");
    }

    /// <summary>Natural % vol at a whole degree Oechsle. NaN between degrees and outside 40–150: the table has no such row.</summary>
    public static double Abv(double oechsle)
    {
        int row = OechsleColumn.AsSpan().BinarySearch(oechsle);
        return row >= 0 ? AbvColumn[row] : double.NaN;
    }
}
