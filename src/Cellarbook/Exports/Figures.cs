using Cellarbook.Core.Quantities;

namespace Cellarbook.Exports;

/// <summary>Typed figures as the decimal numbers that CSV and workbook hold, exactly.</summary>
internal static class Figures
{
    /// <summary>Litres without needless zeros.</summary>
    public static decimal Litres(Volume volume) => volume.Microlitres / 1_000_000m;

    /// <summary>Millilitres without needless zeros.</summary>
    public static decimal Millilitres(Volume volume) => volume.Microlitres / 1_000m;

    /// <summary>True when a volume is finer than a millilitre.</summary>
    public static bool IsFine(Volume volume) => volume.Microlitres % 1_000 != 0;
}
