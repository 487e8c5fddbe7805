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

    private static Task<string> Page(FormHouse house) => house.Browser.GetStringAsync("/lots/L1", TestContext.Current.CancellationToken);
}
