using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>An empty book asks whose it is, then leads to the first vessel, lot and entry.</summary>
[Collection(InTheBrowser.Name)]
public sealed class FirstQuestionTests(Browsers browsers)
{
    [Theory]
    [InlineData(360, true)]
    [InlineData(1440, true)]
    [InlineData(360, false)]
    public async Task A_household_opens_its_book_and_makes_its_first_vessel(int width, bool script)
    {
        await using var cellar = await RunningCellar.Empty();
        await using var window = await browsers.Open(cellar, width, script: script);
        var page = window.Page;
        await window.Go("/lots");
        Assert.EndsWith("/start", page.Url);

        // Nothing chosen: the form again, the sentences at the fields, what was typed kept, nothing recorded.
        await page.GetByLabel("Name of the household").FillAsync("The Larches");
        await page.GetByRole(AriaRole.Button, new() { Name = "Open the book" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Say which it is.")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("Say who writes in the book")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByLabel("Name of the household")).ToHaveValueAsync("The Larches");
        Assert.Equal(0, await cellar.Entries());

        await page.GetByLabel("A household").CheckAsync();
        await page.GetByLabel("Who writes in it?").FillAsync("Mim");
        await page.GetByLabel("Decimals as").SelectOptionAsync("true");
        await page.GetByRole(AriaRole.Button, new() { Name = "Open the book" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "1. A vessel" })).ToBeVisibleAsync();
        Assert.Equal(1, await cellar.Entries());

        await page.GetByRole(AriaRole.Link, new() { Name = "Make a vessel" }).ClickAsync();
        await page.GetByLabel("Code", new() { Exact = true }).FillAsync("B1");
        await page.GetByLabel("Holds when full").FillAsync("1,234.5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make it" }).ClickAsync();
        await Assertions.Expect(page.GetByText("can be read in two ways")).ToBeVisibleAsync();
        await page.GetByLabel("Holds when full").FillAsync("27,5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make it" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("Holds 27,5 L when full.");
        await window.Go("/");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "1. A vessel done" })).ToBeVisibleAsync();
        Assert.Empty(window.Faults);
    }

    [Fact]
    public async Task A_licensed_maker_must_say_which_licence_and_a_time_zone_that_there_is()
    {
        await using var cellar = await RunningCellar.Empty();
        await using var window = await browsers.Open(cellar);
        var page = window.Page;
        await window.Go("/");
        await Assertions.Expect(page.GetByLabel("United States")).ToBeHiddenAsync();
        await page.GetByLabel("A licensed maker").CheckAsync();
        await page.GetByLabel("Who writes in it?").FillAsync("Ada");
        await page.GetByLabel("Time zone of the cellar").FillAsync("Atlantis/Deep");
        await page.GetByRole(AriaRole.Button, new() { Name = "Open the book" }).ClickAsync();
        await Assertions.Expect(page.GetByText("Choose at least one licence.")).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByText("is no time zone")).ToBeVisibleAsync();
        await page.GetByLabel("United States").CheckAsync();
        await page.GetByLabel("Time zone of the cellar").FillAsync("Europe/Vienna");
        await page.GetByRole(AriaRole.Button, new() { Name = "Open the book" }).ClickAsync();
        await window.Go("/statements");
        await Assertions.Expect(page.GetByLabel("Form")).ToContainTextAsync("US report");
        Assert.Empty(window.Faults);
    }
}
