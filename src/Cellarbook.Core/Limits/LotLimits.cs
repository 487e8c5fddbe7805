using Cellarbook.Core.Book;

namespace Cellarbook.Core.Limits;

/// <summary>A place held against the sets that apply to it.</summary>
/// <param name="Place">The place.</param>
/// <param name="Wine">It as judged.</param>
/// <param name="Sets">The verdicts by set.</param>
public sealed record PlaceLimits(Place Place, WineRecord Wine, IReadOnlyList<SetVerdict> Sets)
{
    /// <summary>All verdicts.</summary>
    public IEnumerable<Verdict> Verdicts => Sets.SelectMany(set => set.Verdicts);
}

/// <summary>A lot or a bottling held against the sets that apply to it: every place, and of each limit the worst place.</summary>
/// <param name="Name">The lot's or bottling's code.</param>
/// <param name="Sets">The sets it was held against.</param>
/// <param name="Places">Its places that hold wine or must.</param>
public sealed record LotLimits(string Name, IReadOnlyList<LimitSet> Sets, IReadOnlyList<PlaceLimits> Places)
{
    /// <summary>For each set, substance and basis the verdict of the worst place, in the order of the sets; with the place.</summary>
    public IReadOnlyList<(PlaceLimits Place, Verdict Verdict)> Worst =>
    [
        .. Places.SelectMany(place => place.Verdicts.Select(verdict => (Place: place, Verdict: verdict)))
            .GroupBy(pair => (pair.Verdict.Set.Code, pair.Verdict.Substance, pair.Verdict.Basis, pair.Verdict.Row?.With, Floor: pair.Verdict.Row?.Kind == LimitKind.Min, pair.Verdict.Row?.Scheme))
            .Select(group => group.OrderByDescending(pair => pair.Verdict.Kind).ThenBy(pair => pair.Verdict.Room?.Nanograms / Math.Max(1, pair.Place.Wine.Volume.Microlitres / 1000) ?? long.MaxValue).First()),
    ];

    /// <summary>The worst of all.</summary>
    public VerdictKind WorstKind => Worst.Count == 0 ? VerdictKind.Within : Worst.Max(pair => pair.Verdict.Kind);

    /// <summary>A lot, in must and in bulk.</summary>
    public static LotLimits OfLot(Cellar cellar, IReadOnlyList<LimitSet> sets, string lot, bool forRelease = false) => Of(lot, cellar.PlacesOfLot(lot), sets, forRelease);

    /// <summary>A bottling.</summary>
    public static LotLimits OfBottling(Cellar cellar, IReadOnlyList<LimitSet> sets, string bottling, bool forRelease = false) =>
        Of(bottling, cellar.ShelvesOfBottling(bottling).Select(cellar.At), sets, forRelease);

    private static LotLimits Of(string name, IEnumerable<Place> places, IReadOnlyList<LimitSet> sets, bool forRelease) =>
        Of(name, sets, [.. places.Select(place => (Place: place, Wine: WineOfPlace.Of(place))).Where(pair => pair.Wine is not null).Select(pair => new PlaceLimits(pair.Place, pair.Wine!, Judgement.Of(sets, pair.Wine!, forRelease)))]);

    private static LotLimits Of(string name, IReadOnlyList<LimitSet> sets, PlaceLimits[] places) => new(name, [.. sets.Concat(places.SelectMany(place => place.Wine.Packets)).Distinct()], places);
}
