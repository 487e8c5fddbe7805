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
        for (var i = 0; i < runs; i++) times[i] = Once(work);
        Array.Sort(times);
        return times[runs / 2];
    }

    /// <summary>Median milliseconds of each of two pieces of work, run in turns.</summary>
    public static (double One, double Other) Medians(int runs, Action one, Action other)
    {
        var (ones, others) = (new double[runs], new double[runs]);
        one();
        other();
        for (var i = 0; i < runs; i++) (ones[i], others[i]) = (Once(one), Once(other));
        Array.Sort(ones);
        Array.Sort(others);
        return (ones[runs / 2], others[runs / 2]);
    }

    /// <summary>Milliseconds of one run.</summary>
    public static double Once(Action work)
    {
        var watch = Stopwatch.StartNew();
        work();
        return watch.Elapsed.TotalMilliseconds;
    }

    /// <summary>Milliseconds of one run, with what it gave.</summary>
    public static (double Milliseconds, T Result) Once<T>(Func<T> work)
    {
        var watch = Stopwatch.StartNew();
        var result = work();
        return (watch.Elapsed.TotalMilliseconds, result);
    }
}
