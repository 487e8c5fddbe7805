using System.Globalization;

namespace Cellarbook.Benchmarks;

/// <summary>The table that stands in DEVELOPERS.md.</summary>
internal sealed class Report
{
    private readonly List<(string What, string Measured, string Against, string Budget)> rows = [];

    /// <summary>Adds a row and shows it at once.</summary>
    public void Row(string what, string measured, string against, string budget)
    {
        rows.Add((what, measured, against, budget));
        Console.WriteLine($"{what}: {measured} ({against}; budget {budget})");
    }

    /// <summary>A time in words: "3.2 ms", "1.4 s".</summary>
    public static string Time(double milliseconds) => milliseconds switch
    {
        < 0.1 => string.Create(CultureInfo.InvariantCulture, $"{milliseconds * 1000:0.0} µs"),
        < 10 => string.Create(CultureInfo.InvariantCulture, $"{milliseconds:0.00} ms"),
        < 1000 => string.Create(CultureInfo.InvariantCulture, $"{milliseconds:0} ms"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{milliseconds / 1000:0.0} s"),
    };

    /// <summary>A ratio in words.</summary>
    public static string Ratio(double ratio) => string.Create(CultureInfo.InvariantCulture, $"{ratio:0.00} ×");

    /// <summary>The whole table as Markdown.</summary>
    public void Print()
    {
        Console.WriteLine();
        Console.WriteLine("| what | measured | against | budget |");
        Console.WriteLine("| --- | --- | --- | --- |");
        foreach (var (what, measured, against, budget) in rows) Console.WriteLine($"| {what} | {measured} | {against} | {budget} |");
    }
}
