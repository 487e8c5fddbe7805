namespace Cellarbook.Core.Chemistry;

/// <summary>Casks by inner measures in metres: bilge diameter, head diameter, length between the heads.</summary>
public static class Cask
{
    private const int Points = 20;

    private static readonly double[] Nodes = new double[Points];
    private static readonly double[] Weights = new double[Points];

    /// <summary>Elliptic staves.</summary>
    public static readonly Formula Elliptic = new("Cask with elliptic staves", "solid of revolution V = πL/12 (2D² + d²) (Oughtred)", SourceCheck.Derived, "inner measures; head not wider than bilge");

    /// <summary>Parabolic staves.</summary>
    public static readonly Formula Parabolic = new("Cask with parabolic staves", "solid of revolution V = πL/60 (8D² + 4Dd + 3d²)", SourceCheck.Derived, "inner measures; head not wider than bilge");

    /// <summary>Partly filled, lying.</summary>
    public static readonly Formula Lying = new("Lying cask by circular segments", "integral of circular segments along the length, parabolic staves, bung up", SourceCheck.Derived, "inner measures; depth from 0 to the bilge diameter");

    /// <summary>Rod rule.</summary>
    public static readonly Formula Rod = new("Gauging rod rule", "V = 0.625 s³, s from the bung to the far chime (Kepler), from memory", SourceCheck.Remembered, "casks of usual shape; a quick check");

    static Cask()
    {
        // Gauss-Legendre nodes by Newton's method on the Legendre polynomial; 20 points do for the smooth pieces below.
        for (int i = 0; i < Points; i++)
        {
            double x = Math.Cos(Math.PI * (i + 0.75) / (Points + 0.5)), slope = 1;
            for (int step = 0; step < 50; step++)
            {
                double p0 = 1, p1 = x;
                for (int k = 2; k <= Points; k++)
                {
                    (p0, p1) = (p1, (((2 * k) - 1) * x * p1 / k) - ((k - 1) * p0 / k));
                }

                slope = Points * ((x * p1) - p0) / ((x * x) - 1);
                x -= p1 / slope;
            }

            Nodes[i] = x;
            Weights[i] = 2 / ((1 - (x * x)) * slope * slope);
        }
    }

    /// <summary>Litres of a full cask with elliptic staves.</summary>
    public static double EllipticLitres(double bilgeMetres, double headMetres, double lengthMetres) =>
        Valid(bilgeMetres, headMetres, lengthMetres) ? 1000 * Math.PI * lengthMetres / 12 * ((2 * bilgeMetres * bilgeMetres) + (headMetres * headMetres)) : double.NaN;

    /// <summary>Litres of a full cask with parabolic staves.</summary>
    public static double ParabolicLitres(double bilgeMetres, double headMetres, double lengthMetres) => Valid(bilgeMetres, headMetres, lengthMetres)
        ? 1000 * Math.PI * lengthMetres / 60 * ((8 * bilgeMetres * bilgeMetres) + (4 * bilgeMetres * headMetres) + (3 * headMetres * headMetres))
        : double.NaN;

    /// <summary>Litres by the rod rule.</summary>
    public static double RodLitres(double rodMetres) => rodMetres > 0 ? 1000 * 0.625 * rodMetres * rodMetres * rodMetres : double.NaN;

    /// <summary>Litres in a lying cask with parabolic staves filled to a depth at the bilge.</summary>
    public static double LyingLitres(double bilgeMetres, double headMetres, double lengthMetres, double depthMetres)
    {
        if (!Valid(bilgeMetres, headMetres, lengthMetres) || !(depthMetres >= 0 && depthMetres <= bilgeMetres))
        {
            return double.NaN;
        }

        // Where the level leaves the wood the cross-section turns from segment to full circle or to nothing: integrate each side of it alone.
        double level = depthMetres - (bilgeMetres / 2), half = lengthMetres / 2, narrowing = (bilgeMetres - headMetres) / 2;
        double edge = narrowing > 0 ? half * Math.Sqrt(Math.Clamp(((bilgeMetres / 2) - Math.Abs(level)) / narrowing, 0, 1)) : half;
        double sum = Piece(bilgeMetres, narrowing, half, level, 0, edge) + Piece(bilgeMetres, narrowing, half, level, edge, half);
        return 2000 * sum;
    }

    /// <summary>Depth in metres at the bilge of so many litres in a lying cask. NaN when it holds less.</summary>
    public static double LyingDepthMetres(double bilgeMetres, double headMetres, double lengthMetres, double litres) =>
        litres >= 0 && litres <= LyingLitres(bilgeMetres, headMetres, lengthMetres, bilgeMetres)
            ? Roots.Between(new DepthCurve(bilgeMetres, headMetres, lengthMetres, litres), 0, bilgeMetres)
            : double.NaN;

    private static double Piece(double bilge, double narrowing, double half, double level, double from, double to)
    {
        double sum = 0, centre = (from + to) / 2, reach = (to - from) / 2;
        if (reach <= 0)
        {
            return 0;
        }

        for (int i = 0; i < Points; i++)
        {
            double x = (centre + (reach * Nodes[i])) / half;
            double radius = (bilge / 2) - (narrowing * x * x);
            sum += Weights[i] * (level >= radius ? Math.PI * radius * radius : level <= -radius ? 0 : Tank.SegmentArea(radius, level + radius));
        }

        return sum * reach;
    }

    private static bool Valid(double bilge, double head, double length) => bilge > 0 && head > 0 && length > 0 && head <= bilge && bilge <= 10 && length <= 20;

    private readonly record struct DepthCurve(double Bilge, double Head, double Length, double Litres) : ICurve
    {
        public double At(double x) => LyingLitres(Bilge, Head, Length, x) - Litres;
    }
}
