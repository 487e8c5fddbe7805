using Cellarbook.Forms;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace Cellarbook.Browser.Tests.Forms;

/// <summary>The forms in a real browser, script off unless said: quick with a thumb, nothing lost, readable for everybody.</summary>
public sealed class FormsInTheBrowserTests(FormRoom room) : IClassFixture<FormRoom>
{
    [Fact]
    public async Task A_racking_from_a_vessels_page_takes_at_most_four_fields_and_two_taps_on_a_phone()
    {
        var page = await room.Page(FormRoom.Phone);
        var thumb = new Thumb(page);
        await page.GotoAsync("/vessels/V1");
        await thumb.Tap(page.GetByRole(AriaRole.Link, new() { Name = "Rack", Exact = true }));
        await thumb.Fill("Received", "22,5");
        await thumb.Choose("To", "V2");
        Assert.True(await Shown(page) <= 5, "drawn, received, lees, to, and the day that is filled in");
        await thumb.Tap(page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }));
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("0.5 L from L1 in V1 (must) to lees");
        Assert.True(thumb is { Fields: <= 4, Taps: <= 2 }, $"{thumb.Fields} fields, {thumb.Taps} taps");
        Assert.Equal("22.5", room.Book.Read(book => book.Now.Vessel("V2").Held.Litres));
        await page.GotoAsync($"/record/correct?entry={room.Book.Read(book => book.LastNumber)}");
        await page.GetByLabel("Why").FillAsync("Only tried");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }).ClickAsync();
        Assert.Equal("23", room.Book.Read(book => book.Now.Vessel("V1").Held.Litres));
    }

    [Fact]
    public async Task A_reading_on_a_vessels_page_takes_at_most_two_fields_and_one_tap_on_a_phone()
    {
        var page = await room.Page(FormRoom.Phone);
        var thumb = new Thumb(page);
        await page.GotoAsync("/vessels/V3");
        await thumb.Fill("Gravity or sugar, SG", "0,996");
        await thumb.Fill("Temperature, °C", "18");
        await thumb.Tap(page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }));
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        Assert.True(thumb is { Fields: <= 2, Taps: <= 1 }, $"{thumb.Fields} fields, {thumb.Taps} taps");
        Assert.Equal("0.996", room.Book.Read(book => book.Now.PlacesOfLot("W1")[0].Notes.Readings["gravity"].Text));
    }

    [Fact]
    public async Task A_round_past_three_vessels_takes_two_fields_each_and_one_tap()
    {
        var page = await room.Page(FormRoom.Phone);
        var thumb = new Thumb(page);
        var before = room.Book.Read(book => book.LastNumber);
        await page.GotoAsync("/round");
        await thumb.Fill("SG, V1 L1", "1.010");
        await thumb.Fill("°C, V1 L1", "19");
        await thumb.Fill("SG, V3 W1", "1.0.0");
        await thumb.Tap(page.GetByRole(AriaRole.Button, new() { Name = "Write all" }));
        // The mistaken figure has the focus; the good ones stand where they were.
        await Assertions.Expect(page.GetByLabel("SG, V3 W1")).ToBeFocusedAsync();
        await Assertions.Expect(page.GetByLabel("°C, V1 L1")).ToHaveValueAsync("19");
        Assert.Equal(before, room.Book.Read(book => book.LastNumber));
        await page.GetByLabel("SG, V3 W1").FillAsync("0.995");
        await page.GetByRole(AriaRole.Button, new() { Name = "Write all" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Written: 2 readings");
        Assert.Equal((before + 2, 1), (room.Book.Read(book => book.LastNumber), thumb.Taps));
    }

    [Fact]
    public async Task With_script_the_third_figure_of_a_racking_is_said_while_typing_and_is_what_the_program_writes()
    {
        var page = await room.Page(FormRoom.Phone, script: true);
        await page.GotoAsync("/record/rack?lot=L1&vessel=V1");
        await page.GetByLabel("Received", new() { Exact = true }).FillAsync("22,75");
        await Assertions.Expect(page.Locator(".follows")).ToHaveTextAsync("0.25 L follows.");
        await page.GetByLabel("Received", new() { Exact = true }).FillAsync("24");
        await Assertions.Expect(page.Locator(".follows")).ToHaveTextAsync("That is more than was drawn.");
        await page.GetByLabel("Received", new() { Exact = true }).FillAsync("");
        await page.GetByLabel("Lees (may stay empty)", new() { Exact = true }).FillAsync("0.4");
        await Assertions.Expect(page.Locator(".follows")).ToHaveTextAsync("22.6 L follows.");
        await page.GetByLabel("To", new() { Exact = true }).SelectOptionAsync("V2");
        await page.GetByRole(AriaRole.Button, new() { Name = "Look first" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "This will be written" }).Locator("xpath=..")).ToContainTextAsync("22.6 L from L1 in V1 (must) to L1 in V2");
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

    [Fact]
    public async Task From_the_top_of_a_vessels_page_the_keyboard_alone_writes_a_reading_and_goes_on_to_the_next_thing()
    {
        var page = await room.Page(FormRoom.Table, script: true);
        await page.GotoAsync("/vessels/V1");
        await TabTo(page, "gravity");
        await page.Keyboard.TypeAsync("1.049");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.TypeAsync("19");
        await page.Keyboard.PressAsync("Tab");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        // The next sensible thing is a link like any other.
        await TabTo(page, "/record/");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("form.slip")).ToBeVisibleAsync();
    }

    /// <summary>Presses the tabulator until the focus is on a field of that name, or on a link into that part of the book.</summary>
    private static async Task TabTo(IPage page, string what)
    {
        for (var presses = 0; presses < 60; presses++)
        {
            await page.Keyboard.PressAsync("Tab");
            if (await page.EvaluateAsync<bool>("what => document.activeElement.name === what || (document.activeElement.closest('main') !== null && document.activeElement.getAttribute('href')?.startsWith(what) === true)", what)) return;
        }
        Assert.Fail($"The keyboard doesn't reach {what} on {page.Url}.");
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

    /// <summary>Counts what a hand does.</summary>
    private sealed class Thumb(IPage page)
    {
        public int Fields { get; private set; }

        public int Taps { get; private set; }

        public async Task Fill(string label, string text)
        {
            Fields++;
            await page.GetByLabel(label, new() { Exact = true }).FillAsync(text);
        }

        public async Task Choose(string label, string value)
        {
            Fields++;
            await page.GetByLabel(label, new() { Exact = true }).SelectOptionAsync(value);
        }

        public async Task Tap(ILocator what)
        {
            Taps++;
            await what.ClickAsync();
        }
    }
}
