using System.Globalization;
using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Labels;

/// <summary>One rule about what a label says or a bottle holds.</summary>
/// <param name="Regime">EU, UK or US.</param>
/// <param name="Rule">What it is about, such as "average_quantity".</param>
/// <param name="Parameter">Which part of it.</param>
/// <param name="Value">Figure or word.</param>
/// <param name="Unit">Unit of the figure; empty for words.</param>
/// <param name="Condition">When it holds.</param>
/// <param name="Source">Where it is written.</param>
/// <param name="Seen">True if that text was read; false if from memory.</param>
/// <param name="Note">What else to know.</param>
public sealed record LabelRule(string Regime, string Rule, string Parameter, string Value, string Unit, string Condition, string Source, bool Seen, string Note)
{
    /// <summary>The figure.</summary>
    public decimal Number => decimal.Parse(Value, NumberStyles.Number, CultureInfo.InvariantCulture);
}

/// <summary>The label rules in seed/labels.</summary>
public static class LabelRules
{
    /// <summary>All of them in the order of the file.</summary>
    public static IReadOnlyList<LabelRule> All { get; } =
    [
        .. Seed.Rows("seed/labels/label_rules.csv")
            .Select(row => new LabelRule(row["regime"], row["rule"], row["parameter"], row["value"], row["unit"], row["condition"], row["source"], row["seen"] == "text", row["note"])),
    ];

    /// <summary>The first rule of that regime, subject and part.</summary>
    internal static LabelRule Find(string regime, string rule, string parameter, string condition = "") =>
        All.First(one => one.Regime == regime && one.Rule == rule && one.Parameter == parameter && one.Condition.Contains(condition, StringComparison.Ordinal));
}
