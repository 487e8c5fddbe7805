using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Labels;

/// <summary>Which strengths a label may carry for a strength found by analysis.</summary>
public static class AlcoholStatement
{
    /// <summary>Strengths an EU label may carry: whole and half units within the tolerance.</summary>
    /// <param name="found">Found by analysis.</param>
    /// <param name="wide">True for the wine kinds with the wider tolerance: sparkling, liqueur, protected names kept in bottle more than three years.</param>
    public static IReadOnlyList<Strength> EuLabels(Strength found, bool wide = false)
    {
        int step = Hundredths(LabelRules.Find("EU", "abv_statement", "label step")), tolerance = Hundredths(LabelRules.Find("EU", "abv_statement", "tolerance", wide ? "PDO" : "general"));
        var labels = new List<Strength>();
        for (var label = Math.Max(0, found.Hundredths - tolerance + step - 1) / step * step; label <= found.Hundredths + tolerance; label += step) labels.Add(new(label));
        return labels;
    }

    /// <summary>True when a US label may carry a strength for the one found: within the tolerance, and on the same side of the class boundary.</summary>
    public static bool UsMayCarry(Strength label, Strength found)
    {
        var boundary = Hundredths(LabelRules.Find("US", "abv_statement", "class boundary"));
        var tolerance = Hundredths(LabelRules.Find("US", "abv_statement", "tolerance", label.Hundredths > boundary ? "above 14" : "14 % or less"));
        return Math.Abs(label.Hundredths - found.Hundredths) <= tolerance && (label.Hundredths > boundary) == (found.Hundredths > boundary);
    }

    private static int Hundredths(LabelRule rule) => (int)(rule.Number * 100);
}
