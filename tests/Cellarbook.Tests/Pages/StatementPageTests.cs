using System.Net;
using System.Text.RegularExpressions;
using Cellarbook.Tests.Api;
using Cellarbook.Tests.Storage;

namespace Cellarbook.Tests.Pages;

/// <summary>Law 8: every figure of a statement's page opens to what is behind it, and that adds up to the figure.</summary>
public partial class StatementPageTests
{
    [Theory]
    [InlineData("from=2025-09-01&to=2025-11-30", "us-5120-17", 50, "us")]
    [InlineData("from=2025-10-01&to=2025-10-31", "us-5120-17", 30, "us")]
    [InlineData("from=2025-09-01&to=2025-11-30", "plain", 20, "us")]
    [InlineData("from=2025-09-01&to=2025-11-30", "plain", 15, "household")]
    public async Task Every_figure_opens_to_as_much_as_it_says(string range, string form, int least, string regime)
    {
        await using var app = await RunningApp.Start();
        await app.Does($$"""{"kind":"premises","day":"2026-01-01","regimes":["{{regime}}"]}""");
        Assert.Equal(201, (await app.Post("/api/v1/imports/journal", StoredBook.WorkedPeriod(), type: "text/csv")).Status);
        var page = Unpadded(await app.Http.GetStringAsync($"/statements?{range}&period=&form={form}", TestContext.Current.CancellationToken));
        // In the plain statement a count of bottles stands beside its volume, which opens for both.
        var figures = (form == "plain" ? First() : Cell()).Matches(page[..(page.IndexOf("id=\"loss\"", StringComparison.Ordinal) is > 0 and var loss ? loss : page.Length)])
            .Select(cell => (Link: cell.Groups["link"].Value, Volume: Number(cell.Groups["volume"].Success ? cell.Groups["volume"].Value : cell.Groups["figure"].Value))).ToArray();
        Assert.True(figures.Length >= least, $"only {figures.Length} figures");
        // What is nil at the start or end has nothing behind it.
        Assert.All(figures.Where(figure => figure.Link.Length == 0), figure => Assert.Equal(0m, figure.Volume));
        foreach (var (link, volume) in figures.Where(figure => figure.Link.Length > 0))
        {
            var behind = Unpadded(await app.Http.GetStringAsync(link, TestContext.Current.CancellationToken));
            Assert.True(Math.Abs(volume) == Math.Abs(Number(Together().Match(behind).Groups["volume"].Value)), $"{volume} is not what stands behind it at {link}");
        }
    }

    [Fact]
    public async Task Opening_and_what_came_in_less_what_went_out_are_the_closing_on_the_page_itself()
    {
        await using var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-01-01","regimes":["us"]}""");
        Assert.Equal(201, (await app.Post("/api/v1/imports/journal", StoredBook.WorkedPeriod(), type: "text/csv")).Status);
        var page = Unpadded(await app.Http.GetStringAsync("/statements?from=2025-09-01&to=2025-11-30&period=&form=plain", TestContext.Current.CancellationToken));
        var blocks = page.Split("<table class=\"leaf statement\"").Skip(1).Select(block => First().Matches(block[..block.IndexOf("</table>", StringComparison.Ordinal)]).Select(cell => (Sum: cell.Value.Contains("direction=in", StringComparison.Ordinal) ? 1 : cell.Value.Contains("direction=out", StringComparison.Ordinal) ? -1 : 0, Whole: !cell.Value.Contains("category=", StringComparison.Ordinal), Volume: Number(cell.Groups["figure"].Value))).ToArray()).ToArray();
        Assert.True(blocks.Length > 4);
        foreach (var rows in blocks)
        {
            Assert.Equal(rows[^1].Volume, rows[0].Volume + rows.Where(row => row.Whole).Sum(row => row.Sum * row.Volume));
            Assert.Equal(rows[^1].Volume, rows[0].Volume + rows.Where(row => !row.Whole).Sum(row => row.Sum * row.Volume));
        }
    }

    [Fact]
    public async Task Stock_of_many_lots_stands_on_pages_each_with_the_sum_of_all()
    {
        await using var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-01-01","regimes":["household"]}""");
        var journal = "event_id,date,category,lot_from,lot_to,volume_ml,abv_pct\n" + string.Concat(Enumerable.Range(1, 120).Select(i => $"R{i},2026-01-02,RECEIVED_BULK,,L{i:D3},10000,12.5\n"));
        Assert.Equal(201, (await app.Post("/api/v1/imports/journal", journal, type: "text/csv")).Status);
        var pages = new List<string>();
        foreach (var page in new[] { "", "&page=2", "&page=9" }) pages.Add(Unpadded(await app.Http.GetStringAsync("/statements/stock?on=2026-01-03&section=bulk" + page, TestContext.Current.CancellationToken)));
        Assert.Equal([100, 20, 20], pages.Select(page => page.Split("<th scope=\"row\"><a ").Length - 1));
        Assert.All(pages, page => Assert.Equal("1200", Together().Match(page).Groups["volume"].Value));
        Assert.Contains("with 20 more not shown", pages[0], StringComparison.Ordinal);
        Assert.Contains("with 100 more not shown", pages[1], StringComparison.Ordinal);
        Assert.Contains(">L120<", pages[1], StringComparison.Ordinal);
    }

    /// <summary>Without the blanks that put decimal marks under each other.</summary>
    private static string Unpadded(string html) => Regex.Replace(WebUtility.HtmlDecode(html), "<span class=\"pad\">[^<]*</span>", "");

    private static decimal Number(string text) => decimal.Parse(text.Replace("\u2007", "", StringComparison.Ordinal).Replace("\u2008", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal).Replace("\u202f", "", StringComparison.Ordinal).Replace(",", "", StringComparison.Ordinal).Replace("−", "-", StringComparison.Ordinal), System.Globalization.CultureInfo.InvariantCulture);

    [GeneratedRegex("""<td class="n">(<a href="(?<link>[^"]+)"[^>]*>)?(?<figure>[−\d][\d., \u202f\u2007\u2008]*)(</a>)?[\u2007\u2008]*( <span class="fine small">(?<volume>[^<]+) L</span>)?</td>""")]
    private static partial Regex Cell();

    [GeneratedRegex("""</th><td class="n">(<a href="(?<link>[^"]+)"[^>]*>)?(?<figure>[−\d][\d., \u202f\u2007\u2008]*)(</a>)?[\u2007\u2008]*(?<volume>(?!))?</td>""")]
    private static partial Regex First();

    [GeneratedRegex("""<tfoot>.*?<td class="n">(?<volume>[^<]+)</td>""", RegexOptions.Singleline)]
    private static partial Regex Together();
}
