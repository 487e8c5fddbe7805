using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Labels;

/// <summary>Words for the sugar of a wine in the EU.</summary>
public static class SugarTerm
{
    /// <summary>The term of a still wine: dry, medium dry, medium or sweet. At 45 g/L exactly both medium and sweet fit; sweet is given.</summary>
    /// <param name="sugar">Glucose and fructose.</param>
    /// <param name="acidity">Total acidity as tartaric acid; null when not known: the acidity rule then isn't used.</param>
    public static string Still(Dose sugar, Dose? acidity)
    {
        if (sugar.NanogramsPerLitre >= Grams("EU", "sugar_term_still", "sweet")) return "sweet";
        if (sugar.NanogramsPerLitre <= Grams("EU", "sugar_term_still", "dry") || WithAcidity(9, 2, "dry, acidity rule")) return "dry";
        if (sugar.NanogramsPerLitre <= Grams("EU", "sugar_term_still", "medium dry") || WithAcidity(18, 10, "medium dry, acidity rule")) return "medium dry";
        return "medium";

        // The most that sugar may be above acidity stands in the rule's condition: "not more than 2 below the sugar".
        bool WithAcidity(int cap, int difference, string parameter) =>
            acidity is { } acid && LabelRules.Find("EU", "sugar_term_still", parameter, $"not more than {difference} below").Number == cap
            && sugar.NanogramsPerLitre <= Grams("EU", "sugar_term_still", parameter) && sugar.NanogramsPerLitre - acid.NanogramsPerLitre <= difference * 1_000_000_000L;
    }

    /// <summary>The terms a sparkling wine may carry by its sugar, driest first.</summary>
    /// <param name="sugar">Sugar in the wine as sold.</param>
    /// <param name="dosed">True when sugar was added after the second fermentation: brut nature is then barred.</param>
    public static IReadOnlyList<string> Sparkling(Dose sugar, bool dosed) => [.. SparklingTerms.Where(term => Fits(term, sugar, Dose.None) && !(dosed && term.Name == "brut nature")).Select(term => term.Name)];

    /// <summary>
    /// True when a sparkling wine may carry a term. Whether the tolerance of ±3 g/L stretches the bounds of a term is read differently:
    /// <paramref name="lenient"/> reads it so.
    /// </summary>
    public static bool SparklingMayCarry(string term, Dose sugar, bool lenient) =>
        SparklingTerms.Single(one => one.Name == term) is var found && Fits(found, sugar, lenient ? new(Grams("EU", "sugar_term_sparkling", "label tolerance")) : Dose.None);

    // Lower bound and whether the upper bound is within; the upper bounds are the rules' figures.
    private static readonly (string Name, string Parameter, int LowestGrams, bool UpperIsWithin, bool NoUpper)[] SparklingTerms =
    [
        ("brut nature", "brut nature", 0, false, false), ("extra brut", "extra brut", 0, true, false), ("brut", "brut", 0, false, false), ("extra dry", "extra dry", 12, true, false),
        ("dry", "dry (sec)", 17, true, false), ("medium dry", "medium dry (demi-sec)", 32, true, false), ("sweet", "sweet (doux)", 50, true, true),
    ];

    private static bool Fits((string Name, string Parameter, int LowestGrams, bool UpperIsWithin, bool NoUpper) term, Dose sugar, Dose tolerance)
    {
        long content = sugar.NanogramsPerLitre, lowest = term.LowestGrams * 1_000_000_000L - tolerance.NanogramsPerLitre, upper = Grams("EU", "sugar_term_sparkling", term.Parameter) + tolerance.NanogramsPerLitre;
        if (term.NoUpper) return content > upper - 2 * tolerance.NanogramsPerLitre;
        return content >= lowest && (term.UpperIsWithin || tolerance.IsPositive ? content <= upper : content < upper);
    }

    private static long Grams(string regime, string rule, string parameter) => (long)(LabelRules.Find(regime, rule, parameter).Number * 1_000_000_000m);
}
