using System.Globalization;
using System.Text.RegularExpressions;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Labels;

/// <summary>How a bottle's fill stands to its nominal volume.</summary>
public enum Fill
{
    /// <summary>Within the tolerable error.</summary>
    Passes,
    /// <summary>Short by more than the tolerable error: only a small share of a batch may be.</summary>
    Defective,
    /// <summary>Short by more than twice: may not be sold.</summary>
    NotSaleable,
}

/// <summary>Fill of prepacked bottles by the average system of the EU and UK.</summary>
public static partial class FillTolerance
{
    /// <summary>The tolerable negative error; a percentage is rounded up to the next 0.1 mL.</summary>
    /// <param name="nominal">5 mL to 50 L; null outside.</param>
    public static Volume? TolerableError(Volume nominal)
    {
        foreach (var rule in LabelRules.All.Where(rule => rule is { Regime: "EU", Rule: "average_quantity", Parameter: "tolerable negative error" }))
        {
            var bounds = Range().Match(rule.Condition);
            Volume from = Volume.OfMillilitres(Whole(bounds.Groups[1])), to = Volume.OfMillilitres(Whole(bounds.Groups[2]));
            if (nominal < from || nominal > to) continue;
            if (rule.Unit == "mL") return new((long)(rule.Number * 1_000m));
            var error = rule.Number * nominal.Microlitres / 100m;
            return new((long)decimal.Ceiling(error / 100m) * 100);
        }
        return null;
    }

    /// <summary>How a fill stands; null where there is no rule for the size.</summary>
    public static Fill? Judge(Volume nominal, Volume found)
    {
        if (TolerableError(nominal) is not { } error) return null;
        var shortBy = nominal - found;
        return shortBy > error + error ? Fill.NotSaleable : shortBy > error ? Fill.Defective : Fill.Passes;
    }

    private static long Whole(Group group) => long.Parse(group.Value, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"nominal (\d+) to (\d+)")]
    private static partial Regex Range();
}
