using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>Enrichment by zone and amelioration reach the maker where they are decided. Figures are those of the worked examples 10, 12 and 19.</summary>
public class RuleTests
{
    private static Check Must(string regime, string more = "") => new Check().On("2026-10-01").Does($$"""{"kind":"premises","regimes":["{{regime}}"],"timeZone":"Europe/Vienna"}""")
        .Vessel("V1", "1100").Vessel("V2", "1100")
        .Does($$"""{"kind":"receive","what":"must","lot":"M","vessel":"V1","litres":650,"supplier":"Weingut Probe"{{more}}}""");

    private static Verdict Of(Check check, string lot, string substance) =>
        LotLimits.OfLot(check.Book.Now, check.Book.LimitsInForce(new(2026, 12, 1)), lot).Worst.Select(pair => pair.Verdict).Single(verdict => verdict.Substance.Code == substance && verdict.Basis == LimitBasis.AddedDose && verdict.Row?.With is null);

    private static string Sugar(string kilograms, string more = "") => $$"""{"kind":"add","lot":"M","items":[{"material":"sucrose","grams":{{kilograms}}000}]{{more}}}""";

    [Fact]
    public void Sugar_without_zone_and_natural_strength_can_not_be_said_and_both_are_named()
    {
        var check = Must("eu").Does(Sugar("13")).Raised("limit_unknown");
        var verdict = Of(check, "M", "enrichment");
        Assert.Equal(VerdictKind.CannotSay, verdict.Kind);
        Assert.Equal(["wine-growing zone", "natural strength of the must"], verdict.Missing.Select(missing => missing.ToString()));
        // 40 kg in 650 L are + 3.66 % vol: too much in every zone.
        check.Refuses(RefusalCode.ReasonNeeded, Sugar("27"), "reason");
    }

    [Fact]
    public void In_zone_A_a_must_of_9_takes_two_and_a_half_and_no_more()
    {
        var check = Must("eu", ",\"colour\":\"white\"").Does("""{"kind":"describe","lot":"M","zone":"A","naturalAbv":9.0}""").Does(Sugar("13"));
        var verdict = Of(check, "M", "enrichment");
        Assert.Equal((VerdictKind.Within, Wines.Mg("42075")), (verdict.Kind, verdict.Limit));
        Assert.Contains("11.5 % vol, so + 2.5 % vol", verdict.Arithmetic.ToString(), StringComparison.Ordinal);
        Assert.Contains("1308/2013", verdict.Source, StringComparison.Ordinal);
        // 650 L x 42.075 g/L = 27.34875 kg: what is left of it passes to the gram, and a gram more does not.
        check.Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"M","items":[{"material":"sucrose","grams":14349}]}""", "reason").Does("""{"kind":"add","lot":"M","items":[{"material":"sucrose","grams":14348.75}]}""").Raised("near_limit");
        check.Does("""{"kind":"add","lot":"M","reason":"the scale stuck","items":[{"material":"sucrose","grams":1}]}""").Raised("over_limit");
        // Down to the wine it stays.
        check.On("2026-11-01").Does("""{"kind":"declareWine","lot":"M","litres":640,"abv":11.5}""");
        Assert.Equal((VerdictKind.Over, true), (Of(check, "M", "enrichment").Kind, Of(check, "M", "enrichment").Stays));
    }

    [Fact]
    public void What_the_must_read_before_the_sugar_tells_its_natural_strength()
    {
        var check = Must("eu").Does("""{"kind":"describe","lot":"M","zone":"B"}""").Does("""{"kind":"measure","lot":"M","gravity":1.070}""").Does(Sugar("13"));
        Assert.Contains("(gravity 1.070 read before the sugar, entry 6)", Of(check, "M", "enrichment").Arithmetic.ToString(), StringComparison.Ordinal);
        // Once it ferments a reading says nothing of that.
        var pitched = Must("eu").Does("""{"kind":"describe","lot":"M","zone":"B"}""").Does("""{"kind":"measure","lot":"M","gravity":1.050}""").Does("""{"kind":"pitch","lot":"M","cultures":[{"name":"Yeast A","grams":100}]}""").Does(Sugar("13"));
        Assert.Equal("natural strength of the must", Assert.Single(Of(pitched, "M", "enrichment").Missing).ToString());
    }

    [Fact]
    public void How_much_is_allowed_is_known_before_anything_goes_in()
    {
        var check = Must("eu").Does("""{"kind":"describe","lot":"M","zone":"B"}""").Does("""{"kind":"measure","lot":"M","gravity":1.070}""");
        var verdict = Assert.Single(RuleJudgement.Of(LawSets.Find("eu")!, WineOfPlace.Of(check.Book.Now.At(Account.Must("M", "V1")))!, asked: true));
        Assert.EndsWith("33.66 g/L of sugar left.", verdict.Arithmetic.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Enriched_must_may_not_be_acidified_and_sugar_in_wine_is_no_enrichment()
    {
        var check = Must("eu").Does("""{"kind":"describe","lot":"M","zone":"B","naturalAbv":9.0}""").Does(Sugar("13"));
        check.Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"M","items":[{"material":"tartaric-acid","grams":65}]}""", "reason");
        var wine = new Check().On("2026-10-01").Does("""{"kind":"premises","regimes":["eu"],"timeZone":"Europe/Vienna"}""").Vessel("V1", "100")
            .Does("""{"kind":"receive","what":"bulkWine","lot":"W","vessel":"V1","litres":50,"abv":12,"colour":"white"}""")
            .Does("""{"kind":"add","lot":"W","items":[{"material":"sucrose","grams":100}]}""").Does("""{"kind":"add","lot":"W","items":[{"material":"tartaric-acid","grams":5}]}""");
        Assert.DoesNotContain(LotLimits.OfLot(wine.Book.Now, wine.Book.LimitsInForce(new(2026, 12, 1)), "W").Worst, pair => pair.Verdict.Substance.Code == "enrichment");
    }

    [Fact]
    public void Concentrate_of_unstated_sugar_can_not_be_said()
    {
        var check = Must("eu").Does("""{"kind":"describe","lot":"M","zone":"B","naturalAbv":9.0}""").Does("""{"kind":"add","lot":"M","items":[{"material":"rcgm","millilitres":5000}]}""").Raised("limit_unknown");
        Assert.Equal("how much sugar went in, by weight or by the packet", Assert.Single(Of(check, "M", "enrichment").Missing).ToString());
    }

    [Fact]
    public void Sugar_told_by_volume_alone_and_concentrate_poured_to_must_can_not_be_said()
    {
        var day = new DateOnly(2026, 10, 2);
        const string Weighed = """{"kind":"add","lot":"M","items":[{"material":"sucrose","grams":13000,"riseLitres":8,"riseBy":"sugar"}]}""";
        var check = Must("eu").Does("""{"kind":"describe","lot":"M","zone":"B","naturalAbv":9.0}""").Does(Weighed);
        Assert.Equal(VerdictKind.Within, Of(check, "M", "enrichment").Kind);
        foreach (var unweighed in new[]
        {
            """{"kind":"add","lot":"M","items":[{"material":"sugar from the shop","grams":1000,"riseLitres":0.6,"riseBy":"sugar"}]}""",
            """{"kind":"receive","what":"concentrate","lot":"M","vessel":"V1","litres":20}""",
        })
        {
            check.On($"{day:yyyy-MM-dd}").Does(unweighed);
            Assert.Equal((VerdictKind.CannotSay, "how much sugar went in, by weight or by the packet"), (Of(check, "M", "enrichment").Kind, Assert.Single(Of(check, "M", "enrichment").Missing).ToString()));
            // Taken back it is as if never done: while the period is open, and after it was closed.
            check.Does($$"""{"kind":"correct","takesBack":{{check.Book.LastNumber}},"reason":"not done"}""");
            Assert.Equal(VerdictKind.Within, Of(check, "M", "enrichment").Kind);
            check.Does(unweighed);
            var last = check.Book.LastNumber;
            check.Does($$"""{"kind":"close","through":"{{day:yyyy-MM-dd}}"}""").On($"{day = day.AddDays(1):yyyy-MM-dd}")
                .Does($$"""{"kind":"correct","takesBack":{{last}},"reason":"not done"}""");
            Assert.Equal(VerdictKind.Within, Of(check, "M", "enrichment").Kind);
        }
    }

    [Fact]
    public void A_concentrate_made_up_with_sugar_is_no_enriched_must()
    {
        var check = new Check().On("2026-10-01").Does("""{"kind":"premises","regimes":["eu"],"timeZone":"Europe/Vienna"}""").Vessel("V1", "30")
            .Does("""{"kind":"receive","what":"concentrate","lot":"M","vessel":"V1","litres":5}""").Does("""{"kind":"makeUp","lot":"M","vessel":"V1","markLitres":23,"sugarGrams":1000,"sugarLitres":0.6}""");
        Assert.DoesNotContain(LotLimits.OfLot(check.Book.Now, check.Book.LimitsInForce(new(2026, 12, 1)), "M").Worst, pair => pair.Verdict.Substance.Code == "enrichment");
    }

    [Fact]
    public void Water_into_juice_is_held_by_its_acid_and_by_its_share_of_the_whole()
    {
        const string Water = """{"kind":"add","lot":"M","items":[{"material":"water","millilitres":1000,"riseLitres":LITRES,"riseBy":"water"}]REASON}""";
        static string Litres(string litres, string reason = "") => Water.Replace("LITRES", litres, StringComparison.Ordinal).Replace("REASON", reason, StringComparison.Ordinal);
        var check = Must("us").Does(Litres("100"));
        Assert.Equal((VerdictKind.CannotSay, "fixed acid of the juice"), (Of(check, "M", "amelioration").Kind, Of(check, "M", "amelioration").Missing[0].ToString()));
        // Worked example 19: juice of 7 g/L takes 260 L to 650 L, one of 8 g/L 350 L.
        check.Does("""{"kind":"describe","lot":"M","fixedAcidGramsPerLitre":7}""");
        Assert.Contains("the lower is 260 L: 160 L left", Of(check, "M", "amelioration").Arithmetic.ToString(), StringComparison.Ordinal);
        check.Refuses(RefusalCode.ReasonNeeded, Litres("160.1"), "reason").Does(Litres("160")).Raised("near_limit");
        check.Does(Litres("50", ",\"reason\":\"the meter ran on\"")).Raised("over_limit");
        Assert.Contains("5383", Of(check, "M", "amelioration").Source, StringComparison.Ordinal);
    }

    [Fact]
    public void Water_into_wine_and_its_share_of_a_blend_are_judged_too()
    {
        var check = new Check().On("2026-10-01").Does("""{"kind":"premises","regimes":["us"],"timeZone":"Europe/Vienna"}""").Vessel("V1", "200").Vessel("V2", "200").Vessel("V3", "400")
            .Does("""{"kind":"receive","what":"bulkWine","lot":"W","vessel":"V1","litres":60,"abv":12}""").Does("""{"kind":"receive","what":"bulkWine","lot":"X","vessel":"V2","litres":100,"abv":12}""");
        check.Refuses(RefusalCode.ReasonNeeded, """{"kind":"ameliorate","sources":[{"lot":"W"}],"waterLitres":40,"targets":[{"litres":100,"abv":7.2}]}""", "reason")
            .Does("""{"kind":"ameliorate","reason":"a trial","sources":[{"lot":"W"}],"waterLitres":40,"targets":[{"litres":100,"abv":7.2}]}""").Raised("over_limit");
        check.Does("""{"kind":"transfer","sources":[{"lot":"W","litres":100},{"lot":"X","litres":100}],"targets":[{"lot":"C","vessel":"V3","litres":200}]}""");
        Assert.StartsWith("40 L of water and sugar in 200 L", Of(check, "C", "amelioration").Arithmetic.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_kit_made_up_with_water_is_no_amelioration_and_other_fruit_has_rules_of_its_own()
    {
        var kit = Must("us").Does("""{"kind":"makeUp","lot":"K","vessel":"V2","bagLitres":10,"markLitres":23}""");
        Assert.Null(kit.Book.Now.At(Account.Must("K", "V2")).Carried);
        var flowers = Must("us").Does("""{"kind":"describe","lot":"M","type":"not-of-grapes"}""").Does("""{"kind":"add","lot":"M","items":[{"material":"water","millilitres":1000,"riseLitres":400,"riseBy":"water"}]}""");
        Assert.DoesNotContain(LotLimits.OfLot(flowers.Book.Now, flowers.Book.LimitsInForce(new(2026, 12, 1)), "M").Worst, pair => pair.Verdict.Substance.Code == "amelioration");
    }
}
