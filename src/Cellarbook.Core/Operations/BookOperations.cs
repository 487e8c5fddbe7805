using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>A vessel made, or its name or capacity changed. An entry like any other, but it holds for every day of the book.</summary>
public sealed record Vessel : Operation
{
    /// <summary>Its code.</summary>
    public string? Code { get; init; }

    /// <summary>What it is called.</summary>
    public string? Name { get; init; }

    /// <summary>What it holds; left out: not known, not checked.</summary>
    public Volume? CapacityLitres { get; init; }

    /// <summary>Bucket, carboy, tank, cask …</summary>
    public string? Sort { get; init; }

    /// <summary>Where it stands.</summary>
    public string? Location { get; init; }

    /// <summary>True when it changes a vessel made before.</summary>
    public bool? Changes { get; init; }

    /// <inheritdoc/>
    public override bool IsAboutTheBook => true;

    internal override void Decide(Deciding deciding)
    {
        if (!deciding.NameOk(Code, "code", "vessel")) return;
        if (Code == Account.Unplaced) deciding.Refuse(RefusalCode.BadName, "code", "“unplaced” is a reserved word for wine in no named vessel.");
        if (CapacityLitres is { IsPositive: false }) deciding.Refuse(RefusalCode.NotPositive, "capacityLitres", "The capacity must be above nil.");
        var known = deciding.Vessels.ContainsKey(Code!);
        if (known && Changes != true) deciding.Refuse(RefusalCode.VesselExists, "code", $"There is a vessel {Code} already. Choose another code, or change that one.");
        if (!known && Changes == true && !deciding.Cellar.KnowsVessel(Code!)) deciding.Refuse(RefusalCode.UnknownVessel, "code", $"There is no vessel {Code} to change.");
        var peak = deciding.Cellar.Vessel(Code!).Peak;
        if (CapacityLitres is { } capacity && capacity < peak) deciding.Refuse(RefusalCode.CapacityBelowHeld, "capacityLitres", $"{Code} has held {peak}. Its capacity can't be less; check the figure, or correct the entry that filled it so.");
    }

    /// <summary>The vessel as this makes it.</summary>
    internal VesselFacts Facts(VesselFacts? before, long entry) => new(Code!, Name ?? before?.Name ?? Code!, CapacityLitres ?? before?.Capacity) { Sort = Sort ?? before?.Sort, Location = Location ?? before?.Location, Entry = entry };
}

/// <summary>Who the book is for: name, regimes, time zone, owner. The newest one holds.</summary>
public sealed record Premises : Operation
{
    /// <summary>Name of the household or premises.</summary>
    public string? Name { get; init; }

    /// <summary>household, or the licences and schemes: eu, uk, us, organic-eu …</summary>
    public IReadOnlyList<string>? Regimes { get; init; }

    /// <summary>Time zone, by its IANA name.</summary>
    public string? TimeZone { get; init; }

    /// <summary>Who records, before accounts exist.</summary>
    public string? Owner { get; init; }

    /// <summary>The one currency of the book, as three letters such as EUR.</summary>
    public string? Currency { get; init; }

    /// <summary>How materials cost: movingAverage over all deliveries, or receipt, each delivery at its own price. Left out: movingAverage.</summary>
    public string? MaterialCost { get; init; }

    /// <inheritdoc/>
    public override bool IsAboutTheBook => true;

    /// <summary>The regimes a book may answer to.</summary>
    public static IReadOnlyList<string> KnownRegimes { get; } = ["household", "us", "eu", "uk", "organic-eu"];

    internal override void Decide(Deciding deciding)
    {
        if (Currency is not null && (Currency.Length != 3 || !Currency.All(char.IsAsciiLetterUpper))) deciding.Refuse(RefusalCode.UnknownWord, "currency", "Give the currency as three letters, such as EUR.");
        if (MaterialCost is not (null or "movingAverage" or "receipt")) deciding.Refuse(RefusalCode.UnknownWord, "materialCost", "Say movingAverage or receipt.");
        if (Regimes is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "regimes", $"Say who the book answers to: {string.Join(", ", KnownRegimes)}.");
        foreach (var (regime, i) in (Regimes ?? []).Select((regime, i) => (regime, i)))
            if (!KnownRegimes.Contains(regime)) deciding.Refuse(RefusalCode.UnknownWord, $"regimes[{i}]", $"“{Operations.Names.Shown(regime)}” is not known here. Use {string.Join(", ", KnownRegimes)}.");
        if (TimeZone is not null && !TimeZoneInfo.TryFindSystemTimeZoneById(TimeZone, out _)) deciding.Refuse(RefusalCode.UnknownWord, "timeZone", $"“{Operations.Names.Shown(TimeZone)}” is no time zone. Use a name such as Europe/Vienna.");
    }
}

/// <summary>Closes the book up to a day: no entry may be dated on or before it from then on (law 5).</summary>
public sealed record Close : Operation
{
    /// <summary>The last day of the closed period.</summary>
    public DateOnly? Through { get; init; }

    /// <inheritdoc/>
    public override bool IsAboutTheBook => true;

    internal override void Decide(Deciding deciding)
    {
        if (Through is null) deciding.Refuse(RefusalCode.Missing, "through", "Give the last day of the period.");
        else if (Through > Day) deciding.Refuse(RefusalCode.DayToCome, "through", "A period can be closed when it is over: its last day can't be after the day of closing.");
    }
}

/// <summary>
/// Blanks the text of a contact: a name that stood in entries, whose owner wants it gone or whose time to be kept is over. The entries stay, and
/// their seal holds, because they hold only the salted hash of the name; salt and text are removed and can't be brought back.
/// </summary>
public sealed record BlankContact : Operation
{
    /// <summary>The contact's number.</summary>
    public int? Contact { get; init; }

    /// <inheritdoc/>
    public override bool IsAboutTheBook => true;

    internal override void Decide(Deciding deciding)
    {
        if (Contact is null) deciding.Refuse(RefusalCode.Missing, "contact", "Give the number of the contact; the list of contacts shows it.");
    }
}

/// <summary>
/// Takes an entry back whole and may write one or more operations instead, in one entry (law 4). The original stays visible; nothing is removed.
/// </summary>
public sealed record Correct : Operation
{
    /// <summary>The entry's number, or the imported event's id.</summary>
    public EntryReference? TakesBack { get; init; }

    /// <summary>What is written instead: one operation, several, or none.</summary>
    public IReadOnlyList<Operation>? Write { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (TakesBack is null) deciding.Refuse(RefusalCode.Missing, "takesBack", "Say which entry is taken back.");
        if (string.IsNullOrWhiteSpace(Reason)) deciding.Refuse(RefusalCode.Missing, "reason", "Say why.");
        foreach (var (operation, i) in (Write ?? []).Select((operation, i) => (operation, i)))
            if (operation.IsAboutTheBook || operation is Correct or Imported) deciding.Refuse(RefusalCode.UnknownKind, $"write[{i}].kind", "Only what was done with wine can be written instead.");
    }
}

/// <summary>An entry named by its number or by the id it was imported under.</summary>
public readonly record struct EntryReference(long? Number, string? EventId)
{
    /// <inheritdoc/>
    public override string ToString() => Number?.ToString(System.Globalization.CultureInfo.InvariantCulture) ?? EventId ?? "";
}
