using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Book;

/// <summary>
/// One thing done on one day: what the fold works through. An entry holds one; a correction holds what it takes back (as postings of its own
/// day, when the original's period is closed or the original was imported) and what it writes instead.
/// </summary>
public sealed class Deed
{
    // Kept small, because a book holds millions: one posting alone, or a list; the operation alone, or all that is known besides.
    private object postings = Array.Empty<Posting>();
    private object? more;

    /// <summary>Number of the entry it stands in.</summary>
    public required long Entry { get; init; }

    /// <summary>Its place among the entry's deeds.</summary>
    public required int Index { get; init; }

    /// <summary>The day it happened.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The time, where given; to the second.</summary>
    public TimeOnly? Time { get => (more as Besides)?.Time; init => Note(value is null, besides => besides.Time = value is { } time ? TimeOnly.FromTimeSpan(TimeSpan.FromSeconds((int)time.ToTimeSpan().TotalSeconds)) : null); }

    /// <summary>What was done; null for what a journal file brought in and for a take-back by postings.</summary>
    public Operation? Operation
    {
        get => more is Besides besides ? besides.Operation : (Operation?)more;
        internal set
        {
            if (more is Besides besides) besides.Operation = value;
            else more = value;
        }
    }

    /// <summary>What it moves, in order.</summary>
    public IReadOnlyList<Posting> Postings { get => postings as IReadOnlyList<Posting> ?? [(Posting)postings]; internal set => postings = value.Count == 1 ? value[0] : value; }

    /// <summary>The entry this takes back by postings, last posting first.</summary>
    public long? TakesBack { get => (more as Besides)?.TakesBack; init => Note(value is null, besides => besides.TakesBack = value); }

    /// <summary>A deed as read back from storage.</summary>
    public static Deed Stored(long entry, int index, DateOnly day, TimeOnly? time, Operation? operation, IReadOnlyList<Posting> postings, long? takesBack) =>
        new() { Entry = entry, Index = index, Day = day, Time = time, Operation = operation, Postings = postings, TakesBack = takesBack };

    private void Note(bool isNothing, Action<Besides> note)
    {
        if (isNothing) return;
        if (more is not Besides besides) more = besides = new() { Operation = (Operation?)more };
        note(besides);
    }

    private sealed class Besides
    {
        public Operation? Operation { get; set; }

        public TimeOnly? Time { get; set; }

        public long? TakesBack { get; set; }
    }
}

/// <summary>An operation as written in the book.</summary>
public sealed class Entry
{
    private readonly object deeds = Array.Empty<Deed>();
    private readonly long takesBack;
    private long takenBackBy;

    /// <summary>Its number: 1, 2, 3 … without gaps.</summary>
    public required long Number { get; init; }

    /// <summary>What it holds; empty for entries about the book itself (vessels, premises, closings).</summary>
    public required IReadOnlyList<Deed> Deeds { get => deeds as IReadOnlyList<Deed> ?? [(Deed)deeds]; init => deeds = value.Count == 1 ? value[0] : value; }

    /// <summary>The operation as sent; null for what a journal file brought in.</summary>
    public Operation? Operation { get; internal set; }

    /// <summary>The day it is filed under.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The id it was imported under, while it is being written; afterwards storage knows it.</summary>
    public string? EventId { get; internal set; }

    /// <summary>True when a journal file brought it in.</summary>
    public bool IsImported { get; init; }

    /// <summary>The entry it takes back.</summary>
    public long? TakesBack { get => takesBack == 0 ? null : takesBack; init => takesBack = value ?? 0; }

    /// <summary>True when the fold leaves that entry out; false when the take-back is postings of its own day.</summary>
    public bool LeavesOut { get; init; }

    /// <summary>The entry that took this one back, if any.</summary>
    public long? TakenBackBy { get => takenBackBy == 0 ? null : takenBackBy; internal set => takenBackBy = value ?? 0; }

    /// <summary>An entry as read back from storage. Of what a journal file brought in, operation and event id stay in storage.</summary>
    public static Entry Stored(long number, DateOnly day, Operation? operation, string? eventId, long? takesBack, bool leavesOut, IReadOnlyList<Deed> deeds) =>
        new() { Number = number, Day = day, Operation = operation, IsImported = eventId is not null, TakesBack = takesBack, LeavesOut = leavesOut, Deeds = deeds };
}
