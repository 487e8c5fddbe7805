using System.Net;
using CsCheck;
using Xunit;

namespace Cellarbook.Tests.Forms;

/// <summary>What a form says is what a script says; what the book refuses stands at the field and nothing typed is lost.</summary>
public sealed class FormTests
{
    private static readonly (string, string) TheDay = ("day", "2026-02-01");

    [Fact]
    public async Task Each_form_keeps_what_was_typed_when_refused_writes_nothing_on_a_look_and_writes_what_a_script_would()
    {
        await using var byForm = await FormHouse.Open(FormCases.Cellar());
        await using var byScript = await FormHouse.Open(FormCases.Cellar());
        foreach (var said in FormCases.All)
        {
            var before = byForm.LastNumber;
            // A day to come is refused whatever else was said.
            var refused = await byForm.Fill(said.Path, "write", [.. said.Typed, ("day", "2999-01-01"), ("note", "<script>alert(1)</script> =1+1")]);
            Assert.True(refused.Status == HttpStatusCode.UnprocessableEntity, $"{said}: {refused.Status}");
            Assert.True(refused.Html.Contains("id=\"f-day-error\"", StringComparison.Ordinal), said.Path);
            Assert.DoesNotContain("<script>", refused.Html, StringComparison.Ordinal);
            var kept = FormHouse.Fields(refused.Html);
            Assert.All(said.Typed, typed => Assert.Equal((said.Path, typed.Value), (said.Path, kept[typed.Name])));
            Assert.Equal(("2999-01-01", "<script>alert(1)</script> =1+1"), (kept["day"], kept["note"]));

            var looked = await byForm.Press(said.Path, refused.Html, "look", TheDay, ("note", ""));
            Assert.True(looked.Status == HttpStatusCode.OK && looked.Text.Contains("This will be written", StringComparison.Ordinal), $"{said}: {looked.Text}");
            Assert.Equal(before, byForm.LastNumber);

            var written = await byForm.Press(said.Path, looked.Html, "write");
            var script = await byScript.Api(said.Json);
            // Alike in every word and in all that moves; and sealed alike where nobody is named: a name is sealed with a salt of its own in each book.
            Assert.Equal((said.Path, script), (said.Path, byForm.Content(written.Entry)));
            Assert.Equal(byScript.Postings(byScript.LastNumber), byForm.Postings(written.Entry));
            if (byForm.Sealed(written.Entry) is { } seal) Assert.Equal((said.Path, byScript.Sealed(byScript.LastNumber)), (said.Path, seal));
            Assert.Contains($"Entry {written.Entry}", await byForm.Browser.GetStringAsync(written.Location), StringComparison.Ordinal);

            // Taken back in both (law 4), so that the next form finds the cellar as it was.
            if (script.Contains("\"kind\":\"close\"", StringComparison.Ordinal) || script.Contains("\"kind\":\"material\"", StringComparison.Ordinal) || script.Contains("\"kind\":\"blankContact\"", StringComparison.Ordinal) || script.Contains("\"kind\":\"correct\"", StringComparison.Ordinal)) continue;
            foreach (var house in new[] { byForm, byScript }) await house.Api($$"""{"kind":"correct","day":"2026-02-01","takesBack":{{house.LastNumber}},"reason":"Next form"}""");
        }
    }

    [Fact]
    public void Every_form_of_the_index_is_tried() =>
        Assert.Empty(Cellarbook.Forms.FormIndex.All.Select(form => form.Slug).Except(FormCases.All.Select(said => said.Path.Split('/')[2].Split('?')[0])).Except(["open"]));

    [Fact]
    public async Task Stock_is_brought_forward_in_several_lines_of_wine_and_bottles()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar()[..3]);
        var answer = await house.Fill("/record/open", "write", ("day", "2026-01-01"), ("stocks[1].what", "wine"), ("stocks[1].lot", "Old"), ("stocks[1].litres", "20"), ("stocks[1].vessel", "V1"), ("stocks[1].abv", "12"),
            ("stocks[100].bottling", "Old-75"), ("stocks[100].bottles", "30"), ("stocks[100].bottleMl", "750"));
        Assert.Equal(FormHouse.Canonical("""{"kind":"open","day":"2026-01-01","stocks":[{"what":"wine","lot":"Old","vessel":"V1","litres":20,"abv":12},{"what":"bottled","bottling":"Old-75","bottles":30,"bottleMl":750}]}"""), house.Content(answer.Entry));
    }

    [Fact]
    public async Task A_figure_in_doubt_is_refused_at_its_field_and_nothing_is_written()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var before = house.LastNumber;
        var answer = await house.Fill("/record/rack?lot=W1&vessel=V3", "write", TheDay, ("targets[0].litres", "1,234"), ("targets[0].vessel", "V5"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("id=\"f-targets-0-litres-error\"", answer.Html, StringComparison.Ordinal);
        Assert.Contains("can be read as 1.234 or as 1234", answer.Text, StringComparison.Ordinal);
        Assert.Equal("1,234", FormHouse.Fields(answer.Html)["targets[0].litres"]);
        Assert.Equal(before, house.LastNumber);
    }

    [Fact]
    public async Task More_than_is_there_is_refused_at_what_was_drawn_and_a_gauge_is_offered()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var answer = await house.Fill("/record/rack?lot=W1&vessel=V3", "write", TheDay, ("sources[0].litres", "48"), ("targets[0].litres", "47"), ("targets[0].vessel", "V5"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.Status);
        Assert.Contains("id=\"f-sources-0-litres-error\"", answer.Html, StringComparison.Ordinal);
        Assert.Contains("/record/gauge?vessel=V3", answer.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task More_than_the_vessel_holds_is_refused_at_the_vessel_it_was_to_go_to()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        await house.Api("""{"kind":"vessel","day":"2026-01-01","code":"Jug","capacityLitres":5}""");
        var answer = await house.Fill("/record/rack?lot=W1&vessel=V3", "write", TheDay, ("targets[0].litres", "39"), ("targets[0].vessel", "Jug"));
        Assert.Contains("id=\"f-targets-0-vessel-error\"", answer.Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_refusal_of_the_third_line_stands_at_the_third_line_though_the_second_was_left_empty()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var page = await house.Fill("/record/add?lot=W1&vessel=V3", "more:items", ("items[0].material", "Bentonite"), ("items[0].amount", "10"));
        page = await house.Press("/record/add?lot=W1&vessel=V3", page.Html, "more:items");
        Assert.Equal("Bentonite", FormHouse.Fields(page.Html)["items[0].material"]);
        var answer = await house.Press("/record/add?lot=W1&vessel=V3", page.Html, "write", TheDay, ("items[2].material", "Sorbate"));
        Assert.Contains("id=\"f-items-2-amount-error\"", answer.Html, StringComparison.Ordinal);
        // Sorbate where no free sulphur was read: the caution stops once and asks for a reason; writing it again is an answer, too.
        var stopped = await house.Press("/record/add?lot=W1&vessel=V3", answer.Html, "write", ("items[2].amount", "2"), ("items[2].amount:unit", "oz"));
        Assert.Equal(HttpStatusCode.OK, stopped.Status);
        Assert.Contains("Read it before you add sorbate.", stopped.Text, StringComparison.Ordinal);
        var written = await house.Press("/record/add?lot=W1&vessel=V3", stopped.Html, "write");
        Assert.Equal(FormHouse.Canonical("""{"kind":"add","day":"2026-02-01","lot":"W1","vessel":"V3","items":[{"material":"Bentonite","grams":10},{"material":"Sorbate","grams":56.699}],"typed":{"items[1].grams":"2 oz"}}"""), house.Content(written.Entry));
    }

    [Fact]
    public async Task A_double_click_writes_once()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var page = await house.Browser.GetStringAsync("/record/rack?lot=W1&vessel=V3");
        var first = await house.Press("/record/rack?lot=W1&vessel=V3", page, "write", TheDay, ("targets[0].litres", "39"), ("targets[0].vessel", "V5"));
        var number = house.LastNumber;
        var second = await house.Press("/record/rack?lot=W1&vessel=V3", page, "write", TheDay, ("targets[0].litres", "39"), ("targets[0].vessel", "V5"));
        Assert.Equal(first.Entry, second.Entry);
        Assert.Equal(number, house.LastNumber);
    }

    [Fact]
    public async Task A_form_sent_again_with_something_else_says_so_and_writes_it_only_when_asked_again()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        const string path = "/record/measure?lot=L1&vessel=V1";
        var page = await house.Browser.GetStringAsync(path);
        var first = await house.Press(path, page, "write", TheDay, ("gravity", "1.020"));
        var again = await house.Press(path, page, "write", TheDay, ("gravity", "1.010"));
        Assert.Equal(HttpStatusCode.Conflict, again.Status);
        Assert.Contains($"as entry {first.Entry}", again.Text, StringComparison.Ordinal);
        Assert.Equal(first.Entry + 1, (await house.Press(path, again.Html, "write")).Entry);
    }

    [Fact]
    public async Task A_form_opened_before_the_vessel_changed_says_what_changed_before_it_writes()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        const string path = "/record/rack?lot=W1&vessel=V3";
        var page = await house.Browser.GetStringAsync(path);
        await house.Api("""{"kind":"gauge","day":"2026-01-30","vessel":"V3","litres":41}""");
        var looked = await house.Press(path, page, "write", TheDay, ("targets[0].litres", "39"), ("targets[0].vessel", "V5"));
        Assert.Equal(HttpStatusCode.OK, looked.Status);
        Assert.Contains("Since you opened this form", looked.Text, StringComparison.Ordinal);
        Assert.True((await house.Press(path, looked.Html, "write")).Entry > 0);
    }

    [Fact]
    public async Task What_was_wrong_is_written_again_from_a_form_filled_in_as_it_was()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var first = await house.Fill("/record/receive?what=bulkWine", "write", TheDay, ("lot", "N2"), ("litres", "6"), ("litres:unit", "US gal"), ("vessel", "V5"), ("supplier", "Linden Farm"));
        var correct = await house.Browser.GetStringAsync($"/record/correct?entry={first.Entry}");
        Assert.Contains($"/record/receive?corrects={first.Entry}", correct, StringComparison.Ordinal);
        var path = $"/record/receive?corrects={first.Entry}";
        var page = await house.Browser.GetStringAsync(path);
        var fields = FormHouse.Fields(page);
        Assert.Equal("6", fields["litres"]);
        Assert.Equal("US gal", fields["litres:unit"]);
        var refused = await house.Press(path, page, "write", ("litres", "5"), ("correct.day", "2026-02-02"));
        Assert.Contains("id=\"f-correct-reason-error\"", refused.Html, StringComparison.Ordinal);
        var written = await house.Press(path, refused.Html, "write", ("correct.reason", "Misread"));
        Assert.Equal(FormHouse.Canonical($$"""{"kind":"correct","day":"2026-02-02","takesBack":{{first.Entry}},"reason":"Misread","write":{"kind":"receive","day":"2026-02-01","what":"bulkWine","lot":"N2","vessel":"V5","litres":18.927059,"taxPaid":true,"supplier":"Linden Farm","typed":{"litres":"5 US gal"} } }"""), house.Content(written.Entry));
    }

    [Fact]
    public async Task What_a_form_does_not_ask_for_is_kept_when_it_writes_again()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        await house.Api("""{"kind":"measure","day":"2026-01-30","lot":"L1","vessel":"V1","gravity":1.010,"brix":4.5,"oechsle":10}""");
        var entry = house.LastNumber;
        var written = await house.Fill($"/record/measure?corrects={entry}", "write", ("gravity", "1.011"), ("correct.reason", "Misread"), ("correct.day", "2026-02-02"));
        Assert.Contains("\"brix\":4.5", house.Content(written.Entry), StringComparison.Ordinal);
        Assert.Contains("\"oechsle\":10", house.Content(written.Entry), StringComparison.Ordinal);
        Assert.Contains("\"gravity\":1.011", house.Content(written.Entry), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_household_meets_no_tax_words_and_a_licensed_maker_is_asked_for_the_facts()
    {
        await using var household = await FormHouse.Open(FormCases.Cellar());
        await using var licensed = await FormHouse.Open(FormCases.Cellar("us"));
        foreach (var path in FormCases.All.Select(said => said.Path).Append("/record").Append("/record/open").Distinct())
        {
            var page = await household.Browser.GetStringAsync(path);
            Assert.DoesNotMatch("(?i)in bond|untaxed|tax paid|taxpaid|duty|consignee|withdrawal", page);
        }
        var remove = await licensed.Browser.GetStringAsync("/record/remove");
        Assert.Contains("value=\"inBond\"", remove, StringComparison.Ordinal);
        Assert.All(new[] { "document", "recipient", "witness", "reason", "supplier" }, name => Assert.Contains($"name=\"{name}\"", remove, StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_form_without_its_token_is_turned_away()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        using var body = new FormUrlEncodedContent([new("does", "write"), new("litres", "1")]);
        using var answer = await house.Browser.PostAsync("/record/gauge?vessel=V3", body);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }

    [Fact]
    public async Task Whatever_is_typed_the_form_answers_and_the_next_good_entry_is_written()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        string[] junk = ["", " ", "0", "-1", "1e9", "NaN", "1,5", "1.234,5", "9999999999999", "9223372036854775807", "0.0000000001", "99999999999999999999999999999999999999", "@", "L1@", "@V1", "L1@V1@V1", "W1@V3", "W1-75@A", "nothing", "true", "null", "[]", "{\"a\":1}", "\u0000", "=1+1", "\uD800", "V5", "lees", "2026-13-40", "0001-01-01", "9999-12-31", new('x', 5000)];
        var cases = FormCases.All.ToArray();
        var draws = new List<(FormCase Said, (string, string)[] Typed, string Does)>();
        Gen.Select(Gen.Int[0, cases.Length - 1], Gen.Int[0, 1_000_000].Array[1, 4], Gen.OneOf(Gen.Const("look"), Gen.Const("write"), Gen.Const("more:items"), Gen.Const("x"))).Sample(drawn =>
        {
            var (which, seeds, does) = drawn;
            lock (draws) if (draws.Count < 250) draws.Add((cases[which], [.. cases[which].Typed.Select((typed, i) => seeds.Length > i && seeds[i] % 3 > 0 ? (typed.Name, junk[seeds[i] % junk.Length]) : typed)], does));
        }, iter: 250);
        foreach (var (said, typed, does) in draws)
        {
            // A place settled by the address may be gone by now; the form then asks for it, and that is an answer, too.
            var answer = await house.Fill(said.Path, does, typed.Append(TheDay).ToArray(), mayLack: true);
            Assert.True((int)answer.Status < 500, $"{said.Path} {does} {string.Join("; ", typed)}: {answer.Status}");
        }
        await house.Fill("/record/receive?what=fruit", "write", ("lot", "Last"), ("kilograms", "1"));
        Assert.True(house.Book.Read(book => book.Now.Knows(Cellarbook.Core.Book.Account.Fruit("Last"))));
    }

    [Fact]
    public async Task A_strength_proposed_from_gravities_stands_in_its_field_and_is_what_is_written()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        const string path = "/record/declare?lot=L1&vessel=V1";
        var page = await house.Browser.GetStringAsync(path);
        var proposed = FormHouse.Fields(page)["abv"];
        // 1.088 to 0.994: about 12.3 % vol by any usual rule.
        Assert.InRange(double.Parse(proposed, System.Globalization.CultureInfo.InvariantCulture), 11.8, 12.9);
        var written = await house.Press(path, page, "write", TheDay);
        Assert.Contains($"\"abv\":{proposed}", house.Content(written.Entry), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_preview_says_in_words_what_moves()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var looked = await house.Fill("/record/rack?lot=W1&vessel=V3", "look", TheDay, ("targets[0].litres", "39.2"), ("targets[0].vessel", "V5"));
        Assert.Contains("39.2\u00A0L from W1 in V3 (wine) to W1 in V5 (wine)", looked.Text, StringComparison.Ordinal);
        Assert.Contains("0.8\u00A0L from W1 in V3 (wine) to lees", looked.Text, StringComparison.Ordinal);
    }
}
