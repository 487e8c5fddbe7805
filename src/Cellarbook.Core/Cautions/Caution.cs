using Cellarbook.Core.Book;
using Cellarbook.Core.Facts;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Cautions;

/// <summary>A usual caution: a reminder, not advice; local rules and licensed practice go before it. Rows of seed/cautions/cautions.csv.</summary>
/// <param name="Code">Its code, such as "bursting-bottles".</param>
/// <param name="Hazard">The sort of hazard.</param>
/// <param name="Head">In a few words.</param>
/// <param name="Sentence">What to do.</param>
/// <param name="Source">Where it is from, or that it is common practice.</param>
public sealed record Caution(string Code, string Hazard, Sentence Head, Sentence Sentence, Sentence Source)
{
    private IReadOnlyList<Trigger> on = [];

    /// <summary>Parts of names of the materials it goes by; none when it goes by the operation alone.</summary>
    public IReadOnlyList<string> Materials { get; private init; } = [];

    /// <summary>Circumstances in which it stands out.</summary>
    public IReadOnlyList<string> LoudWhen { get; private init; } = [];

    /// <summary>True when a loud one asks for a reason; nothing is refused for it.</summary>
    public bool AsksReason { get; private init; }

    /// <summary>Published figures and facts behind it.</summary>
    public IReadOnlyList<CautionFact> Facts { get; private init; } = [];

    /// <summary>The kinds of operation it belongs to.</summary>
    public IEnumerable<string> Kinds => on.Select(trigger => trigger.Kind).Distinct();

    /// <summary>True when it may concern an operation of this kind, said with this word and touching these sections; null leaves open.</summary>
    internal bool Concerns(string kind, IReadOnlyCollection<string>? words, IReadOnlyCollection<Section>? sections) =>
        on.Any(trigger => trigger.Kind == kind && (trigger.Word is null || words is null || words.Contains(trigger.Word)) && (trigger.Section is not { } section || sections is null || sections.Contains(section)));

    /// <summary>True when a material named so is one of those it goes by.</summary>
    internal bool Names(string material) => Materials.Any(part => material.Contains(part, StringComparison.OrdinalIgnoreCase));

    internal static Caution Of(IReadOnlyDictionary<string, string> row, IEnumerable<CautionFact> facts) => new(row["code"], row["hazard"], Sentence.Seed(row["head"]), Sentence.Seed(row["sentence"]), Sentence.Seed(row["source"]))
    {
        on = [.. row["on"].Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(Trigger.Of)],
        Materials = row["materials"].Split('|', StringSplitOptions.RemoveEmptyEntries),
        LoudWhen = ReadLoud(row["loud_when"]),
        AsksReason = row["asks_reason"] == "yes",
        Facts = [.. facts],
    };

    // "with:" takes the rest: names of materials may hold blanks.
    private static string[] ReadLoud(string text) => text.StartsWith("with:", StringComparison.Ordinal) ? [text] : text.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private sealed record Trigger(string Kind, string? Word, Section? Section)
    {
        public static Trigger Of(string text)
        {
            var at = text.Split('@');
            var said = at[0].Split(':');
            return new(said[0], said.Length > 1 ? said[1] : null, at.Length > 1 ? Enum.Parse<Section>(at[1], ignoreCase: true) : null);
        }
    }
}

/// <summary>A published figure or fact behind a caution, quoted as it stands: a row of seed/cautions/caution_facts.csv.</summary>
/// <param name="Agent">What harms.</param>
/// <param name="Fact">What is known.</param>
/// <param name="Figure">The figure with its unit; empty where there is none.</param>
/// <param name="Where">Whose limit it is, and over what time.</param>
/// <param name="Source">The source.</param>
/// <param name="Seen">True when the source, or a copy of it, was read; false when it is from memory.</param>
public sealed record CautionFact(Sentence Agent, Sentence Fact, Sentence Figure, Sentence Where, Sentence Source, bool Seen);

/// <summary>A caution that belongs to what was done.</summary>
/// <param name="Caution">The caution.</param>
/// <param name="IsLoud">True when the circumstances make it stand out.</param>
public sealed record Heeded(Caution Caution, bool IsLoud);

/// <summary>All cautions, and which belong to what is done.</summary>
public static class CautionSheet
{
    /// <summary>What stands under all of them.</summary>
    public static readonly Sentence Standing = "These are the usual cautions, not advice. The law where you are, the label of a product and licensed practice decide.";

    /// <summary>Every caution, in the order of the file.</summary>
    public static IReadOnlyList<Caution> All { get; } = Load();

    /// <summary>Cautions that a form for this kind may need before anything is typed, the loud ones first.</summary>
    /// <param name="kind">Word of the operation's kind.</param>
    /// <param name="place">The place it was opened for; null while none is chosen.</param>
    /// <param name="word">The word it will be said with, where the form knows, such as "cleaned".</param>
    /// <param name="isHousehold">True for a book that answers to no authority.</param>
    public static IReadOnlyList<Heeded> Before(string kind, Place? place, string? word, bool isHousehold)
    {
        var circumstances = Circumstances.Of(null, place is null ? [] : [place], [], word is null ? [] : [word], isHousehold);
        return [.. All.Where(caution => caution.Concerns(kind, word is null ? null : [word], place is null ? null : [place.Account.Section]))
            .Select(caution => new Heeded(caution, caution.Materials.Count == 0 && IsLoud(caution, circumstances, []))).OrderByDescending(heeded => heeded.IsLoud).ThenBy(heeded => heeded.Caution.Materials.Count > 0)];
    }

    /// <summary>Cautions for what was done, the loud ones first.</summary>
    /// <param name="operation">What was done.</param>
    /// <param name="before">The cellar before it.</param>
    /// <param name="postings">What it moves.</param>
    /// <param name="isHousehold">True for a book that answers to no authority.</param>
    /// <param name="catalogue">Materials by code, for what their names say.</param>
    public static IReadOnlyList<Heeded> For(Operation operation, Cellar before, IReadOnlyList<Posting> postings, bool isHousehold, Catalogue catalogue)
    {
        var kind = OperationJson.KindOf(operation);
        var words = operation.SaidWords.ToArray();
        var materials = operation.MaterialsNamed.Select(name => catalogue.Meant(name) is { } known ? $"{name}, {known.Name}, {known.Kind}, {string.Join(", ", known.Synonyms)}" : name).ToArray();
        var accounts = postings.SelectMany(posting => new[] { posting.From, posting.To }).Concat(operation.NotedAt(before)).Where(account => account.IsStock).Distinct().ToArray();
        var sections = accounts.Select(account => account.Section).ToHashSet();
        var about = All.Where(caution => caution.Concerns(kind, words, sections) && (caution.Materials.Count == 0 || materials.Any(caution.Names))).ToArray();
        if (about.Length == 0) return [];
        var circumstances = Circumstances.Of(operation, [.. accounts.Select(before.At)], postings, words, isHousehold);
        return [.. about.Select(caution => new Heeded(caution, IsLoud(caution, circumstances, materials))).OrderByDescending(heeded => heeded.IsLoud)];
    }

    private static bool IsLoud(Caution caution, IReadOnlySet<string> circumstances, IReadOnlyList<string> materials) => caution.LoudWhen.Any(when => when switch
    {
        "always" => true,
        "material" => caution.Materials.Count > 0,
        _ when when.StartsWith("with:", StringComparison.Ordinal) => materials.Any(material => !caution.Names(material) && when["with:".Length..].Split('|').Any(part => material.Contains(part, StringComparison.OrdinalIgnoreCase))),
        _ => circumstances.Contains(when),
    });

    private static Caution[] Load()
    {
        var facts = Seed.Rows("seed/cautions/caution_facts.csv").ToLookup(row => row["caution"], row => new CautionFact(Sentence.Seed(row["agent"]), Sentence.Seed(row["fact"]), Sentence.Join(" ", [Sentence.Figure(row["value"]), Sentence.Seed(row["unit"])]),
            Sentence.Join(", ", [Sentence.Seed(row["jurisdiction"]), Sentence.Seed(row["time_basis"])]), Sentence.Verbatim(row["source"]), row["seen"] == "text"));
        return [.. Seed.Rows("seed/cautions/cautions.csv").Select(row => Caution.Of(row, facts[row["code"]]))];
    }
}
