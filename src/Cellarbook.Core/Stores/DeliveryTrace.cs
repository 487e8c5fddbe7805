using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>One use of a delivery: out of the stores into wine, a mix, cleaning …, or back by a take-back (then below nil).</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Day">Its day.</param>
/// <param name="To">Where it went: wine by <see cref="Account.WineUsedIn"/>, or a counter-account.</param>
/// <param name="Category">As what.</param>
/// <param name="Amount">How much, in the unit of the material.</param>
/// <param name="Assumed">True when nobody named the delivery and the oldest in store was taken.</param>
public sealed record DeliveryUse(EntryNumber Entry, DateOnly Day, Account To, Category Category, MaterialAmount Amount, bool Assumed);

/// <summary>So much of a delivery in a place.</summary>
public sealed record TracedPlace(Account Account, FineAmount Amount);

/// <summary>So much of a delivery that left with wine, with its paper.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Day">Its day.</param>
/// <param name="From">The place it left.</param>
/// <param name="To">The counter-account it went to.</param>
/// <param name="Category">As what.</param>
/// <param name="Amount">How much; below nil for what came back.</param>
/// <param name="Document">The paper, where given.</param>
/// <param name="Recipient">Who got it, where given.</param>
public sealed record TracedDeparture(EntryNumber Entry, DateOnly Day, Account From, Account To, Category Category, FineAmount Amount, string? Document, string? Recipient);

/// <summary>
/// Where a delivery of a material went: still in store, used, and with the wine into each lot, bottling and removal. The book is folded again from
/// its day with nothing dosed but this delivery, by the same rules, so the amounts add up to the last millionth of a unit.
/// </summary>
public sealed record DeliveryTrace
{
    /// <summary>The delivery.</summary>
    public required Account Delivery { get; init; }

    /// <summary>The material.</summary>
    public required Material Material { get; init; }

    /// <summary>What came.</summary>
    public required DeliveryFacts? Facts { get; init; }

    /// <summary>What lies in store of it now.</summary>
    public required MaterialAmount InStore { get; init; }

    /// <summary>Its uses, in book order.</summary>
    public required IReadOnlyList<DeliveryUse> Uses { get; init; }

    /// <summary>Mixes made with it.</summary>
    public required IReadOnlyList<Account> Mixes { get; init; }

    /// <summary>Every lot and bottling that it ever lay in, by code.</summary>
    public required IReadOnlyList<Account> Passed { get; init; }

    /// <summary>The wine that holds it now.</summary>
    public required IReadOnlyList<TracedPlace> Holding { get; init; }

    /// <summary>What left with wine, in book order.</summary>
    public required IReadOnlyList<TracedDeparture> Departures { get; init; }

    /// <summary>What went into wine, as the sum of what is there and what left.</summary>
    public FineAmount InWine => Holding.Aggregate(FineAmount.None, (sum, place) => sum + place.Amount) + Departures.Aggregate(FineAmount.None, (sum, departure) => sum + departure.Amount);
}
