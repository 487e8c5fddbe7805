using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Api;

/// <summary>A wine held against one limit, as answered.</summary>
/// <param name="Set">Code of the limit set.</param>
/// <param name="Substance">Code of the substance.</param>
/// <param name="Name">The substance in words.</param>
/// <param name="Basis">added_dose, residual or total_measured.</param>
/// <param name="Verdict">within, near, over or cannot say.</param>
/// <param name="Arithmetic">The sum worked in words.</param>
/// <param name="Source">Where the limit is written.</param>
/// <param name="Seen">"text" when that source was read, "memory" when the figure is from memory.</param>
public sealed record VerdictAnswer(string Set, string Substance, string Name, string Basis, string Verdict, string Arithmetic, string Source, string Seen)
{
    /// <summary>The vessel or shelf that is worst.</summary>
    public string? Place { get; init; }

    /// <summary>The value judged.</summary>
    public string? MgPerLitre { get; init; }

    /// <summary>The limit.</summary>
    public string? LimitMgPerLitre { get; init; }

    /// <summary>How many grams of the substance may still come in, in this place.</summary>
    public string? RoomGrams { get; init; }

    /// <summary>By how much it is over.</summary>
    public string? OverMgPerLitre { get; init; }

    /// <summary>What is missing when it can't be said.</summary>
    public IReadOnlyList<string>? Missing { get; init; }

    /// <summary>True when judged by what was added, because nothing was measured.</summary>
    public bool? ByAdditions { get; init; }

    /// <summary>True when neither a blend nor an analysis clears it.</summary>
    public bool? Stays { get; init; }

    /// <summary>Entries of the analyses it rests on.</summary>
    public IReadOnlyList<long>? Analyses { get; init; }

    /// <summary>A verdict of the core as answered.</summary>
    public static VerdictAnswer Of(Verdict verdict, string? place = null) => new(verdict.Set.Code, verdict.Substance.Code, verdict.Substance.Name, LimitWords.Word(verdict.Basis), verdict.Word, verdict.Arithmetic.ToString(), verdict.Source, verdict.Seen ? "text" : "memory")
    {
        Place = place,
        // What a packet counts in pieces or drops stands in the arithmetic alone.
        MgPerLitre = IsWeighed(verdict) ? verdict.Value?.MilligramsPerLitre : null,
        LimitMgPerLitre = IsWeighed(verdict) ? verdict.Limit?.MilligramsPerLitre : null,
        RoomGrams = IsWeighed(verdict) ? verdict.Room?.Grams : null,
        OverMgPerLitre = IsWeighed(verdict) ? verdict.Excess?.MilligramsPerLitre : null,
        Missing = verdict.Missing.Count > 0 ? [.. verdict.Missing.Select(missing => missing.ToString())] : null,
        ByAdditions = verdict.ByAdditions ? true : null,
        Stays = verdict.Stays ? true : null,
        Analyses = verdict.Analyses.Count > 0 ? verdict.Analyses : null,
    };

    private static bool IsWeighed(Verdict verdict) => verdict.Substance.Unit == MaterialUnit.Milligrams;
}

/// <summary>A lot or bottling held against its limits: of each limit the worst place.</summary>
/// <param name="Of">The lot or bottling.</param>
/// <param name="Verdict">The worst verdict of all.</param>
/// <param name="Sets">The sets it was held against.</param>
/// <param name="Verdicts">One for each limit that something is known of.</param>
/// <param name="Notes">Rules in words that may concern it.</param>
/// <param name="NotMeasured">Substances that a set limits and that were neither added nor measured.</param>
public sealed record LotLimitsAnswer(string Of, string Verdict, IReadOnlyList<string> Sets, IReadOnlyList<VerdictAnswer> Verdicts, IReadOnlyList<string> Notes, IReadOnlyList<string> NotMeasured)
{
    /// <summary>What stands under every verdict.</summary>
    public string Standing => LimitSpeech.Standing;

    /// <summary>What the core found, as answered.</summary>
    public static LotLimitsAnswer From(LotLimits found) => new(found.Name, LimitSpeech.Word(found.WorstKind), [.. found.Sets.Select(set => set.Code)], [.. found.Worst.Select(pair => VerdictAnswer.Of(pair.Verdict, pair.Place.Place.Account.Place))],
        [.. found.Places.SelectMany(place => place.Sets).SelectMany(set => set.Notes.Select(row => LimitSpeech.Note(set.Set, row).ToString())).Distinct()],
        [.. found.Places.SelectMany(place => place.Sets).SelectMany(set => set.NotMeasured).Select(substance => substance.Name).Distinct().Order(StringComparer.Ordinal)]);
}

/// <summary>A limit set as answered.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Name">In words.</param>
/// <param name="As">law, recommendation, packet, buyer or house.</param>
/// <param name="InForce">True when the book's wine is held against it.</param>
/// <param name="Rows">How many rows it has.</param>
/// <param name="FromMemory">How many of them are from memory.</param>
/// <param name="Source">Where it is from.</param>
/// <param name="Note">What to know of it.</param>
public sealed record LimitSetAnswer(string Code, string Name, string As, bool InForce, int Rows, int FromMemory, string Source, string Note)
{
    /// <summary>Whose it is.</summary>
    public string? Who { get; init; }

    /// <summary>Its last day.</summary>
    public DateOnly? Expires { get; init; }

    /// <summary>A set of the core as answered.</summary>
    public static LimitSetAnswer Of(LimitSet set, bool inForce) => new(set.Code, set.Name, set.Kind, inForce, set.Rows.Count, set.Rows.Count(row => !row.Seen), set.Source, set.Note) { Who = set.Who.Length > 0 ? set.Who : null, Expires = set.Expires };
}

/// <summary>A limit set with its rows.</summary>
/// <param name="About">What it is.</param>
/// <param name="Lines">Its rows in the form of the file.</param>
public sealed record LimitSetRowsAnswer(LimitSetAnswer About, IReadOnlyList<LimitLine> Lines);

/// <summary>A limit set of the maker's own, just stated.</summary>
/// <param name="Entry">The entry; null when it was only checked.</param>
/// <param name="Code">Its code.</param>
/// <param name="Rows">How many rows it has.</param>
public sealed record LimitSetStated(long? Entry, string Code, int Rows);
