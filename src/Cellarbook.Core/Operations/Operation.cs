using System.Text.Json.Serialization;
using Cellarbook.Core.Book;

namespace Cellarbook.Core.Operations;

/// <summary>
/// What somebody did, as they say it. Pages, API, import and command line all send these through the same door. Each kind decides which postings
/// it makes; the facts below may come with any of them and are kept in the hashed content.
/// </summary>
public abstract record Operation
{
    /// <summary>The day it happened, in the book's time zone.</summary>
    [JsonPropertyOrder(-10)]
    public required DateOnly Day { get; init; }

    /// <summary>The time, where it matters: an entry with a time goes before the day's first with a later one.</summary>
    [JsonPropertyOrder(-9)]
    public TimeOnly? Time { get; init; }

    /// <summary>Who did it.</summary>
    [JsonPropertyOrder(100)]
    public string? DoneBy { get; init; }

    /// <summary>Who wrote it down, as stated on the slip; who recorded it here is in the entry's heading.</summary>
    [JsonPropertyOrder(100)]
    public string? EnteredBy { get; init; }

    /// <summary>When it was written down, as stated; not before it happened.</summary>
    [JsonPropertyOrder(100)]
    public DateOnly? EnteredOn { get; init; }

    /// <summary>The paper behind it: invoice, delivery note, count sheet, report, notice.</summary>
    [JsonPropertyOrder(100)]
    public string? Document { get; init; }

    /// <summary>Supplier, grower or consignor.</summary>
    [JsonPropertyOrder(100)]
    public string? Supplier { get; init; }

    /// <summary>Recipient or consignee.</summary>
    [JsonPropertyOrder(100)]
    public string? Recipient { get; init; }

    /// <summary>Where lees, marc or a shipment went.</summary>
    [JsonPropertyOrder(100)]
    public string? Destination { get; init; }

    /// <summary>Why.</summary>
    [JsonPropertyOrder(100)]
    public string? Reason { get; init; }

    /// <summary>Who saw it.</summary>
    [JsonPropertyOrder(100)]
    public string? Witness { get; init; }

    /// <summary>How it was measured or done.</summary>
    [JsonPropertyOrder(100)]
    public string? Method { get; init; }

    /// <summary>The instrument, or the report of a laboratory.</summary>
    [JsonPropertyOrder(100)]
    public string? Instrument { get; init; }

    /// <summary>True when the figures are estimates, false when they were measured; not said when left out.</summary>
    [JsonPropertyOrder(100)]
    public bool? Estimated { get; init; }

    /// <summary>Colour of the wine: white, rosé, red.</summary>
    [JsonPropertyOrder(100)]
    public string? Colour { get; init; }

    /// <summary>Anything else.</summary>
    [JsonPropertyOrder(100)]
    public string? Note { get; init; }

    /// <summary>What is known to be wrong or unusual and was recorded all the same, each with its reason (law 11).</summary>
    [JsonPropertyOrder(101)]
    public IReadOnlyList<RaisedFlag>? Flags { get; init; }

    /// <summary>Figures and units as typed, by field, where the form converted them (law 12).</summary>
    [JsonPropertyOrder(101)]
    public IReadOnlyDictionary<string, string>? Typed { get; init; }

    /// <summary>Finds the postings, at the operation's moment of book order; says what is wrong and what it assumed.</summary>
    internal abstract void Decide(Deciding deciding);

    /// <summary>Volumes this operation measured, to be held against the book whenever an earlier entry is changed.</summary>
    internal virtual IEnumerable<(Account Account, Quantities.Volume Measured)> Measured(Cellar cellar, Deed deed) => [];

    /// <summary>The one account that a lot and a vessel mean, either of which may be left out; null when they no longer tell one.</summary>
    private protected static Account? Meant(Cellar cellar, string? lot, string? vessel)
    {
        IReadOnlyList<Account> known = lot is not null ? [.. cellar.AccountsOfLot(lot).Where(account => vessel is null || account.Place == vessel)]
            : vessel is null ? []
            : cellar.Vessel(vessel) is { Accounts.IsEmpty: false } hold ? hold.Accounts
            : cellar.Vessel(vessel).Last is { } last ? [last] : [];
        // Where nothing ever lay, nil is what the book holds.
        return known.Count == 0 && (lot ?? vessel) is not null ? Account.Bulk(lot ?? "", vessel ?? Account.Unplaced) : OnlyOne(cellar, known);
    }

    /// <summary>The one of these that holds something; when none does, the last.</summary>
    private protected static Account? OnlyOne(Cellar cellar, IReadOnlyList<Account> known)
    {
        var filled = known.Where(account => !cellar.At(account).IsEmpty).ToArray();
        return filled.Length == 1 ? filled[0] : filled.Length == 0 && known.Count > 0 ? known[^1] : null;
    }

    /// <summary>True for what is said about the book itself: it has no moment of book order and moves nothing.</summary>
    [JsonIgnore]
    public virtual bool IsAboutTheBook => false;

    /// <summary>Words of the operation that say how or where to, such as "cleaned", "sold", "breakage"; cautions go by them.</summary>
    internal virtual IEnumerable<string> SaidWords => [];

    /// <summary>True when it hands wine to other people.</summary>
    [JsonIgnore]
    internal virtual bool Releases => false;

    /// <summary>What the operation calls the materials it uses.</summary>
    internal virtual IEnumerable<string> MaterialsNamed => [];

    /// <summary>What was paid for what a posting brought in; null where nothing is said.</summary>
    internal virtual Quantities.Money? PriceOf(Posting posting, Deed deed) => null;

    /// <summary>The currency its prices are stated in; null where it states none.</summary>
    internal virtual string? PriceCurrency => null;

    /// <summary>True when it states a price, so that a currency is needed.</summary>
    internal virtual bool HasPrice => false;

    /// <summary>A cost of its own that it puts on wine; null for all but that.</summary>
    internal virtual Costing.OwnCost? OwnCost => null;

    /// <summary>True when what it states holds for all that lies there, also for what is entered late before it.</summary>
    internal virtual bool StatesAllThatLies => false;

    /// <summary>True where water and sugar make a concentrate juice again: they neither enrich nor thin a must.</summary>
    internal virtual bool MakesUpConcentrate => false;

    /// <summary>True for a posting that brings more sugar into a must than its volume of juice would, without saying how much.</summary>
    internal virtual bool BringsConcentrate(Posting posting) => false;

    /// <summary>True when the bottles it brings can only be of a bottling that was there before.</summary>
    internal virtual bool NeedsKnownBottling => false;

    /// <summary>The lot, and the vessel where one is named, that it is about without moving it; it must lie there. Null for what moves wine.</summary>
    internal virtual (string Lot, string? Vessel)? About => null;

    /// <summary>Places whose notes this operation adds to.</summary>
    internal virtual IEnumerable<Account> NotedAt(Cellar cellar) => [];

    /// <summary>The notes of such a place afterwards.</summary>
    internal virtual WineNotes NotesAfter(WineNotes notes, Deed deed) => notes;

    /// <summary>Contents that this operation found by analysis: they stand in place of all additions before it.</summary>
    [JsonIgnore]
    internal virtual IEnumerable<(Limits.Substance Substance, Quantities.Dose Found)> ContentsFound => [];

    /// <summary>What a posting into the stores tells of the delivery; null where it brings back or finds some of one that is known.</summary>
    internal virtual Stores.DeliveryFacts? Brought(Posting posting, Deed deed) => null;

    /// <summary>Origins that a posting from outside brings, or null where the operation says none.</summary>
    internal virtual OriginMix? OriginBrought(Posting posting) => null;
}

/// <summary>Something recorded although it is wrong or unusual.</summary>
/// <param name="Code">What it is, such as "over_limit".</param>
/// <param name="Reason">Why it was done all the same.</param>
public sealed record RaisedFlag(string Code, string Reason);

/// <summary>A stated part of origin.</summary>
public sealed record OriginStated
{
    /// <summary>Variety of the fruit.</summary>
    public string? Variety { get; init; }

    /// <summary>Year of harvest.</summary>
    public string? Vintage { get; init; }

    /// <summary>Where it grew.</summary>
    public string? Place { get; init; }

    /// <summary>From which purchase.</summary>
    public string? Purchase { get; init; }

    /// <summary>Its part of the whole in per cent; left out when it is the only one. What is missing to 100 is unstated.</summary>
    public Quantities.Percent? Percent { get; init; }

    /// <summary>The mix these parts make; null when none is stated.</summary>
    internal static OriginMix? Mix(IReadOnlyList<OriginStated>? parts)
    {
        if (parts is null || parts.Count == 0) return null;
        if (parts.Count == 1 && parts[0].Percent is null) return OriginMix.Of([(parts[0].Origin, 1)]);
        var stated = parts.Select(part => (part.Origin, Weight: (long)(part.Percent?.Thousandths ?? 0))).ToList();
        var rest = Quantities.Percent.Whole.Thousandths - stated.Sum(part => part.Weight);
        if (rest > 0) stated.Add((Origin.Unstated, rest));
        return OriginMix.Of(stated);
    }

    /// <summary>Refuses parts of more than a whole, or several of which one has no percentage.</summary>
    internal static void Check(Deciding deciding, IReadOnlyList<OriginStated>? parts, string path = "origin")
    {
        if (parts is null) return;
        if (parts.Count > 1 && parts.Any(part => part.Percent is null)) deciding.Refuse(RefusalCode.Missing, $"{path}[{parts.ToList().FindIndex(part => part.Percent is null)}].percent", "Several origins need a percentage each.");
        else if (parts.Sum(part => part.Percent?.Thousandths ?? 0) > Quantities.Percent.Whole.Thousandths) deciding.Refuse(RefusalCode.DoesNotAddUp, path, "The origins add up to more than 100 per cent.");
    }

    private Origin Origin => new(Variety ?? "", Vintage ?? "", Place ?? "", Purchase ?? "");
}
