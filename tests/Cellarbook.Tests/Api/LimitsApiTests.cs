using System.Net;
using System.Text.Json;

namespace Cellarbook.Tests.Api;

/// <summary>Limits over the API and on pages: dry run, reason, a lot's verdicts, own sets from CSV.</summary>
public class LimitsApiTests
{
    private const string House = "substances,basis,kind,value,unit,colour,source,seen\nso2,total_measured,max,100,mg/L,red,house rule,text\n";

    private static async Task<RunningApp> Cellar(string regime)
    {
        var app = await RunningApp.Start();
        await app.Does($$"""{"kind":"premises","day":"2026-01-01","regimes":["{{regime}}"],"owner":"Ida","name":"Ashlar Hill"}""");
        await app.Does("""{"kind":"vessel","day":"2026-01-01","code":"V1","capacityLitres":200}""");
        await app.Does("""{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"R1","vessel":"V1","litres":100,"abv":12.5,"colour":"red","supplier":"Linden Farm","document":"LF 1"}""");
        await app.Does("""{"kind":"measure","day":"2026-01-02","lot":"R1","sugarGramsPerLitre":2,"totalSo2MgPerLitre":80}""");
        return app;
    }

    [Fact]
    public async Task A_dry_run_says_what_a_dose_will_make_of_it_and_an_excess_is_recorded_with_its_reason()
    {
        await using var app = await Cellar("eu");
        var (status, check) = await app.Post("/api/v1/operations?check=true", """{"kind":"add","day":"2026-01-03","lot":"R1","items":[{"material":"kmbs","grams":10}]}""");
        Assert.Equal(200, status);
        var so2 = check.GetProperty("limits").EnumerateArray().Single(verdict => verdict.GetProperty("substance").GetString() == "so2");
        Assert.Equal(("near", "150", "total_measured", "text"), (so2.GetProperty("verdict").GetString(), so2.GetProperty("limitMgPerLitre").GetString(), so2.GetProperty("basis").GetString(), so2.GetProperty("seen").GetString()));
        Assert.StartsWith("1.237", so2.GetProperty("roomGrams").GetString(), StringComparison.Ordinal);

        var (refused, problem) = await app.Post("/api/v1/operations", """{"kind":"add","day":"2026-01-03","lot":"R1","items":[{"material":"kmbs","grams":14}]}""");
        Assert.Equal((422, "reason_needed", "reason"), (refused, problem.GetProperty("code").GetString(), problem.GetProperty("path").GetString()));
        var done = await app.Does("""{"kind":"add","day":"2026-01-03","lot":"R1","reason":"taint","items":[{"material":"kmbs","grams":14}]}""");
        Assert.Contains(done.GetProperty("flags").EnumerateArray(), flag => flag.GetProperty("code").GetString() == "over_limit");

        var lot = await app.Get("/api/v1/lots/R1/limits");
        Assert.Equal("over", lot.GetProperty("verdict").GetString());
        Assert.Contains("Over a limit", WebUtility.HtmlDecode(await app.Http.GetStringAsync("/", TestContext.Current.CancellationToken)), StringComparison.Ordinal);
        Assert.Contains("over", await app.Http.GetStringAsync("/lots/R1", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("is over a limit", (await app.Get("/api/v1/statements/period?from=2026-01-01&to=2026-01-31")).GetRawText(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_household_is_held_against_the_law_on_request_and_a_lot_nobody_knows_is_not_found()
    {
        await using var app = await Cellar("household");
        Assert.Empty((await app.Get("/api/v1/lots/R1/limits")).GetProperty("sets").EnumerateArray());
        Assert.Contains((await app.Get("/api/v1/lots/R1/limits?law=true")).GetProperty("sets").EnumerateArray(), set => set.GetString() == "eu");
        using var missing = await app.Http.GetAsync("/api/v1/lots/R9/limits", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
        var page = await app.Http.GetStringAsync("/lots/R1", TestContext.Current.CancellationToken);
        Assert.Contains("/lots/R1?law=true#limits", page, StringComparison.Ordinal);
        Assert.Contains("European Union", await app.Http.GetStringAsync("/lots/R1?law=true", TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task For_the_market_additions_alone_do_not_do()
    {
        await using var app = await Cellar("eu");
        await app.Does("""{"kind":"receive","day":"2026-01-03","what":"bulkWine","lot":"R2","litres":50,"abv":12.5,"colour":"red","supplier":"Linden Farm","document":"LF 2"}""");
        await app.Does("""{"kind":"measure","day":"2026-01-03","lot":"R2","sugarGramsPerLitre":2}""");
        await app.Does("""{"kind":"add","day":"2026-01-03","lot":"R2","items":[{"material":"kmbs","grams":2}]}""");
        Assert.True(So2(await app.Get("/api/v1/lots/R2/limits")).GetProperty("byAdditions").GetBoolean());
        Assert.Equal("cannot say", So2(await app.Get("/api/v1/lots/R2/limits?release=true")).GetProperty("verdict").GetString());

        static JsonElement So2(JsonElement lot) => lot.GetProperty("verdicts").EnumerateArray().Single(verdict => verdict.GetProperty("substance").GetString() == "so2");
    }

    [Fact]
    public async Task A_set_from_CSV_is_stated_whole_or_refused_with_its_rows_and_the_old_one_stays()
    {
        await using var app = await Cellar("household");
        var (stated, answer) = await app.Post("/api/v1/limits?code=house&as=house", House, type: "text/csv");
        Assert.Equal((201, 1), (stated, answer.GetProperty("rows").GetInt32()));
        var (refused, problem) = await app.Post("/api/v1/limits?code=house&as=house", House + "so2,total_measured,max,90,mg/L,red,house rule,text\n", type: "text/csv");
        Assert.Equal((422, "limits_unreadable", 2), (refused, problem.GetProperty("code").GetString(), problem.GetProperty("row").GetInt32()));
        foreach (var broken in new[] { "", "PK\u0003\u0004\0", "substances\n\"", House.Replace("house rule", "", StringComparison.Ordinal) })
            Assert.Equal("limits_unreadable", (await app.Post("/api/v1/limits?code=house&as=house", broken, type: "text/csv")).Answer.GetProperty("code").GetString());
        Assert.Equal("too_large", (await app.Post("/api/v1/limits?code=house&as=house", new string('x', (1 << 20) + 1), type: "text/csv")).Answer.GetProperty("code").GetString());
        Assert.Equal("no_such_day", (await app.Post("/api/v1/limits?code=house&as=house&expires=tomorrow", House, type: "text/csv")).Answer.GetProperty("code").GetString());
        Assert.Equal("limits_expired", (await app.Post("/api/v1/limits?code=house&as=house&expires=2020-01-01", House, type: "text/csv")).Answer.GetProperty("code").GetString());
        Assert.Equal("100", (await app.Get("/api/v1/limits/house")).GetProperty("lines")[0].GetProperty("value").GetString());
        Assert.Contains((await app.Get("/api/v1/limits")).EnumerateArray(), set => set.GetProperty("code").GetString() == "house" && set.GetProperty("inForce").GetBoolean());
        Assert.Contains((await app.Get("/api/v1/lots/R1/limits")).GetProperty("sets").EnumerateArray(), set => set.GetString() == "house");
    }

    [Fact]
    public async Task The_rows_of_a_law_come_out_as_a_set_of_ones_own_can_be_written()
    {
        await using var app = await Cellar("household");
        foreach (var set in new[] { "eu", "eu-organic", "oiv", "uk", "us", "codex" })
        {
            var lines = (await app.Get($"/api/v1/limits/{set}")).GetProperty("lines").GetRawText();
            await app.Does($$"""{"kind":"limitSet","day":"2026-01-03","code":"own-{{set}}","as":"house","rows":{{lines}}}""");
        }
    }

    [Fact]
    public async Task The_page_of_limits_shows_sets_with_their_sources_and_takes_one()
    {
        await using var app = await Cellar("eu");
        var page = await app.Http.GetStringAsync("/rules", TestContext.Current.CancellationToken);
        Assert.Contains("/rules?set=eu", page, StringComparison.Ordinal);
        var law = WebUtility.HtmlDecode(await app.Http.GetStringAsync("/rules?set=eu", TestContext.Current.CancellationToken));
        Assert.Contains("Reg (EU) 2019/934 Annex I Part B A.1(a)", law, StringComparison.Ordinal);
        Assert.Contains("from memory", law, StringComparison.Ordinal);
        var token = System.Text.RegularExpressions.Regex.Match(page, "name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"").Groups[1].Value;
        using var good = await Send("house", House);
        Assert.True(good.StatusCode is HttpStatusCode.OK or HttpStatusCode.Found, $"{good.StatusCode}");
        Assert.Contains("House rule of the cellar", await app.Http.GetStringAsync("/rules", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        using var bad = await Send("house", House.Replace("100", "-1", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, bad.StatusCode);
        Assert.Contains("Row 1, value", WebUtility.HtmlDecode(await bad.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)), StringComparison.Ordinal);

        async Task<HttpResponseMessage> Send(string code, string rows)
        {
            using var form = new MultipartFormDataContent
            {
                { new StringContent(token), "__RequestVerificationToken" }, { new StringContent(code), "code" }, { new StringContent("House rule of the cellar"), "name" }, { new StringContent("house"), "as" }, { new StringContent(rows), "rows" },
            };
            return await app.Http.PostAsync("/rules", form, TestContext.Current.CancellationToken);
        }
    }
}
