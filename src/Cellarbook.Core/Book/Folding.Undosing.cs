using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>One entry's doses told apart from all others while the book is folded anew, to find where the wine carried them.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Never">Entries that were taken back already, whose doses don't count.</param>
internal sealed record Apart(long Entry, IReadOnlySet<long> Never)
{
    private readonly Dictionary<Substance, Substance> standIns = [];

    /// <summary>What stands for a substance as far as this entry brought it.</summary>
    public Substance StandIn(Substance real)
    {
        if (!standIns.TryGetValue(real, out var standIn)) standIns.Add(real, standIn = real with { Code = "apart." + real.Code });
        return standIn;
    }

    /// <summary>The substances it brought, each with what stands for it.</summary>
    public IEnumerable<(Substance Real, Substance StandIn)> Brought => standIns.Select(pair => (pair.Key, pair.Value));
}

/// <summary>Where the doses lie that a take-back takes out, and how everything would be had they never gone in.</summary>
internal sealed record Undosed(Apart Apart, Cellar Cellar)
{
    /// <summary>What of a substance the entry brought and lies in a place or went from one.</summary>
    public static (SubstanceAmount InMust, SubstanceAmount InWine) Of(Carried? carried, Substance standIn) => carried?.Of(standIn) is { } dose ? (dose.AddedInMust, dose.AddedInWine) : default;
}

/// <summary>How doses are taken out again: wherever the wine carried them, out of what left the cellar too (law 7).</summary>
internal sealed partial class Folding
{
    /// <summary>Tells one entry's doses apart; else null.</summary>
    public Apart? Apart { get; init; }

    /// <summary>Finds where the doses lie that a deed takes back; null while that is being found out, or something is traced.</summary>
    public Func<Deed, Undosed>? Undosing { get; init; }

    private void Undose(Deed deed)
    {
        if (Undosing is null || !Book.IsUndosing(deed)) return;
        var undosed = Undosing(deed);
        foreach (var (real, standIn) in undosed.Apart.Brought) TakeOut(undosed, real, standIn, deed.Day);
        // The highest doses follow from how it would be, also where the wine carried less than a nanogram of it.
        foreach (var place in cellar.Places.Where(place => place.Carried is not null).ToArray())
            if (place.Carried!.NoHigherThan(undosed.Cellar.At(place.Account).Carried) is var carried && !ReferenceEquals(carried, place.Carried)) cellar.Put(place with { Carried = carried, LastDay = deed.Day });
        foreach (var (counter, name, gone) in cellar.GonePairs.Where(pair => pair.Gone.Carried is not null).ToArray())
            if (gone.Carried!.NoHigherThan(undosed.Cellar.GoneTo(counter, name)?.Carried) is var carried && !ReferenceEquals(carried, gone.Carried)) cellar.Put(counter, name, gone with { Carried = carried });
    }

    // Last nanograms go by names, so that the same book is the same however it was folded.
    private static Place[] InOrder(IEnumerable<Place> places) => [.. places.OrderBy(place => place.Account.ToString(), StringComparer.Ordinal)];

    private static (string Counter, string Name, Gone Gone)[] InOrder(IEnumerable<(string Counter, string Name, Gone Gone)> gone) =>
        [.. gone.OrderBy(pair => pair.Counter, StringComparer.Ordinal).ThenBy(pair => pair.Name, StringComparer.Ordinal)];

    private void TakeOut(Undosed undosed, Substance real, Substance standIn, DateOnly day)
    {
        // Splits round each for themselves: a few nanograms that one place lacks are taken where there are more.
        var (mustLeft, wineLeft) = (SubstanceAmount.None, SubstanceAmount.None);
        foreach (var place in InOrder(undosed.Cellar.Places.Where(place => place.Carried?.Of(standIn) is not null)))
        {
            var here = cellar.At(place.Account);
            if (Taken(here.Carried, place.Carried, out var carried)) cellar.Put(here with { Carried = carried, LastDay = day });
        }
        foreach (var (counter, name, gone) in InOrder(undosed.Cellar.GonePairs.Where(pair => pair.Gone.Carried?.Of(standIn) is not null)))
            if (cellar.GoneTo(counter, name) is { } there && Taken(there.Carried, gone.Carried, out var carried)) cellar.Put(counter, name, there with { Carried = carried });
        foreach (var place in InOrder(cellar.Places.Where(place => place.Carried?.Of(real) is not null)))
        {
            if (mustLeft.IsNil && wineLeft.IsNil) return;
            if (Rest(cellar.At(place.Account).Carried, out var carried)) cellar.Put(cellar.At(place.Account) with { Carried = carried });
        }
        foreach (var (counter, name, gone) in InOrder(cellar.GonePairs.Where(pair => pair.Gone.Carried?.Of(real) is not null)))
        {
            if (mustLeft.IsNil && wineLeft.IsNil) return;
            if (Rest(gone.Carried, out var carried)) cellar.Put(counter, name, gone with { Carried = carried });
        }

        bool Taken(Carried? current, Carried? told, out Carried? carried)
        {
            var (must, wine) = Undosed.Of(told, standIn);
            carried = current;
            if (current?.Of(real) is not { } dose)
            {
                (mustLeft, wineLeft) = (mustLeft + must, wineLeft + wine);
                return false;
            }
            var (fromMust, fromWine) = (CarriedDose.Least(must, dose.AddedInMust), CarriedDose.Least(wine, dose.AddedInWine));
            (mustLeft, wineLeft) = (mustLeft + must - fromMust, wineLeft + wine - fromWine);
            carried = current.Having(dose.Without(fromMust, fromWine, told?.Of(real)));
            return true;
        }

        bool Rest(Carried? current, out Carried? carried)
        {
            var dose = current!.Of(real)!;
            var (fromMust, fromWine) = (CarriedDose.Least(mustLeft, dose.AddedInMust), CarriedDose.Least(wineLeft, dose.AddedInWine));
            (mustLeft, wineLeft) = (mustLeft - fromMust, wineLeft - fromWine);
            carried = current.Having(dose with { AddedInMust = dose.AddedInMust - fromMust, AddedInWine = dose.AddedInWine - fromWine, Standing = dose.Analyses.IsEmpty ? dose.Standing - fromMust - fromWine : dose.Standing });
            return !fromMust.IsNil || !fromWine.IsNil;
        }
    }
}
