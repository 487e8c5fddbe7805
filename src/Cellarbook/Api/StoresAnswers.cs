using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Api;

/// <summary>So much material: one of the three, by what it is counted in. Shares may be finer than can be weighed.</summary>
public sealed record MaterialSum
{
    /// <summary>Grams.</summary>
    public decimal? Grams { get; init; }

    /// <summary>Millilitres.</summary>
    public decimal? Millilitres { get; init; }

    /// <summary>Pieces.</summary>
    public decimal? Pieces { get; init; }

    /// <summary>Whole units.</summary>
    public static MaterialSum Of(MaterialAmount amount, MaterialUnit unit) => Of(FineAmount.Of(amount), unit);

    /// <summary>A share.</summary>
    public static MaterialSum Of(FineAmount amount, MaterialUnit unit) => unit switch
    {
        MaterialUnit.Milligrams => new() { Grams = amount.Millionths / 1_000_000_000m },
        MaterialUnit.Microlitres => new() { Millilitres = amount.Millionths / 1_000_000_000m },
        _ => new() { Pieces = amount.Millionths / 1_000_000m },
    };
}

/// <summary>What one gram, millilitre or piece of a material brings.</summary>
public sealed record MaterialContentAnswer(string Substance, string Name, string? MgInOne, string Arithmetic, string Source, string Seen);

/// <summary>A material.</summary>
public sealed record MaterialAnswer(string Code, string Name, string Kind, string CountedIn, bool Own, IReadOnlyList<MaterialContentAnswer> Contents, IReadOnlyList<string> Cautions)
{
    /// <summary>Allergen, where it is one.</summary>
    public string? Allergen { get; init; }

    /// <summary>E number.</summary>
    public string? ENumber { get; init; }

    /// <summary>additive, processing-aid …</summary>
    public string? Role { get; init; }

    /// <summary>Usual least in 100 L.</summary>
    public MaterialSum? UsualLow { get; init; }

    /// <summary>Usual most in 100 L.</summary>
    public MaterialSum? UsualHigh { get; init; }

    /// <summary>Where the usual doses are from.</summary>
    public string? UsualSource { get; init; }

    /// <summary>What else to know.</summary>
    public string? Note { get; init; }

    /// <summary>A material of the core as answered.</summary>
    public static MaterialAnswer Of(Material material) => new(material.Code, material.Name, material.Kind, material.UnitWord, material.IsOwn,
        [
            .. material.Contents.Select(content => new MaterialContentAnswer(content.Substance.Code, content.Substance.Name, ExactNumber.Write(content.PerUnit.Nanograms, material.Unit == MaterialUnit.Pieces ? 6 : 3), content.Arithmetic, content.Source, content.Seen)),
            .. material.Unstated.Select(substance => new MaterialContentAnswer(substance.Code, substance.Name, null, "not stated on the packet", "the packet", "definition")),
        ], material.Cautions)
    {
        Allergen = Said(material.Allergen),
        ENumber = Said(material.ENumber),
        Role = Said(material.Role),
        UsualLow = material.Band is { } band ? MaterialSum.Of(band.Low, material.Unit) : null,
        UsualHigh = material.Band is { } most ? MaterialSum.Of(most.High, material.Unit) : null,
        UsualSource = material.Band?.Source,
        Note = Said(material.Note),
    };

    private static string? Said(string text) => text.Length == 0 ? null : text;
}

/// <summary>A delivery in the stores.</summary>
public sealed record StoreAnswer(string Material, string Name, string Delivery, MaterialSum InStore, MaterialSum? Arrived, bool OutOfDate, bool Low)
{
    /// <summary>The day it came.</summary>
    public DateOnly Since { get; init; }

    /// <summary>The entry that brought it.</summary>
    public long? Entry { get; init; }

    /// <summary>Supplier.</summary>
    public string? Supplier { get; init; }

    /// <summary>The supplier's batch.</summary>
    public string? Batch { get; init; }

    /// <summary>Best before.</summary>
    public DateOnly? BestBefore { get; init; }

    /// <summary>What was paid for it.</summary>
    public Money? Price { get; init; }

    /// <summary>Currency of the price.</summary>
    public string? Currency { get; init; }

    /// <summary>Invoice or delivery note.</summary>
    public string? Document { get; init; }

    /// <summary>A line of the core as answered.</summary>
    public static StoreAnswer Of(StoreLine line)
    {
        var facts = line.Place.Delivery;
        return new(line.Material.Code, line.Material.Name, line.Place.Account.Place, MaterialSum.Of(line.Place.Material, line.Material.Unit), facts is null ? null : MaterialSum.Of(facts.Amount, line.Material.Unit), line.IsOutOfDate, line.IsLow)
        {
            Since = line.Place.FirstDay, Entry = facts?.Entry.Number, Supplier = facts?.Supplier, Batch = facts?.Batch, BestBefore = facts?.BestBefore, Price = facts?.Price, Currency = facts?.Currency, Document = facts?.Document,
        };
    }
}

/// <summary>A use of a delivery; below nil where a correction brought it back.</summary>
public sealed record DeliveryUseAnswer(long Entry, DateOnly Day, string To, string Category, MaterialSum Amount, bool Assumed);

/// <summary>So much of a delivery in a place.</summary>
public sealed record TracedPlaceAnswer(string Account, MaterialSum Amount);

/// <summary>So much of a delivery that left with wine; below nil for what came back.</summary>
public sealed record TracedDepartureAnswer(long Entry, DateOnly Day, string From, string To, string Category, MaterialSum Amount, string? Document, string? Recipient);

/// <summary>Where a delivery went: arrived = in store + used; put into wine = holding + departures.</summary>
public sealed record DeliveryTraceAnswer(string Material, string Name, string Delivery, MaterialSum InStore, IReadOnlyList<DeliveryUseAnswer> Uses, IReadOnlyList<string> Mixes, IReadOnlyList<string> Passed,
    MaterialSum InWine, IReadOnlyList<TracedPlaceAnswer> Holding, IReadOnlyList<TracedDepartureAnswer> Departures)
{
    /// <summary>A trace of the core as answered.</summary>
    public static DeliveryTraceAnswer Of(DeliveryTrace trace)
    {
        var unit = trace.Material.Unit;
        return new(trace.Material.Code, trace.Material.Name, trace.Delivery.Place, MaterialSum.Of(trace.InStore, unit),
            [.. trace.Uses.Select(use => new DeliveryUseAnswer(use.Entry.Number, use.Day, use.To.ToString(), use.Category.Code, MaterialSum.Of(use.Amount, unit), use.Assumed))],
            [.. trace.Mixes.Select(mix => mix.ToString())], [.. trace.Passed.Select(account => account.ToString())], MaterialSum.Of(trace.InWine, unit),
            [.. trace.Holding.Select(place => new TracedPlaceAnswer(place.Account.ToString(), MaterialSum.Of(place.Amount, unit)))],
            [.. trace.Departures.Select(gone => new TracedDepartureAnswer(gone.Entry.Number, gone.Day, gone.From.ToString(), gone.To.ToString(), gone.Category.Code, MaterialSum.Of(gone.Amount, unit), gone.Document, gone.Recipient))]);
    }
}

/// <summary>A delivery that is in a bottling. The amount is a share of shares, so about.</summary>
public sealed record BottleSourceAnswer(string Material, string? Name, string? Delivery, MaterialSum About, bool Assumed, IReadOnlyList<long> Entries)
{
    /// <summary>The mix it came in.</summary>
    public string? Through { get; init; }

    /// <summary>Supplier.</summary>
    public string? Supplier { get; init; }

    /// <summary>The supplier's batch.</summary>
    public string? Batch { get; init; }
}

/// <summary>Must or wine from outside that is in a bottling.</summary>
public sealed record BottleReceiptAnswer(long Entry, DateOnly Day, string Into, string Category, Volume Litres, string? Supplier, string? Document);

/// <summary>What is in a bottling; a delivery left out is one whose batch is unknown.</summary>
public sealed record BottleTraceAnswer(string Bottling, IReadOnlyList<BottleSourceAnswer> Deliveries, IReadOnlyList<BottleReceiptAnswer> Receipts)
{
    /// <summary>A trace of the core as answered.</summary>
    public static BottleTraceAnswer Of(BottleTrace trace) => new(trace.Bottling,
        [
            .. trace.Sources.Select(source => new BottleSourceAnswer(source.From.Material!, source.Material?.Name, source.From.Section == Section.Stores ? source.From.Place : null, MaterialSum.Of(source.About, source.Unit), source.Assumed, [.. source.Entries.Select(entry => entry.Number)])
            {
                Through = source.Through?.ToString(), Supplier = source.Facts?.Supplier, Batch = source.Facts?.Batch,
            }),
        ],
        [.. trace.Receipts.Select(receipt => new BottleReceiptAnswer(receipt.Entry.Number, receipt.Day, receipt.Into.ToString(), receipt.Category.Code, receipt.About, receipt.Supplier, receipt.Document))]);
}
