using AngleSharp.Dom;
using AngleSharp.Html.Dom.Events;
using AngleSharp.Html.Parser;

namespace Cellarbook.Tests.Pages;

/// <summary>Pages are HTML by the letter of the standard: no parse error, each id once, each field with a label, headings in order.</summary>
public sealed class HtmlTests(DemoPages pages)
{
    [Fact]
    public async Task Every_page_of_the_demonstration_book_is_sound_html()
    {
        var all = await pages.All;
        Assert.True(all.Count > 200, $"Only {all.Count} pages were found.");
        foreach (var kind in new[] { "/lots/", "/vessels/", "/bottles/", "/book/", "/record/", "/statements", "/bench/", "/settings" }) Assert.Contains(all, page => page.Path.StartsWith(kind, StringComparison.Ordinal));
        Assert.All(all, page => Assert.Equal(page.Path == "/nowhere" ? 404 : 200, (int)page.Status));
        var faults = all.SelectMany(page => Faults(page.Html).Select(fault => $"{page.Path}: {fault}")).ToList();
        Assert.True(faults.Count == 0, $"{faults.Count} in {all.Count} pages\n" + string.Join('\n', faults.Take(60)));
    }

    [Theory]
    [InlineData("<p><b>so</p>", "parse")]
    [InlineData("<table><tr><p>so</table>", "parse")]
    [InlineData("<p id=a>so<p id=a>so", "id a stands twice")]
    [InlineData("<input name=a>", "has no label")]
    [InlineData("<label for=b>B</label>", "leads to no field")]
    [InlineData("<h3>so</h3>", "follows")]
    [InlineData("<h1>so</h1>", "first rank")]
    [InlineData("<p aria-describedby=b>so</p>", "names b")]
    public void The_check_finds_what_is_wrong(string wrong, string said) =>
        Assert.Contains(Faults($"<!doctype html><html lang=en><title>T</title><h1>So</h1>{wrong}</html>"), fault => fault.Contains(said, StringComparison.Ordinal));

    private static List<string> Faults(string html)
    {
        var faults = new List<string>();
        var parser = new HtmlParser();
        parser.Error += (_, fault) => faults.Add($"parse error {((HtmlErrorEvent)fault).Message} at {((HtmlErrorEvent)fault).Position}");
        var page = parser.ParseDocument(html);
        var ids = page.All.Select(element => element.Id).OfType<string>().Where(id => id.Length > 0).GroupBy(id => id, StringComparer.Ordinal).ToDictionary(same => same.Key, same => same.Count(), StringComparer.Ordinal);
        faults.AddRange(ids.Where(id => id.Value > 1).Select(id => $"id {id.Key} stands twice"));
        foreach (var field in page.QuerySelectorAll("input, select, textarea").Where(field => field.GetAttribute("type") is not ("hidden" or "submit")))
            if (!(field.GetAttribute("aria-label")?.Length > 0 || field.HasAttribute("aria-labelledby") || field.Closest("label") is not null || (field.Id is { } id && page.QuerySelectorAll("label").Any(label => label.GetAttribute("for") == id))))
                faults.Add($"field {field.GetAttribute("name")} has no label");
        foreach (var label in page.QuerySelectorAll("label"))
            if (label.GetAttribute("for") is { } of ? page.GetElementById(of) is not { LocalName: "input" or "select" or "textarea" or "output" } : label.QuerySelector("input, select, textarea") is null) faults.Add($"label {label.TextContent.Trim()} leads to no field");
        foreach (var element in page.All)
            foreach (var name in new[] { "aria-describedby", "aria-labelledby", "aria-controls", "list" })
                foreach (var id in (element.GetAttribute(name) ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries).Where(id => !ids.ContainsKey(id))) faults.Add($"{element.LocalName} by {name} names {id}, which isn't there");
        var headings = page.QuerySelectorAll("h1, h2, h3, h4, h5, h6").Select(heading => heading.LocalName[1] - '0').ToArray();
        if (headings.Count(rank => rank == 1) != 1) faults.Add($"{headings.Count(rank => rank == 1)} headings of the first rank");
        for (var i = 1; i < headings.Length; i++)
            if (headings[i] > headings[i - 1] + 1) faults.Add($"heading {i + 1} of rank {headings[i]} follows one of rank {headings[i - 1]}");
        return faults;
    }
}
