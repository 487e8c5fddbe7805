using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Costing;

/// <summary>Where costs come from: prices, own costs, and what is gathered within one deed.</summary>
public sealed partial class CostLedger
{
    /// <summary>What a posting from outside cost, by the price its operation states.</summary>
    private Costs? Price(Deed deed, Posting posting)
    {
        if (deed.Operation?.PriceOf(posting, deed) is not { } price) return null;
        if (deed.Operation.PriceCurrency is { } stated)
        {
            Currency ??= stated;
            if (stated != Currency)
            {
                HasOtherCurrency = true;
                return null;
            }
        }
        return posting.To.Section switch
        {
            Section.Must or Section.Fruit => new() { Fruit = price },
            Section.Bulk or Section.Bottled => new() { Wine = price },
            Section.Stores => new() { Materials = price },
            _ => new() { Spirit = price },
        };
    }

    private void PutOwn(Deed deed, OwnCost stated, bool keeps)
    {
        var places = pools.Values.Where(pool => pool.Amount > 0 && stated.Places(pool)).OrderBy(pool => pool.Account.ToString(), StringComparer.Ordinal).ToArray();
        if (places.Length == 0) return;
        var volume = places.Aggregate(Volume.None, (sum, pool) => sum + pool.Volume);
        var costs = new Costs { Own = stated.Amount(volume, places.Aggregate(BottleCount.None, (sum, pool) => sum + pool.Bottles)) };
        In += costs;
        var shares = costs.Share([.. places.Select(pool => pool.Amount)]);
        for (var i = 0; i < places.Length; i++)
        {
            places[i].Put(0, BottleCount.None, shares[i], false);
            moves.Add(new(new(deed.Entry), deed.Day, Account.Counter("OWN"), places[i].Account, shares[i], false));
            if (!keeps) continue;
            if (!ownPlaced.TryGetValue(deed.Entry, out var placed)) ownPlaced.Add(deed.Entry, placed = []);
            placed.Add((places[i].Account, shares[i]));
        }
    }

    /// <summary>An own cost taken back goes out of where it was put, as far as it is still there.</summary>
    private void TakeOwn(Deed deed, Account account, Costs costs)
    {
        var pool = Pool(account);
        var back = costs.AtMost(pool.Costs);
        pool.Take(0, BottleCount.None, back);
        In -= back;
        if (!back.IsNil) moves.Add(new(new(deed.Entry), deed.Day, account, Account.Counter("OWN"), back, true));
    }

    /// <summary>Costs gathered within one deed: in the process, in a mix, in fruit and kits that become must.</summary>
    private sealed class DeedCosts(Deed deed)
    {
        private Costs process, mix, must;
        private bool processUnpriced, mixUnpriced, mustUnpriced, becomesMust;

        /// <summary>What found no way out; nil in a sound book.</summary>
        public Costs Left => process + mix + must;

        public void IntoProcess(Costs costs, bool unpriced) => (process, processUnpriced) = (process + costs, processUnpriced | unpriced);

        public (Costs Costs, bool Unpriced) OutOfProcess(int at, Costs? original)
        {
            if (!HoldsCost(deed.Postings[at].To)) return (Costs.None, false);
            var (volume, whole) = (deed.Postings[at].Volume.Microlitres, From(at, posting => posting.From.Section == Section.Process && HoldsCost(posting.To)));
            // The last takes what is left.
            var costs = volume >= whole ? process : original?.AtMost(process) ?? process.Split(volume, whole).Goes;
            process -= costs;
            return (costs, processUnpriced);
        }

        public void IntoMix(Costs costs, bool unpriced) => (mix, mixUnpriced) = (mix + costs, mixUnpriced | unpriced);

        public (Costs Costs, bool Unpriced) OutOfMix()
        {
            var costs = mix;
            mix = Costs.None;
            return (costs, mixUnpriced);
        }

        public Costs BackFromMix(Costs original)
        {
            var back = original.AtMost(mix);
            mix -= back;
            return back;
        }

        /// <summary>Fruit, or the box of a kit: what it cost is the must's from now on.</summary>
        public void IntoMust(Costs costs, bool unpriced) => (must, mustUnpriced, becomesMust) = (must + new Costs { Fruit = costs.Total }, mustUnpriced | unpriced, true);

        /// <summary>Must that came of fruit or a kit used in the same deed: its share by volume; null for any other posting.</summary>
        public (Costs Costs, bool Unpriced)? BroughtAsMust(int at)
        {
            if (!becomesMust || !IsMade(deed.Postings[at])) return null;
            var (volume, whole) = (deed.Postings[at].Volume.Microlitres, From(at, IsMade));
            var costs = volume >= whole ? must : must.Split(volume, whole).Goes;
            must -= costs;
            return (costs, mustUnpriced);
        }

        /// <summary>Keeps what must was taken back to, where the deed gives it back to fruit or a kit.</summary>
        public bool Withdraws(Costs costs)
        {
            if (!deed.Postings.Any(posting => BecomesMust(posting.From))) return false;
            must += new Costs { Fruit = costs.Total };
            return true;
        }

        public Costs BackFromMust(Costs original)
        {
            var back = original.Total < must.Total ? original.Total : must.Total;
            must -= new Costs { Fruit = back };
            return original.Materials.IsNil ? new() { Fruit = back } : new() { Materials = back };
        }

        private static bool IsMade(Posting posting) => posting is { IsTakenBack: false, Category.Code: "GRAPES_CRUSHED" or "MUST_RECEIVED" };

        private long From(int at, Func<Posting, bool> counts)
        {
            long sum = 0;
            for (var i = at; i < deed.Postings.Count; i++)
                if (counts(deed.Postings[i])) sum += deed.Postings[i].Volume.Microlitres;
            return sum;
        }
    }
}
