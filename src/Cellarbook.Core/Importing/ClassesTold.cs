using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Statements;

namespace Cellarbook.Core.Importing;

/// <summary>
/// Holds the classes that a file's account columns tell against those worked out: the from-class before the row, the to-class after its event.
/// </summary>
internal static class ClassesTold
{
    /// <param name="imported">The event.</param>
    /// <param name="effects">What the fold saw it do.</param>
    public static IEnumerable<Refusal> Check(Imported imported, IReadOnlyList<Effect> effects)
    {
        if (imported.Told is null) yield break;
        var after = StandingsAfter(effects);
        var rows = imported.Rows!.Select((row, i) => (Row: row, Told: imported.Told[i], Number: imported.RowNumbers?[i]))
            .Where(row => row.Row.Reverses is null && !Category.Of(row.Row.Category).MovesNothing).ToArray();
        var at = 0;
        Effect? restated = null;
        foreach (var effect in effects)
        {
            if (effect.Deed.TakesBack is not null) continue;
            if (effect.Kind == EffectKind.Restated) restated = effect;
            if (effect.Kind != EffectKind.Move) continue;
            if (at >= rows.Length) yield break;
            var (_, told, number) = rows[at++];
            var posting = effect.Deed.Postings[effect.Posting];
            var before = restated is { } whole && whole.Account == posting.From ? whole.Before : effect.Before;
            restated = null;
            if (posting.From.Section.IsWine() && Disagrees(told.From, before, "from_account", "before this row") is { } giving) yield return giving with { Row = number };
            if (posting.To.Section.IsWine() && Disagrees(told.To, after[posting.To], "to_account", "after this event") is { } receiving) yield return receiving with { Row = number };
        }
    }

    /// <summary>What each account that received stands at once the event is done, what lay there included.</summary>
    private static Dictionary<Account, Standing> StandingsAfter(IReadOnlyList<Effect> effects)
    {
        var after = new Dictionary<Account, Standing>();
        foreach (var effect in effects)
        {
            var account = effect.Kind == EffectKind.Move ? effect.Deed.Postings[effect.Posting].To : effect.Account!;
            if (effect.Kind != EffectKind.MetPart && account.Section.IsWine()) after[account] = effect.After;
        }
        return after;
    }

    private static Refusal? Disagrees(ToldAccount? told, Standing standing, string column, string when)
    {
        if (told is null || told.Class.Length == 0) return null;
        var worked = ClassScheme.Default.Of(standing);
        if (worked.Code == told.Class) return null;
        // A strength that was never stated can't contradict a class; only a kind can.
        if (standing.Strength is null && told.Kind == standing.Kind) return null;
        return new(RefusalCode.ClassDisagrees, column, $"The file says {told.Class}, but {when} it is {worked.Code} ({standing}). Check abv_pct, or the class.");
    }
}
