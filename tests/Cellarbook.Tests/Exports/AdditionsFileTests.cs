using System.Globalization;
using System.Net;
using Cellarbook.Exports;
using Cellarbook.Tests.Api;
using ClosedXML.Excel;

namespace Cellarbook.Tests.Exports;

/// <summary>The additions register as JSON, CSV, workbook and page says the same.</summary>
public class AdditionsFileTests
{
    [Fact]
    public async Task The_register_is_the_same_in_every_form()
    {
        await using var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-01-01","regimes":["eu"],"owner":"Ida","name":"Ashlar Hill"}""");
        await app.Does("""{"kind":"vessel","day":"2026-01-01","code":"V1","capacityLitres":200}""");
        await app.Does("""{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"R1","vessel":"V1","litres":100,"abv":12.5,"colour":"red","supplier":"Linden Farm","document":"LF 1"}""");
        await app.Does("""{"kind":"deliver","day":"2026-01-02","supplier":"Lindmoor Supplies","document":"LS-26","items":[{"material":"kmbs","delivery":"D1","grams":500,"batch":"=K-26-04"}]}""");
        await app.Does("""{"kind":"add","day":"2026-01-03","lot":"R1","doneBy":"Ida","items":[{"material":"kmbs","delivery":"D1","grams":10}]}""");
        var cancel = TestContext.Current.CancellationToken;

        var row = Assert.Single((await app.Get("/api/v1/additions?lot=R1")).EnumerateArray());
        Assert.Equal(("=K-26-04", "57.629177", "10 g"), (row.GetProperty("batch").GetString(), row.GetProperty("doseMgPerLitre").GetString(), row.GetProperty("amount").GetString()));
        var csv = (await app.Http.GetStringAsync("/api/v1/additions?lot=R1&format=csv", cancel)).Split("\r\n");
        Assert.Equal(string.Join(',', AdditionsFile.Columns), csv[0].TrimStart('\uFEFF'));
        Assert.Contains("57.629177", csv[1], StringComparison.Ordinal);
        Assert.Contains("'=K-26-04", csv[1], StringComparison.Ordinal);
        using var book = new XLWorkbook(new MemoryStream(await app.Http.GetByteArrayAsync("/api/v1/additions?format=xlsx", cancel)));
        var sheet = book.Worksheet("Additions");
        var head = AdditionsFile.Columns.ToList();
        Assert.Equal(head, Enumerable.Range(1, head.Count).Select(column => sheet.Cell(4, column).GetString()));
        Assert.Equal("=K-26-04", sheet.Cell(5, head.IndexOf("batch") + 1).GetString());
        Assert.Equal(57.629177, sheet.Cell(5, head.IndexOf("dose_mg_per_l") + 1).GetDouble(), 6);
        var page = WebUtility.HtmlDecode(await app.Http.GetStringAsync("/additions?lot=R1", cancel));
        Assert.Contains("57.6 mg/L", page, StringComparison.Ordinal);
        Assert.Contains("=K-26-04", page, StringComparison.Ordinal);
        Assert.Contains("/api/v1/additions?lot=R1", page, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/v1/additions?lot=NONE", 404, "unknown_lot")]
    [InlineData("/api/v1/additions?from=yesterday", 422, "no_such_day")]
    [InlineData("/api/v1/additions?from=2026-02-01&to=2026-01-01", 422, "no_such_day")]
    [InlineData("/api/v1/additions?format=pdf", 422, "unknown_word")]
    public async Task What_can_not_be_asked_is_refused(string path, int status, string code)
    {
        await using var app = await RunningApp.Start();
        using var response = await app.Http.GetAsync(path, TestContext.Current.CancellationToken);
        Assert.Equal(status, (int)response.StatusCode);
        Assert.Contains($"\"{code}\"", await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
