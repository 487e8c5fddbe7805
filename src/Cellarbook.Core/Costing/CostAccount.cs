using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Costing;

/// <summary>What one entry did to the cost of a lot or bottling.</summary>
/// <param name="Entry">Its number.</param>
/// <param name="Day">Its day.</param>
/// <param name="In">What it brought.</param>
/// <param name="Out">What went with it.</param>
public sealed record CostLine(EntryNumber Entry, DateOnly Day, Costs In, Costs Out);

/// <summary>What a lot in bulk, or a bottling, has cost so far: what is there, and every entry that brought or took cost (law 8).</summary>
public sealed class CostAccount
{
    private CostAccount(CostLedger ledger, CostPool[] places, CostLine[] lines)
    {
        (Currency, HasOtherCurrency) = (ledger.Currency, ledger.HasOtherCurrency);
        Volume = places.Aggregate(Volume.None, (sum, pool) => sum + pool.Volume);
        Bottles = places.Aggregate(BottleCount.None, (sum, pool) => sum + pool.Bottles);
        Costs = places.Aggregate(Costs.None, (sum, pool) => sum + pool.Costs);
        IsUnpriced = places.Any(pool => pool.IsUnpriced);
        Lines = lines;
    }

    /// <summary>The book's currency; null where none was stated.</summary>
    public string? Currency { get; }

    /// <summary>True when prices in another currency were left out.</summary>
    public bool HasOtherCurrency { get; }

    /// <summary>What is there.</summary>
    public Volume Volume { get; }

    /// <summary>Bottles there, of a bottling.</summary>
    public BottleCount Bottles { get; }

    /// <summary>What that cost.</summary>
    public Costs Costs { get; }

    /// <summary>True when some of it came without a price, so that the cost is at least this.</summary>
    public bool IsUnpriced { get; }

    /// <summary>By entry, in book order.</summary>
    public IReadOnlyList<CostLine> Lines { get; }

    /// <summary>A litre's cost, to the nearest millionth, half up; null when nothing is there.</summary>
    public Money? PerLitre => Volume.IsPositive ? Costs.Total.Times(1_000_000, Volume.Microlitres) : null;

    /// <summary>A bottle's cost, to the nearest millionth, half up; null when none is there.</summary>
    public Money? PerBottle => Bottles.IsPositive ? Costs.Total.Times(1, Bottles.Bottles) : null;

    /// <summary>Of a lot in must and bulk; null when there never was one.</summary>
    public static CostAccount? OfLot(CostLedger ledger, string lot) => Of(ledger, account => account.Section is Section.Must or Section.Bulk && account.Name == lot);

    /// <summary>Of a bottling on all its shelves; null when there never was one.</summary>
    public static CostAccount? OfBottling(CostLedger ledger, string bottling) => Of(ledger, account => account.Section == Section.Bottled && account.Name == bottling);

    private static CostAccount? Of(CostLedger ledger, Func<Account, bool> isMine)
    {
        var places = ledger.All.Where(pool => isMine(pool.Account)).ToArray();
        if (places.Length == 0) return null;
        bool Mine(Account account) => isMine(account.WineUsedIn ?? account);
        var lines = ledger.Moves.Where(move => Mine(move.From) != Mine(move.To)).GroupBy(move => (move.Entry, move.Day)).Select(group => new CostLine(group.Key.Entry, group.Key.Day,
            group.Where(move => Mine(move.To)).Aggregate(Costs.None, (sum, move) => sum + move.Costs), group.Where(move => Mine(move.From)).Aggregate(Costs.None, (sum, move) => sum + move.Costs)));
        return new(ledger, places, [.. lines]);
    }
}
