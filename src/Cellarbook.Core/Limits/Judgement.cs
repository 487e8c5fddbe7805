using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>
/// Holds a wine against limit sets. Whole numbers, compared by multiplying out; equality passes. The same rows in another order give the same
/// verdicts.
/// </summary>
public static class Judgement
{
    /// <summary>The wine against a set.</summary>
    /// <param name="set">The set.</param>
    /// <param name="wine">The wine as it lies in one place; its volume is above nil.</param>
    /// <param name="forRelease">True when it is to go out: what has to be measured then can't be judged by additions.</param>
    public static SetVerdict Of(LimitSet set, WineRecord wine, bool forRelease = false)
    {
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(wine.Volume.Microlitres, 0);
        if (!wine.IsOfGrapes && set.IsOfGrapesOnly) return new(set, [], [], []);
        var verdicts = new List<Verdict>();
        var notes = new List<LimitRow>();
        var notMeasured = new List<Substance>();
        foreach (var group in set.Groups)
        {
            var (substance, basis) = (group.Substance, group.Basis);
            var carried = wine.Substances.GetValueOrDefault(substance);
            if (carried is not null || substance.Role == "practice")
                notes.AddRange(group.Rows.Where(row => !row.IsCompared && !RuleJudgement.Judges(set, row) && row.Kind != LimitKind.NoCap && RowScope.Of(row, wine, []) != Speaks.No && (row.Case.Length == 0 || wine.Cases.Contains(row.Case))));
            if (IsSpokenOf(substance, basis, carried, wine))
                foreach (var scheme in group.ByScheme) verdicts.AddRange(new GroupJudgement(set, substance, basis, scheme, wine, forRelease).Verdicts());
            else if (group.AsksMeasurement) notMeasured.Add(substance);
        }
        verdicts.AddRange(RuleJudgement.Of(set, wine));
        verdicts.AddRange(Unnamed(set, wine));
        return new(set, verdicts, [.. notes.Distinct()], [.. notMeasured.Distinct()]);
    }

    /// <summary>The wine against several sets, and what the packets allow that are in it.</summary>
    public static IReadOnlyList<SetVerdict> Of(IEnumerable<LimitSet> sets, WineRecord wine, bool forRelease = false) => [.. sets.Concat(wine.Packets).Select(set => Of(set, wine, forRelease))];

    // A substance that was neither added nor measured gets no verdict, unless the book has a reading of its own for its level.
    private static bool IsSpokenOf(Substance substance, LimitBasis basis, SubstanceRecord? carried, WineRecord wine) =>
        carried is not null || wine.Levels.ContainsKey(substance) || substance.Code == "strength" || (basis != LimitBasis.AddedDose && substance.Reading.Length > 0);

    // What was added and no row of the set speaks of, itself or as what it counts towards.
    private static IEnumerable<Verdict> Unnamed(LimitSet set, WineRecord wine)
    {
        if (set.Kind is not ("law" or "recommendation")) yield break;
        foreach (var carried in wine.Substances.Values.OrderBy(carried => carried.Substance.Code, StringComparer.Ordinal))
        {
            var substance = carried.Substance;
            if (substance.Role is "measure" or "practice" or "product" or "sugar" or "water" || substance.Code is "yan" or "thiamine" or "ammonium-salts" or "plant-proteins" or "so2" or "sorbic-acid" or "acidification-tartaric" or "deacidification-tartaric") continue;
            if (!carried.AddedInMust.IsPositive && !carried.AddedInWine.IsPositive && !carried.HasUnstated) continue;
            var rows = set.BySubstance[substance].Concat(substance.Towards.SelectMany(towards => set.BySubstance[towards.Other])).Where(row => RowScope.Of(row, wine, []) != Speaks.No).ToArray();
            var stages = rows.Aggregate(WineStages.None, (sum, row) => sum | row.Stages);
            var added = (carried.AddedInMust.IsPositive ? WineStages.Must : WineStages.None) | (carried.AddedInWine.IsPositive ? WineStages.Wine : WineStages.None);
            if (rows.Length > 0 && (added & ~stages) == 0) continue;
            Sentence what = rows.Length == 0 ? substance.Said : stages == WineStages.Wine ? (Sentence)$"{substance.Said} in must" : (Sentence)$"{substance.Said} in wine";
            yield return new Verdict
            {
                Set = set, Substance = substance, Basis = LimitBasis.AddedDose, Kind = VerdictKind.CannotSay, Missing = [$"a row for {what}"],
                Arithmetic = set.IsClosed ? (Sentence)$"There is no row in this set for {what}, which was added. Its list is closed: what it doesn't name is barred. Look it up." : (Sentence)$"There is no row in this set for {what}, which was added.",
            };
        }
    }
}
