using System.Collections.Frozen;
using System.Xml.Linq;
using Cellarbook.Core.Quantities;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Texts;

/// <summary>A language that pages can be read in.</summary>
/// <param name="Code">Its code, as in <c>lang</c>: "en", "de".</param>
/// <param name="Name">Its own name.</param>
public sealed record Language(string Code, string Name);

/// <summary>
/// What pages and forms say, in the language of the preferences. The English pattern of a sentence is the key; Texts.resx lists them all, and a
/// translation is a file beside it, named by its language: Texts.de.resx. The API speaks English.
/// </summary>
public sealed class Texts(PreferencesFile preferences)
{
    /// <summary>The language everything is written in first, and the API's.</summary>
    public const string English = "en";

    private const string Before = "Texts/Texts.", After = ".resx";
    private static readonly FrozenDictionary<string, FrozenDictionary<string, string>> Translations = Load();

    /// <summary>Every language there is, English first; each names itself by its word for "English".</summary>
    public static IReadOnlyList<Language> Languages { get; } =
        [new(English, "English"), .. Translations.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => new Language(pair.Key, pair.Value.GetValueOrDefault("English", pair.Key)))];

    /// <summary>The language that holds now.</summary>
    public string Language => preferences.Now.Language;

    /// <summary>What a sentence says in the language of the preferences.</summary>
    public string this[Sentence? sentence] => sentence is null ? "" : Say(sentence, Language, preferences.Now.DecimalComma);

    /// <summary>What a sentence says in a language; one that has no translation is said in English.</summary>
    /// <param name="sentence">The sentence.</param>
    /// <param name="language">Code of the language.</param>
    /// <param name="comma">True for a decimal comma in the figures put into it.</param>
    public static string Say(Sentence sentence, string language, bool comma = false)
    {
        var pattern = sentence.Pattern;
        if (Translations.TryGetValue(language, out var translated)) pattern = translated.GetValueOrDefault(pattern, pattern);
        return Sentence.Filled(pattern, [.. sentence.Parts.Select(part => Put(part, language, comma))]);
    }

    private static string Put(Sentence.Part part, string language, bool comma) => part.Value switch
    {
        // Only English begins its nouns small; another language says them as its translation does.
        Sentence inner when part.Format == Sentence.Part.Lower && language == English => Sentence.Part.Lowered(Say(inner, language, comma)),
        Sentence inner => Say(inner, language, comma),
        double or float or decimal or Volume or Strength or Dose or Mass or FruitWeight or Money or Percent when comma => part.ToString().Replace('.', ','),
        _ when comma && part.Format == Sentence.Part.Figure => part.ToString().Replace('.', ','),
        _ => part.ToString(),
    };

    /// <summary>The translations that lie in the program. They are read as they are written: the resource compiler would take "Lees" and "lees" for one.</summary>
    private static FrozenDictionary<string, FrozenDictionary<string, string>> Load()
    {
        var assembly = typeof(Texts).Assembly;
        return assembly.GetManifestResourceNames().Where(name => name.StartsWith(Before, StringComparison.Ordinal) && name.Length > Before.Length + After.Length - 1)
            .ToFrozenDictionary(name => name[Before.Length..^After.Length], name =>
            {
                using var stream = assembly.GetManifestResourceStream(name)!;
                return XDocument.Load(stream).Root!.Elements("data").ToFrozenDictionary(entry => entry.Attribute("name")!.Value, entry => entry.Element("value")!.Value, StringComparer.Ordinal);
            });
    }
}
