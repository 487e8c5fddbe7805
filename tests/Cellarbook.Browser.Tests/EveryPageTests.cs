using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>Every page, by thumb and by table, by day and by night.</summary>
[Collection(InTheBrowser.Name)]
public sealed class EveryPageTests(Browsers browsers)
{
    private static readonly string[] Fixed =
    [
        "/", "/lots", "/lots?gone=true&sort=volume", "/vessels", "/bottles?gone=true", "/stores", "/stores?usedUp=true", "/stores/none/none", "/traces/none", "/record/deliver", "/record/start-kit", "/book", "/book/1", "/statements", "/statements?period=2026", "/statements?period=2026&form=us-5120-17",
        "/settings", "/settings/import", "/record", "/record/vessel", "/record/measure", "/record/rack", "/record/top-up-many", "/round", "/labels/vessels", "/nowhere", "/lots/none",
    ];

    /// <summary>Accessibility is judged once in each width and each scheme; what runs over or fails is looked for in every pair.</summary>
    [Theory]
    [InlineData(360, false, true)]
    [InlineData(360, true, false)]
    [InlineData(1440, false, false)]
    [InlineData(1440, true, true)]
    public async Task The_demonstration_book_opens_everywhere_without_a_fault(int width, bool dark, bool judged)
    {
        await using var window = await browsers.Open(browsers.Demo, width, dark);
        var wrong = new List<string>();
        foreach (var path in Fixed.Append("/book/40").Append("/stores").Append("/additions").Append("/rules").Append("/cautions").Append("/book?only=corrected&about=R26").Concat(await PagesOf(browsers.Demo))) await Look(window, path, width, judged, wrong);
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public async Task A_households_book_opens_everywhere_without_a_fault_or_a_tax_word()
    {
        await using var window = await browsers.Open(browsers.Household, 360, dark: true);
        var wrong = new List<string>();
        var entries = Enumerable.Range(1, (int)await browsers.Household.Entries()).Select(number => $"/book/{number}").ToArray();
        foreach (var path in Fixed.Concat(await PagesOf(browsers.Household)).Concat(entries).Append("/statements?period=" + DateTime.UtcNow.Year).Distinct())
        {
            await Look(window, path, 360, judged: !entries.Contains(path), wrong);
            // The question who the book is for must name licences; nothing else may.
            var text = await window.Page.EvaluateAsync<string>("document.title + ' ' + document.body.textContent.replace(document.querySelector('.licences')?.textContent ?? '', '')");
            foreach (var word in new[] { "in bond", "bonded", "tax", "duty", "excise", "5120", "TTB", "A16", "B21", "wine gallons", "class " })
                if (System.Text.RegularExpressions.Regex.IsMatch(text, @"\b" + word, System.Text.RegularExpressions.RegexOptions.IgnoreCase)) wrong.Add($"{path} says “{word}”");
        }
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    [Fact]
    public async Task What_somebody_wrote_in_a_note_is_shown_as_text_and_does_nothing()
    {
        await using var window = await browsers.Open(browsers.Household);
        await window.Go("/lots/KIT");
        await Assertions.Expect(window.Page.GetByText("<script>document.title='taken over'</script> & =1+1")).ToBeVisibleAsync();
        Assert.Equal("Lot KIT · Cellarbook", await window.Page.TitleAsync());
        Assert.Empty(window.Faults);
    }

    private static async Task Look(Window window, string path, int width, bool judged, List<string> wrong)
    {
        window.Faults.Clear();
        await window.Go(path);
        var faults = window.Faults.Where(fault => !(path == "/nowhere" || path.EndsWith("/none", StringComparison.Ordinal)) || !fault.Contains("404", StringComparison.Ordinal)).Select(fault => $"{path} {fault}");
        wrong.AddRange(faults);
        if (judged)
            foreach (var violation in (await window.Page.RunAxe()).Violations) wrong.Add($"{path} {violation.Id}: {violation.Help} ({string.Join("; ", violation.Nodes.Take(3).Select(node => node.Html[..Math.Min(node.Html.Length, 120)]))})");
        if (await window.Overrun() is > 0 and var over) wrong.Add($"{path} runs {over} px over at {width}");
        if (await window.Page.Locator("h1").CountAsync() != 1) wrong.Add($"{path} has not one heading of the first rank");
    }

    /// <summary>The pages of the first lots, vessels and bottlings, and the forms for them.</summary>
    private static async Task<IEnumerable<string>> PagesOf(RunningCellar cellar)
    {
        var (lots, vessels, bottlings) = (await cellar.Codes("/api/v1/lots"), await cellar.Codes("/api/v1/vessels"), await cellar.Codes("/api/v1/bottlings"));
        return lots.Take(6).Select(code => "/lots/" + code).Concat(vessels.Take(4).Select(code => "/vessels/" + code)).Concat(bottlings.Take(3).SelectMany(code => new[] { "/bottles/" + code, "/labels/bottles/" + code + "?count=3" })).Append("/record/vessel?code=" + vessels[0]);
    }
}
