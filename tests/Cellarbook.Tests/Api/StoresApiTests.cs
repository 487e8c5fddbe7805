using System.Net;
using System.Text.Json;

namespace Cellarbook.Tests.Api;

/// <summary>Materials, stores and traces over the API and on pages.</summary>
public class StoresApiTests
{
    private static async Task<RunningApp> Cellar()
    {
        var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-01-01","regimes":["household"],"owner":"Ida","name":"Ashlar Hill"}""");
        await app.Does("""{"kind":"vessel","day":"2026-01-01","code":"V1","capacityLitres":200}""");
        await app.Does("""{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"R1","vessel":"V1","litres":60,"abv":12.5,"taxPaid":true}""");
        await app.Does("""{"kind":"deliver","day":"2026-01-02","supplier":"Lindmoor Supplies","currency":"EUR","items":[{"material":"kmbs","delivery":"D1","grams":20,"batch":"K-1","bestBefore":"2026-01-31","price":3.5},{"material":"cork-natural","delivery":"D1","pieces":100}]}""");
        await app.Does("""{"kind":"add","day":"2026-01-03","lot":"R1","items":[{"material":"kmbs","grams":6}]}""");
        await app.Does("""{"kind":"bottle","day":"2026-01-04","lot":"R1","fills":[{"bottling":"R1-75","bottles":40,"bottleMl":750}],"materials":[{"material":"cork-natural","delivery":"D1","pieces":90}]}""");
        await app.Does("""{"kind":"remove","day":"2026-01-05","as":"gift","bottling":"R1-75","bottles":10,"recipient":"Tobin"}""");
        return app;
    }

    [Fact]
    public async Task Materials_and_stores_are_listed_with_what_is_low_and_out_of_date()
    {
        await using var app = await Cellar();
        var kmbs = (await app.Get("/api/v1/materials")).EnumerateArray().Single(material => material.GetProperty("code").GetString() == "kmbs");
        Assert.Equal(("grams", "E 224", "1000"), (kmbs.GetProperty("countedIn").GetString(), kmbs.GetProperty("eNumber").GetString(), kmbs.GetProperty("contents")[0].GetProperty("mgInOne").GetString()));
        var lines = (await app.Get("/api/v1/stores")).EnumerateArray().ToDictionary(line => line.GetProperty("material").GetString()!);
        Assert.Equal((14m, true, false, "K-1", 3.5m), (lines["kmbs"].GetProperty("inStore").GetProperty("grams").GetDecimal(), lines["kmbs"].GetProperty("outOfDate").GetBoolean(), lines["kmbs"].GetProperty("low").GetBoolean(), lines["kmbs"].GetProperty("batch").GetString(), lines["kmbs"].GetProperty("price").GetDecimal()));
        Assert.Equal((10m, true), (lines["cork-natural"].GetProperty("inStore").GetProperty("pieces").GetDecimal(), lines["cork-natural"].GetProperty("low").GetBoolean()));
        var page = await app.Http.GetStringAsync("/stores", TestContext.Current.CancellationToken);
        Assert.Contains("out of date", page, StringComparison.Ordinal);
        Assert.Contains("/stores/kmbs/D1", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_delivery_adds_up_over_the_API_and_its_page_shows_where_it_went()
    {
        await using var app = await Cellar();
        var kmbs = (await app.Get("/api/v1/stores/D1?material=kmbs")).EnumerateArray().Single();
        var held = kmbs.GetProperty("holding").EnumerateArray().Sum(place => place.GetProperty("amount").GetProperty("grams").GetDecimal());
        var gone = kmbs.GetProperty("departures").EnumerateArray().Sum(departure => departure.GetProperty("amount").GetProperty("grams").GetDecimal());
        Assert.Equal((5.25m, 0.75m, 6m), (held, gone, kmbs.GetProperty("inWine").GetProperty("grams").GetDecimal()));
        Assert.True(kmbs.GetProperty("uses")[0].GetProperty("assumed").GetBoolean());
        Assert.Equal(2, (await app.Get("/api/v1/stores/D1")).GetArrayLength());
        var page = WebUtility.HtmlDecode(await app.Http.GetStringAsync("/stores/kmbs/D1", TestContext.Current.CancellationToken));
        Assert.Contains("assumed: the oldest in store", page, StringComparison.Ordinal);
        Assert.Contains("Tobin", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_bottle_is_traced_to_its_deliveries_and_what_nobody_knows_is_not_found()
    {
        await using var app = await Cellar();
        var trace = await app.Get("/api/v1/bottlings/R1-75/trace");
        var sulphite = trace.GetProperty("deliveries").EnumerateArray().Single(delivery => delivery.GetProperty("material").GetString() == "kmbs");
        Assert.Equal(("D1", "K-1", 3m), (sulphite.GetProperty("delivery").GetString(), sulphite.GetProperty("batch").GetString(), sulphite.GetProperty("about").GetProperty("grams").GetDecimal()));
        Assert.Equal(30m, trace.GetProperty("receipts").EnumerateArray().Single().GetProperty("litres").GetDecimal());
        Assert.Contains("Lindmoor Supplies", await app.Http.GetStringAsync("/traces/R1-75", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        foreach (var path in new[] { "/api/v1/stores/D9", "/api/v1/bottlings/R9/trace", "/api/v1/materials/none", "/stores/kmbs/D9", "/traces/R9" })
        {
            using var missing = await app.Http.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal((path, HttpStatusCode.NotFound), (path, missing.StatusCode));
        }
    }
}
