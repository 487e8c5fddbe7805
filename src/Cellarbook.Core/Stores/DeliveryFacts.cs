using System.Collections.Immutable;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>What is known of a delivery of one material; it stays with what lies in store of it.</summary>
/// <param name="Entry">The entry that brought it in.</param>
/// <param name="Amount">How much came.</param>
public sealed record DeliveryFacts(EntryNumber Entry, MaterialAmount Amount)
{
    /// <summary>Supplier.</summary>
    public string? Supplier { get; init; }

    /// <summary>The supplier's batch, as on the packet.</summary>
    public string? Batch { get; init; }

    /// <summary>Best before.</summary>
    public DateOnly? BestBefore { get; init; }

    /// <summary>What was paid for all of it.</summary>
    public Money? Price { get; init; }

    /// <summary>Currency of the price, as three letters.</summary>
    public string? Currency { get; init; }

    /// <summary>Invoice or delivery note.</summary>
    public string? Document { get; init; }

    /// <summary>What it was made up from; empty for what came from outside.</summary>
    public ImmutableArray<MixedPart> MixedFrom { get; init; } = [];

    /// <summary>The kit whose box it lay in; null for others.</summary>
    public string? Kit { get; init; }
}

/// <summary>A part of a mix: so much of a delivery, or of one that is unknown, went into all of it.</summary>
public sealed record MixedPart(Account From, MaterialAmount Amount);
