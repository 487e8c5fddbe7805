using System.Net;
using Cellarbook.Core;
using Cellarbook.Core.Book;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.Operations;
using Cellarbook.Forms;
using Cellarbook.Pages.Bench;
using Xunit;

namespace Cellarbook.Tests.Bench;

/// <summary>The bench as a page: no script needed, results shown alike with everything behind them, bad figures refused at their field.</summary>
public sealed class BenchPageTests(BenchSite site) : IClassFixture<BenchSite>
{
    public static TheoryData<string> Ids => Samples.Ids;

    private async Task<(HttpStatusCode Status, string Html)> Get(string address)
    {
        using var response = await site.Client.GetAsync(new Uri(address, UriKind.Relative));
        return (response.StatusCode, WebUtility.HtmlDecode(await response.Content.ReadAsStringAsync()));
    }

    [Fact]
    public async Task Every_calculator_is_listed_in_its_group_and_found_by_a_word()
    {
        var (_, html) = await Get("/bench");
        Assert.All(BenchCalculators.All, calculator => Assert.Contains($"href=\"/bench/{calculator.Id}\"", html, StringComparison.Ordinal));
        Assert.All(BenchCalculators.All.Select(calculator => calculator.Group).Distinct(), group => Assert.Contains($">{group}</h2>", html, StringComparison.Ordinal));
        var (_, found) = await Get("/bench?q=metabisulphite");
        Assert.Contains("href=\"/bench/sulphite-dose\"", found, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"/bench/cask\"", found, StringComparison.Ordinal);
        Assert.Contains("None speaks of “xyzzy”", (await Get("/bench?q=xyzzy")).Html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await Get("/bench/crystal-ball")).Status);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public async Task Each_page_asks_and_answers_without_script(string id)
    {
        var calculator = BenchCalculators.Find(id)!;
        var (asked, form) = await Get("/bench/" + id);
        Assert.Equal(HttpStatusCode.OK, asked);
        Assert.DoesNotContain("<script", form, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"error\"", form, StringComparison.Ordinal);
        Assert.All(calculator.Inputs, input => Assert.Contains($"<label for=\"{input.Name}\">{input.Label}", form, StringComparison.Ordinal));

        var (answered, html) = await Get($"/bench/{id}?{Samples.Of(id)}");
        Assert.Equal(HttpStatusCode.OK, answered);
        foreach (var result in calculator.Answer(Samples.Inputs(id)).Results)
        {
            var card = html[html.IndexOf($"id=\"result-{result.Name}\"", StringComparison.Ordinal)..];
            card = card[..card.IndexOf("</article>", StringComparison.Ordinal)];
            foreach (var part in new[] { result.Label.ToString(), result.Shown, result.Unit, result.Method.ToString(), result.Worked, result.Source.ToString(), result.Validity.ToString() }) Assert.Contains(part, card, StringComparison.Ordinal);
            if (result.Caution is { } caution) Assert.Contains(caution.ToString(), html, StringComparison.Ordinal);
            Assert.Equal(result.EntryField is not null, card.Contains("href=\"/record/", StringComparison.Ordinal));
        }
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public async Task Each_page_refuses_a_bad_figure_at_its_field_and_keeps_what_was_typed(string id)
    {
        var number = BenchCalculators.Find(id)!.Inputs.First(input => !input.IsChoice);
        var rest = string.Join('&', Samples.Pairs(id).Where(pair => pair.Key != number.Name).Select(pair => $"{pair.Key}={Uri.EscapeDataString(pair.Value)}"));
        var (status, html) = await Get($"/bench/{id}?{number.Name}=12x&{rest}");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains($"<span class=\"error\" id=\"{number.Name}-wrong\">“12x” is not a number.", html, StringComparison.Ordinal);
        Assert.Contains("value=\"12x\"", html, StringComparison.Ordinal);
        Assert.DoesNotContain("class=\"results\"", html, StringComparison.Ordinal);
        Assert.All(Samples.Pairs(id).Where(pair => pair.Key != number.Name), pair => Assert.Contains($"\"{pair.Value}\"", html, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_result_is_handed_to_an_entry_form()
    {
        var (_, dose) = await Get("/bench/sulphite-dose?" + Samples.Of("sulphite-dose"));
        Assert.Contains("href=\"/record/add?items%5B0%5D.grams=1.46\"", dose, StringComparison.Ordinal);
        var (_, bottles) = await Get("/bench/bottles?" + Samples.Of("bottles"));
        Assert.Contains("href=\"/record/bottle?fills%5B0%5D.bottles=30\"", bottles, StringComparison.Ordinal);
        var (_, cask) = await Get("/bench/cask?" + Samples.Of("cask"));
        Assert.Contains("href=\"/record/gauge?litres=", cask, StringComparison.Ordinal);
        // Strength goes to the book in hundredths, however many decimals the method has.
        var (_, strength) = await Get("/bench/strength?massPercent=10");
        Assert.Contains("href=\"/record/regauge?abv=12.44\"", strength, StringComparison.Ordinal);
        // The form opens with the figure in its field, in the book's own unit.
        Assert.Contains("value=\"1.46\"", (await Get("/record/add?items%5B0%5D.grams=1.46")).Html, StringComparison.Ordinal);
        Assert.Contains("value=\"11.5\"", (await Get("/record/make-up?waterLitres=11.5")).Html, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void The_form_it_is_handed_to_has_that_field(string id)
    {
        var calculator = BenchCalculators.Find(id)!;
        foreach (var result in calculator.Answer(Samples.Inputs(id)).Results)
        {
            if (HandOver.Of(calculator, result) is not { } hand) continue;
            var at = hand.Field.IndexOf("[0].", StringComparison.Ordinal);
            var field = at < 0 ? $"\"{hand.Field}\":1" : $"\"{hand.Field[..at]}\":[{{\"{hand.Field[(at + 4)..]}\":1}}]";
            var refusals = new List<Refusal>();
            Assert.NotNull(OperationJson.Read(System.Text.Encoding.UTF8.GetBytes($"{{\"kind\":\"{hand.Kind}\",\"day\":\"2026-03-01\",{field}}}"), refusals));
            Assert.Empty(refusals);
        }
    }

    [Fact]
    public async Task The_pages_styles_arrive_whole_also_compressed()
    {
        var (_, html) = await Get("/bench");
        var styles = html.Split("rel=\"stylesheet\" href=\"").Skip(1).Select(rest => rest[..rest.IndexOf('"', StringComparison.Ordinal)]).ToArray();
        Assert.Equal(2, styles.Length);
        foreach (var style in styles) Assert.True((await site.Client.GetStringAsync(new Uri(style, UriKind.Relative))).Length > 1000, style);
    }

    [Fact]
    public async Task The_uncertainty_of_a_reading_is_asked_for_and_carried()
    {
        var (_, html) = await Get("/bench/strength-from-gravities?originalGravity=1.090&originalGravityUncertainty=0.001&finalGravity=0.995&finalGravityUncertainty=0.001&factor=eu");
        Assert.Contains("12.5 ± 0.4", html, StringComparison.Ordinal);
        Assert.Contains("carried from Original gravity 20/20 ± 0.001 SG", html, StringComparison.Ordinal);
        var (status, wrong) = await Get("/bench/water-density?celsius=20&celsiusUncertainty=-1");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, status);
        Assert.Contains("id=\"celsiusUncertainty-wrong\"", wrong, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_lots_figures_open_to_formula_and_entries_and_say_what_is_missing()
    {
        foreach (var operation in new[]
        {
            """{"kind":"receive","day":"2026-03-01","what":"must","lot":"P/1","litres":23}""",
            """{"kind":"measure","day":"2026-03-01","lot":"P/1","gravity":1.090,"celsius":20}""",
            """{"kind":"measure","day":"2026-03-20","lot":"P/1","gravity":0.995,"celsius":20}""",
        })
        {
            using var body = new StringContent(operation, System.Text.Encoding.UTF8, "application/json");
            (await site.Client.PostAsync(new Uri("/api/v1/operations", UriKind.Relative), body)).EnsureSuccessStatusCode();
        }
        var (status, html) = await Get("/bench/lots/P%2F1");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("Strength, estimated from gravities", html, StringComparison.Ordinal);
        Assert.Contains("<strong>12.5 ± 0.5</strong>", html, StringComparison.Ordinal);
        Assert.Contains("href=\"/book/3\"", html, StringComparison.Ordinal);
        Assert.Contains("no free SO2 of this wine is in the book", html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await Get("/bench/lots/nobody")).Status);
    }

    [Theory]
    [InlineData("1.050", false, 1.050)]
    [InlineData("1,050", false, 1.050)]
    [InlineData("1.050", true, 1.050)]
    [InlineData(" 1,05 ", false, 1.05)]
    [InlineData("0,995", false, 0.995)]
    [InlineData(",995", false, 0.995)]
    public void Comma_and_point_are_both_read_where_the_field_leaves_no_doubt(string typed, bool comma, double expected)
    {
        Assert.Null(Read(typed, new ValidRange(0.98, 1.2, "SG"), comma, out var figure));
        Assert.Equal(expected, figure);
    }

    [Theory]
    [InlineData("1,234", false)]
    [InlineData("1.234", true)]
    [InlineData("1,234.5", false)]
    [InlineData("1 234", false)]
    [InlineData("1.2.3", false)]
    [InlineData("12.", false)]
    [InlineData("--1", false)]
    [InlineData("1e3", false)]
    [InlineData("∞", false)]
    [InlineData("12345678901234567890123456789012345678901", false)]
    public void A_figure_that_can_be_read_in_two_ways_or_none_is_refused(string typed, bool comma) =>
        Assert.NotNull(Read(typed, new ValidRange(0.001, 1e7, "L"), comma, out _));

    [Fact]
    public void Thousands_are_taken_where_only_they_fit()
    {
        Assert.Null(Read("1,000", new ValidRange(770, 1000, "kg/m³"), false, out var figure));
        Assert.Equal(1000, figure);
        Assert.Null(Read("−5,5", new ValidRange(-20, 40, "°C"), false, out var cold));
        Assert.Equal(-5.5, cold);
    }

    private static Sentence? Read(string typed, ValidRange range, bool comma, out double figure)
    {
        var fault = Figure.Read(typed, comma, read => range.Contains(read.Number), out var read);
        figure = read.Number;
        return fault;
    }
}
