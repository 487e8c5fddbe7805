using Cellarbook.Core.Book;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Noticing;

/// <summary>What may stand out, the most pressing first.</summary>
public enum Standout
{
    /// <summary>It is over a limit that it answers to.</summary>
    OverLimit,
    /// <summary>A measurement no longer agrees with the entries before it.</summary>
    NoLongerAgrees,
    /// <summary>The gravity stands still and sugar is likely left.</summary>
    StoodStill,
    /// <summary>A ferment has little room for its foam.</summary>
    NearlyFull,
    /// <summary>Must that has long been still and dry was never declared wine.</summary>
    NeverDeclared,
    /// <summary>The gravity stands still and dry: the ferment looks over.</summary>
    LooksOver,
    /// <summary>A ferment that nobody has read for days.</summary>
    NotRead,
    /// <summary>Wine with much empty room above it.</summary>
    Headspace,
    /// <summary>Wine that nobody has touched for weeks.</summary>
    NotTouched,
    /// <summary>Wine whose strength nobody has stated.</summary>
    StrengthUnstated,
    /// <summary>Material in store after its best-before day.</summary>
    OutOfDate,
    /// <summary>Of a material in use little or nothing is left.</summary>
    LowStock,
    /// <summary>A vessel in use whose capacity nobody knows.</summary>
    CapacityUnknown,
}

/// <summary>One thing that stands out, with the figures to say it in a sentence.</summary>
public sealed record Finding(Standout What)
{
    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel, or "unplaced".</summary>
    public string? Vessel { get; init; }

    /// <summary>The bottling, and the size of its bottles.</summary>
    public (string Code, Volume Size)? Bottling { get; init; }

    /// <summary>The gravity last read.</summary>
    public GravityRead? Read { get; init; }

    /// <summary>Days it has lasted.</summary>
    public int Days { get; init; }

    /// <summary>What is there.</summary>
    public Volume Volume { get; init; }

    /// <summary>What the vessel holds when full.</summary>
    public Volume? Capacity { get; init; }

    /// <summary>How many vessels it is about: several, where so many are of unknown capacity that the first stands for all.</summary>
    public int Vessels { get; init; } = 1;

    /// <summary>How many more limits it is over.</summary>
    public int MoreLimits { get; init; }

    /// <summary>The limit it is over.</summary>
    public Limits.Verdict? Over { get; init; }

    /// <summary>The delivery in store; for a low stock the newest one.</summary>
    public Stores.StoreLine? Store { get; init; }

    /// <summary>The measurement that no longer agrees.</summary>
    public Disagreement? Disagreement { get; init; }
}

/// <summary>
/// What a maker should look at, across all lots: a pure reading of the book as it stands on a day. Nothing here is stored or decided for anybody.
/// </summary>
public static class StandsOut
{
    /// <summary>More vessels of unknown capacity than this are said once.</summary>
    private const int Few = 3;

    /// <summary>The most pressing first.</summary>
    public static readonly Comparer<Finding> Pressing = Comparer<Finding>.Create((one, other) =>
    {
        var order = (int)one.What - (int)other.What;
        if (order == 0) order = other.Days.CompareTo(one.Days);
        if (order == 0) order = string.CompareOrdinal(one.Lot, other.Lot);
        if (order == 0) order = string.CompareOrdinal(one.Vessel, other.Vessel);
        if (order == 0) order = string.CompareOrdinal(one.Store?.Material.Code, other.Store?.Material.Code);
        return order != 0 ? order : string.CompareOrdinal(one.Store?.Place.Account.Place, other.Store?.Place.Account.Place);
    });

    /// <summary>Everything that stands out, in no order: of ten thousand findings a page says forty, see <see cref="Pressing"/>.</summary>
    /// <param name="book">The book.</param>
    /// <param name="index">Its index.</param>
    /// <param name="today">The day it is looked at.</param>
    /// <param name="habits">When something stands out.</param>
    public static IReadOnlyList<Finding> Find(Book.Book book, EntryIndex index, DateOnly today, Habits habits)
    {
        var found = Of(book, index, book.Now.Places, today, habits);
        CapacityUnknown(book, found);
        found.AddRange(book.Disagreements.Select(disagreement => Disagrees(book, disagreement)));
        Stock(book, today, habits, found);
        var over = Limits.OverLimits.In(book.Now, book.LimitsInForce(today));
        // The first limit and its worst place stand for a lot or bottling; of the others it is said how many there are.
        foreach (var of in over.GroupBy(pair => (pair.Place.Account.Name, IsBottled: pair.Place.Account.Section == Section.Bottled)))
        {
            var limits = of.GroupBy(pair => (pair.Verdict.Set.Code, pair.Verdict.Substance, pair.Verdict.Basis)).ToArray();
            var worst = limits[0].MaxBy(pair => pair.Verdict.Excess?.NanogramsPerLitre ?? long.MaxValue);
            found.Add(IsOver(worst.Place, worst.Verdict) with { MoreLimits = limits.Length - 1 });
        }
        return found;
    }

    /// <summary>What stands out of one lot, in no order.</summary>
    public static IReadOnlyList<Finding> Of(Book.Book book, EntryIndex index, string lot, DateOnly today, Habits habits)
    {
        var found = Of(book, index, book.Now.PlacesOfLot(lot), today, habits);
        var sets = book.LimitsInForce(today);
        found.AddRange(book.Now.PlacesOfLot(lot).SelectMany(place => Limits.OverLimits.Of(place, sets).Select(verdict => IsOver(place, verdict))));
        found.AddRange(book.Disagreements.Where(disagreement => disagreement.Account.Name == lot && disagreement.Account.Section is Section.Must or Section.Bulk).Select(disagreement => Disagrees(book, disagreement)));
        return found;
    }

    private static List<Finding> Of(Book.Book book, EntryIndex index, IEnumerable<Place> places, DateOnly today, Habits habits)
    {
        var found = new List<Finding>();
        foreach (var place in places)
        {
            if (place.IsEmpty) continue;
            if (place.Account.Section == Section.Must) Must(book, index, place, today, habits, found);
            else if (place.Account.Section == Section.Bulk) Wine(book, place, today, habits, found);
        }
        return found;
    }

    private static void Must(Book.Book book, EntryIndex index, Place place, DateOnly today, Habits habits, List<Finding> found)
    {
        var (lot, vessel) = (place.Account.Name, place.Account.Place);
        var run = GravityRun.Of(book, index, place, habits);
        var unread = today.DayNumber - (run.Last?.Day ?? place.FirstDay).DayNumber;
        var still = run.IsSteady(habits) ? today.DayNumber - run.SteadySince!.Day.DayNumber : 0;
        if (run.IsSteady(habits) && run.IsDry(habits))
            found.Add(still >= habits.UndeclaredDays ? Is(Standout.NeverDeclared, still) : Is(Standout.LooksOver, run.SteadyDays));
        else if (run.IsSteady(habits)) found.Add(Is(Standout.StoodStill, run.SteadyDays));
        else if (unread >= habits.ReadEveryDays) found.Add(Is(Standout.NotRead, unread));
        if (Capacity(book, place) is { } capacity && !run.IsSteady(habits) && Percent(capacity - place.Volume, capacity) < habits.FoamRoomPercent)
            found.Add(Is(Standout.NearlyFull, 0) with { Capacity = capacity });

        Finding Is(Standout what, int days) => new(what) { Lot = lot, Vessel = vessel, Volume = place.Volume, Read = run.Last, Days = days };
    }

    private static void Wine(Book.Book book, Place place, DateOnly today, Habits habits, List<Finding> found)
    {
        var days = today.DayNumber - place.LastDay.DayNumber;
        if (Capacity(book, place) is { } capacity && Percent(capacity - place.Volume, capacity) > habits.HeadspacePercent)
            found.Add(Is(Standout.Headspace, days) with { Capacity = capacity });
        else if (days >= habits.UntouchedDays) found.Add(Is(Standout.NotTouched, days));
        if (place.Standing.Strength is null) found.Add(Is(Standout.StrengthUnstated, 0));

        Finding Is(Standout what, int days) => new(what) { Lot = place.Account.Name, Vessel = place.Account.Place, Volume = place.Volume, Days = days };
    }

    /// <summary>Vessels in use of which nobody said what they hold: each by itself while they are few, else the first of them for all.</summary>
    private static void CapacityUnknown(Book.Book book, List<Finding> found)
    {
        var unknown = new List<VesselHold>();
        foreach (var vessel in book.Now.Vessels)
            if (vessel.Held.IsPositive && book.Vessels.GetValueOrDefault(vessel.Code)?.Capacity is null) unknown.Add(vessel);
        if (unknown.Count == 0) return;
        var said = unknown.Count <= Few ? unknown : [unknown.Aggregate((first, other) => (string.CompareOrdinal(first.Lot, other.Lot) is var order && order != 0 ? order : string.CompareOrdinal(first.Code, other.Code)) <= 0 ? first : other)];
        found.AddRange(said.Select(vessel => new Finding(Standout.CapacityUnknown) { Vessel = vessel.Code, Lot = vessel.Lot, Volume = vessel.Held, Vessels = unknown.Count / said.Count }));
    }

    /// <summary>Deliveries past their day; and materials that are used, of which little is left, each once.</summary>
    private static void Stock(Book.Book book, DateOnly today, Habits habits, List<Finding> found)
    {
        var lines = Stores.StoreLine.All(book, today);
        found.AddRange(lines.Where(line => line.IsOutOfDate).Select(line => new Finding(Standout.OutOfDate) { Store = line, Days = today.DayNumber - line.Place.Delivery!.BestBefore!.Value.DayNumber }));
        found.AddRange(lines.Where(line => line.IsLow).GroupBy(line => line.Material.Code).Where(group => today.DayNumber - group.Max(line => line.Place.LastDay.DayNumber) <= habits.RestockDays)
            .Select(group => new Finding(Standout.LowStock) { Store = group.Last() }));
    }

    private static Volume? Capacity(Book.Book book, Place place) => place.Account.InVessel ? book.Vessels.GetValueOrDefault(place.Account.Place)?.Capacity : null;

    private static double Percent(Volume part, Volume whole) => part.Microlitres * 100.0 / whole.Microlitres;

    private static Finding IsOver(Place place, Limits.Verdict verdict) => new(Standout.OverLimit)
    {
        Lot = place.Account.Section == Section.Bottled ? null : place.Account.Name,
        Vessel = place.Account.Place,
        Bottling = place.Account.Section == Section.Bottled ? (place.Account.Name, place.BottleSize) : null,
        Volume = place.Volume,
        Over = verdict,
    };

    private static Finding Disagrees(Book.Book book, Disagreement disagreement) => new(Standout.NoLongerAgrees)
    {
        Lot = disagreement.Account.Section is Section.Must or Section.Bulk ? disagreement.Account.Name : null,
        Vessel = disagreement.Account.Place,
        Bottling = disagreement.Account.Section == Section.Bottled ? (disagreement.Account.Name, book.Now.Bottling(disagreement.Account.Name)!.Size) : null,
        Volume = disagreement.Book,
        Disagreement = disagreement,
    };
}
