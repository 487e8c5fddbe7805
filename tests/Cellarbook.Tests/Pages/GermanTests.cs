using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using AngleSharp.Dom;
using AngleSharp.Html.Parser;
using Cellarbook.Tests.Texts;

namespace Cellarbook.Tests.Pages;

/// <summary>
/// Whoever reads in German reads German: on every page of the demonstration book no text of the program is left in English. What the makers of that
/// book wrote stands as they wrote it, and a source is cited in its own words.
/// </summary>
public sealed partial class GermanTests
{
    /// <summary>Words that no German sentence of the program holds.</summary>
    [GeneratedRegex(@"\b(the|and|of|with|is|are|to|for|not|at|from|by|it|this|that|be|or|as|one|its|more|than|after|before|which|what|no|yes|must|wine|added|measured|stated|filled|pieces?|vessel|bottles?|entry|red|white|days?|law|house|packet|buyer|unplaced|March|May|October|December)\b")]
    private static partial Regex English();

    [GeneratedRegex(@"\b(CFR|Reg|Annex|Directive|OIV|Code|Codex|MSB|law|rules|USC|BATF|TTB)\b")]
    private static partial Regex Cites();

    [Fact]
    public async Task No_page_of_the_demonstration_book_says_anything_in_English_to_a_German_reader()
    {
        await using var german = await DemoPages.Open("""{"language":"de","decimalComma":true}""");
        var texts = XDocument.Load(Path.Combine(SourceTexts.Root(), "src", "Cellarbook", "Texts", "Texts.de.resx")).Root!.Elements("data").ToDictionary(entry => entry.Attribute("name")!.Value, entry => entry.Element("value")!.Value, StringComparer.Ordinal);
        var said = texts.Values.ToHashSet(StringComparer.Ordinal);
        var known = Regex.Matches(string.Join(' ', said), @"\w+").Select(match => match.Value).ToHashSet(StringComparer.Ordinal);
        var written = (await File.ReadAllTextAsync(Path.Combine(SourceTexts.Root(), "seed", "demo", "book.jsonl"))).Split('\n', StringSplitOptions.RemoveEmptyEntries).SelectMany(line => Written(JsonDocument.Parse(line).RootElement)).Where(text => text.Length > 3).Distinct().OrderByDescending(text => text.Length).ToArray();
        // A language is called by its own name.
        texts.Remove("English");
        var left = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var page in await german.All)
            foreach (var text in Visible(new HtmlParser().ParseDocument(page.Html)))
            {
                var own = written.Aggregate(text, (rest, word) => rest.Replace(word, " ", StringComparison.Ordinal));
                if (Cites().IsMatch(own)) continue;
                if ((texts.TryGetValue(text, out var translated) && translated != text && !said.Contains(text)) || English().Matches(own).Any(match => !known.Contains(match.Value))) left.TryAdd(text, page.Path);
            }
        Assert.True(left.Count == 0, $"{left.Count}\n" + string.Join('\n', left.Take(80).Select(pair => $"{pair.Value}: {pair.Key}")));
    }

    private static IEnumerable<string> Visible(IDocument page)
    {
        foreach (var node in page.All.Where(element => element.LocalName is not ("script" or "style" or "code" or "pre")).SelectMany(element => element.ChildNodes.OfType<IText>()))
            if (string.Join(' ', node.Data.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)) is { Length: > 0 } text) yield return text;
        foreach (var element in page.All)
            foreach (var name in new[] { "aria-label", "title", "placeholder", "data-of", "data-as", "alt" })
                if (element.GetAttribute(name) is { Length: > 0 } text) yield return text;
    }

    private static IEnumerable<string> Written(JsonElement element) => element.ValueKind switch
    {
        JsonValueKind.Object => element.EnumerateObject().SelectMany(member => Written(member.Value)),
        JsonValueKind.Array => element.EnumerateArray().SelectMany(Written),
        JsonValueKind.String => [element.GetString()!],
        _ => [],
    };
}
