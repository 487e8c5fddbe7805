namespace Cellarbook.Core.Chemistry;

/// <summary>Straight lines between the rows of a table; NaN outside it.</summary>
internal static class Interpolation
{
    /// <summary>Value at <paramref name="x"/>; <paramref name="xs"/> must rise.</summary>
    public static double Linear(ReadOnlySpan<double> xs, ReadOnlySpan<double> ys, double x)
    {
        if (!(x >= xs[0] && x <= xs[^1]))
        {
            return double.NaN;
        }

        int above = xs.BinarySearch(x);
        if (above >= 0)
        {
            return ys[above];
        }

        above = ~above;
        double share = (x - xs[above - 1]) / (xs[above] - xs[above - 1]);
        return ys[above - 1] + (share * (ys[above] - ys[above - 1]));
    }

    /// <summary>Value in a grid of rows by <paramref name="ys"/> and columns by <paramref name="xs"/>, linear in both.</summary>
    public static double Bilinear(ReadOnlySpan<double> ys, ReadOnlySpan<double> xs, double[][] grid, double y, double x)
    {
        if (!(y >= ys[0] && y <= ys[^1]))
        {
            return double.NaN;
        }

        int above = ys.BinarySearch(y);
        if (above >= 0)
        {
            return Linear(xs, grid[above], x);
        }

        above = ~above;
        double share = (y - ys[above - 1]) / (ys[above] - ys[above - 1]);
        double low = Linear(xs, grid[above - 1], x), high = Linear(xs, grid[above], x);
        return low + (share * (high - low));
    }
}
