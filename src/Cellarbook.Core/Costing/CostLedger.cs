using System.Collections.Immutable;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Costing;

/// <summary>
/// What everything cost, worked out by going through the book up to a day; nothing of it is stored. Cost goes where the wine goes, by volume.
/// Normal losses take none; mishaps take theirs and are shown apart. What came in is in stock or went out, to the millionth (law 7).
/// </summary>
public sealed partial class CostLedger
{
    private const string Unallocated = "ADJ:UNALLOCATED";

    private readonly Dictionary<Account, CostPool> pools = [];
    private readonly Dictionary<(string Counter, Section Section, string Name), CostPool> gone = [];
    private readonly SortedDictionary<string, (LossRule Rule, Costs Costs)> outs = new(StringComparer.Ordinal);
    private readonly Dictionary<long, List<Costs>> moved = [];
    private readonly Dictionary<long, List<(Account Account, Costs Costs)>> ownPlaced = [];
    private readonly List<CostMove> moves = [];
    private readonly Book.Book book;
    private readonly bool byReceipt;
    private readonly IReadOnlySet<long> never;

    private CostLedger(Book.Book book, IReadOnlySet<long> never)
    {
        this.book = book;
        this.never = never;
        byReceipt = book.Premises?.MaterialCost == "receipt";
        Currency = book.Premises?.Currency;
    }

    /// <summary>The book's currency; null until one was stated.</summary>
    public string? Currency { get; private set; }

    /// <summary>True when prices in another currency stand in the book; they are left out.</summary>
    public bool HasOtherCurrency { get; private set; }

    /// <summary>Every account that holds or held something.</summary>
    internal IEnumerable<CostPool> All => pools.Values;

    /// <summary>Everything in stock, with what it cost.</summary>
    public IEnumerable<CostPool> Stock => pools.Values.Where(pool => pool.Amount != 0 || !pool.Costs.IsNil);

    /// <summary>What came in in all.</summary>
    public Costs In { get; private set; }

    /// <summary>What went out, by the account it went to, and whether that is a normal loss of all there was, or a mishap.</summary>
    public IEnumerable<(string To, LossRule Rule, Costs Costs)> Out => outs.Where(pair => !pair.Value.Costs.IsNil).Select(pair => (pair.Key, pair.Value.Rule, pair.Value.Costs));

    /// <summary>Every cost that moved, in book order.</summary>
    public IReadOnlyList<CostMove> Moves => moves;

    /// <summary>Goes through the book up to the end of a day; null for all of it.</summary>
    public static CostLedger Build(Book.Book book, DateOnly? on) => Build(book, book.Pages.TakeWhile(page => !(page.Day > on)).SelectMany(page => page.Deeds), ImmutableHashSet<long>.Empty);

    /// <summary>The same of some deeds, as if certain entries had put no material into wine.</summary>
    private static CostLedger Build(Book.Book book, IEnumerable<Deed> deeds, IReadOnlySet<long> never)
    {
        var ledger = new CostLedger(book, never);
        foreach (var deed in deeds) ledger.Apply(deed);
        return ledger;
    }

    /// <summary>The pool of an account; null when nothing ever lay there.</summary>
    public CostPool? Of(Account account) => pools.GetValueOrDefault(Key(account));

    /// <summary>By moving average all deliveries of a material are one; by receipt each keeps its price.</summary>
    private Account Key(Account account) => account.Section == Section.Stores && !byReceipt ? Account.Stores(account.Name, "all deliveries") : account;

    private CostPool Pool(Account account)
    {
        var key = Key(account);
        if (!pools.TryGetValue(key, out var pool)) pools.Add(key, pool = new(key));
        return pool;
    }

    private static bool HoldsCost(Account account) => account.IsStock || account == Account.Spirit;

    private static long AmountOf(Posting posting, Account account) => account.Section switch
    {
        Section.Fruit => posting.Weight.Grams,
        Section.Stores => posting.Material.Units,
        _ => posting.Volume.Microlitres,
    };

    private void Apply(Deed deed)
    {
        without = null;
        var original = deed.TakesBack is { } taken && moved.TryGetValue(taken, out var had) && had.Count == deed.Postings.Count ? had : null;
        var keeps = deed.TakesBack is null && book.Find(deed.Entry) is { TakenBackBy: not null };
        var own = new DeedCosts(deed);
        var went = new Costs[deed.Postings.Count];
        // Fruit and kits before the must they become, and after it when that is taken back.
        foreach (var i in Enumerable.Range(0, went.Length).OrderBy(i => BecomesMust(deed.Postings[i].To) ? 0 : BecomesMust(deed.Postings[i].From) ? 2 : 1))
            went[i] = Move(deed, i, own, original is null ? null : original[^(i + 1)]);
        if (keeps) Kept(deed.Entry).AddRange(went);
        if (own.Left is { IsNil: false } left) outs[Unallocated] = (LossRule.Abnormal, outs.GetValueOrDefault(Unallocated).Costs + left);
        if (deed.TakesBack is { } back && ownPlaced.TryGetValue(back, out var placed))
            foreach (var (account, costs) in placed) TakeOwn(deed, account, costs);
        if (deed.Operation?.OwnCost is { } stated) PutOwn(deed, stated, keeps);
        if (deed.TakesBack is { } gone) takenBack.Add(gone);
    }

    private static bool BecomesMust(Account account) => account.Name == "USED:FRUIT" || account.Name.StartsWith("KITS:", StringComparison.Ordinal);

    private List<Costs> Kept(long entry)
    {
        if (!moved.TryGetValue(entry, out var kept)) moved.Add(entry, kept = []);
        return kept;
    }

    private Costs Move(Deed deed, int at, DeedCosts own, Costs? original)
    {
        var posting = deed.Postings[at];
        var (costs, unpriced) = Give(deed, at, own, original);
        Receive(deed, posting, own, ref costs, unpriced);
        // What comes back out of wine was put down from where the wine had carried it.
        if (!costs.IsNil && !(posting.IsTakenBack && posting.From.WineUsedIn is not null)) moves.Add(new(new(deed.Entry), deed.Day, posting.From, posting.To, costs, posting.IsTakenBack));
        return costs;
    }

    private (Costs Costs, bool Unpriced) Give(Deed deed, int at, DeedCosts own, Costs? original)
    {
        var posting = deed.Postings[at];
        var from = posting.From;
        if (HoldsCost(from))
        {
            var pool = Pool(from);
            var (amount, unpriced) = (AmountOf(posting, from), pool.IsUnpriced);
            var costs = original is { } moved ? moved.AtMost(pool.Costs) : Leaving(deed, at, pool, amount);
            pool.Take(amount, posting.Bottles, costs);
            return (costs, unpriced);
        }
        if (from.Section == Section.Process) return own.OutOfProcess(at, original);
        if (posting.IsTakenBack) return (ComesBack(deed, posting, own, original ?? Costs.None), false);
        if (from.Name.StartsWith("MIXED:", StringComparison.Ordinal)) return own.OutOfMix();
        if (from.IsTaker && posting.To.IsStock) return (Returned(posting), false);
        if (own.BroughtAsMust(at) is { } brought) return brought;
        var price = Price(deed, posting);
        In += price ?? Costs.None;
        return (price ?? Costs.None, price is null && (from.IsOutside || from.Material is not null));
    }

    /// <summary>What goes along with a posting out of stock. What is lost in the normal way later in the same deed takes none, so its share goes too.</summary>
    private static Costs Leaving(Deed deed, int at, CostPool pool, long amount)
    {
        if (IsNormalLoss(deed.Postings[at])) return amount >= pool.Amount ? pool.Costs : Costs.None;
        var whole = pool.Amount;
        for (var i = at + 1; i < deed.Postings.Count; i++)
            if (deed.Postings[i] is var later && later.From == deed.Postings[at].From && IsNormalLoss(later)) whole -= AmountOf(later, later.From);
        return pool.Costs.Split(amount, whole).Goes;
    }

    private static bool IsNormalLoss(Posting posting) => !posting.IsTakenBack && !HoldsCost(posting.To) && posting.To.Section != Section.Process && LossRules.Of(posting.Category) == LossRule.Normal;

    private void Receive(Deed deed, Posting posting, DeedCosts own, ref Costs costs, bool unpriced)
    {
        var to = posting.To;
        if (HoldsCost(to)) Pool(to).Put(AmountOf(posting, to), posting.Bottles, costs, unpriced);
        else if (to.Section == Section.Process) own.IntoProcess(costs, unpriced);
        else if (to.Name.StartsWith("MIXED:", StringComparison.Ordinal)) own.IntoMix(costs, unpriced);
        else if (BecomesMust(to)) own.IntoMust(costs, unpriced);
        else if (to.WineUsedIn is { } wine)
        {
            costs = never.Contains(deed.Entry) ? Costs.None : wine.Section == Section.Bottled ? new() { Packaging = costs.Total } : new() { Materials = costs.Total };
            Pool(wine).Put(0, BottleCount.None, costs, unpriced);
        }
        else if (posting.IsTakenBack && Uncounted(to))
        {
            if (!own.Withdraws(costs)) In -= costs;
        }
        else GoesOut(posting, costs);
    }

    /// <summary>True for accounts that things come from: going back there they never came in.</summary>
    private static bool Uncounted(Account account) => account.IsOutside || account.IsMatter || account is { IsStock: false, Material: not null };

    private void GoesOut(Posting posting, Costs costs)
    {
        var rule = LossRules.Of(posting.Category);
        var (_, sum) = outs.GetValueOrDefault(posting.To.Name, (rule, Costs.None));
        outs[posting.To.Name] = (rule, sum + costs);
        if (!posting.From.IsStock) return;
        var key = (posting.To.Name, posting.From.Section, posting.From.Name);
        if (!gone.TryGetValue(key, out var pool)) gone.Add(key, pool = new(posting.From));
        pool.Put(AmountOf(posting, posting.From), posting.Bottles, costs, false);
    }

    /// <summary>What comes back from the market costs what it cost when it went.</summary>
    private Costs Returned(Posting posting)
    {
        if (!gone.TryGetValue((posting.From.Name, posting.To.Section, posting.To.Name), out var pool) || pool.Amount <= 0) return Costs.None;
        var amount = Math.Min(AmountOf(posting, posting.To), pool.Amount);
        var (costs, _) = pool.Costs.Split(amount, pool.Amount);
        pool.Take(amount, BottleCount.None, costs);
        LessOut(posting.From.Name, costs);
        return costs;
    }
}
