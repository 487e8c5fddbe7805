namespace Cellarbook.Core.Chemistry;

/// <summary>Volumes of simple vessels by inner measures in metres. Dished ends and legs: calibrate and keep a dip table.</summary>
public static class Tank
{
    /// <summary>Geometry.</summary>
    public static readonly Formula Geometry = new("Geometry of the vessel", "circle, circular segment, cone and cap; inner measures", SourceCheck.Derived, "flat ends, level vessel, depth from 0 to the full height");

    /// <summary>Dip tables.</summary>
    public static readonly Formula DipTable = new("Dip table", "the vessel's own calibration, straight lines between its rows", SourceCheck.Derived, "between the first and last dip of the table");

    /// <summary>Litres in an upright cylinder filled to a depth.</summary>
    public static double UprightLitres(double diameterMetres, double depthMetres) =>
        diameterMetres > 0 && depthMetres >= 0 ? 1000 * Math.PI * diameterMetres * diameterMetres / 4 * depthMetres : double.NaN;

    /// <summary>Litres in a lying cylinder with flat ends filled to a depth.</summary>
    public static double LyingLitres(double lengthMetres, double diameterMetres, double depthMetres) =>
        lengthMetres > 0 && diameterMetres > 0 && depthMetres >= 0 && depthMetres <= diameterMetres ? 1000 * lengthMetres * SegmentArea(diameterMetres / 2, depthMetres) : double.NaN;

    /// <summary>Litres in a full cone of that diameter and height.</summary>
    public static double ConeLitres(double diameterMetres, double heightMetres) =>
        diameterMetres > 0 && heightMetres >= 0 ? 1000 * Math.PI * diameterMetres * diameterMetres / 12 * heightMetres : double.NaN;

    /// <summary>Litres in a cap of that height cut from a sphere.</summary>
    public static double SphericalCapLitres(double sphereDiameterMetres, double heightMetres) =>
        sphereDiameterMetres > 0 && heightMetres >= 0 && heightMetres <= sphereDiameterMetres
            ? 1000 * Math.PI * heightMetres * heightMetres * ((1.5 * sphereDiameterMetres) - heightMetres) / 3
            : double.NaN;

    /// <summary>Depth in metres of so many litres in an upright cylinder.</summary>
    public static double UprightDepthMetres(double diameterMetres, double litres) =>
        diameterMetres > 0 && litres >= 0 ? litres / (1000 * Math.PI * diameterMetres * diameterMetres / 4) : double.NaN;

    /// <summary>Depth in metres of so many litres in a lying cylinder. NaN when it holds less.</summary>
    public static double LyingDepthMetres(double lengthMetres, double diameterMetres, double litres)
    {
        double full = LyingLitres(lengthMetres, diameterMetres, diameterMetres);
        return litres >= 0 && litres <= full ? Roots.Between(new LyingCurve(lengthMetres, diameterMetres, litres), 0, diameterMetres) : double.NaN;
    }

    /// <summary>Litres at a dip by the vessel's own table; dips rise. NaN outside the table.</summary>
    public static double DipTableLitres(ReadOnlySpan<double> dipsMetres, ReadOnlySpan<double> litres, double dipMetres) =>
        dipsMetres.Length >= 2 && dipsMetres.Length == litres.Length ? Interpolation.Linear(dipsMetres, litres, dipMetres) : double.NaN;

    /// <summary>Area in m² of the part of a circle below a level.</summary>
    internal static double SegmentArea(double radius, double depth)
    {
        double below = depth - radius;
        double cosine = Math.Clamp(-below / radius, -1, 1);

        // Near the bottom the two terms cancel; what rounding leaves below nothing is nothing.
        return Math.Max(0, (radius * radius * Math.Acos(cosine)) + (below * Math.Sqrt(Math.Max(0, (2 * radius * depth) - (depth * depth)))));
    }

    private readonly record struct LyingCurve(double Length, double Diameter, double Litres) : ICurve
    {
        public double At(double x) => (1000 * Length * SegmentArea(Diameter / 2, x)) - Litres;
    }
}
