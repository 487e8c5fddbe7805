using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>Limits in the book: an excess is recorded with its reason, stays flagged, and only what it may clears it (law 11).</summary>
public class BookLimitsTests
{
    private static Check Licensed(string regimes = "\"eu\"") => new Check().On("2026-03-01").Does($$"""{"kind":"premises","regimes":[{{regimes}}],"timeZone":"Europe/Vienna"}""")
        .Vessel("V1", "200").Vessel("V2", "200").Vessel("V3", "400")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"R1","vessel":"V1","litres":100,"abv":12.5,"colour":"red","supplier":"Weingut Probe","document":"LS 1"}""")
        .Does("""{"kind":"measure","lot":"R1","sugarGramsPerLitre":2,"totalSo2MgPerLitre":80}""");

    private static Verdict Of(Check check, string lot, string substance, LimitBasis basis, string set = "eu") =>
        LotLimits.OfLot(check.Book.Now, check.Book.LimitsInForce(new(2026, 4, 1)), lot).Worst.Select(pair => pair.Verdict).Single(verdict => verdict.Set.Code == set && verdict.Substance.Code == substance && verdict.Basis == basis && verdict.Row?.With is null);

    [Fact]
    public void Law_11_an_excess_needs_a_reason_and_is_then_recorded_and_flagged()
    {
        // 14 g of the salt in 100 L are 80.68 mg/L of sulphur dioxide on top of 80.
        const string Add = """{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":14}]REASON}""";
        var check = Licensed().Refuses(RefusalCode.ReasonNeeded, Add.Replace("REASON", "", StringComparison.Ordinal), "reason")
            .Does(Add.Replace("REASON", ",\"reason\":\"taint, will be blended\"", StringComparison.Ordinal)).Raised("over_limit");
        var over = Of(check, "R1", "so2", LimitBasis.TotalMeasured);
        Assert.Equal((VerdictKind.Over, false), (over.Kind, over.Stays));
    }

    [Fact]
    public void How_much_of_a_material_may_still_go_in_passes_and_a_milligram_more_does_not()
    {
        // Of 150 mg/L 70 are left: 7 g of sulphur dioxide in 100 L, 12.146 g of the salt.
        var check = Licensed().Does("""{"kind":"material","code":"tab","name":"Tablets","countedIn":"pieces","contents":[{"substance":"potassium-metabisulphite","mgInOne":500}],"atMost":20,"atMostInLitres":100}""");
        var wine = WineOfPlace.Of(check.Book.Now.At(Account.Bulk("R1", "V1")))!;
        var sets = check.Book.LimitsInForce(new(2026, 4, 1));
        var most = Room.Of(sets, wine, check.Book.Materials.Find("kmbs")!)!.Value;
        Assert.Equal(12_146, most.Units);
        Assert.Equal(20, Room.Of(sets, wine, check.Book.Materials.Find("tab")!)!.Value.Units);
        Assert.Null(Room.Of(sets, wine, check.Book.Materials.Find("kit-stabiliser-sachet")!));
        check.Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":12.147}]}""", "reason").Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":12.146}]}""").Raised("near_limit");
    }

    [Fact]
    public void What_is_near_is_remarked_upon()
    {
        var check = Licensed().Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":10}]}""").Raised("near_limit");
        Assert.Equal(VerdictKind.Near, Of(check, "R1", "so2", LimitBasis.TotalMeasured).Kind);
    }

    [Fact]
    public void An_analysis_or_a_blend_clears_a_measured_excess()
    {
        var check = Licensed().Does("""{"kind":"add","lot":"R1","reason":"taint","items":[{"material":"kmbs","grams":14}]}""");
        check.On("2026-03-10").Does("""{"kind":"measure","lot":"R1","totalSo2MgPerLitre":148}""");
        Assert.Equal(VerdictKind.Near, Of(check, "R1", "so2", LimitBasis.TotalMeasured).Kind);

        var blended = Licensed().Does("""{"kind":"add","lot":"R1","reason":"taint","items":[{"material":"kmbs","grams":14}]}""")
            .Does("""{"kind":"receive","what":"bulkWine","lot":"R2","vessel":"V2","litres":100,"abv":12.5,"colour":"red","supplier":"Weingut Probe","document":"LS 2"}""")
            .Does("""{"kind":"measure","lot":"R2","sugarGramsPerLitre":2,"totalSo2MgPerLitre":40}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"R1","litres":100},{"lot":"R2","litres":100}],"targets":[{"lot":"CUVEE","vessel":"V3","litres":200}]}""");
        Assert.True(Of(blended, "CUVEE", "so2", LimitBasis.TotalMeasured).Kind < VerdictKind.Over);
    }

    [Fact]
    public void An_exceeded_dose_stays_flagged_through_a_blend_into_the_bottle_and_a_correction_clears_it()
    {
        var check = Licensed().Does("""{"kind":"add","lot":"R1","reason":"wrong scale","items":[{"material":"lysozyme","grams":60}]}""").Raised("over_limit");
        var entry = check.Number;
        check.Does("""{"kind":"receive","what":"bulkWine","lot":"R2","vessel":"V2","litres":100,"abv":12.5,"colour":"red","supplier":"Weingut Probe","document":"LS 2"}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"R1","litres":100},{"lot":"R2","litres":100}],"targets":[{"lot":"CUVEE","vessel":"V3","litres":200}]}""");
        var blend = Of(check, "CUVEE", "lysozyme", LimitBasis.AddedDose);
        Assert.Equal((VerdictKind.Over, true, Wines.Mg("300")), (blend.Kind, blend.Stays, blend.Value));
        check.On("2026-03-20").Does("""{"kind":"bottle","lot":"CUVEE","fills":[{"bottling":"C26","bottles":100,"bottleMl":750}]}""");
        Assert.Equal(VerdictKind.Over, Bottled(check).Kind);
        check.On("2026-03-21").Does($$"""{"kind":"correct","takesBack":{{entry}},"reason":"it was never added"}""");
        Assert.DoesNotContain(LotLimits.OfBottling(check.Book.Now, check.Book.LimitsInForce(new(2026, 4, 1)), "C26").Worst, pair => pair.Verdict.Kind == VerdictKind.Over);

        static Verdict Bottled(Check check) => LotLimits.OfBottling(check.Book.Now, check.Book.LimitsInForce(new(2026, 4, 1)), "C26").Worst.Select(pair => pair.Verdict).Single(verdict => verdict.Substance.Code == "lysozyme" && verdict.Basis == LimitBasis.AddedDose);
    }

    [Fact]
    public void A_limit_for_one_treatment_looks_at_each_dose_and_the_largest_counts_through_a_blend()
    {
        // At most 250 mg/L of ascorbic acid a treatment: two of 200 pass, one of 300 does not. Out of two deliveries at once it is one dose.
        var check = Licensed().Does("""{"kind":"deliver","items":[{"material":"ascorbic-acid","delivery":"A1","grams":10},{"material":"ascorbic-acid","delivery":"A2","grams":100}]}""")
            .Does("""{"kind":"add","lot":"R1","items":[{"material":"ascorbic-acid","grams":20}]}""").Does("""{"kind":"add","lot":"R1","reason":"residual is measured later","items":[{"material":"ascorbic-acid","grams":20}]}""");
        var twice = Of(check, "R1", "ascorbic-acid", LimitBasis.AddedDose);
        Assert.Equal((VerdictKind.Within, Wines.Mg("200")), (twice.Kind, twice.Value));
        check.Does("""{"kind":"receive","what":"bulkWine","lot":"R2","vessel":"V2","litres":100,"abv":12.5,"colour":"red","supplier":"Weingut Probe","document":"LS 2"}""")
            .Does("""{"kind":"add","lot":"R2","reason":"a slip of the scale","items":[{"material":"ascorbic-acid","grams":30}]}""").Raised("over_limit");
        Assert.Equal((VerdictKind.Over, Wines.Mg("300")), (Of(check, "R2", "ascorbic-acid", LimitBasis.AddedDose).Kind, Of(check, "R2", "ascorbic-acid", LimitBasis.AddedDose).Value));
        check.Does("""{"kind":"transfer","sources":[{"lot":"R1","litres":100},{"lot":"R2","litres":100}],"targets":[{"lot":"CUVEE","vessel":"V3","litres":200}]}""");
        var blend = Of(check, "CUVEE", "ascorbic-acid", LimitBasis.AddedDose);
        Assert.Equal((VerdictKind.Over, true, Wines.Mg("300"), Wines.Mg("50")), (blend.Kind, blend.Stays, blend.Value, blend.Excess));
    }

    [Fact]
    public void A_late_addition_is_judged_with_all_that_came_after_it()
    {
        var check = Licensed().On("2026-03-10").Does("""{"kind":"add","lot":"R1","items":[{"material":"lysozyme","grams":30}]}""");
        check.On("2026-03-05").Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"R1","items":[{"material":"lysozyme","grams":30}]}""", "reason")
            .Does("""{"kind":"add","lot":"R1","reason":"found on the slip","items":[{"material":"lysozyme","grams":30}]}""").Raised("over_limit");
    }

    [Fact]
    public void A_household_answers_to_its_own_sets_and_sees_the_law_on_request()
    {
        var check = Licensed("\"household\"").Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":30}]}""");
        Assert.Empty(check.Book.LimitsInForce(new(2026, 4, 1)));
        Assert.Equal(VerdictKind.Over, LotLimits.OfLot(check.Book.Now, check.Book.LimitsInForce(new(2026, 4, 1), withLaw: true), "R1").WorstKind);
        check.Does("""{"kind":"limitSet","code":"house","as":"house","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"120","unit":"mg/L","source":"own taste","seen":"text"}]}""")
            .Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":1}]}""", "reason");
    }

    [Fact]
    public void A_broken_set_is_refused_whole_and_the_one_before_stays_in_force()
    {
        var check = Licensed().Does("""{"kind":"limitSet","code":"buyer-1","as":"buyer","who":"Kontor Nord","expires":"2027-01-01","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"100","unit":"mg/L","source":"letter","seen":"text"}]}""");
        check.Refuses(RefusalCode.LimitsUnreadable, """{"kind":"limitSet","code":"buyer-1","as":"buyer","who":"Kontor Nord","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"90","unit":"mg/L","source":"letter","seen":"text"},{"substances":"so2","basis":"total_measured","kind":"max","value":"80","unit":"mg/L","seen":"text"}]}""", "rows[1].source");
        check.Refuses(RefusalCode.LimitsExpired, """{"kind":"limitSet","code":"buyer-2","as":"buyer","who":"Kontor Nord","expires":"2026-01-01","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"90","unit":"mg/L","source":"letter","seen":"text"}]}""", "expires");
        check.Refuses(RefusalCode.BadName, """{"kind":"limitSet","code":"eu","as":"house","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"90","unit":"mg/L","source":"letter","seen":"text"}]}""", "code");
        Assert.Equal(Wines.Mg("100"), Of(check, "R1", "so2", LimitBasis.TotalMeasured, "buyer-1").Limit);
        // After its last day it is out of force.
        Assert.DoesNotContain(check.Book.LimitsInForce(new(2027, 1, 2)), set => set.Code == "buyer-1");
        Assert.Contains(check.Book.OwnLimits, set => set.Code == "buyer-1");
    }

    [Fact]
    public void Scheme_case_and_colour_are_stated_and_follow_the_wine()
    {
        var check = Licensed("\"eu\",\"organic-eu\"").Does("""{"kind":"describe","lot":"R1","schemes":["organic"],"zone":"B"}""");
        Assert.Equal(Wines.Mg("120"), Of(check, "R1", "so2", LimitBasis.TotalMeasured, "eu-organic").Limit);
        check.Does("""{"kind":"transfer","sources":[{"lot":"R1","litres":100}],"targets":[{"lot":"R1","vessel":"V2","litres":100}]}""");
        Assert.Equal(Wines.Mg("120"), Of(check, "R1", "so2", LimitBasis.TotalMeasured, "eu-organic").Limit);
        check.Does("""{"kind":"describe","lot":"R1","schemes":[],"colour":"rosé"}""");
        Assert.Equal(Wines.Mg("200"), Of(check, "R1", "so2", LimitBasis.TotalMeasured).Limit);
        check.Refuses(RefusalCode.UnknownWord, """{"kind":"describe","lot":"R1","colour":"amber"}""", "colour")
            .Refuses(RefusalCode.UnknownWord, """{"kind":"describe","lot":"R1","zone":"D"}""", "zone")
            .Refuses(RefusalCode.UnknownWord, """{"kind":"describe","lot":"R1","type":"fizzy"}""", "type")
            .Refuses(RefusalCode.UnknownWord, """{"kind":"describe","lot":"R1","schemes":["Very Natural"]}""", "schemes[0]")
            .Refuses(RefusalCode.Missing, """{"kind":"describe","lot":"R1"}""", "colour");
    }

    [Fact]
    public void Schemes_end_where_wine_without_them_comes_in()
    {
        var check = Licensed().Does("""{"kind":"describe","lot":"R1","schemes":["organic"],"cases":["exceptional-year"],"zone":"B"}""")
            .Does("""{"kind":"receive","what":"bulkWine","lot":"R2","vessel":"V2","litres":50,"abv":12.5,"colour":"red","supplier":"Weingut Probe","document":"LS 2"}""")
            .Does("""{"kind":"describe","lot":"R2","zone":"B"}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"R2","litres":50}],"targets":[{"lot":"R1","vessel":"V1","litres":50}]}""");
        var facts = check.Book.Now.PlacesOfLot("R1")[0].Notes.Facts;
        Assert.Empty(facts.Schemes);
        Assert.Empty(facts.Cases);
        Assert.Equal("B", facts.Zone);
    }

    [Fact]
    public void With_wine_of_other_fruit_in_it_it_is_no_wine_of_grapes_any_more()
    {
        var check = Licensed().Does("""{"kind":"receive","what":"bulkWine","lot":"PLUM","vessel":"V2","litres":50,"abv":12.5,"supplier":"Weingut Probe","document":"LS 2"}""")
            .Does("""{"kind":"describe","lot":"PLUM","type":"not-of-grapes"}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"PLUM","litres":50}],"targets":[{"lot":"R1","vessel":"V1","litres":50}]}""");
        Assert.Empty(LotLimits.OfLot(check.Book.Now, check.Book.LimitsInForce(new(2026, 4, 1)), "R1").Worst);
    }

    [Fact]
    public void A_barred_product_needs_a_reason_at_any_dose() =>
        Licensed().Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"R1","items":[{"material":"cmc-5","millilitres":10}]}""", "reason");

    [Fact]
    public void A_laboratory_finds_what_the_book_has_no_reading_for()
    {
        // 0.8 g/hL of bluestone is a lawful dose; by additions it leaves more copper than allowed, until a laboratory finds less.
        var check = Licensed().Does("""{"kind":"add","lot":"R1","reason":"reductive smell","items":[{"material":"copper-sulphate","grams":0.8}]}""").Raised("over_limit");
        Assert.Equal((VerdictKind.Over, true), (Of(check, "R1", "copper", LimitBasis.Residual).Kind, Of(check, "R1", "copper", LimitBasis.Residual).ByAdditions));
        check.On("2026-03-20").Does("""{"kind":"measure","lot":"R1","contents":[{"substance":"copper","mgPerLitre":0.45},{"substance":"lead","mgPerLitre":0.02}],"instrument":"report 12"}""");
        var copper = Of(check, "R1", "copper", LimitBasis.Residual);
        Assert.Equal((VerdictKind.Within, false, Wines.Mg("0.45")), (copper.Kind, copper.ByAdditions, copper.Value));
        Assert.Equal(VerdictKind.Within, Of(check, "R1", "lead", LimitBasis.TotalMeasured).Kind);
        check.Refuses(RefusalCode.UnknownWord, """{"kind":"measure","lot":"R1","contents":[{"substance":"gold","mgPerLitre":1}]}""", "contents[0].substance")
            .Refuses(RefusalCode.UnknownWord, """{"kind":"measure","lot":"R1","contents":[{"substance":"so2","mgPerLitre":1}]}""", "contents[0].substance")
            .Refuses(RefusalCode.Missing, """{"kind":"measure","lot":"R1","contents":[{"substance":"copper"}]}""", "contents[0].mgPerLitre")
            .Refuses(RefusalCode.NotPositive, """{"kind":"measure","lot":"R1","contents":[{"substance":"copper","mgPerLitre":-1}]}""", "contents[0].mgPerLitre")
            .Refuses(RefusalCode.TooLargeNumber, """{"kind":"measure","lot":"R1","contents":[{"substance":"copper","mgPerLitre":3000000}]}""", "contents[0].mgPerLitre")
            .Refuses(RefusalCode.TooFine, """{"kind":"measure","lot":"R1","contents":[{"substance":"copper","mgPerLitre":0.0000001}]}""", "contents[0].mgPerLitre")
            .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"measure","lot":"R1","contents":[{"substance":"copper","mgPerLitre":1},{"substance":"copper","mgPerLitre":2}]}""", "contents");
    }
}
