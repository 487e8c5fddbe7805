using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>By keyboard, on paper, without script, and from a figure down to what is behind it.</summary>
[Collection(InTheBrowser.Name)]
public sealed class WaysOfReadingTests(Browsers browsers)
{
    [Fact]
    public async Task By_keyboard_the_first_stop_skips_to_the_page_and_focus_is_always_seen()
    {
        await using var window = await browsers.Open(browsers.Household);
        await window.Go("/lots");
        await window.Page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Link, new() { Name = "Skip to the page" })).ToBeFocusedAsync();
        await window.Page.Keyboard.PressAsync("Enter");
        await window.Page.Keyboard.PressAsync("Tab");
        await Assertions.Expect(window.Page.GetByLabel("Find a lot")).ToBeFocusedAsync();
        Assert.Equal("solid", await window.Page.EvaluateAsync<string>("getComputedStyle(document.activeElement).outlineStyle"));
    }

    [Fact]
    public async Task Without_script_the_phones_menu_opens_and_every_tab_is_reached()
    {
        await using var window = await browsers.Open(browsers.Household, 360, script: false);
        await window.Go("/");
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Link, new() { Name = "Settings" })).ToHaveCountAsync(0);
        await window.Page.GetByText("More", new() { Exact = true }).ClickAsync();
        await window.Page.GetByRole(AriaRole.Link, new() { Name = "Settings" }).ClickAsync();
        await Assertions.Expect(window.Page.GetByRole(AriaRole.Heading, new() { Name = "Settings", Level = 1 })).ToBeVisibleAsync();
    }

    [Fact]
    public async Task On_paper_a_lots_page_is_a_page_of_the_book_without_menus_and_buttons()
    {
        await using var window = await browsers.Open(browsers.Household);
        await window.Go("/lots/KIT");
        await window.Page.EmulateMediaAsync(new() { Media = Media.Print });
        await Assertions.Expect(window.Page.Locator("nav[aria-label=Main]")).ToBeHiddenAsync();
        await Assertions.Expect(window.Page.Locator(".verbs").First).ToBeHiddenAsync();
        await Assertions.Expect(window.Page.Locator(".passbook")).ToBeVisibleAsync();
        Assert.True((await window.Page.PdfAsync(new() { Format = "A4" })).Length > 10_000);
    }

    [Fact]
    public async Task Law_8_a_figure_of_the_statement_opens_to_entries_that_add_up_to_it()
    {
        await using var window = await browsers.Open(browsers.Demo);
        var page = window.Page;
        foreach (var form in new[] { "plain", "us-5120-17" })
        {
            await window.Go($"/statements?period=2026&form={form}");
            var links = await page.Locator(".statement td a").EvaluateAllAsync<string[]>("all => all.map(link => link.getAttribute('href') + ' ' + link.closest('td').textContent)");
            Assert.NotEmpty(links);
            foreach (var link in links)
            {
                await window.Go(link.Split(' ')[0]);
                var shares = await page.Locator("tbody tr").EvaluateAllAsync<double[]>("rows => rows.map(row => Number(row.querySelector('td.n').textContent.replace('−', '-').replace(/[^0-9.-]/g, '')))");
                var total = await page.Locator("tfoot td.n").First.EvaluateAsync<double>("cell => Number(cell.textContent.replace('−', '-').replace(/[^0-9.-]/g, ''))");
                Assert.NotEmpty(shares);
                Assert.Equal(total, shares.Sum(), 3);
                // The volume in litres stands in the figure's own cell (under the whole gallons, on the form).
                Assert.Contains((await page.Locator("tfoot td.n").First.InnerTextAsync()).Trim(), link);
            }
        }
        Assert.Empty(window.Faults);
    }

    [Fact]
    public async Task Settings_keep_how_figures_are_read_and_check_the_book_and_hand_out_a_backup()
    {
        await using var cellar = await RunningCellar.Empty();
        await HouseholdDiary.Write(cellar);
        var entries = await cellar.Entries();
        await using var window = await browsers.Open(cellar);
        var page = window.Page;
        await window.Go("/settings");
        await page.GetByLabel("Volumes in").SelectOptionAsync("UsGallon");
        await page.GetByLabel("Decimals as").SelectOptionAsync("true");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep", Exact = true }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Kept.");
        // Taste is no entry.
        Assert.Equal(entries, await cellar.Entries());
        await window.Go("/vessels/C1");
        // 25 L ÷ 3.785411784 L = 6.6043 US gal, to three decimals.
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("6,604 US gal");

        await window.Go("/settings");
        await page.GetByRole(AriaRole.Button, new() { Name = "Check the whole book" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("The book is sound");
        var download = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Button, new() { Name = "Download a backup" }).ClickAsync());
        var head = new byte[15];
        await using (var file = File.OpenRead((await download.PathAsync())!)) await file.ReadExactlyAsync(head);
        Assert.Equal("SQLite format 3", System.Text.Encoding.ASCII.GetString(head));
        Assert.Empty(window.Faults);
    }
}
