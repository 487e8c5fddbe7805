using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using Cellarbook.Core.Chemistry;
using Xunit;

namespace Cellarbook.Tests.Bench;

/// <summary>The bench through its API: every calculator answers with all that law 8 wants, and refuses by code, path and sentence.</summary>
public sealed class BenchApiTests(BenchSite site) : IClassFixture<BenchSite>
{
    public static TheoryData<string> Ids => Samples.Ids;

    private async Task<(HttpStatusCode Status, JsonNode Body)> Get(string address)
    {
        using var response = await site.Client.GetAsync(new Uri("/api/v1/" + address, UriKind.Relative));
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    private async Task<(HttpStatusCode Status, JsonNode Body)> Post(string address, string json)
    {
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using var response = await site.Client.PostAsync(new Uri("/api/v1/" + address, UriKind.Relative), content);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    [Fact]
    public void There_is_a_sample_for_every_calculator() => Assert.Equal(BenchCalculators.All.Select(calculator => calculator.Id).Order(), Samples.Query.Keys.Order());

    [Fact]
    public async Task The_list_tells_what_each_calculator_asks_for()
    {
        var (status, list) = await Get("bench");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(BenchCalculators.All.Count, list.AsArray().Count);
        var titration = list.AsArray().Single(calculator => (string)calculator!["id"]! == "acid-titration")!;
        Assert.Equal("Acid", (string)titration["group"]!);
        var normality = titration["inputs"]!.AsArray().Single(input => (string)input!["name"]! == "normality")!;
        Assert.Equal((0.001, 2.0, true, "N", "normalityUncertainty"), ((double)normality["min"]!, (double)normality["max"]!, (bool)normality["required"]!, (string)normality["unit"]!, (string)normality["uncertaintyName"]!));
        Assert.Equal(["7.0", "8.2"], titration["inputs"]!.AsArray().Single(input => (string)input!["name"]! == "endPoint")!["choices"]!.AsArray().Select(choice => (string)choice!["code"]!));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public async Task Each_answers_by_address_and_by_body_alike_with_everything_behind_the_number(string id)
    {
        var (status, asked) = await Get($"bench/{id}?{Samples.Of(id)}");
        Assert.Equal(HttpStatusCode.OK, status);
        var expected = BenchCalculators.Find(id)!.Answer(Samples.Inputs(id));
        var results = asked["results"]!.AsArray();
        Assert.Equal(expected.Results.Select(result => result.Name), results.Select(result => (string)result!["name"]!));
        foreach (var (result, figure) in results.Zip(expected.Results))
        {
            Assert.Equal(figure.Value, (double)result!["value"]!);
            foreach (var part in new[] { "label", "shown", "method", "source", "sourceCheck", "validity", "worked" }) Assert.NotEqual("", (string)result[part]!);
            Assert.Equal(figure.Unit, (string)result["unit"]!);
            Assert.Equal(figure.Caution, (string?)result["caution"]);
        }
        var body = new JsonObject();
        foreach (var (name, text) in Samples.Pairs(id))
            body[name] = BenchCalculators.Find(id)!.Inputs.Single(input => input.Name == name).IsChoice ? text : JsonNode.Parse(text);
        var (posted, answered) = await Post($"bench/{id}", body.ToJsonString());
        Assert.Equal((HttpStatusCode.OK, asked.ToJsonString()), (posted, answered.ToJsonString()));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public async Task Each_refuses_nothing_at_all_and_an_input_it_does_not_have(string id)
    {
        var (status, bare) = await Get("bench/" + id);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Equal("missing_input", (string)bare["code"]!);
        Assert.NotEqual("", (string)bare["detail"]!);
        Assert.NotEqual("", (string)bare["refusals"]![0]!["valid"]!);
        var (_, unknown) = await Get($"bench/{id}?{Samples.Of(id)}&moonPhase=3");
        Assert.Equal(("unknown_input", "moonPhase"), ((string)unknown["code"]!, (string)unknown["path"]!));
    }

    [Theory]
    [InlineData("celsius=20,5", "not_a_number")]
    [InlineData("celsius=NaN", "not_a_number")]
    [InlineData("celsius=1e999", "not_a_number")]
    [InlineData("celsius=20&celsius=21", "not_a_number")]
    [InlineData("celsius=-300", "out_of_range")]
    [InlineData("celsius=", "not_a_number")]
    public async Task Numbers_are_decimal_with_a_point_and_nothing_is_guessed(string query, string code)
    {
        var (status, body) = await Get("bench/water-density?" + query);
        Assert.Equal((HttpStatusCode.UnprocessableEntity, code, "celsius"), (status, (string)body["code"]!, (string)body["path"]!));
    }

    [Theory]
    [InlineData("""{"celsius":"20"}""", HttpStatusCode.UnprocessableEntity, "not_a_number")]
    [InlineData("""{"celsius":[20]}""", HttpStatusCode.UnprocessableEntity, "not_a_number")]
    [InlineData("""{"celsius":1e999}""", HttpStatusCode.UnprocessableEntity, "not_a_number")]
    [InlineData("""{"celsius":20,"celsius":21}""", HttpStatusCode.BadRequest, "unreadable")]
    [InlineData("""[20]""", HttpStatusCode.BadRequest, "unreadable")]
    [InlineData("""{"celsius":""", HttpStatusCode.BadRequest, "unreadable")]
    public async Task A_body_is_one_object_of_numbers_and_codes(string json, HttpStatusCode expected, string code)
    {
        var (status, body) = await Post("bench/water-density", json);
        Assert.Equal((expected, code), (status, (string)body["code"]!));
    }

    [Fact]
    public async Task An_unknown_calculator_is_not_found()
    {
        var (status, body) = await Get("bench/crystal-ball?celsius=20");
        Assert.Equal((HttpStatusCode.NotFound, "not_found"), (status, (string)body["code"]!));
    }

    [Fact]
    public async Task Twenty_three_litres_fill_at_most_thirty_bottles_with_half_a_litre_over()
    {
        // Common practice, no source.
        var (_, body) = await Get("bench/bottles?litres=23&bottleMillilitres=750");
        var results = body["results"]!.AsArray().ToDictionary(result => (string)result!["name"]!, result => (double)result!["value"]!);
        Assert.Equal((30.0, 0.5), (results["bottles"], results["restLitres"]));
    }

    [Fact]
    public async Task Must_at_1_100_makes_13_5_to_15_by_every_rule_for_wine()
    {
        // Common practice, no source.
        var (_, body) = await Get("bench/strength-from-gravities?originalGravity=1.100&finalGravity=0.996&residualSugarGramsPerLitre=2&factor=eu");
        var results = body["results"]!.AsArray().ToDictionary(result => (string)result!["name"]!, result => (double)result!["value"]!);
        Assert.All(["abv", "abvLinear", "abvBalling", "abvDivisor", "abvHall"], name => Assert.InRange(results[name], 13.5, 15));
    }

    [Fact]
    public async Task A_lot_shows_its_figures_each_with_the_entries_behind_it()
    {
        await Post("vessels", """{"code":"F1","name":"Bucket","capacityLitres":30}""");
        foreach (var operation in new[]
        {
            """{"kind":"receive","day":"2026-03-01","what":"must","lot":"F/1","vessel":"F1","litres":23}""",
            """{"kind":"measure","day":"2026-03-01","lot":"F/1","vessel":"F1","gravity":1.090,"celsius":20}""",
            """{"kind":"measure","day":"2026-03-20","lot":"F/1","vessel":"F1","gravity":0.995,"celsius":20}""",
        })
            Assert.Equal(HttpStatusCode.Created, (await Post("operations", operation)).Status);
        var (status, body) = await Get("lots/F%2F1/figures");
        Assert.Equal(HttpStatusCode.OK, status);
        var place = body["places"]![0]!;
        Assert.Equal(("F1", "must"), ((string)place["vessel"]!, (string)place["stage"]!));
        var abv = place["figures"]!.AsArray().Single(figure => (string)figure!["name"]! == "abvEstimated")!;
        Assert.Equal(131.25 * 0.095, (double)abv["value"]!, 0.05);
        Assert.Equal(0.5, (double)abv["uncertainty"]!);
        Assert.Equal([4L, 5L], abv["readings"]!.AsArray().Select(reading => (long)reading!["entry"]!));
        Assert.Contains(place["cannotSay"]!.AsArray(), refusal => (string)refusal!["path"]! == "molecularMgPerLitre" && (string)refusal["code"]! == "cannot_say");
        Assert.Equal(HttpStatusCode.NotFound, (await Get("lots/nobody/figures")).Status);
    }
}
