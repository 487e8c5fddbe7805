using Cellarbook.Forms;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Cellarbook.Browser.Tests.Forms;

/// <summary>The forms in a real browser, script off unless said: quick with a thumb, nothing lost, readable for everybody.</summary>
public sealed class FormsInTheBrowserTests(FormRoom room) : IClassFixture<FormRoom>
{
    [Fact]
    public async Task A_racking_takes_at_most_four_fields_and_two_taps_on_a_phone()
    {
        var page = await room.Page(FormRoom.Phone);
        await page.GotoAsync("/record/rack?lot=L1&vessel=V1");
        var fields = 0;
        await page.GetByLabel("Received", new() { Exact = true }).FillAsync("22,5");
        fields++;
        await page.GetByLabel("To", new() { Exact = true }).SelectOptionAsync("V2");
        fields++;
        Assert.True(await Shown(page) <= 5, "drawn, received, lees, to, and the day that is filled in");
        await page.GetByRole(AriaRole.Button, new() { Name = "Look first" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("0.5 L from L1 in V1 (must) to lees");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it in the book" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        Assert.True(fields <= 4);
        Assert.Equal("22.5", room.Book.Read(book => book.Now.Vessel("V2").Held.Litres));
        await page.GotoAsync($"/record/correct?entry={room.Book.Read(book => book.LastNumber)}");
        await page.GetByLabel("Why").FillAsync("Only tried");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }).ClickAsync();
        Assert.Equal("23", room.Book.Read(book => book.Now.Vessel("V1").Held.Litres));
    }

    [Fact]
    public async Task A_reading_takes_at_most_two_fields_and_one_tap_on_a_phone()
    {
        var page = await room.Page(FormRoom.Phone);
        await page.GotoAsync("/record/measure?lot=W1&vessel=V3");
        await page.GetByLabel("Gravity or sugar", new() { Exact = true }).FillAsync("0,996");
        await page.GetByLabel("Temperature", new() { Exact = true }).FillAsync("18");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        Assert.Equal("0.996", room.Book.Read(book => book.Now.PlacesOfLot("W1")[0].Notes.Readings["gravity"].Text));
    }

    [Fact]
    public async Task What_is_refused_is_gone_to_and_keeps_what_was_typed()
    {
        var page = await room.Page(FormRoom.Phone);
        await page.GotoAsync("/record/gauge?vessel=V3");
        await page.GetByLabel("Measured", new() { Exact = true }).FillAsync("1.234,5");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Not written");
        var field = page.GetByLabel("Measured", new() { Exact = true });
        await Assertions.Expect(field).ToHaveValueAsync("1.234,5");
        await Assertions.Expect(field).ToBeFocusedAsync();
        await Assertions.Expect(field).ToHaveAccessibleDescriptionAsync(new System.Text.RegularExpressions.Regex("two ways"));
    }

    [Fact]
    public async Task The_keyboard_alone_writes_an_entry()
    {
        var page = await room.Page(FormRoom.Table);
        await page.GotoAsync("/record/measure?lot=L1&vessel=V1");
        await page.GetByLabel("Gravity or sugar", new() { Exact = true }).FocusAsync();
        await page.Keyboard.TypeAsync("1.050");
        // Enter never writes at once: it looks first.
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Gravity or sugar: 1.050 SG");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it in the book" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
    }

    [Theory]
    [InlineData(360, 740, ColorScheme.Light)]
    [InlineData(1440, 900, ColorScheme.Dark)]
    public async Task Every_form_fits_the_screen_and_has_no_serious_finding(int width, int height, ColorScheme theme)
    {
        var page = await room.Page(new() { Width = width, Height = height }, script: true, theme);
        // The colours of a theme are the same everywhere: the second theme is tried on one form of each sort.
        foreach (var path in FormIndex.All.Where(form => theme == ColorScheme.Light || form.Slug is "rack" or "bottle" or "measure" or "correct" or "count").Select(form => "/record/" + form.Slug + (form.Slug == "receive" ? "?what=must" : "")).Prepend("/record"))
        {
            await page.GotoAsync(path);
            await page.EvaluateAsync("document.querySelectorAll('details.further').forEach(part => part.open = true)");
            Assert.Equal((path, width), (path, await page.EvaluateAsync<int>("Math.max(document.documentElement.scrollWidth, innerWidth)")));
            Assert.True(await page.EvaluateAsync<bool>("document.styleSheets.length >= 2 && [...document.styleSheets].every(sheet => sheet.cssRules.length > 0)"), path);
            var found = await page.RunAxe();
            Assert.Empty(found.Violations.Where(violation => violation.Impact is "serious" or "critical").Select(violation => $"{path} {violation.Id}: {violation.Nodes[0].Html}"));
        }
    }

    private static async Task<int> Shown(IPage page) => await page.Locator("form.slip input:visible:not([type=hidden]), form.slip select:visible:not(.unit)").CountAsync();
}
