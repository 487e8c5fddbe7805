using Cellarbook.Core.Book;

namespace Cellarbook.Core.Limits;

/// <summary>What is over a limit in the whole cellar.</summary>
public static class OverLimits
{
    /// <summary>Every limit that wine or must of a cellar is over, by place: lots first, then bottlings.</summary>
    /// <param name="cellar">The cellar at some moment.</param>
    /// <param name="sets">The sets in force.</param>
    public static IReadOnlyList<(Place Place, Verdict Verdict)> In(Cellar cellar, IReadOnlyList<LimitSet> sets)
    {
        var found = new List<(Place, Verdict)>();
        foreach (var place in cellar.Places.Where(place => Speaks(place) && IsHeld(place, sets)).OrderBy(place => place.Account.Section).ThenBy(place => place.Account.Name, StringComparer.Ordinal).ThenBy(place => place.Account.Place, StringComparer.Ordinal))
            found.AddRange(Of(place, sets).Select(verdict => (place, verdict)));
        return found;
    }

    /// <summary>The limits that one place is over.</summary>
    public static IEnumerable<Verdict> Of(Place place, IReadOnlyList<LimitSet> sets) =>
        IsHeld(place, sets) && Speaks(place) && WineOfPlace.Of(place) is { } wine ? Judgement.Of(sets, wine).SelectMany(set => set.Verdicts).Where(verdict => verdict.Kind == VerdictKind.Over) : [];

    /// <summary>A sentence for each lot and bottling that is over a limit at the end of a day; for statements.</summary>
    public static IEnumerable<Sentence> Notes(Book.Book book, DateOnly day)
    {
        var sets = book.LimitsInForce(day);
        if (!book.Now.Places.Any(place => place.Carried is not null || (Speaks(place) && !place.IsEmpty))) yield break;
        foreach (var group in In(book.AsOf(day), sets).GroupBy(pair => (pair.Place.Account.Section, pair.Place.Account.Name, pair.Verdict.Set.Code, pair.Verdict.Substance, pair.Verdict.Basis)))
            yield return group.First().Place.Account.Section == Section.Bottled
                ? (Sentence)$"Bottling {group.Key.Name} is over a limit ({Sentence.Seed(group.First().Verdict.Set.Name)}): {group.First().Verdict.Substance.Said}, {group.First().Verdict.Arithmetic}"
                : (Sentence)$"Lot {group.Key.Name} is over a limit ({Sentence.Seed(group.First().Verdict.Set.Name)}): {group.First().Verdict.Substance.Said}, {group.First().Verdict.Arithmetic}";
    }

    private static bool IsHeld(Place place, IReadOnlyList<LimitSet> sets) => sets.Count > 0 || !place.Notes.Packets.IsEmpty;

    private static bool Speaks(Place place) => place.Carried is not null || (!place.Notes.Readings.IsEmpty && place.Volume.IsPositive);
}
