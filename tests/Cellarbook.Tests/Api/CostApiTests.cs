using System.Text.Json;

namespace Cellarbook.Tests.Api;

/// <summary>What a bottle cost, asked of the API and read on the pages; each figure opens to its entries (law 8).</summary>
public class CostApiTests
{
    [Fact]
    public async Task A_lot_and_its_bottles_say_what_they_cost_with_the_entries_behind_it()
    {
        await using var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-01-01","regimes":["household"],"currency":"EUR"}""");
        await app.Does("""{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"A/1","litres":100,"abv":12,"price":180}""");
        await app.Does("""{"kind":"cost","day":"2026-01-03","what":"Work","lot":"A/1","perHour":15,"hours":2}""");
        await app.Does("""{"kind":"bottle","day":"2026-01-04","lot":"A/1","fills":[{"bottling":"A-75","bottles":40,"bottleMl":750}]}""");
        await app.Does("""{"kind":"lose","day":"2026-01-05","as":"breakage","bottling":"A-75","bottles":4}""");

        var lot = await app.Get("/api/v1/lots/A%2F1/cost");
        Assert.Equal(("EUR", 147m, 2.1m), (lot.GetProperty("currency").GetString(), Money(lot, "cost", "total"), lot.GetProperty("perLitre").GetDecimal()));
        Assert.Equal([2, 3, 4], lot.GetProperty("lines").EnumerateArray().Select(line => line.GetProperty("entry").GetInt64()));
        Assert.Equal(210m, Money(await app.Get("/api/v1/lots/A%2F1/cost?on=2026-01-03"), "cost", "total"));
        var bottling = await app.Get("/api/v1/bottlings/A-75/cost");
        Assert.Equal((56.7m, 1.575m), (Money(bottling, "cost", "total"), bottling.GetProperty("perBottle").GetDecimal()));

        var all = await app.Get("/api/v1/cost?on=2026-01-31");
        Assert.Equal(Money(all, "in", "total"), Money(all, "inStock", "total") + Money(all, "out", "total"));
        var mishap = all.GetProperty("wentOut").EnumerateArray().Single();
        Assert.Equal(("LOSS:BREAKAGE", "abnormalLoss", 6.3m), (mishap.GetProperty("to").GetString(), mishap.GetProperty("as").GetString(), Money(mishap, "cost", "total")));

        var page = await app.Http.GetStringAsync("/lots/A/1", TestContext.Current.CancellationToken);
        Assert.Contains("147.00", page, StringComparison.Ordinal);
        Assert.Contains("/book/3\"", page[page.IndexOf("id=\"cost\"", StringComparison.Ordinal)..], StringComparison.Ordinal);
        Assert.Contains("1.575", await app.Http.GetStringAsync("/bottles/A-75", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(404, (int)(await app.Http.GetAsync("/api/v1/lots/NONE/cost", TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal(422, (int)(await app.Http.GetAsync("/api/v1/cost?on=yesterday", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task A_book_without_prices_shows_no_cost()
    {
        await using var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-01-01","regimes":["household"]}""");
        await app.Does("""{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"A","litres":100,"abv":12}""");
        Assert.DoesNotContain("id=\"cost\"", await app.Http.GetStringAsync("/lots/A", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        var (status, refused) = await app.Post("/api/v1/operations", """{"kind":"receive","day":"2026-01-02","what":"must","lot":"B","litres":10,"price":9}""");
        Assert.Equal((422, "currency"), (status, refused.GetProperty("path").GetString()));
    }

    private static decimal Money(JsonElement answer, string costs, string kind) => answer.GetProperty(costs).GetProperty(kind).GetDecimal();
}
