using System.Collections.Frozen;
using Cellarbook.Core.Book;
using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Operations;

/// <summary>The maker's words for where wine went, and the category each means for must, bulk and bottled wine: seed/records/ways_out.csv.</summary>
public static class WaysOut
{
    private static readonly FrozenDictionary<string, IReadOnlyDictionary<string, string>> ByWord =
        Seed.Rows("seed/records/ways_out.csv").ToFrozenDictionary(row => row["word"], StringComparer.Ordinal);

    /// <summary>Every word, in the order of the file.</summary>
    public static IReadOnlyList<string> Words { get; } = [.. Seed.Rows("seed/records/ways_out.csv").Select(row => row["word"])];

    /// <summary>What a word means.</summary>
    public static string Meaning(string word) => ByWord[word]["meaning"];

    /// <summary>True for a way by which wine gets to other people: then it is held against limits as for the market, by what was measured.</summary>
    public static bool IsRelease(string? word) => word is not null && ByWord.TryGetValue(word, out var row) && row["release"] == "yes";

    /// <summary>The category a word means in a section, or null where it means none.</summary>
    public static Category? Find(string word, Section section) =>
        ByWord.TryGetValue(word, out var row) && row.GetValueOrDefault(section.Word()) is { Length: > 0 } code ? Category.Of(code) : null;

    /// <summary>Posts a way out of a stock account; refuses a word that means nothing there.</summary>
    internal static void Post(Deciding deciding, string? word, Account from, Quantities.Volume volume, string path)
    {
        if (Resolve(deciding, word, from.Section, path) is { } category) deciding.Post(category.Code, from, Account.Counter(category.To.Counters[0]), volume);
    }

    /// <summary>The category of a word, refused when missing, unknown or meaningless in the section.</summary>
    internal static Category? Resolve(Deciding deciding, string? word, Section section, string path)
    {
        if (string.IsNullOrEmpty(word)) deciding.Refuse(RefusalCode.Missing, path, $"Say where it went: one of {string.Join(", ", WordsOf(section))}.");
        else if (!ByWord.ContainsKey(word)) deciding.Refuse(RefusalCode.UnknownWord, path, $"“{Names.Shown(word)}” is not known here. Use one of {string.Join(", ", WordsOf(section))}.");
        else if (Find(word, section) is { } category) return category;
        else deciding.Refuse(RefusalCode.UnknownWord, path, $"“{word}” can't be said of {Said(section)}. Use one of {string.Join(", ", WordsOf(section))}.");
        return null;
    }

    /// <summary>Words that mean something in a section.</summary>
    public static IEnumerable<string> WordsOf(Section section) => Words.Where(word => Find(word, section) is not null);

    private static Sentence Said(Section section) => section switch { Section.Must => "must", Section.Bulk => "wine in bulk", _ => "bottles" };
}
