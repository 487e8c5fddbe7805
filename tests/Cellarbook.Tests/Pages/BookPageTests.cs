using System.Net;
using System.Text.RegularExpressions;
using Cellarbook.Tests.Forms;
using Xunit;

namespace Cellarbook.Tests.Pages;

/// <summary>The book's own pages: an entry is found by what one remembers of it, and a correction shows both what was wrong and what is right (law 4).</summary>
public sealed class BookPageTests
{
    private static async Task<FormHouse> House() => await FormHouse.Open([.. FormCases.Cellar(),
        """{"kind":"add","day":"2026-01-05","lot":"W1","doneBy":"Mim Larch","items":[{"material":"Bentonite","grams":10}]}""",
        """{"kind":"gauge","day":"2026-01-06","vessel":"V4","litres":39.5}"""]);

    private static async Task<string[]> Found(FormHouse house, string query) =>
        [.. Regex.Matches(await house.Browser.GetStringAsync("/book?" + query), "<td class=\"n\"[^>]*><a href=\"/book/(\\d+)\"").Select(match => match.Groups[1].Value)];

    [Fact]
    public async Task An_entry_is_found_by_its_lot_or_vessel_readings_too_and_by_who_did_it()
    {
        await using var house = await House();
        // L1 in V1: received, read twice; the vessel itself is an entry, too.
        Assert.Equal(["15", "14", "8"], await Found(house, "about=L1"));
        Assert.Equal(["15", "14", "8", "2"], await Found(house, "about=V1"));
        Assert.Empty(await Found(house, "about=L"));
        Assert.Equal(["17"], await Found(house, "person=mim"));
        Assert.Equal(["17", "13"], await Found(house, "about=W1&from=2026-01-03"));
        Assert.Equal(["17"], await Found(house, "about=W1&person=Larch&q=bentonite"));
        Assert.Empty(await Found(house, "about=%25&person=%25"));
    }

    [Fact]
    public async Task What_was_taken_back_and_what_did_it_are_found_together_and_each_shows_the_other()
    {
        await using var house = await House();
        Assert.Empty(await Found(house, "only=corrected"));
        await house.Api("""{"kind":"correct","day":"2026-01-07","takesBack":14,"reason":"Misread","write":{"kind":"measure","day":"2026-01-03","lot":"L1","vessel":"V1","gravity":1.089}}""");
        Assert.Equal(["19", "14"], await Found(house, "only=corrected"));
        var wrong = WebUtility.HtmlDecode(await house.Browser.GetStringAsync("/book/14"));
        Assert.Matches("Stands instead:</strong> Read <span class=\"beside\">1.089", wrong);
        Assert.Contains("Misread", wrong, StringComparison.Ordinal);
        Assert.Matches("<s>Read 1.088", WebUtility.HtmlDecode(await house.Browser.GetStringAsync("/book/19")));
    }

    [Fact]
    public async Task What_no_longer_agrees_is_found_as_remarkable()
    {
        await using var house = await House();
        Assert.Empty(await Found(house, "only=remarkable"));
        // Entered late: half a litre left the vessel before it was measured.
        await house.Api("""{"kind":"lose","day":"2026-01-04","as":"spill","lot":"W2","litres":0.25}""");
        Assert.Equal(["18"], await Found(house, "only=remarkable"));
    }

    [Fact]
    public async Task Remarks_on_an_entry_just_written_are_there_when_the_page_is_loaded_again_and_gone_from_the_next()
    {
        await using var house = await House();
        var topped = await house.Fill("/record/top-up-many", "write", ("day", "2026-02-01"), ("casks[0].litres", "1"), ("fromWater", "true"));
        for (var i = 0; i < 3; i++) Assert.Contains("thinner by the water", await house.Browser.GetStringAsync(topped.Location), StringComparison.Ordinal);
        var read = await house.Fill("/record/measure?lot=L1&vessel=V1", "write", ("day", "2026-02-01"), ("gravity", "1.010"));
        Assert.DoesNotContain("thinner by the water", await house.Browser.GetStringAsync(read.Location), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_form_grown_stale_says_what_was_changed_meanwhile_and_writes_only_when_sent_again()
    {
        await using var house = await House();
        const string path = "/record/rack?lot=W1&vessel=V3";
        var page = await house.Browser.GetStringAsync(path);
        await house.Api("""{"kind":"lose","day":"2026-01-30","as":"spill","lot":"W1","vessel":"V3","litres":2}""");
        var before = house.LastNumber;
        var stale = await house.Press(path, page, "write", ("day", "2026-02-01"), ("sources[0].litres", "30"), ("targets[0].litres", "30"), ("targets[0].vessel", "V5"));
        Assert.Equal(before, house.LastNumber);
        Assert.Contains($"entry {before} of 30\u00A0January\u00A02026 changed V3: 2\u00A0L from W1 in V3 (wine) to a spill", stale.Text, StringComparison.Ordinal);
        await house.Press(path, stale.Html, "write");
        Assert.Equal(before + 1, house.LastNumber);
    }

    [Fact]
    public async Task A_household_sees_few_tabs_and_a_licensed_maker_all_of_them()
    {
        await using var household = await FormHouse.Open(FormCases.Cellar());
        await using var licensed = await FormHouse.Open(FormCases.Cellar("eu"));
        Assert.Contains("<ul class=\"tabs few\">", await household.Browser.GetStringAsync("/"), StringComparison.Ordinal);
        Assert.DoesNotContain("tabs few", await licensed.Browser.GetStringAsync("/"), StringComparison.Ordinal);
        var atHand = Regex.Matches(await household.Browser.GetStringAsync("/"), "<li><a href=\"([^\"]+)\"").Take(4).Select(match => match.Groups[1].Value);
        Assert.Equal(Cellarbook.Pages.Shared.Tabs.AtHand(household: true).Select(tab => tab.Path), atHand);
    }
}
