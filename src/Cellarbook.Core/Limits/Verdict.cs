using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>How a wine stands to a limit. Ordered: the worst counts.</summary>
public enum VerdictKind
{
    /// <summary>Within it; equality passes.</summary>
    Within,
    /// <summary>Within it, but near.</summary>
    Near,
    /// <summary>A fact is missing.</summary>
    CannotSay,
    /// <summary>Over it, below a floor, or barred.</summary>
    Over,
}

/// <summary>A wine held against one limit.</summary>
public sealed record Verdict
{
    /// <summary>The set.</summary>
    public required LimitSet Set { get; init; }

    /// <summary>The row that decides; null when the set has none for this.</summary>
    public LimitRow? Row { get; init; }

    /// <summary>The substance.</summary>
    public required Substance Substance { get; init; }

    /// <summary>What it is measured against.</summary>
    public required LimitBasis Basis { get; init; }

    /// <summary>The verdict.</summary>
    public required VerdictKind Kind { get; init; }

    /// <summary>The sum worked in words.</summary>
    public required Sentence Arithmetic { get; init; }

    /// <summary>What is missing, when it can't be said: measurements and facts by name.</summary>
    public IReadOnlyList<Sentence> Missing { get; init; } = [];

    /// <summary>The value judged, ng/L; null where there is none or it isn't counted so.</summary>
    public Dose? Value { get; init; }

    /// <summary>The limit, ng/L; null where there is no figure or it isn't counted so.</summary>
    public Dose? Limit { get; init; }

    /// <summary>How much more of the substance may come in, over the whole volume; null where there is no figure or a floor.</summary>
    public SubstanceAmount? Room { get; init; }

    /// <summary>By how much it is over (or below a floor), ng/L; null when it isn't.</summary>
    public Dose? Excess { get; init; }

    /// <summary>True when it was judged by what was added, because nothing was measured.</summary>
    public bool ByAdditions { get; init; }

    /// <summary>True when a later blend or analysis can't clear it: a barred substance, or a dose that was exceeded.</summary>
    public bool Stays { get; init; }

    /// <summary>Entries of the analyses it rests on.</summary>
    public IReadOnlyList<long> Analyses { get; init; } = [];

    /// <summary>Where a rule is written that stands in no row, and whether that text was read.</summary>
    public (string Source, bool Seen)? Cited { get; init; }

    /// <summary>Where the limit is written.</summary>
    public string Source => Cited?.Source ?? Row?.Source ?? Set.Source;

    /// <summary>True when that text was read; false when the figure is from memory.</summary>
    public bool Seen => Cited?.Seen ?? Row?.Seen ?? false;

    /// <summary>The verdict in a word: "within", "near", "over", "cannot say".</summary>
    public string Word => Kind switch { VerdictKind.Within => "within", VerdictKind.Near => "near", VerdictKind.Over => "over", _ => "cannot say" };
}

/// <summary>A wine held against a whole set.</summary>
/// <param name="Set">The set.</param>
/// <param name="Verdicts">One for each substance and basis that is in the wine or was measured, in the order of the set.</param>
/// <param name="Notes">Rows that no comparison settles, for substances of this wine or for any wine.</param>
/// <param name="NotMeasured">Substances the set limits that were neither added nor measured.</param>
public sealed record SetVerdict(LimitSet Set, IReadOnlyList<Verdict> Verdicts, IReadOnlyList<LimitRow> Notes, IReadOnlyList<Substance> NotMeasured)
{
    /// <summary>The worst of them; within when there is none.</summary>
    public VerdictKind Worst => Verdicts.Count == 0 ? VerdictKind.Within : Verdicts.Max(verdict => verdict.Kind);
}
