namespace Cellarbook.Core.Limits;

/// <summary>How limits are spoken of.</summary>
public static class LimitSpeech
{
    /// <summary>What stands under every verdict.</summary>
    public const string Standing = "This is a help. The law in force and a qualified person decide.";

    /// <summary>A verdict in a word.</summary>
    public static string Word(VerdictKind kind) => kind switch { VerdictKind.Within => "within", VerdictKind.Near => "near", VerdictKind.Over => "over", _ => "cannot say" };

    /// <summary>A rule in words, with its set and source.</summary>
    public static Sentence Note(LimitSet set, LimitRow row)
    {
        Sentence about = $"{Sentence.Seed(set.Name)}, {Sentence.Join(", ", row.Substances.Select(substance => substance.Said))}";
        Sentence rule = row.Value is { } value ? $"{value.Said}; {Sentence.Seed(row.Note)}" : Sentence.Seed(row.Note);
        return row.Seen ? $"{about}: {rule} ({row.Source})" : (Sentence)$"{about}: {rule} ({row.Source}, from memory)";
    }

    /// <summary>What a row limits to, in words.</summary>
    public static Sentence Says(LimitRow row) => row.Kind switch
    {
        LimitKind.Max => row.PerTreatment ? (Sentence)$"at most {row.Value!.Said} a treatment" : (Sentence)$"at most {row.Value!.Said}",
        LimitKind.Min => (Sentence)$"at least {row.Value!.Said}",
        LimitKind.Increment => (Sentence)$"{row.Value!.Said} more",
        LimitKind.Prohibited => "barred",
        LimitKind.NoCap => "allowed, no number",
        _ => "a rule in words",
    };

    /// <summary>For which wine a row holds, in words; empty for any.</summary>
    public static Sentence Scope(LimitRow row)
    {
        var parts = new List<Sentence>();
        if (row.Colours != WineColours.All) parts.Add(Sentence.List([.. LimitWords.Colours.Where(pair => row.Colours.HasFlag(pair.Value)).Select(pair => LimitWords.Said(pair.Key))]));
        if (row.Products != WineProducts.All) parts.Add(Sentence.Join(", ", LimitWords.Products.Where(pair => row.Products.HasFlag(pair.Value)).Select(pair => LimitWords.Said(pair.Key))));
        if (row.Sugar is { } sugar) parts.Add($"sugar {sugar.Text:figure} g/L");
        if (row.Strength is { } strength) parts.Add($"strength {strength.Text:figure} % vol");
        if (row.Stages != WineStages.All) parts.Add(row.Stages == WineStages.Must ? "in must" : "in wine");
        if (row.Scheme.Length > 0) parts.Add($"scheme: {LimitWords.Said(row.Scheme)}");
        if (row.Case.Length > 0) parts.Add($"case: {LimitWords.Said(row.Case)}");
        if (row.Zones.Count > 0) parts.Add($"zone {string.Join(", ", row.Zones)}");
        if (row.HarvestFrom is not null || row.HarvestTo is not null) parts.Add($"harvest {row.HarvestFrom}–{row.HarvestTo}");
        if (row.From is { } from) parts.Add($"from {from:yyyy-MM-dd}");
        if (row.To is { } to) parts.Add($"until {to:yyyy-MM-dd}");
        if (row.With is { } with) parts.Add($"together with {with.Said}");
        return Sentence.Join("; ", parts);
    }
}
