using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Costing;

/// <summary>What lies in one account and what it cost so far.</summary>
public sealed class CostPool(Account account)
{
    /// <summary>Where.</summary>
    public Account Account { get; } = account;

    /// <summary>Volume, of what is liquid.</summary>
    public Volume Volume => Account.Section is Section.Fruit or Section.Stores ? default : new(Amount);

    /// <summary>Bottles.</summary>
    public BottleCount Bottles { get; internal set; }

    /// <summary>What it cost.</summary>
    public Costs Costs { get; internal set; }

    /// <summary>True when some of it came without a price, so that the cost is at least this.</summary>
    public bool IsUnpriced { get; internal set; }

    /// <summary>In the account's own unit: microlitres, grams of fruit, or units of a material.</summary>
    internal long Amount { get; set; }

    internal void Put(long amount, BottleCount bottles, Costs costs, bool unpriced)
    {
        Amount += amount;
        if (Account.Section == Section.Bottled) Bottles += bottles;
        Costs += costs;
        IsUnpriced |= unpriced;
    }

    internal void Take(long amount, BottleCount bottles, Costs costs)
    {
        Amount -= amount;
        if (Account.Section == Section.Bottled) Bottles -= bottles;
        Costs -= costs;
        if (Amount == 0) IsUnpriced = false;
    }
}

/// <summary>A cost that moved with an entry (law 8).</summary>
/// <param name="Entry">Number of the entry.</param>
/// <param name="Day">Its day.</param>
/// <param name="From">Where the cost came from.</param>
/// <param name="To">Where it went; for own costs and materials the wine itself.</param>
/// <param name="Costs">How much, by kind.</param>
/// <param name="IsTakenBack">True when an earlier move was undone.</param>
public sealed record CostMove(EntryNumber Entry, DateOnly Day, Account From, Account To, Costs Costs, bool IsTakenBack);

/// <summary>A cost that an operation states of itself, such as work.</summary>
/// <param name="Places">Where it goes: accounts of the wine, by the state the ledger is in.</param>
/// <param name="Amount">The amount for so much volume and so many bottles.</param>
internal sealed record OwnCost(Func<CostPool, bool> Places, Func<Volume, BottleCount, Money> Amount);
