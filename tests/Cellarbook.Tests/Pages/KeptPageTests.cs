using Cellarbook.Tests.Forms;

namespace Cellarbook.Tests.Pages;

/// <summary>Law 9 on the page: what was acknowledged is on the next page that is asked for, however often it was asked before.</summary>
public class KeptPageTests
{
    [Fact]
    public async Task A_lot_s_page_shows_every_entry_that_was_acknowledged_and_new_preferences_at_once()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        for (var i = 1; i <= 5; i++)
        {
            await house.Api($$"""{"kind":"observe","day":"2026-01-25","lot":"L1","what":"taste","finding":"sip number {{i}}"}""");
            for (var again = 0; again < 3; again++) Assert.Contains($"sip number {i}", await Page(house), StringComparison.Ordinal);
        }
        await house.Api($$"""{"kind":"correct","day":"2026-01-26","takesBack":{{house.LastNumber}},"reason":"No such sip"}""");
        Assert.Contains("taken back by", await Page(house), StringComparison.Ordinal);

        Assert.DoesNotContain("0.23", await Page(house), StringComparison.Ordinal);
        var settings = await house.Browser.GetStringAsync("/settings", TestContext.Current.CancellationToken);
        var saved = await house.Press("/settings", settings, "", ("Form.For", "household"), ("Form.Volume", "Hectolitre"), ("Form.Currency", "eur"));
        Assert.Equal("/settings?saved=true", saved.Location);
        Assert.Equal("EUR", house.Book.Read(book => book.Premises!.Currency));
        Assert.Contains("0.23", await Page(house), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Today_and_the_lists_show_what_was_just_acknowledged()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        foreach (var path in new[] { "/", "/lots", "/vessels", "/bottles", "/book", "/statements?period=2026" }) await house.Browser.GetStringAsync(path, TestContext.Current.CancellationToken);
        await house.Api("""{"kind":"vessel","day":"2026-01-25","code":"New","capacityLitres":30}""");
        await house.Api("""{"kind":"receive","day":"2026-01-25","what":"bulkWine","lot":"Fresh","vessel":"New","litres":11,"abv":12,"taxPaid":true}""");
        await house.Api("""{"kind":"bottle","day":"2026-01-26","lot":"Fresh","vessel":"New","fills":[{"bottling":"Fresh-75","bottles":2,"bottleMl":750}]}""");
        foreach (var (path, says) in new[] { ("/", "Fresh"), ("/lots", "Fresh"), ("/vessels", "New"), ("/bottles", "Fresh-75"), ("/book", "Fresh-75") })
            Assert.Contains(says, await house.Browser.GetStringAsync(path, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    private static Task<string> Page(FormHouse house) => house.Browser.GetStringAsync("/lots/L1", TestContext.Current.CancellationToken);
}
