using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Book;

/// <summary>
/// What recording something would make of the book: worked out on a fork, accepted or dropped as a whole. Holds refusals when it can't be.
/// </summary>
public sealed class Trial
{
    internal Trial(IReadOnlyList<Entry> entries) => Entries = entries;

    /// <summary>The entries it would add, numbered.</summary>
    public IReadOnlyList<Entry> Entries { get; }

    /// <summary>Why it can't be recorded, first reason first; empty when it can.</summary>
    public IReadOnlyList<Refusal> Refusals { get; internal set; } = [];

    /// <summary>What is worth knowing about it.</summary>
    public IReadOnlyList<Flag> Flags { get; internal set; } = [];

    /// <summary>The usual cautions for what was done, the loud ones first; none for an import.</summary>
    public IReadOnlyList<Cautions.Heeded> Cautions { get; internal set; } = [];

    /// <summary>What it touched, held against the limits the book answers to: the worst place of each.</summary>
    public IReadOnlyList<Limits.Verdict> Limits { get; internal set; } = [];

    /// <summary>Events of an import that the book knows already, with the same content.</summary>
    public int Skipped { get; internal set; }

    /// <summary>True when it can be recorded.</summary>
    public bool IsGood => Refusals.Count == 0;

    /// <summary>Places as they stood when wine left them for other people.</summary>
    internal List<Place> Leaving { get; } = [];

    /// <summary>The state after it, at the end of the book; for one that changes nothing in the fold, null.</summary>
    internal Cellar? After { get; set; }

    /// <summary>Pages from the first changed day on, when older days change; null when deeds are only appended.</summary>
    internal List<Page>? Refolded { get; set; }

    /// <summary>The pages being folded anew, while they are.</summary>
    internal List<Page>? Refolding { get; set; }

    /// <summary>Pages appended, or the last page continued.</summary>
    internal List<Page> Appended { get; } = [];

    /// <summary>The first day whose page changes.</summary>
    internal DateOnly FirstChanged { get; set; } = DateOnly.MaxValue;

    /// <summary>The fields that the postings of each deed come from; of a file none, because its refusals name the row.</summary>
    internal Dictionary<Deed, IReadOnlyList<Said>> Said { get; } = [];

    /// <summary>Where the doses lay that each take-back took out, found while it was folded.</summary>
    internal Dictionary<Deed, Undosed> Undosed { get; } = [];

    /// <summary>States before certain days, met on the way.</summary>
    internal List<(DateOnly Day, Cellar Cellar)> Checkpoints { get; } = [];
}
