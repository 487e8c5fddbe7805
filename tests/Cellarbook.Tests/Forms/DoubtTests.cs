using System.Net;
using System.Text.RegularExpressions;
using Xunit;

namespace Cellarbook.Tests.Forms;

/// <summary>Law 12: no form guesses at a figure. Whatever the field, one with two marks is refused there with a sentence, and so is 1,234 wherever thousands could be meant.</summary>
public sealed partial class DoubtTests
{
    /// <summary>Readings and strengths, which no thousands fit: there 1,050 is in no doubt.</summary>
    private static readonly string[] Small = ["gravity", "celsius", "calibrationCelsius", "mustCelsius", "abv", "spiritAbv", "labelAbv", "abvFound", "brix", "brixBefore", "brixAfter", "ph", "percent", "taGramsPerLitre", "freeSo2MgPerLitre", "totalSo2MgPerLitre", "vaGramsPerLitre", "sugarGramsPerLitre", "malicGramsPerLitre", "naturalAbv", "fixedAcidGramsPerLitre"];

    [Fact]
    public async Task A_figure_in_doubt_is_refused_at_every_field_of_every_form()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var before = house.LastNumber;
        var (tried, wrong) = (0, new List<string>());
        foreach (var path in FormCases.All.Select(said => said.Path).Distinct())
        {
            var page = await house.Browser.GetStringAsync(path);
            var fields = Figure().Matches(page).Select(match => (Id: match.Groups[1].Value, Name: WebUtility.HtmlDecode(match.Groups[2].Value))).ToArray();
            foreach (var typed in new[] { "1.234,5", "1,234" })
            {
                var answer = await house.Press(path, page, "write", [.. fields.Select(field => (field.Name, typed))]);
                foreach (var (id, name) in fields.Where(field => typed == "1.234,5" || !Small.Contains(field.Name.Split('.')[^1])))
                {
                    tried++;
                    if (!Regex.IsMatch(answer.Html, $"id=\"{Regex.Escape(id)}-error\">[^<]*{(typed == "1,234" ? "can be read as 1.234 or as 1234" : "can be read in two ways")}")) wrong.Add($"{path} {name} took {typed}");
                }
            }
        }
        Assert.True(tried > 150, $"{tried}");
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
        Assert.Equal(before, house.LastNumber);
    }

    [Fact]
    public async Task So_it_is_on_a_round_and_at_a_vessels_capacity()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var before = house.LastNumber;
        var round = await house.Fill("/round", "write", ("day", "2026-02-01"), ("gravity[0]", "1.234,5"), ("celsius[1]", "1,234.5"));
        Assert.Matches("id=\"g0-error\"[^>]*>[^<]*two ways", round.Html);
        Assert.Matches("id=\"t1-error\"[^>]*>[^<]*two ways", round.Html);
        var vessel = await house.Fill("/record/vessel", "write", ("Code", "V9"), ("Capacity", "1,234"));
        Assert.Contains("can be read as 1.234 or as 1234", vessel.Text, StringComparison.Ordinal);
        Assert.Equal(before, house.LastNumber);
    }

    [Fact]
    public async Task Whose_mark_is_the_comma_is_asked_about_the_point()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        await house.Fill("/settings", "write", ("Form.For", "household"), ("Form.DecimalComma", "true"));
        const string rack = "/record/rack?lot=W1&vessel=V3";
        var asked = await house.Fill(rack, "write", ("day", "2026-02-01"), ("targets[0].litres", "1.234"), ("targets[0].vessel", "V5"));
        Assert.Contains("can be read as 1,234 or as 1234", asked.Text, StringComparison.Ordinal);
        var written = await house.Press(rack, asked.Html, "write", ("targets[0].litres", "1,234"));
        Assert.Contains("\"litres\":1.234", house.Content(written.Entry), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/record/receive?what=fruit", "kilograms", "2", "lb", "kilograms\":0.907")]
    [InlineData("/record/receive?what=fruit", "kilograms", "500", "g", "kilograms\":0.5")]
    [InlineData("/record/measure?lot=L1&vessel=V1", "celsius", "68", "°F", "celsius\":20.0")]
    [InlineData("/record/measure?lot=L1&vessel=V1", "gravity", "12.5", "°Bx", "brix\":12.5")]
    [InlineData("/record/measure?lot=L1&vessel=V1", "gravity", "52", "°Oe", "oechsle\":52")]
    [InlineData("/record/add?lot=W1&vessel=V3", "items[0].amount", "1", "oz", "grams\":28.35")]
    [InlineData("/record/take-from-stores", "items[0].amount", "0.25", "lb", "grams\":113.398")]
    [InlineData("/record/count-stores", "lines[0].amount", "1", "lb", "grams\":453.592")]
    [InlineData("/record/deliver", "items[0].amount", "2", "oz", "grams\":56.699")]
    [InlineData("/record/make-up", "sugarGrams", "1", "lb", "sugarGrams\":453.592")]
    [InlineData("/record/sweeten", "grams", "1", "kg", "grams\":1000")]
    [InlineData("/record/take-away", "kilograms", "10", "lb", "kilograms\":4.536")]
    public async Task Each_sort_of_figure_may_be_typed_in_the_units_people_have(string path, string field, string typed, string unit, string posted)
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var said = FormCases.All.First(known => known.Path.Split('?')[0] == path.Split('?')[0] && (path.Contains('?', StringComparison.Ordinal) ? known.Path == path : true));
        var answer = await house.Fill(said.Path, "write", [.. said.Typed.Where(other => !other.Name.StartsWith(field, StringComparison.Ordinal)), (field, typed), (field + ":unit", unit), ("day", "2026-02-01")]);
        if (answer.Status == HttpStatusCode.OK) answer = await house.Press(said.Path, answer.Html, "write");
        Assert.Contains(posted, house.Content(answer.Entry), StringComparison.Ordinal);
        if (unit is not ("°Bx" or "°Oe")) Assert.Contains($"{typed} {unit}", house.Content(answer.Entry), StringComparison.Ordinal);
    }

    [GeneratedRegex("<input id=\"([^\"]+)\" class=\"figure\" name=\"([^\"]+)\"")]
    private static partial Regex Figure();
}
