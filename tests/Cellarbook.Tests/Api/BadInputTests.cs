using System.Text;
using System.Text.Json.Nodes;
using CsCheck;

namespace Cellarbook.Tests.Api;

/// <summary>Bad input gets a clear error with a code, records nothing, and the next good request works.</summary>
public class BadInputTests
{
    private const string Good = """{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":1}""";

    [Theory]
    [InlineData("", 400, "unreadable")]
    [InlineData("[]", 400, "unreadable")]
    [InlineData("{", 400, "unreadable")]
    [InlineData("null", 400, "unreadable")]
    [InlineData("{} trailing", 400, "unreadable")]
    [InlineData("""{"kind":"receive","kind":"lose","day":"2026-03-01"}""", 400, "unreadable")]
    [InlineData("""{"day":"2026-03-01"}""", 422, "missing")]
    [InlineData("""{"kind":"conjure","day":"2026-03-01"}""", 422, "unknown_kind")]
    [InlineData("""{"kind":"imported","day":"2026-03-01"}""", 422, "unknown_kind")]
    [InlineData("""{"kind":"receive","what":"must","lot":"L1","litres":1}""", 422, "missing")]
    [InlineData("""{"kind":"receive","day":"2026-02-30","what":"must","lot":"L1","litres":1}""", 422, "no_such_day")]
    [InlineData("""{"kind":"receive","day":"01.03.2026","what":"must","lot":"L1","litres":1}""", 422, "no_such_day")]
    [InlineData("""{"kind":"receive","day":"2026-12-01","what":"must","lot":"L1","litres":1}""", 422, "day_to_come")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","enteredOn":"2026-02-01","what":"must","lot":"L1","litres":1}""", 422, "entered_before_it_happened")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","liters":1}""", 422, "unknown_field")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"mash","lot":"L1","litres":1}""", 422, "unknown_word")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":"12,5 L"}""", 422, "not_a_number")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":"NaN"}""", 422, "not_a_number")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":0.0000001}""", 422, "too_fine")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":1e-7}""", 422, "too_fine")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":9999999999999999999999999999999999999999}""", 422, "too_large_number")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":1e400}""", 422, "too_large_number")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":-1}""", 422, "not_positive")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","litres":0}""", 422, "not_positive")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"=1+1","litres":1}""", 422, "bad_name")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"a:b","litres":1}""", 422, "bad_name")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"NOWHERE","litres":1}""", 422, "unknown_vessel")]
    [InlineData("""{"kind":"lose","day":"2026-03-01","as":"spill","lot":"NOBODY","litres":1}""", 422, "unknown_lot")]
    [InlineData("""{"kind":"remove","day":"2026-03-01","as":"sold","bottling":"NONE","bottles":1}""", 422, "unknown_bottling")]
    [InlineData("""{"kind":"remove","day":"2026-03-01","as":"sold","bottling":"NONE","bottles":1.5}""", 422, "too_fine")]
    [InlineData("""{"kind":"bottle","day":"2026-03-01","lot":"NOBODY","fills":[{"bottling":"X","bottles":1,"bottleMl":750}]}""", 422, "unknown_lot")]
    [InlineData("""{"kind":"correct","day":"2026-03-01","takesBack":99,"reason":"x","write":null}""", 422, "unknown_entry")]
    [InlineData("""{"kind":"receive","day":5,"what":"must","lot":"L1","litres":1}""", 422, "no_such_day")]
    [InlineData("""{"kind":"receive","day":"2026-03-01","what":["must"],"lot":"L1","litres":1}""", 400, "unreadable")]
    public async Task A_bad_operation_is_refused_with_a_code_and_the_next_good_one_works(string body, int status, string code)
    {
        await using var app = await WithVessel();
        var before = app.Book.Read(book => book.LastNumber);
        var (got, answer) = await app.Post("/api/v1/operations", body);
        Assert.Equal((status, code), (got, answer.GetProperty("code").GetString()));
        Assert.True(answer.GetProperty("detail").GetString()!.Length > 10);
        Assert.Equal(before, app.Book.Read(book => book.LastNumber));
        await app.Does(Good);
    }

    [Fact]
    public async Task Deep_nesting_an_over_long_body_and_an_over_long_text_are_refused()
    {
        await using var app = await WithVessel();
        Assert.Equal(400, (await app.Post("/api/v1/operations", new string('[', 5_000))).Status);
        Assert.Equal(413, (await app.Post("/api/v1/operations", Good.Replace("}", ",\"note\":\"" + new string('x', 1 << 20) + "\"}", StringComparison.Ordinal))).Status);
        var (status, answer) = await app.Post("/api/v1/operations", Good.Replace("}", ",\"note\":\"" + new string('x', 5_000) + "\"}", StringComparison.Ordinal));
        Assert.Equal((413, "note"), (status, answer.GetProperty("path").GetString()));
        await app.Does(Good);
    }

    [Theory]
    [InlineData("", "empty")]
    [InlineData("event_id,date,category,volume_ml\n", "empty")]
    [InlineData("PK\u0003\u0004\0\u0001", "unreadable")]
    [InlineData("event_id,date,category,volume_ml,lot_to\nE1,2026-03-01,MUST_RECEIVED,1000,\"L1", "unreadable")]
    [InlineData("event_id,date,category,volume_ml,lot_to\nE1,2026-03-01,MUST_RECEIVED,1000,L1,more", "unreadable")]
    [InlineData("event_id,date,category,volume_ml,colour\n", "unknown_column")]
    [InlineData("event_id,date,category\n", "missing_column")]
    [InlineData("event_id,date,category,volume_ml,lot_to\nE1,2026-03-01,MAGIC,1000,L1", "unknown_category")]
    [InlineData("event_id,date,category,volume_ml,lot_to\nE1,2026-03-01,MUST_RECEIVED,\"1,5\",L1", "not_a_number")]
    public async Task A_bad_file_is_refused_with_a_code_and_records_nothing(string text, string code)
    {
        await using var app = await RunningApp.Start();
        var (status, answer) = await app.Post("/api/v1/imports/journal", text, type: "text/csv");
        Assert.InRange(status, 400, 499);
        Assert.Equal(code, answer.GetProperty("code").GetString());
        Assert.Equal(0, app.Book.Read(book => book.LastNumber));
    }

    [Fact]
    public async Task UTF_16_is_refused_a_byte_order_mark_and_CRLF_are_not()
    {
        await using var app = await RunningApp.Start();
        const string text = "event_id,date,category,volume_ml,lot_to\r\nE1,2026-03-01,MUST_RECEIVED,1000.5,\"L1\"\r\n";
        using var wide = new ByteArrayContent([.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(text)]);
        wide.Headers.ContentType = new("text/csv");
        Assert.Equal(400, (int)(await app.Http.PostAsync("/api/v1/imports/journal", wide, TestContext.Current.CancellationToken)).StatusCode);
        using var marked = new ByteArrayContent([.. Encoding.UTF8.GetPreamble(), .. Encoding.UTF8.GetBytes(text)]);
        marked.Headers.ContentType = new("text/csv");
        Assert.Equal(201, (int)(await app.Http.PostAsync("/api/v1/imports/journal", marked, TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal(1.0005m, (await app.Get("/api/v1/lots/L1")).GetProperty("litres").GetDecimal());
    }

    [Fact]
    public async Task What_is_not_there_answers_404_with_a_code()
    {
        await using var app = await RunningApp.Start();
        foreach (var path in new[] { "/api/v1/lots/NOBODY", "/api/v1/vessels/NOWHERE", "/api/v1/bottlings/NONE", "/api/v1/book/entries/7", "/api/v1/nothing" })
        {
            var response = await app.Http.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal(404, (int)response.StatusCode);
            Assert.Contains("\"code\"", await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Whatever_is_changed_in_a_body_the_answer_is_success_or_a_refusal_never_a_fault()
    {
        await using var app = await WithVessel();
        var junk = Gen.OneOf(Gen.Const("null"), Gen.Const("\"\""), Gen.Const("[]"), Gen.Const("{}"), Gen.Const("-1"), Gen.Const("1e99999"), Gen.Const("0.5"), Gen.Const("true"), Gen.Const("\"2026-03-01\""), Gen.Const("[[1]]"), Gen.Const("{\"litres\":{}}"),
            Gen.String.Select(text => JsonValue.Create(text)!.ToJsonString()));
        var bodies = new[]
        {
            Good,
            """{"kind":"transfer","day":"2026-03-01","sources":[{"lot":"L1","vessel":"V1","litres":1}],"targets":[{"lot":"L1","vessel":"V1","litres":1}],"losses":[{"kind":"lees","litres":0}]}""",
            """{"kind":"bottle","day":"2026-03-01","lot":"L1","fills":[{"bottling":"B","bottles":1,"bottleMl":750}],"losses":[]}""",
            """{"kind":"count","day":"2026-03-01","document":"COUNT","lines":[{"lot":"L1","litres":1}]}""",
            """{"kind":"correct","day":"2026-03-01","takesBack":1,"reason":"x","write":[{"kind":"lose","day":"2026-03-01","as":"spill","lot":"L1","litres":1}]}""",
            """{"kind":"measure","day":"2026-03-01","lot":"L1","gravity":1.05,"celsius":20}""",
        };
        Gen.Select(Gen.Int[0, bodies.Length - 1], Gen.Int[0, 200], junk).Sample((which, at, value) =>
        {
            var body = JsonNode.Parse(bodies[which])!;
            var places = Places(body).ToList();
            var (parent, name) = places[at % places.Count];
            if (parent is JsonObject fields) fields[name] = JsonNode.Parse(value);
            else parent.AsArray()[int.Parse(name, System.Globalization.CultureInfo.InvariantCulture)] = JsonNode.Parse(value);
            var (status, answer) = app.Post("/api/v1/operations?check=true", body.ToJsonString()).GetAwaiter().GetResult();
            Assert.True(status is 200 or 400 or 413 or 422, $"HTTP {status} for {body.ToJsonString()}: {answer}");
            if (status != 200) Assert.NotEqual("", answer.GetProperty("code").GetString());
        }, iter: 400, threads: 1);
    }

    [Fact]
    public async Task Whatever_bytes_are_sent_as_a_file_the_answer_is_success_or_a_refusal()
    {
        await using var app = await RunningApp.Start();
        var lines = "event_id,date,category,volume_ml,lot_from,lot_to,abv_pct\nE1,2026-03-01,RECEIVED_BULK,1000,,L1,12\nE2,2026-03-02,SAMPLE_BULK,10,L1,,\n";
        Gen.Select(Gen.Int[0, lines.Length - 1], Gen.String[Gen.Char["\",\n\r;\t\0=@€é 0"], 0, 4]).Sample((at, text) =>
        {
            var file = lines.Remove(at, Math.Min(2, lines.Length - at)).Insert(at, text);
            var (status, answer) = app.Post("/api/v1/imports/journal?check=true", file, type: "text/csv").GetAwaiter().GetResult();
            Assert.True(status is 200 or 400 or 409 or 422, $"HTTP {status} for {file}: {answer}");
        }, iter: 300, threads: 1);
    }

    private static IEnumerable<(JsonNode Parent, string Name)> Places(JsonNode node)
    {
        if (node is JsonObject fields)
            foreach (var (name, value) in fields.ToList())
            {
                yield return (node, name);
                if (value is not null)
                    foreach (var inner in Places(value)) yield return inner;
            }
        else if (node is JsonArray items)
            for (var i = 0; i < items.Count; i++)
            {
                yield return (node, i.ToString(System.Globalization.CultureInfo.InvariantCulture));
                foreach (var inner in Places(items[i]!)) yield return inner;
            }
    }

    private static async Task<RunningApp> WithVessel()
    {
        var app = await RunningApp.Start();
        Assert.Equal(201, (await app.Post("/api/v1/vessels", """{"code":"V1","name":"V1","capacityLitres":1000}""")).Status);
        return app;
    }
}
