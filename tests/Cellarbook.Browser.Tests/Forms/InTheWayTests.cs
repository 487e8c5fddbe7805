using Microsoft.Playwright;
using Xunit;

namespace Cellarbook.Browser.Tests.Forms;

/// <summary>What comes in the way of a form in a real browser: another tab, an impatient finger, a text that would like to be more than text.</summary>
public sealed class InTheWayTests(FormRoom room) : IClassFixture<FormRoom>
{
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_vessel_that_changed_in_a_second_tab_is_said_before_a_stale_form_writes_and_nothing_typed_is_lost(bool script)
    {
        var form = await room.Page(FormRoom.Phone, script);
        await form.GotoAsync("/record/rack?lot=W1&vessel=V3");
        await form.GetByLabel("Received", new() { Exact = true }).FillAsync("3,5");
        await form.Locator("[name='sources[0].litres']").FillAsync("4");
        await form.GetByLabel("To", new() { Exact = true }).SelectOptionAsync("V2");
        await Open(form, "Note");
        await form.GetByLabel("Note").FillAsync("before the second tab");

        var second = await form.Context.NewPageAsync();
        await second.GotoAsync("/record/gauge?vessel=V3");
        var held = room.Book.Read(book => book.Now.Vessel("V3").Held.Microlitres);
        await second.GetByLabel("Measured", new() { Exact = true }).FillAsync(((held / 1_000_000m) - 0.25m).ToString(System.Globalization.CultureInfo.InvariantCulture));
        await Write(second);
        await Assertions.Expect(second.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");

        var before = room.Book.Head.Number;
        await Write(form);
        var look = form.GetByRole(AriaRole.Status, new() { Name = "This will be written" });
        await Assertions.Expect(look).ToContainTextAsync($"Since you opened this form, entry {before} of");
        await Assertions.Expect(look).ToContainTextAsync("changed V3: 0.25 L");
        await Assertions.Expect(form.GetByLabel("Received", new() { Exact = true })).ToHaveValueAsync("3,5");
        await Assertions.Expect(form.Locator("[name='sources[0].litres']")).ToHaveValueAsync("4");
        await Assertions.Expect(form.GetByLabel("To", new() { Exact = true })).ToHaveValueAsync("V2");
        await Assertions.Expect(form.GetByLabel("Note")).ToHaveValueAsync("before the second tab");
        Assert.Equal(before, room.Book.Head.Number);

        // Seen and meant, it is written.
        await Write(form);
        await Assertions.Expect(form.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        Assert.Equal(before + 1, room.Book.Head.Number);
        await form.GotoAsync($"/record/correct?entry={before + 1}");
        await form.GetByLabel("Why").FillAsync("Only tried");
        await Write(form);
        await Assertions.Expect(form.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task An_impatient_finger_records_once(bool script)
    {
        var page = await room.Page(FormRoom.Phone, script);
        await page.GotoAsync("/record/measure?lot=L1&vessel=V1");
        await page.GetByLabel("Gravity or sugar", new() { Exact = true }).FillAsync("1.060");
        var before = room.Book.Head.Number;
        await page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }).ClickAsync(new() { ClickCount = 3 });
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        Assert.Equal(before + 1, room.Book.Head.Number);
    }

    [Fact]
    public async Task Script_elements_and_formulas_in_a_note_and_in_names_stay_text_on_every_page_that_shows_them()
    {
        const string hostile = "<script>document.title='taken over'</script><img src=x onerror=alert(1)><b id=made>bold</b> =1+1 javascript:alert(1)";
        var page = await room.Page(FormRoom.Table, script: true);
        var (dialogs, faults) = (0, new List<string>());
        page.Dialog += (_, dialog) =>
        {
            dialogs++;
            _ = dialog.DismissAsync();
        };
        page.Console += (_, message) => { if (message.Type == "error" && !message.Text.Contains("422", StringComparison.Ordinal)) faults.Add(message.Text); };

        // What a vessel is called may be any text.
        await page.GotoAsync("/record/vessel");
        await page.GetByLabel("Code", new() { Exact = true }).FillAsync("V9");
        await page.GetByLabel("Called").FillAsync("<b id=made>Old</b> bucket");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make it" }).ClickAsync();
        await Assertions.Expect(page.GetByText("<b id=made>Old</b> bucket").First).ToBeVisibleAsync();

        // A lot's code can't be such a text, nor one that a spreadsheet would reckon with: that is said, with the text in the sentence and in the field.
        await page.GotoAsync("/record/receive?what=must");
        foreach (var code in new[] { "<img src=x onerror=alert(1)>", "=1+1", "+1-2/3", "@SUM(1)" })
        {
            await page.GetByLabel("Lot it becomes, or joins", new() { Exact = true }).FillAsync(code);
            await page.GetByLabel("How much", new() { Exact = true }).FillAsync("5");
            await Write(page);
            await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync($"“{code}” can't be the code of a lot");
            await Assertions.Expect(page.GetByLabel("Lot it becomes, or joins", new() { Exact = true })).ToHaveValueAsync(code);
            await Harmless(code);
        }
        await page.GetByLabel("Lot it becomes, or joins", new() { Exact = true }).FillAsync("1+2/3");
        await page.GetByLabel("Into (may stay empty)", new() { Exact = true }).SelectOptionAsync("V9");
        await Open(page, "Note");
        await page.GetByLabel("Note").FillAsync(hostile);
        await Write(page);
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("Written");
        await Harmless("what was written");
        var entry = room.Book.Head.Number;

        foreach (var (path, shows) in new[] { ("/lots/1+2/3", hostile), ($"/book/{entry}", hostile), ("/book", "1+2/3"), ("/book?q=%3Cscript%3E", "1+2/3"), ("/lots", "1+2/3"), ("/vessels", "<b id=made>Old</b> bucket"), ("/vessels/V9", "1+2/3"), ("/", "1+2/3"), ("/record/rack?lot=1%2B2%2F3&vessel=V9", "1+2/3"), ($"/record/correct?entry={entry}", "1+2/3"), ("/labels/vessels", "<b id=made>Old</b> bucket") })
        {
            await page.GotoAsync(path);
            await Assertions.Expect(page.Locator("body")).ToContainTextAsync(shows);
            await Harmless(path);
        }
        Assert.Equal(0, dialogs);
        Assert.Empty(faults);

        async Task Harmless(string where)
        {
            Assert.Equal((where, 0), (where, await page.Locator("#made, main img, main script:not([src]), main [onerror]").CountAsync()));
            Assert.NotEqual("taken over", await page.TitleAsync());
        }
    }

    private static Task Write(IPage page) => page.GetByRole(AriaRole.Button, new() { Name = "Write it", Exact = true }).ClickAsync();

    /// <summary>Opens the fold that a field lies in, where it lies in one.</summary>
    private static async Task Open(IPage page, string label)
    {
        var fold = page.Locator("details.further:not([open])").Filter(new() { Has = page.GetByLabel(label) });
        if (await fold.CountAsync() > 0) await fold.Locator("summary").First.ClickAsync();
    }
}
