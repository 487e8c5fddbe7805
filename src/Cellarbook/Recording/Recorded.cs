using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Storage;

namespace Cellarbook.Recording;

/// <summary>What became of something sent through the door.</summary>
/// <param name="Entry">The entry as written; null for a check or a refusal.</param>
/// <param name="Flags">What is worth knowing about it.</param>
/// <param name="IsReplay">True when the same request had been recorded before.</param>
public sealed record Recorded(StoredEntry? Entry, IReadOnlyList<Flag> Flags, bool IsReplay)
{
    /// <summary>Why it wasn't recorded; empty when it was, or could be.</summary>
    public IReadOnlyList<Refusal> Refusals { get; private init; } = [];

    /// <summary>What a check would have written.</summary>
    public Trial? Trial { get; private init; }

    /// <summary>A refusal.</summary>
    public static Recorded Refused(IReadOnlyList<Refusal> refusals) => new(null, [], false) { Refusals = refusals };

    /// <summary>A check that found nothing in the way.</summary>
    public static Recorded Checked(Trial trial) => new(null, trial.Flags, false) { Trial = trial };
}

/// <summary>What became of an imported history.</summary>
/// <param name="Entries">Entries recorded, or that would be.</param>
/// <param name="Skipped">Events known already with the same content.</param>
/// <param name="Refusals">Why nothing was recorded.</param>
/// <param name="Flags">What is worth knowing.</param>
/// <param name="Check">True when nothing was to be recorded.</param>
public sealed record ImportResult(int Entries, int Skipped, IReadOnlyList<Refusal> Refusals, IReadOnlyList<Flag> Flags, bool Check);
