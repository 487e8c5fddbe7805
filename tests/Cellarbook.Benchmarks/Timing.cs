using System.Diagnostics;

namespace Cellarbook.Benchmarks;

/// <summary>Repeats a piece of work and gives the median.</summary>
internal static class Timing
{
    /// <summary>Median milliseconds over so many runs, after one that doesn't count.</summary>
    public static double Median(int runs, Action work)
    {
        work();
        var times = new double[runs];
        for (var i = 0; i < runs; i++)
        {
            var watch = Stopwatch.StartNew();
            work();
            times[i] = watch.Elapsed.TotalMilliseconds;
        }
        Array.Sort(times);
        return times[runs / 2];
    }

    /// <summary>Milliseconds of one run, with what it gave.</summary>
    public static (double Milliseconds, T Result) Once<T>(Func<T> work)
    {
        var watch = Stopwatch.StartNew();
        var result = work();
        return (watch.Elapsed.TotalMilliseconds, result);
    }
}
