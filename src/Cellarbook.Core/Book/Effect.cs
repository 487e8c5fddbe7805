using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>What the fold saw happen, in terms of standings; a regime turns them into classes and lines.</summary>
public enum EffectKind : byte
{
    /// <summary>A posting: the giving side stood at <see cref="Effect.Before"/>, the receiving side got <see cref="Effect.After"/>.</summary>
    Move,
    /// <summary>So much of what lies in an account was stated anew.</summary>
    Restated,
    /// <summary>One of the wines that met in an account.</summary>
    MetPart,
    /// <summary>What they became together; ends the run of parts.</summary>
    MetResult,
}

/// <summary>One effect of a deed.</summary>
public readonly struct Effect
{
    // An account or, for a move, what went along: never both.
    private readonly object? about;

    /// <summary>An effect.</summary>
    public Effect(EffectKind kind, Deed deed, int posting, Account? account, Standing before, Standing after, Volume volume, Carried? carried = null)
    {
        about = (object?)account ?? carried;
        Kind = kind;
        Deed = deed;
        Posting = posting;
        Before = before;
        After = after;
        Volume = volume;
    }

    /// <summary>The deed.</summary>
    public Deed Deed { get; }

    /// <summary>The account, except for a move.</summary>
    public Account? Account => about as Account;

    /// <summary>What a move took along of doses; null when nothing.</summary>
    public Carried? Carried => about as Carried;

    /// <summary>How much.</summary>
    public Volume Volume { get; }

    /// <summary>Standing before, or of the part, or of the giving side.</summary>
    public Standing Before { get; }

    /// <summary>Standing after, or of the result, or of what was received.</summary>
    public Standing After { get; }

    /// <summary>What sort.</summary>
    public EffectKind Kind { get; }

    /// <summary>Place of the posting among the deed's, for a move.</summary>
    public int Posting { get; }
}

/// <summary>A measurement in the book that no longer agrees with the entries before it (law 4).</summary>
/// <param name="Entry">The entry that measured.</param>
/// <param name="Account">Where.</param>
/// <param name="Measured">What it measured.</param>
/// <param name="Book">What the book holds there now, after that entry.</param>
public sealed record Disagreement(long Entry, Account Account, Volume Measured, Volume Book);
