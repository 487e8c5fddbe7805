namespace Cellarbook.Core.Limits;

/// <summary>How limits are spoken of.</summary>
public static class LimitSpeech
{
    /// <summary>What stands under every verdict.</summary>
    public const string Standing = "This is a help. The law in force and a qualified person decide.";

    /// <summary>A verdict in a word.</summary>
    public static string Word(VerdictKind kind) => kind switch { VerdictKind.Within => "within", VerdictKind.Near => "near", VerdictKind.Over => "over", _ => "cannot say" };

    /// <summary>A rule in words, with its set and source.</summary>
    public static string Note(LimitSet set, LimitRow row) => $"{set.Name}, {string.Join(", ", row.Substances.Select(substance => substance.Name))}: {Figure(row)}{row.Note} ({row.Source}{(row.Seen ? "" : ", from memory")})";

    /// <summary>What a row limits to, in words.</summary>
    public static string Says(LimitRow row) => row.Kind switch
    {
        LimitKind.Max => $"at most {row.Value!.Text}{(row.PerTreatment ? " a treatment" : "")}",
        LimitKind.Min => $"at least {row.Value!.Text}",
        LimitKind.Increment => $"{row.Value!.Text} more",
        LimitKind.Prohibited => "barred",
        LimitKind.NoCap => "allowed, no number",
        _ => "a rule in words",
    };

    /// <summary>For which wine a row holds, in words; empty for any.</summary>
    public static string Scope(LimitRow row)
    {
        var parts = new List<string>();
        if (row.Colours != WineColours.All) parts.Add(string.Join(" and ", LimitWords.Colours.Where(pair => row.Colours.HasFlag(pair.Value)).Select(pair => pair.Key == "rose" ? "rosé" : pair.Key)));
        if (row.Products != WineProducts.All) parts.Add(string.Join(", ", LimitWords.Products.Where(pair => row.Products.HasFlag(pair.Value)).Select(pair => pair.Key)));
        if (row.Sugar is { } sugar) parts.Add($"sugar {sugar.Text} g/L");
        if (row.Strength is { } strength) parts.Add($"strength {strength.Text} % vol");
        if (row.Stages != WineStages.All) parts.Add(row.Stages == WineStages.Must ? "in must" : "in wine");
        if (row.Scheme.Length > 0) parts.Add($"scheme {row.Scheme}");
        if (row.Case.Length > 0) parts.Add($"case {row.Case}");
        if (row.Zones.Count > 0) parts.Add($"zone {string.Join(", ", row.Zones)}");
        if (row.HarvestFrom is not null || row.HarvestTo is not null) parts.Add($"harvest {row.HarvestFrom}–{row.HarvestTo}");
        if (row.From is { } from) parts.Add($"from {from:yyyy-MM-dd}");
        if (row.To is { } to) parts.Add($"until {to:yyyy-MM-dd}");
        if (row.With is { } with) parts.Add($"together with {with.Name}");
        return string.Join("; ", parts);
    }

    private static string Figure(LimitRow row) => row.Value is { } value ? value.Text + "; " : "";
}
