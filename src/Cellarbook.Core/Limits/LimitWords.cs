using System.Collections.Frozen;

namespace Cellarbook.Core.Limits;

/// <summary>What a limit is measured against.</summary>
public enum LimitBasis
{
    /// <summary>What was put in, whatever became of it.</summary>
    AddedDose,
    /// <summary>What is left of it in the wine.</summary>
    Residual,
    /// <summary>What there is in all, of its own or added.</summary>
    TotalMeasured,
}

/// <summary>What a row of a limit set says.</summary>
public enum LimitKind
{
    /// <summary>At most so much; equality passes.</summary>
    Max,
    /// <summary>At least so much.</summary>
    Min,
    /// <summary>So much more than the limit it adds to, in a stated case.</summary>
    Increment,
    /// <summary>Barred at any dose.</summary>
    Prohibited,
    /// <summary>Allowed, no number.</summary>
    NoCap,
    /// <summary>A rule in words that no comparison of two figures settles; shown as a note.</summary>
    Rule,
}

/// <summary>Colours a row speaks of.</summary>
[Flags]
public enum WineColours : byte
{
    /// <summary>Not said.</summary>
    None = 0,
    /// <summary>Red.</summary>
    Red = 1,
    /// <summary>White.</summary>
    White = 2,
    /// <summary>Rosé.</summary>
    Rose = 4,
    /// <summary>Any.</summary>
    All = 7,
}

/// <summary>Kinds of wine a row speaks of.</summary>
[Flags]
public enum WineProducts : byte
{
    /// <summary>Not said.</summary>
    None = 0,
    /// <summary>Still wine.</summary>
    Still = 1,
    /// <summary>Semi-sparkling wine.</summary>
    SemiSparkling = 2,
    /// <summary>Wine with carbon dioxide put in.</summary>
    Carbonated = 4,
    /// <summary>Sparkling wine that is not quality sparkling wine.</summary>
    Sparkling = 8,
    /// <summary>Quality sparkling wine.</summary>
    QualitySparkling = 16,
    /// <summary>Liqueur wine.</summary>
    Liqueur = 32,
    /// <summary>Partially fermented must.</summary>
    PartiallyFermented = 64,
    /// <summary>Any.</summary>
    All = 127,
}

/// <summary>Stages at which something is added.</summary>
[Flags]
public enum WineStages : byte
{
    /// <summary>Not said.</summary>
    None = 0,
    /// <summary>Fruit, juice, must, and wine still fermenting.</summary>
    Must = 1,
    /// <summary>Wine.</summary>
    Wine = 2,
    /// <summary>Either.</summary>
    All = 3,
}

/// <summary>The words that files and JSON use for these.</summary>
public static class LimitWords
{
    /// <summary>Bases by word.</summary>
    public static IReadOnlyDictionary<string, LimitBasis> Bases { get; } = new Dictionary<string, LimitBasis>(StringComparer.Ordinal)
    {
        ["added_dose"] = LimitBasis.AddedDose, ["residual"] = LimitBasis.Residual, ["total_measured"] = LimitBasis.TotalMeasured,
    };

    /// <summary>Kinds by word.</summary>
    public static IReadOnlyDictionary<string, LimitKind> Kinds { get; } = new Dictionary<string, LimitKind>(StringComparer.Ordinal)
    {
        ["max"] = LimitKind.Max, ["min"] = LimitKind.Min, ["increment"] = LimitKind.Increment, ["prohibited"] = LimitKind.Prohibited,
        ["no_cap"] = LimitKind.NoCap, ["rule"] = LimitKind.Rule,
    };

    /// <summary>Colours by word.</summary>
    public static IReadOnlyDictionary<string, WineColours> Colours { get; } = new Dictionary<string, WineColours>(StringComparer.Ordinal)
    {
        ["red"] = WineColours.Red, ["white"] = WineColours.White, ["rose"] = WineColours.Rose,
    };

    /// <summary>Products by word.</summary>
    public static IReadOnlyDictionary<string, WineProducts> Products { get; } = new Dictionary<string, WineProducts>(StringComparer.Ordinal)
    {
        ["still"] = WineProducts.Still, ["semi-sparkling"] = WineProducts.SemiSparkling, ["carbonated"] = WineProducts.Carbonated, ["sparkling"] = WineProducts.Sparkling,
        ["quality-sparkling"] = WineProducts.QualitySparkling, ["liqueur"] = WineProducts.Liqueur, ["partially-fermented"] = WineProducts.PartiallyFermented,
    };

    /// <summary>The type of a wine made of other fruit, flowers or honey: the laws on wine of grapes aren't held against it.</summary>
    public const string NotOfGrapes = "not-of-grapes";

    /// <summary>Stages by word.</summary>
    public static IReadOnlyDictionary<string, WineStages> Stages { get; } = new Dictionary<string, WineStages>(StringComparer.Ordinal)
    {
        ["must"] = WineStages.Must, ["wine"] = WineStages.Wine,
    };

    /// <summary>Wine-growing zones of the European Union.</summary>
    public static IReadOnlyList<string> Zones { get; } = ["A", "B", "CI", "CII", "CIII"];

    /// <summary>What a set may be.</summary>
    public static IReadOnlyList<string> SetKinds { get; } = ["law", "recommendation", "packet", "buyer", "house"];

    /// <summary>The word of a basis.</summary>
    public static string Word(LimitBasis basis) => Bases.First(pair => pair.Value == basis).Key;

    /// <summary>The word of a kind.</summary>
    public static string Word(LimitKind kind) => Kinds.First(pair => pair.Value == kind).Key;

    /// <summary>The colour a maker's word means, "rosé" and "Red" included; null when it is none of the three.</summary>
    public static WineColours? ColourOf(string? word) => word?.Trim().ToLowerInvariant().Replace('é', 'e') is { } plain && Colours.TryGetValue(plain, out var colour) ? colour : null;

    /// <summary>Words of rows (cases, schemes, kinds of wine, colours) as pages say them: seed/limits/words.csv. A word of the maker's own stands as it is.</summary>
    private static readonly FrozenDictionary<string, string> Plain = Facts.Seed.Rows("seed/limits/words.csv").ToFrozenDictionary(row => row["word"], row => row["spoken"], StringComparer.Ordinal);

    /// <summary>Every one of them.</summary>
    public static IEnumerable<Sentence> AllSaid => Plain.Values.Select(Sentence.Seed);

    /// <summary>A word of a row as pages say it.</summary>
    public static Sentence Said(string word) => Plain.TryGetValue(word, out var spoken) ? Sentence.Seed(spoken) : Sentence.Verbatim(word);

    /// <summary>"a", "a or b", "a, b or c".</summary>
    public static Sentence Either(IReadOnlyList<Sentence> words) => words.Count == 1 ? words[0] : $"{Sentence.Join(", ", words.SkipLast(1))} or {words[^1]}";

    /// <summary>A basis in a sentence.</summary>
    public static Sentence Spoken(LimitBasis basis) => basis switch
    {
        LimitBasis.AddedDose => "added",
        LimitBasis.Residual => "left in the wine",
        _ => "in all",
    };
}
