using Cellarbook.Core.Book;

namespace Cellarbook.Storage;

/// <summary>An entry as it stands in storage, heading and content.</summary>
public sealed record StoredEntry
{
    /// <summary>Its number.</summary>
    public required long Number { get; init; }

    /// <summary>Version of the hashed form.</summary>
    public required int Form { get; init; }

    /// <summary>Hash of the entry before, in lower-case hexadecimal like the others.</summary>
    public required string PreviousHash { get; init; }

    /// <summary>When it was recorded, in UTC.</summary>
    public required DateTimeOffset RecordedAt { get; init; }

    /// <summary>Who recorded it.</summary>
    public required string Actor { get; init; }

    /// <summary>The key it was sent under, if any.</summary>
    public string? Key { get; init; }

    /// <summary>The day it is filed under.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The id it was imported under, if it was.</summary>
    public string? EventId { get; init; }

    /// <summary>The entry it takes back, if any.</summary>
    public long? TakesBack { get; init; }

    /// <summary>True when the fold leaves that entry out.</summary>
    public bool LeavesOut { get; init; }

    /// <summary>The operation as canonical JSON, as it is sealed: people by contact.</summary>
    public required string Content { get; init; }

    /// <summary>The operation as canonical JSON, people by name.</summary>
    public required string InPlain { get; init; }

    /// <summary>Hash of day, operation and postings.</summary>
    public required string ContentHash { get; init; }

    /// <summary>Hash of the heading; what the next entry carries on.</summary>
    public required string Hash { get; init; }

    /// <summary>Its postings in order.</summary>
    public required IReadOnlyList<Posting> Postings { get; init; }
}

/// <summary>What entries to look for; what is left out doesn't matter.</summary>
public sealed record BookQuery
{
    /// <summary>A text in the operation (document, note, names …), the event id or who recorded it; capitals don't matter in plain letters.</summary>
    public string? Text { get; init; }

    /// <summary>Filed on or after this day.</summary>
    public DateOnly? From { get; init; }

    /// <summary>Filed on or before this day.</summary>
    public DateOnly? To { get; init; }

    /// <summary>With a posting of this category.</summary>
    public string? Category { get; init; }

    /// <summary>With a posting that touches this account, lot, bottling, vessel or shelf.</summary>
    public string? Account { get; init; }

    /// <summary>About this lot, vessel or bottling: with a posting that touches it, or naming it in what it says.</summary>
    public string? About { get; init; }

    /// <summary>Recorded or done by somebody, or naming them: part of a name; capitals don't matter in plain letters.</summary>
    public string? Person { get; init; }

    /// <summary>Only entries of these numbers.</summary>
    public IReadOnlyList<long>? Numbers { get; init; }

    /// <summary>Of this number or a higher one.</summary>
    public long? FirstNumber { get; init; }

    /// <summary>Of this number or a lower one.</summary>
    public long? LastNumber { get; init; }

    /// <summary>Only entries beyond this number, in the direction of reading: the last number of the page before.</summary>
    public long? Beyond { get; init; }

    /// <summary>Highest number first.</summary>
    public bool NewestFirst { get; init; } = true;

    /// <summary>At most so many.</summary>
    public int Count { get; init; } = 50;
}

/// <summary>A page of entries found.</summary>
/// <param name="Entries">The entries.</param>
/// <param name="Next">What to give as <see cref="BookQuery.Beyond"/> for the next page; null when this is the last.</param>
public sealed record BookPage(IReadOnlyList<StoredEntry> Entries, long? Next);
