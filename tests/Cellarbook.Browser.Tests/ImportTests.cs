using System.Text;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>A book kept elsewhere comes in from a file, by thumb and at a table, with script off, too.</summary>
[Collection(InTheBrowser.Name)]
public sealed class ImportTests(Browsers browsers)
{
    private const string Head = "event_id,date,category,volume_ml,lot_from,vessel_from,lot_to,vessel_to,note\n";

    private const string Good = Head + """
        1,2025-09-20,MUST_RECEIVED,23000,,,PEAR,B1,from the garden
        2,2025-10-18,MUST_SOLIDS_REMOVED,600,PEAR,B1,,,
        3,2025-10-18,PRODUCED,22400,PEAR,B1,PEAR,B1,

        """;

    [Theory]
    [InlineData(360, false, false)]
    [InlineData(1440, true, true)]
    public async Task A_file_is_chosen_looked_at_and_written_once(int width, bool dark, bool script)
    {
        await using var cellar = await RunningCellar.Empty();
        await cellar.Write("""{"kind":"premises","day":"2026-01-01","regimes":["household"],"owner":"Mim","timeZone":"Etc/UTC"}""");
        await using var window = await browsers.Open(cellar, width, dark, script);
        var page = window.Page;
        var wrong = new List<string>();
        await window.Go("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "A journal from a file" }).ClickAsync();
        await page.GetByText("How the file is written").ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Cell, new() { Name = "Lees", Exact = true })).ToBeVisibleAsync();
        await Judge("to choose");

        // A decimal comma is refused at its row, in the words a script gets, and nothing is written.
        await Choose(Good.Replace("22400", "\"22,4\"", StringComparison.Ordinal));
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Row 3 volume_ml “22,4” is no number of millilitres.");
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Write it in the book" })).ToHaveCountAsync(0);
        await Judge("refused");
        Assert.Equal(1, await cellar.Entries());

        await Choose(Good);
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "This will be written" })).ToBeVisibleAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("PEAR");
        await Judge("looked at");
        Assert.Equal(1, await cellar.Entries());

        // Pressed twice in a row it is written once; and so it is from the page of before.
        var looked = page.Url;
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it in the book" }).DblClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Written" })).ToBeVisibleAsync();
        await Judge("written");
        Assert.Equal(4, await cellar.Entries());
        await window.Go(looked);
        await Assertions.Expect(page.GetByRole(AriaRole.Button, new() { Name = "Write it in the book" })).ToHaveCountAsync(0);

        await page.GetByRole(AriaRole.Link, new() { Name = "See the entries" }).ClickAsync();
        await Assertions.Expect(page.Locator(".entries tbody tr")).ToHaveCountAsync(3);
        await page.GoBackAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Statement of these days" }).ClickAsync();
        Assert.Matches(@"Juice or must came in\s+23\s", await page.Locator("main").InnerTextAsync());
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.Empty(window.Faults);

        async Task Choose(string text)
        {
            await page.GetByLabel("CSV file").SetInputFilesAsync(new FilePayload { Name = "pear.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(text) });
            await page.GetByRole(AriaRole.Button, new() { Name = "Look first" }).ClickAsync();
        }

        async Task Judge(string how)
        {
            if (await window.Overrun() is > 0 and var over) wrong.Add($"{how} it runs {over} px over at {width}");
            if (script)
                foreach (var violation in (await page.RunAxe()).Violations) wrong.Add($"{how}: {violation.Id}, {violation.Help}");
        }
    }
}
