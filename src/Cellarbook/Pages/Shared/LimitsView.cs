using Cellarbook.Core.Limits;

namespace Cellarbook.Pages.Shared;

/// <summary>A lot or bottling against its limits, as a page shows it.</summary>
/// <param name="Found">What the core found.</param>
/// <param name="WithLaw">True when it is held against every law on request.</param>
/// <param name="AsksLaw">Where the law is to be had on request; null where it applies anyway.</param>
public sealed record LimitsView(LotLimits Found, bool WithLaw, string? AsksLaw)
{
    /// <summary>The lot, for its additions; null for a bottling.</summary>
    public string? Lot => Found.Places.Any(place => place.Place.Account.Section == Core.Book.Section.Bottled) ? null : Found.Name;

    /// <summary>Lines worth showing: the worst first, what nobody added or measured last; among them in the order of the sets.</summary>
    public IReadOnlyList<(PlaceLimits Place, Verdict Verdict)> Lines => 
        [.. Found.Worst.OrderBy(pair => pair.Verdict.Kind switch { VerdictKind.Over => 0, VerdictKind.CannotSay when pair.Place.Wine.Substances.ContainsKey(pair.Verdict.Substance) => 1, VerdictKind.Near => 2, VerdictKind.Within => 3, _ => 4 })];

    /// <summary>A verdict's class on the page.</summary>
    public static string? Style(Verdict verdict) => verdict.Kind == VerdictKind.Over ? "amiss" : null;

    /// <summary>A verdict in words.</summary>
    public static Sentence Word(Verdict verdict) => verdict.Kind switch
    {
        VerdictKind.Within => verdict.ByAdditions ? "within, by additions" : "within",
        VerdictKind.Near => verdict.ByAdditions ? "near, by additions" : "near",
        VerdictKind.Over => verdict.ByAdditions ? "over, by additions" : "over",
        _ => "cannot say",
    };

    /// <summary>What it limits, in words.</summary>
    public static Sentence About(Verdict verdict) => verdict.Basis switch
    {
        // Their names say already that it was added.
        _ when verdict.Substance.Code is "enrichment" or "amelioration" => Sentence.Seed(verdict.Substance.Name),
        LimitBasis.AddedDose => $"{Sentence.Seed(verdict.Substance.Name)}, added",
        LimitBasis.Residual => $"{Sentence.Seed(verdict.Substance.Name)}, left",
        _ => Sentence.Seed(verdict.Substance.Name),
    };
}
