using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Costing;

/// <summary>How costs come back that were taken back after their period was closed: from wherever the wine carried them, what had left included.</summary>
public sealed partial class CostLedger
{
    private readonly HashSet<long> takenBack = [];
    private CostLedger? without;

    private Costs ComesBack(Deed deed, Posting posting, DeedCosts own, Costs original)
    {
        var from = posting.From;
        if (from.WineUsedIn is not null) return OutOfWine(deed, posting, original);
        if (BecomesMust(from)) return own.BackFromMust(original);
        if (from.Name.StartsWith("MIXED:", StringComparison.Ordinal)) return own.BackFromMix(original);
        if (!gone.TryGetValue((from.Name, posting.To.Section, posting.To.Name), out var there)) return Costs.None;
        var back = original.AtMost(there.Costs);
        there.Take(AmountOf(posting, posting.To), BottleCount.None, back);
        LessOut(from.Name, back);
        return back;
    }

    private void LessOut(string account, Costs back) => outs[account] = (outs[account].Rule, outs[account].Costs - back);

    /// <summary>
    /// A material's cost out of the wine it went into. Where it lies by now is told by the same book without it: what costs less there is its share.
    /// </summary>
    private Costs OutOfWine(Deed deed, Posting posting, Costs original)
    {
        if (original.IsNil) return Costs.None;
        without ??= Build(book, book.Pages.SelectMany(page => page.Deeds).TakeWhile(other => other != deed), new HashSet<long>(takenBack) { deed.TakesBack!.Value });
        var left = original;
        var wine = pools.Values.Where(pool => pool.Account.Section is Section.Must or Section.Bulk or Section.Bottled).OrderBy(pool => pool.Account.ToString(), StringComparer.Ordinal).ToArray();
        var away = gone.OrderBy(pair => $"{pair.Key.Counter} {pair.Key.Section} {pair.Key.Name}", StringComparer.Ordinal).ToArray();
        foreach (var pool in wine) Take(pool, pool.Account, pool.Costs - (without.Of(pool.Account)?.Costs ?? Costs.None));
        foreach (var (key, pool) in away) Take(pool, Account.Counter(key.Counter), pool.Costs - (without.gone.GetValueOrDefault(key)?.Costs ?? Costs.None));
        // Splits round each for themselves: a few millionths that one place lacks are taken where there are more.
        foreach (var pool in wine) Take(pool, pool.Account, pool.Costs);
        foreach (var (key, pool) in away) Take(pool, Account.Counter(key.Counter), pool.Costs);
        return new() { Materials = (original - left).Total };

        void Take(CostPool pool, Account from, Costs share)
        {
            var costs = new Costs { Materials = Least(share.Materials, left.Materials), Packaging = Least(share.Packaging, left.Packaging) };
            if (costs.IsNil) return;
            left -= costs;
            pool.Take(0, BottleCount.None, costs);
            if (!from.IsStock) LessOut(from.Name, costs);
            moves.Add(new(new(deed.Entry), deed.Day, from, posting.To, costs, true));
        }

        static Money Least(Money share, Money left) => share.Millionths <= 0 ? default : share < left ? share : left;
    }
}
