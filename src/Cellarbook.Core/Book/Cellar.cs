using System.Collections.Immutable;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>What a vessel holds and the most it ever held, up to a moment of book order.</summary>
public sealed record VesselHold(string Code, ImmutableArray<Account> Accounts, Volume Held, Volume Peak)
{
    /// <summary>The day its content last changed.</summary>
    public DateOnly LastDay { get; init; }

    /// <summary>What lies or last lay in it; null while nothing did.</summary>
    public Account? Last { get; init; }

    /// <summary>The lot that lies in it, or null.</summary>
    public string? Lot => Accounts.IsEmpty ? null : Accounts[0].Name;
}

/// <summary>A bottling run: bottles of one size from one lot, with what its label says.</summary>
public sealed record BottlingFacts(string Code, Volume Size)
{
    /// <summary>The lots it was filled from.</summary>
    public ImmutableArray<string> Lots { get; init; } = [];

    /// <summary>The first day bottles of it came to be.</summary>
    public DateOnly FirstDay { get; init; }

    /// <summary>Bottles filled or received in all.</summary>
    public BottleCount Filled { get; init; }
}

/// <summary>What went along with wine that left, so that a return or a take-back brings the same back.</summary>
/// <param name="Volume">Volume that left, less what came back; of bulk wine, since something was carried.</param>
/// <param name="Carried">What it took along; null for nothing.</param>
public sealed record Gone(Volume Volume, Carried? Carried);

/// <summary>
/// The state of everything at one moment of book order: the fold of all entries before it. Nothing here is stored.
/// </summary>
public sealed class Cellar
{
    private readonly Layered<Account, Place> places;
    private readonly Layered<string, ImmutableArray<Account>> accountsOfLot;
    private readonly Layered<string, ImmutableArray<Account>> accountsOfBottling;
    private readonly Layered<string, VesselHold> vessels;
    private readonly Layered<string, BottlingFacts> bottlings;
    private readonly Layered<string, ImmutableArray<Account>> deliveries;
    private readonly Layered<(string Counter, string Name), Gone> gone;

    /// <summary>An empty cellar.</summary>
    public Cellar() : this(new(), new(), new(), new(), new(), new(), new())
    {
    }

    private Cellar(Layered<Account, Place> places, Layered<string, ImmutableArray<Account>> lots, Layered<string, ImmutableArray<Account>> shelves,
        Layered<string, VesselHold> vessels, Layered<string, BottlingFacts> bottlings, Layered<string, ImmutableArray<Account>> deliveries, Layered<(string Counter, string Name), Gone> gone)
    {
        this.places = places;
        accountsOfLot = lots;
        accountsOfBottling = shelves;
        this.vessels = vessels;
        this.bottlings = bottlings;
        this.deliveries = deliveries;
        this.gone = gone;
    }

    /// <summary>Every place that holds or held something.</summary>
    public IEnumerable<Place> Places => places.Values;

    /// <summary>Every lot that ever was, by code.</summary>
    public IEnumerable<string> Lots => accountsOfLot.Keys;

    /// <summary>Every bottling that ever was.</summary>
    public IEnumerable<BottlingFacts> Bottlings => bottlings.Values;

    /// <summary>Every vessel that holds or held something.</summary>
    public IEnumerable<VesselHold> Vessels => vessels.Values;

    /// <summary>What lies in an account; an empty place when nothing ever did.</summary>
    public Place At(Account account) => places.TryGet(account, out var place) ? place : new Place(account);

    /// <summary>True when something lies or lay there.</summary>
    public bool Knows(Account account) => places.TryGet(account, out _);

    /// <summary>The must and bulk accounts a lot lies or lay in; none for an unknown lot.</summary>
    public ImmutableArray<Account> AccountsOfLot(string lot) => accountsOfLot.TryGet(lot, out var accounts) ? accounts : [];

    /// <summary>Places of a lot that hold something now.</summary>
    public IReadOnlyList<Place> PlacesOfLot(string lot) => [.. AccountsOfLot(lot).Select(At).Where(place => !place.IsEmpty)];

    /// <summary>True when all that is left of a lot lies in one place.</summary>
    public bool IsInOnePlace(string lot)
    {
        var places = 0;
        foreach (var account in AccountsOfLot(lot))
            if (!At(account).IsEmpty) places++;
        return places == 1;
    }

    /// <summary>The shelves a bottling lies or lay on.</summary>
    public ImmutableArray<Account> ShelvesOfBottling(string bottling) => accountsOfBottling.TryGet(bottling, out var accounts) ? accounts : [];

    /// <summary>The deliveries of a material that lie or lay in store, oldest first.</summary>
    public ImmutableArray<Account> DeliveriesOf(string material) => deliveries.TryGet(material, out var accounts) ? accounts : [];

    /// <summary>Every material that lies or lay in store.</summary>
    public IEnumerable<string> MaterialsInStore => deliveries.Keys;

    /// <summary>What went with the wine of a lot or bottling to a counter-account, less what came back; of bulk wine kept only where something was carried.</summary>
    public Gone? GoneTo(string counter, string name) => gone.TryGet((counter, name), out var there) ? there : null;

    /// <summary>All that went with wine to counter-accounts.</summary>
    public IEnumerable<Gone> AllGone => gone.Values;

    /// <summary>The same, with the counter-account and the lot or bottling.</summary>
    internal IEnumerable<(string Counter, string Name, Gone Gone)> GonePairs => gone.Pairs.Select(pair => (pair.Key.Counter, pair.Key.Name, pair.Value));

    /// <summary>A bottling's facts, or null when there is none of that code.</summary>
    public BottlingFacts? Bottling(string code) => bottlings.TryGet(code, out var facts) ? facts : null;

    /// <summary>What a vessel holds; an empty one when it never held anything.</summary>
    public VesselHold Vessel(string code) => vessels.TryGet(code, out var hold) ? hold : new VesselHold(code, [], Volume.None, Volume.None);

    /// <summary>True when the vessel holds or held something.</summary>
    public bool KnowsVessel(string code) => vessels.TryGet(code, out _);

    internal Cellar Fork() => new(places.Fork(), accountsOfLot.Fork(), accountsOfBottling.Fork(), vessels.Fork(), bottlings.Fork(), deliveries.Fork(), gone.Fork());

    internal Cellar Flat() => new(places.Flat(), accountsOfLot.Flat(), accountsOfBottling.Flat(), vessels.Flat(), bottlings.Flat(), deliveries.Flat(), gone.Flat());

    internal void Absorb(Cellar fork)
    {
        places.Absorb(fork.places);
        accountsOfLot.Absorb(fork.accountsOfLot);
        accountsOfBottling.Absorb(fork.accountsOfBottling);
        vessels.Absorb(fork.vessels);
        bottlings.Absorb(fork.bottlings);
        deliveries.Absorb(fork.deliveries);
        gone.Absorb(fork.gone);
    }

    internal void Put(Place place)
    {
        var account = place.Account;
        if (!places.TryGet(account, out var before))
        {
            if (account.Section is Section.Must or Section.Bulk) accountsOfLot.Set(account.Name, AccountsOfLot(account.Name).Add(account));
            else if (account.Section == Section.Bottled) accountsOfBottling.Set(account.Name, ShelvesOfBottling(account.Name).Add(account));
            else if (account.Section == Section.Stores) deliveries.Set(account.Name, DeliveriesOf(account.Name).Add(account));
        }
        places.Set(account, place);
        if (!account.InVessel) return;
        var change = place.Volume - (before?.Volume ?? Volume.None);
        if (change.IsNil && before is not null) return;
        var hold = Vessel(account.Place);
        var held = hold.Held + change;
        var accounts = hold.Accounts;
        if (place.Volume.IsNil) accounts = accounts.Remove(account);
        else if (!accounts.Contains(account)) accounts = accounts.Add(account);
        vessels.Set(hold.Code, hold with { Accounts = accounts, Held = held, LastDay = place.LastDay, Last = account });
    }

    /// <summary>Marks the end of an entry for a vessel: what it holds now may be the most it ever held.</summary>
    internal void MarkPeak(string vessel)
    {
        var hold = Vessel(vessel);
        if (hold.Held > hold.Peak) vessels.Set(vessel, hold with { Peak = hold.Held });
    }

    internal void Put(string counter, string name, Gone there) => gone.Set((counter, name), there);

    internal void Put(BottlingFacts facts) => bottlings.Set(facts.Code, facts);
}
