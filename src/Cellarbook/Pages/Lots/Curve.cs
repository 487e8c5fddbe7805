using System.Globalization;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Pages.Lots;

/// <summary>A reading put on paper: across in per cent of the width, down in pixels, so that text keeps its size at any width.</summary>
public sealed record CurvePoint(string X, string Y, string Title);

/// <summary>Readings of one vessel, or of the whole lot.</summary>
public sealed record CurveLine(string? Vessel, IReadOnlyList<CurvePoint> Points);

/// <summary>One measure over time.</summary>
/// <param name="Title">What is measured.</param>
/// <param name="Height">Height in pixels.</param>
/// <param name="Axis">Figures beside the ruled lines, top to bottom, with their height in pixels.</param>
/// <param name="Lines">What was read.</param>
public sealed record CurvePanel(Sentence Title, int Height, IReadOnlyList<(string Text, string Y)> Axis, IReadOnlyList<CurveLine> Lines);

/// <summary>Gravity and temperature of a lot, drawn by the server, with the same in a sentence.</summary>
public sealed class Curve
{
    private const int Room = 12;

    private sealed record Point(double At, DateOnly Day, double Value, string Text, string Vessel);

    private Curve(IReadOnlyList<CurvePanel> panels, DateOnly first, DateOnly last, Sentence description) => (Panels, First, Last, Description) = (panels, first, last, description);

    /// <summary>Gravity, then temperature, as far as read.</summary>
    public IReadOnlyList<CurvePanel> Panels { get; }

    /// <summary>Left edge.</summary>
    public DateOnly First { get; }

    /// <summary>Right edge.</summary>
    public DateOnly Last { get; }

    /// <summary>What the curve shows, in words.</summary>
    public Sentence Description { get; }

    /// <summary>The curve of a passbook's readings; null when fewer than two gravities were read.</summary>
    public static Curve? Of(IEnumerable<PassbookLine> lines, Show show)
    {
        var (gravities, temperatures) = (new List<Point>(), new List<Point>());
        foreach (var line in lines)
        {
            if (line.Placed.IsStruck || line.Placed.Deed.Operation is not Measure measure) continue;
            var (day, vessel) = (line.Placed.Deed.Day, measure.Vessel ?? "");
            var at = day.DayNumber + (line.Placed.Deed.Time?.ToTimeSpan().TotalDays ?? 0.5);
            if (measure.Gravity is { } gravity) gravities.Add(new(at, day, gravity.Value, show.Reading(gravity.Text), vessel));
            else if (measure.Oechsle is { } oechsle) gravities.Add(new(at, day, 1 + oechsle.Value / 1000, show.Reading(oechsle.Text) + " °Oe", vessel));
            if (measure.Celsius is { } celsius) temperatures.Add(new(at, day, celsius.Value, show.Temperature(celsius.Text), vessel));
        }
        if (gravities.Count < 2) return null;
        var all = gravities.Concat(temperatures).ToArray();
        var (left, right) = (all.Min(point => point.At), all.Max(point => point.At));
        var panels = new List<CurvePanel> { Panel("Gravity", show, 190, gravities, left, right, [0.002, 0.005, 0.01, 0.02, 0.03, 0.04, 0.05, 0.1], 6, value => show.Mark(value.ToString("0.000", CultureInfo.InvariantCulture))) };
        if (temperatures.Count > 1) panels.Add(Panel("Temperature", show, 92, temperatures, left, right, [1, 2, 5, 10, 20, 40], 3, value => show.Temperature(value.ToString("0", CultureInfo.InvariantCulture))));
        return new(panels, all.Min(point => point.Day), all.Max(point => point.Day), Describe(gravities, temperatures, show));
    }

    private static CurvePanel Panel(Sentence title, Show show, int height, List<Point> points, double left, double right, double[] steps, int most, Func<double, string> write)
    {
        var (low, high) = (points.Min(point => point.Value), points.Max(point => point.Value));
        var (step, bottom, rulings) = (steps[^1], 0.0, most);
        foreach (var candidate in steps)
        {
            step = candidate;
            bottom = Math.Floor(low / step + 1e-9) * step;
            rulings = Math.Max(1, (int)Math.Ceiling((high - bottom) / step - 1e-9));
            if (rulings <= most) break;
        }
        string Y(double value) => (height - Room - (value - bottom) / (rulings * step) * (height - 2 * Room)).ToString("0.#", CultureInfo.InvariantCulture);
        string X(double at) => (right - left < 1e-9 ? 55 : 15 + 84 * (at - left) / (right - left)).ToString("0.##", CultureInfo.InvariantCulture) + "%";
        var axis = Enumerable.Range(0, rulings + 1).Reverse().Select(i => (write(bottom + i * step), Y(bottom + i * step))).ToArray();
        var lines = Overlap(points) ? points.GroupBy(point => point.Vessel).Select(group => (Vessel: (string?)group.Key, Points: group.AsEnumerable())) : [(null, points)];
        return new(title, height, axis, [.. lines.Select(line => new CurveLine(line.Vessel, [.. line.Points.OrderBy(point => point.At).Select(point => new CurvePoint(X(point.At), Y(point.Value), $"{point.Text}, {show.Day(point.Day)}{(line.Vessel is { Length: > 0 } vessel ? $", {vessel}" : "")}"))]))]);
    }

    /// <summary>True when readings of several vessels run side by side, so that one line would zigzag between them.</summary>
    private static bool Overlap(List<Point> points)
    {
        var spans = points.Where(point => point.Vessel.Length > 0).GroupBy(point => point.Vessel).Select(group => (From: group.Min(point => point.At), To: group.Max(point => point.At))).OrderBy(span => span.From).ToArray();
        for (var i = 1; i < spans.Length; i++)
            if (spans[i].From < spans[i - 1].To) return true;
        return false;
    }

    private static Sentence Describe(List<Point> gravities, List<Point> temperatures, Show show)
    {
        var (first, last) = (gravities[0], gravities[^1]);
        var way = last.Value.CompareTo(first.Value);
        var (from, to) = (show.Day(first.Day), show.Day(last.Day));
        var sentence = way == 0 ? Sentence.Of($"Gravity was {first.Text} on {from} and {last.Text} on {to}, {gravities.Count} readings.")
            : way < 0 ? (Sentence)$"Gravity fell from {first.Text} on {from} to {last.Text} on {to}, {gravities.Count} readings." : (Sentence)$"Gravity rose from {first.Text} on {from} to {last.Text} on {to}, {gravities.Count} readings.";
        if (temperatures.Count < 2) return sentence;
        var (coldest, warmest) = (temperatures.MinBy(point => point.Value)!, temperatures.MaxBy(point => point.Value)!);
        return $"{sentence} Temperature between {coldest.Text} and {warmest.Text}.";
    }
}
