using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>Wine that goes to other people is held against limits as for the market: by what was measured. It is flagged and recorded (law 11).</summary>
public class ReleaseTests
{
    private static Check Bottled(string regimes, string measured = "\"totalSo2MgPerLitre\":80,\"vaGramsPerLitre\":0.4,\"taGramsPerLitre\":5,") => new Check().On("2026-03-01").Does($$"""{"kind":"premises","regimes":["{{regimes}}"],"timeZone":"Europe/Vienna"}""")
        .Vessel("V1", "200")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"R1","vessel":"V1","litres":100,"abv":12.5,"colour":"red","supplier":"Weingut Probe","document":"LS 1"}""")
        .Does($$"""{"kind":"measure","lot":"R1",{{measured}}"sugarGramsPerLitre":2}""");

    private static Check Fill(Check check) => check.On("2026-03-20").Does("""{"kind":"bottle","lot":"R1","fills":[{"bottling":"B","bottles":100,"bottleMl":750}]}""");

    private static string Remove(string way, string more = "") => $$"""{"kind":"remove","as":"{{way}}","bottling":"B","bottles":2,"recipient":"Inn at Quarle","document":"I-7"{{more}}}""";

    [Fact]
    public void What_was_measured_within_goes_out_without_a_word() =>
        Assert.DoesNotContain(Fill(Bottled("eu")).Does(Remove("sold")).Last.Flags, flag => flag.Code is "over_limit" or "release_unknown");

    [Fact]
    public void A_total_by_additions_alone_is_flagged_with_the_missing_measurement_and_recorded()
    {
        var check = Fill(Bottled("eu", "").Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":5}]}"""));
        check.Does(Remove("sold")).Raised("release_unknown");
        Assert.Contains("sulphur dioxide, measured", Flag(check), StringComparison.Ordinal);
        Assert.Equal(VerdictKind.CannotSay, check.Last.Limits.Single(verdict => verdict.Set.Code == "eu" && verdict.Substance.Code == "so2" && verdict.Basis == LimitBasis.TotalMeasured).Kind);
        // Drunk at home, tasted or sent to the laboratory it is not released.
        foreach (var way in new[] { "ownUse", "tasting", "analysis" }) Assert.DoesNotContain(check.Does(Remove(way)).Last.Flags, flag => flag.Code == "release_unknown");
        check.Does(Remove("gift")).Raised("release_unknown");
    }

    [Fact]
    public void Law_11_what_is_over_a_limit_goes_out_with_a_reason_each_time()
    {
        var check = Fill(Bottled("eu").Does("""{"kind":"add","lot":"R1","reason":"taint","items":[{"material":"kmbs","grams":14}]}""").Does("""{"kind":"measure","lot":"R1","totalSo2MgPerLitre":158}"""));
        foreach (var _ in new[] { 1, 2 })
            check.Refuses(RefusalCode.ReasonNeeded, Remove("sold"), "reason").Does(Remove("sold", ",\"reason\":\"for a trial by the buyer\"")).Raised("over_limit");
        check.Does(Remove("ownUse"));
        // Law 4: taking a sale back releases nothing.
        check.Does($$"""{"kind":"correct","takesBack":{{check.Number}},"reason":"not drunk"}""");
    }

    [Fact]
    public void Bulk_wine_and_several_lines_are_judged_each()
    {
        var check = Bottled("eu").Does("""{"kind":"add","lot":"R1","reason":"taint","items":[{"material":"kmbs","grams":14}]}""").Does("""{"kind":"measure","lot":"R1","totalSo2MgPerLitre":158}""");
        check.Refuses(RefusalCode.ReasonNeeded, """{"kind":"remove","as":"sold","lines":[{"lot":"R1","vessel":"V1","litres":10}],"recipient":"Kontor Nord","document":"I-8"}""", "reason");
        // All of it at once: what is gone is judged as it stood.
        check.Does("""{"kind":"remove","as":"sold","reason":"for distilling","lot":"R1","litres":100,"recipient":"Kontor Nord","document":"I-8"}""").Raised("over_limit");
    }

    [Fact]
    public void A_household_meets_no_word_of_law_only_its_packets_and_house_rules()
    {
        var check = Fill(Bottled("household", "").Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":30}]}""").Does("""{"kind":"limitSet","code":"mine","as":"house","rows":[{"substances":"potassium-metabisulphite","basis":"added_dose","kind":"max","value":"400","unit":"mg/L","source":"own rule","seen":"text"}]}"""));
        Assert.DoesNotContain(check.Does(Remove("gift")).Last.Flags, flag => flag.Code is "over_limit" or "release_unknown");
        check.Does("""{"kind":"limitSet","code":"mine","as":"house","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"120","unit":"mg/L","source":"own rule","seen":"text"}]}""");
        Assert.Contains("mine", Flag(check.Does(Remove("gift"))), StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_remarked_is_found_again_later_as_the_wine_stood_then()
    {
        var check = Fill(Bottled("eu", "").Does("""{"kind":"add","lot":"R1","items":[{"material":"kmbs","grams":5}]}""")).Does(Remove("sold"));
        Assert.Equal(Flag(check), Assert.Single(check.Book.ReleaseFlags(new(check.Number))).Sentence.ToString());
        Assert.Empty(check.Book.ReleaseFlags(new(check.Number - 1)));
    }

    private static string Flag(Check check) => check.Last.Flags.Single(flag => flag.Code == "release_unknown").Sentence.ToString();
}
