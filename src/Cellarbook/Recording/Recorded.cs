using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Storage;

namespace Cellarbook.Recording;

/// <summary>What became of something sent through the door: refused, checked, written, or found written before.</summary>
public sealed record Recorded
{
    /// <summary>Why it wasn't recorded; empty when it was, or could be.</summary>
    public IReadOnlyList<Refusal> Refusals { get; init; } = [];

    /// <summary>What it did to the book, or would do; null for a refusal and a replay.</summary>
    public Trial? Trial { get; init; }

    /// <summary>Number and hash of the entry written; null for a check.</summary>
    public ChainHead? Written { get; init; }

    /// <summary>When it was written.</summary>
    public DateTimeOffset? RecordedAt { get; init; }

    /// <summary>Who recorded it.</summary>
    public string? Actor { get; init; }

    /// <summary>The entry that the same request made before, under the same key.</summary>
    public StoredEntry? Replay { get; init; }

    /// <summary>What is worth knowing about it.</summary>
    public IReadOnlyList<Flag> Flags => Trial?.Flags ?? [];

    /// <summary>The entry's number, where there is an entry.</summary>
    public long? Number => Written?.Number ?? Replay?.Number;

    /// <summary>A refusal.</summary>
    public static Recorded Refused(IReadOnlyList<Refusal> refusals) => new() { Refusals = refusals };
}

/// <summary>What became of an imported history.</summary>
/// <param name="Entries">Entries recorded, or that would be.</param>
/// <param name="Skipped">Events known already with the same content.</param>
/// <param name="Refusals">Why nothing was recorded.</param>
/// <param name="Flags">What is worth knowing.</param>
/// <param name="Check">True when nothing was to be recorded.</param>
public sealed record ImportResult(int Entries, int Skipped, IReadOnlyList<Refusal> Refusals, IReadOnlyList<Flag> Flags, bool Check)
{
    /// <summary>Rows of the file.</summary>
    public int Rows { get; init; }

    /// <summary>How many refusals there are besides those listed.</summary>
    public int RefusedBesides { get; init; }

    /// <summary>Number of the entry after which they stand, or would stand.</summary>
    public long After { get; init; }

    /// <summary>The first and the last day of the entries; null when there are none.</summary>
    public (DateOnly First, DateOnly Last)? Days { get; init; }

    /// <summary>Lots, vessels and bottlings that come in with them.</summary>
    public Newcomers Brings { get; init; } = Newcomers.None;

    /// <summary>True when the book changed since it was looked at, so that nothing was recorded.</summary>
    public bool IsStale { get; init; }

    /// <summary>Nothing was recorded.</summary>
    public static ImportResult Refused(IReadOnlyList<Refusal> refusals, bool check) => new(0, 0, refusals, [], check);
}
