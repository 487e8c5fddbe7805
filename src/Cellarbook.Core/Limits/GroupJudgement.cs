using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>The rows of one set, substance, basis and scheme held against a wine.</summary>
internal sealed class GroupJudgement(LimitSet set, Substance substance, LimitBasis basis, LimitRow[] rows, WineRecord wine, bool forRelease)
{
    public IEnumerable<Verdict> Verdicts()
    {
        var caps = rows.Where(row => row.With is null && (row.Kind == LimitKind.NoCap || (row.Kind is LimitKind.Max or LimitKind.Prohibited && row.IsCompared))).ToArray();
        // Figures of their own for must and for wine are two limits, not two readings of one.
        var apart = caps.Any(row => row.Stages == WineStages.Must) && caps.Any(row => row.Stages == WineStages.Wine);
        foreach (var side in apart ? caps.GroupBy(row => row.Stages) : caps.GroupBy(_ => WineStages.All))
            foreach (var verdict in Side(side)) yield return verdict;
        foreach (var verdict in Side(rows.Where(row => row.Kind == LimitKind.Min && row.IsCompared))) yield return verdict;
        // Rows that hold only together with another substance stand each for itself.
        foreach (var row in rows.Where(row => row.With is not null && row.IsCompared && row.Kind != LimitKind.Min))
            foreach (var verdict in Side([row])) yield return verdict;
    }

    private IEnumerable<Verdict> Side(IEnumerable<LimitRow> side)
    {
        var candidates = new List<(LimitRow Row, Speaks Speaks, List<Sentence> Missing)>();
        foreach (var row in side)
        {
            var missing = new List<Sentence>();
            var speaks = RowScope.Of(row, wine, missing);
            if (speaks != Speaks.No) candidates.Add((row, speaks, missing));
        }
        var inCase = candidates.Where(candidate => candidate.Row.Case.Length > 0 && wine.Cases.Contains(candidate.Row.Case)).ToList();
        var cases = candidates.Where(candidate => candidate.Row.Case.Length > 0).Select(candidate => candidate.Row.Case).Distinct().ToArray();
        if (inCase.Count > 0) candidates = inCase;
        else if (candidates.Any(candidate => candidate.Row.Case.Length == 0)) candidates.RemoveAll(candidate => candidate.Row.Case.Length > 0);
        else if (cases.Length > 0)
        {
            // Only rows for stated cases: if they are purposes, the wine may be within them all; otherwise nothing is allowed but in that case.
            foreach (var candidate in candidates) candidate.Missing.Add($"what it was for ({Sentence.Join(", ", cases.Select(LimitWords.Said))})");
            candidates = [.. candidates.Select(candidate => (candidate.Row, Speaks.Perhaps, candidate.Missing))];
            if (!cases.All(word => word.StartsWith("for-", StringComparison.Ordinal)))
            {
                if (Added().IsNil && basis == LimitBasis.AddedDose) yield break;
                yield return Against(candidates[0].Row) with { Kind = VerdictKind.CannotSay, Room = null, Missing = [$"the case: {LimitWords.Either([.. cases.Select(LimitWords.Said)])}"], Arithmetic = $"{substance.Said}: this set has a row only for {LimitWords.Either([.. cases.Select(LimitWords.Said)])}. State it of the lot if that is so." };
                yield break;
            }
        }
        candidates.RemoveAll(wide => candidates.Any(narrow => narrow.Speaks == Speaks.Yes && narrow.Row.Kind == wide.Row.Kind && narrow.Row.IsNarrowerThan(wide.Row)));
        if (candidates.Count == 0) yield break;

        var judged = candidates.OrderBy(candidate => candidate.Row.Number).Select(candidate => (candidate.Speaks, candidate.Missing, Verdict: Against(candidate.Row))).ToArray();
        if (judged.All(one => one.Speaks == Speaks.Yes))
        {
            yield return Worst(judged.Select(one => one.Verdict));
            yield break;
        }
        var unknown = judged.SelectMany(one => one.Missing).Distinct().ToArray();
        var kinds = judged.Select(one => one.Verdict.Kind).ToArray();
        var worst = Worst(judged.Select(one => one.Verdict));
        var covered = judged.Any(one => one.Speaks == Speaks.Yes) || judged.Aggregate(WineColours.None, (sum, one) => sum | one.Verdict.Row!.Colours) == WineColours.All;
        if (kinds.Contains(VerdictKind.Over) && !kinds.All(kind => kind == VerdictKind.Over))
        {
            var readings = Sentence.Join(" ", judged.Select(one => one.Verdict.Arithmetic).Distinct());
            yield return worst with { Kind = VerdictKind.CannotSay, Missing = unknown, Excess = null, Room = null, Stays = false, Arithmetic = $"It depends on this: {Sentence.List(unknown)}. {readings}" };
        }
        else if (!covered && worst.Kind != VerdictKind.Over) yield return worst with { Kind = VerdictKind.CannotSay, Missing = worst.Kind == VerdictKind.CannotSay ? [.. worst.Missing.Union(unknown)] : unknown, Arithmetic = $"The limit holds only for some wines, and this is not stated: {Sentence.List(unknown)}. {worst.Arithmetic}" };
        else yield return worst with { Missing = worst.Kind == VerdictKind.CannotSay ? [.. worst.Missing.Union(unknown)] : worst.Missing, Arithmetic = $"{worst.Arithmetic} So it is in any case, though this is not stated: {Sentence.List(unknown)}." };
    }

    // Worst kind first, then the least room, then the earlier row: the order of rows doesn't matter.
    private static Verdict Worst(IEnumerable<Verdict> verdicts) => verdicts
        .OrderByDescending(verdict => verdict.Kind).ThenBy(verdict => verdict.Room?.Nanograms ?? long.MaxValue).ThenByDescending(verdict => verdict.Excess?.NanogramsPerLitre ?? 0)
        .ThenBy(verdict => verdict.Row!.Source, StringComparer.Ordinal).ThenBy(verdict => verdict.Row!.Note, StringComparer.Ordinal).First();

    private SubstanceAmount Added() => wine.Substances.GetValueOrDefault(substance) is { } carried ? carried.AddedInMust + carried.AddedInWine : SubstanceAmount.None;

    private Verdict Against(LimitRow row)
    {
        var raised = row.Kind == LimitKind.Max && row.Value is { Unit: LimitUnit.PerLitre } value
            ? rows.Where(other => other.Kind == LimitKind.Increment && other.IsCompared && wine.Cases.Contains(other.Case) && RowScope.Of(other, wine, []) == Speaks.Yes && (other.BaseBelow is null || value.Amount < other.BaseBelow)).Sum(other => other.Value!.Amount)
            : 0;
        return new RowJudgement(set, substance, basis, row, wine, raised, forRelease).Verdict();
    }
}
