using System.Net;
using Xunit;

namespace Cellarbook.Tests.Forms;

/// <summary>A walk along the vessels: many readings at once, all or none, each once; and units remembered from walk to walk.</summary>
public sealed class RoundTests
{
    private const string Round = "/round";
    private static readonly (string, string) TheDay = ("day", "2026-02-01");

    [Fact]
    public async Task A_round_writes_one_reading_for_each_vessel_that_was_read_and_none_for_the_others()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var before = house.LastNumber;
        var page = await house.Browser.GetStringAsync(Round);
        Assert.Equal(["L1@V1", "L2@V2", "W1@V3", "W2@V4"], Enumerable.Range(0, 4).Select(i => FormHouse.Fields(page)[$"place[{i}]"]));
        var answer = await house.Press(Round, page, "write", TheDay, ("doneBy", "Mim"), ("gravity[0]", "1,012"), ("celsius[0]", "19.5"), ("celsius[3]", "14"));
        Assert.Equal(HttpStatusCode.Redirect, answer.Status);
        Assert.Equal(before + 2, house.LastNumber);
        Assert.Equal(FormHouse.Canonical("""{"kind":"measure","day":"2026-02-01","lot":"L1","vessel":"V1","gravity":1.012,"celsius":19.5,"doneBy":"Mim"}"""), house.Content(before + 1));
        Assert.Equal(FormHouse.Canonical("""{"kind":"measure","day":"2026-02-01","lot":"W2","vessel":"V4","celsius":14,"doneBy":"Mim"}"""), house.Content(before + 2));
        var next = await house.Browser.GetStringAsync(answer.Location);
        Assert.Contains($"no. {before + 2}", next, StringComparison.Ordinal);
        Assert.Equal("Mim", FormHouse.Fields(next)["doneBy"]);
    }

    [Fact]
    public async Task One_figure_in_doubt_and_nothing_of_the_round_is_written_nor_lost()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var before = house.LastNumber;
        var page = await house.Browser.GetStringAsync(Round);
        var answer = await house.Press(Round, page, "write", TheDay, ("gravity[0]", "1.010"), ("gravity[1]", "1.0.1"), ("celsius[2]", "15"), ("gravity[3]", "3.5"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Equal(before, house.LastNumber);
        Assert.Contains("id=\"g1-error\"", answer.Html, StringComparison.Ordinal);
        Assert.Contains("id=\"g3-error\"", answer.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("id=\"g0-error\"", answer.Html, StringComparison.Ordinal);
        var kept = FormHouse.Fields(answer.Html);
        Assert.Equal(("1.010", "1.0.1", "15", "3.5", "2026-02-01"), (kept["gravity[0]"], kept["gravity[1]"], kept["celsius[2]"], kept["gravity[3]"], kept["day"]));
        var written = await house.Press(Round, answer.Html, "write", ("gravity[1]", "1.001"), ("gravity[3]", "0.995"));
        Assert.Equal(HttpStatusCode.Redirect, written.Status);
        Assert.Equal(before + 4, house.LastNumber);
    }

    [Fact]
    public async Task A_round_sent_twice_is_written_once_and_what_is_changed_in_between_is_said()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var page = await house.Browser.GetStringAsync(Round);
        (string, string)[] typed = [TheDay, ("gravity[0]", "1.010"), ("gravity[1]", "1.020")];
        await house.Press(Round, page, "write", typed);
        var after = house.LastNumber;
        var again = await house.Press(Round, page, "write", typed);
        Assert.Equal(HttpStatusCode.Redirect, again.Status);
        Assert.Equal(after, house.LastNumber);
        var other = await house.Press(Round, page, "write", TheDay, ("gravity[0]", "1.011"), ("gravity[1]", "1.020"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, other.Status);
        Assert.Contains("says something else", other.Text, StringComparison.Ordinal);
        Assert.Equal(after, house.LastNumber);
    }

    [Fact]
    public async Task A_round_with_a_name_sent_again_after_its_period_was_closed_is_known_again()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var page = await house.Browser.GetStringAsync(Round);
        (string, string)[] typed = [TheDay, ("doneBy", "Mim"), ("celsius[2]", "15")];
        Assert.Equal(HttpStatusCode.Redirect, (await house.Press(Round, page, "write", typed)).Status);
        await house.Api("""{"kind":"close","day":"2026-02-02","through":"2026-02-01"}""");
        var after = house.LastNumber;
        var again = await house.Press(Round, page, "write", typed);
        Assert.Equal((HttpStatusCode.Redirect, after), (again.Status, house.LastNumber));
    }

    [Fact]
    public async Task Nothing_read_and_a_day_to_come_are_said()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var nothing = await house.Fill(Round, "write", TheDay);
        Assert.Contains("Give at least one reading.", nothing.Text, StringComparison.Ordinal);
        var late = await house.Fill(Round, "write", ("day", "2999-01-01"), ("gravity[0]", "1.010"));
        Assert.Contains("id=\"day-error\"", late.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_unit_chosen_once_is_filled_in_the_next_time_and_only_there()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        await house.Fill("/record/measure?lot=L1&vessel=V1", "write", TheDay, ("gravity", "10.5"), ("gravity:unit", "°Bx"), ("doneBy", "Mim"));
        var next = FormHouse.Fields(await house.Browser.GetStringAsync("/record/measure?lot=L2&vessel=V2"));
        Assert.Equal(("°Bx", "°C", "Mim"), (next["gravity:unit"], next["celsius:unit"], next["doneBy"]));
        Assert.Contains("Gravity in °Bx", WebUtility.HtmlDecode(await house.Browser.GetStringAsync(Round)), StringComparison.Ordinal);
        // Another device knows nothing of it.
        using var other = new HttpClient { BaseAddress = house.Browser.BaseAddress };
        Assert.Equal("SG", FormHouse.Fields(await other.GetStringAsync("/record/measure?lot=L2&vessel=V2"))["gravity:unit"]);
        await house.Fill("/record/measure?lot=L1&vessel=V1", "write", TheDay, ("gravity", "1.020"), ("gravity:unit", "SG"), ("doneBy", ""));
        next = FormHouse.Fields(await house.Browser.GetStringAsync("/record/measure?lot=L2&vessel=V2"));
        Assert.Equal(("SG", ""), (next["gravity:unit"], next["doneBy"]));
    }

    [Fact]
    public async Task Casks_keep_their_figures_when_the_day_is_changed_to_one_on_which_others_lay_there()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        await house.Api("""{"kind":"receive","day":"2026-02-10","what":"bulkWine","lot":"A0","vessel":"V5","litres":10,"abv":12,"taxPaid":true}""");
        var page = await house.Browser.GetStringAsync("/record/top-up-many");
        Assert.Equal(["V3", "V4", "V5"], Enumerable.Range(0, 3).Select(i => FormHouse.Fields(page)[$"casks[{i}].vessel"]));
        var refused = await house.Press("/record/top-up-many", page, "write", ("day", "2026-02-01"), ("casks[1].litres", "0.4"), ("casks[2].litres", "0.2"), ("from", "W1@V3"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains("id=\"f-casks-2-litres-error\"", refused.Html, StringComparison.Ordinal);
        Assert.Equal(("V5", "0.2"), (FormHouse.Fields(refused.Html)["casks[2].vessel"], FormHouse.Fields(refused.Html)["casks[2].litres"]));
    }
}
