using System.Collections.Frozen;
using System.Globalization;
using Cellarbook.Core.Facts;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>
/// Something that a limit or a material can speak of: an active substance (sulphur dioxide), the product itself (copper sulphate), a sum by
/// equivalents (acid added as tartaric acid) or a measured level (volatile acidity). From seed/limits/substances.csv.
/// </summary>
/// <param name="Code">Kebab-case word that files and JSON use, such as "so2".</param>
/// <param name="Name">In words.</param>
/// <param name="ENumber">E number, empty where it has none.</param>
/// <param name="Role">"additive", "processing-aid", "both", "sugar", "spirit", "water", "measure" (a level, not added), "practice" or "product" (a packet speaking of itself).</param>
/// <param name="Allergen">The allergen it is or comes from, empty where none.</param>
/// <param name="Reading">The reading of a measurement that stands for its content, such as "totalSo2MgPerLitre"; empty where the book has none of its own.</param>
/// <param name="Source">Where this is from.</param>
/// <param name="Seen">True if the source's text was read; false if it is from memory.</param>
/// <param name="Note">What else to know.</param>
public sealed record Substance(string Code, string Name, string ENumber, string Role, string Allergen, string Reading, string Source, bool Seen, string Note)
{
    /// <summary>Its name, as pages say it.</summary>
    public Sentence Said => Sentence.Seed(Name);

    /// <summary>What it is counted in: a million units to a milligram, a microlitre or a piece. All but what a packet speaks of itself is weighed.</summary>
    public MaterialUnit Unit { get; init; }

    /// <summary>What this substance counts towards besides itself: bluestone is copper, an acid is acidity added.</summary>
    public IReadOnlyList<CountsTowards> Towards { get; internal set; } = [];
}

/// <summary>One substance counted as another: amount × numerator / denominator, whole nanograms, half up.</summary>
/// <param name="Other">What it counts towards.</param>
/// <param name="Numerator">Above nil.</param>
/// <param name="Denominator">Above nil.</param>
/// <param name="Arithmetic">The factor in words, such as "63.546 / 249.677".</param>
/// <param name="Source">Where the factor is from.</param>
public sealed record CountsTowards(Substance Other, long Numerator, long Denominator, string Arithmetic, string Source);

/// <summary>All substances, by code.</summary>
public static class Substances
{
    private static readonly FrozenDictionary<string, Substance> ByCode = Load();

    /// <summary>All of them in the order of the file.</summary>
    public static IReadOnlyList<Substance> All { get; } = [.. Seed.Rows("seed/limits/substances.csv").Select(row => ByCode[row["code"]])];

    /// <summary>Sugar that raises the strength: counted while it is must, because what goes into wine sweetens it.</summary>
    public static Substance Enrichment { get; } = ByCode["enrichment"];

    /// <summary>Water and sugar that went into must or wine, by volume: whole microlitres stand for its units.</summary>
    public static Substance Amelioration { get; } = ByCode["amelioration"];

    /// <summary>The substance of that code, or null.</summary>
    public static Substance? Find(string code) => ByCode.GetValueOrDefault(code);

    /// <summary>
    /// The added substance whose content a reading states: "totalSo2MgPerLitre" is sulphur dioxide. Null for readings of what is not added, such as
    /// volatile acidity.
    /// </summary>
    public static Substance? OfReading(string reading) => reading.Length == 0 ? null : All.FirstOrDefault(substance => substance.Reading == reading && substance.Role != "measure");

    /// <summary>An amount of a substance and all it counts towards: what a place must carry so that a limit on any of them can be judged.</summary>
    public static IEnumerable<(Substance Substance, SubstanceAmount Amount)> Counted(Substance substance, SubstanceAmount amount)
    {
        yield return (substance, amount);
        foreach (var towards in substance.Towards) yield return (towards.Other, amount.Times(towards.Numerator, towards.Denominator));
    }

    private static FrozenDictionary<string, Substance> Load()
    {
        var all = Seed.Rows("seed/limits/substances.csv")
            .Select(row => new Substance(row["code"], row["name"], row["e_number"], row["role"], row["allergen"], row["reading"], row["source"], row["seen"] == "text", row["note"]))
            .ToFrozenDictionary(substance => substance.Code, StringComparer.Ordinal);
        foreach (var group in Seed.Rows("seed/limits/counts_towards.csv").GroupBy(row => row["substance"]))
            all[group.Key].Towards =
            [
                .. group.Select(row => new CountsTowards(all[row["counts_towards"]], Whole(row["numerator"]), Whole(row["denominator"]), row["arithmetic"], row["source"])),
            ];
        return all;
    }

    private static long Whole(string text) => long.Parse(text, NumberStyles.None, CultureInfo.InvariantCulture);
}
