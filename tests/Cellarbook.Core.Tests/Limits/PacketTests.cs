using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>What a packet or a kit's box allows is held against the wine that it went into, without anybody filing a set.</summary>
public class PacketTests
{
    private static Check Kit() => new Check().On("2026-03-01").Vessel("V1", "30").Vessel("V2", "60")
        .Does("""{"kind":"deliver","items":[{"material":"kit-white-23","delivery":"BOX","pieces":1}]}""")
        .Does("""{"kind":"startKit","kit":"kit-white-23","lot":"K","vessel":"V1"}""");

    private static Verdict Of(Check check, string lot, string set, string substance) =>
        Worst(check, lot).Single(verdict => verdict.Set.Code == set && verdict.Substance.Code == substance);

    private static Verdict[] Worst(Check check, string lot) => [.. LotLimits.OfLot(check.Book.Now, check.Book.LimitsInForce(new(2026, 4, 1)), lot).Worst.Select(pair => pair.Verdict)];

    [Fact]
    public void A_kit_that_was_started_holds_its_lot_to_what_the_box_allows()
    {
        var check = Kit().Does("""{"kind":"add","lot":"K","items":[{"material":"kit-sulphite-sachet","pieces":1}]}""");
        Assert.Empty(check.Book.LimitsInForce(new(2026, 4, 1)));
        var sulphite = Of(check, "K", "kit-white-23", "so2");
        Assert.Equal(("packet", VerdictKind.Within, Wines.Mg("200")), (sulphite.Set.Kind, sulphite.Kind, sulphite.Limit));
        Assert.Contains("1 piece added / 23 L", Of(check, "K", "kit-sulphite-sachet", "packet.kit-sulphite-sachet").Arithmetic.ToString(), StringComparison.Ordinal);
        // 10 g more of another sulphite is over what the box allows, and a household is asked for a reason too.
        check.Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"K","items":[{"material":"kmbs","grams":10}]}""", "reason")
            .Does("""{"kind":"add","lot":"K","reason":"smelt of eggs","items":[{"material":"kmbs","grams":10}]}""").Raised("over_limit");
        Assert.Equal(VerdictKind.Over, Of(check, "K", "kit-white-23", "so2").Kind);
    }

    [Fact]
    public void A_sachet_of_unstated_content_can_be_added_and_the_verdict_says_that_the_packet_does_not_state_it()
    {
        var check = Kit().Does("""{"kind":"add","lot":"K","items":[{"material":"kit-stabiliser-sachet","pieces":1}]}""").Raised("limit_unknown");
        var sorbate = Of(check, "K", "kit-white-23", "sorbic-acid");
        Assert.Equal(VerdictKind.CannotSay, sorbate.Kind);
        Assert.Contains("packet doesn't state", sorbate.Arithmetic.ToString(), StringComparison.Ordinal);
        Assert.Equal("what the packet holds", Assert.Single(sorbate.Missing).ToString());
        // How many sachets went in is known, whatever they hold.
        Assert.Equal(VerdictKind.Within, Of(check, "K", "kit-stabiliser-sachet", "packet.kit-stabiliser-sachet").Kind);
    }

    [Fact]
    public void Equality_passes_and_one_more_is_over()
    {
        var check = new Check().On("2026-03-01").Vessel("V1", "30")
            .Does("""{"kind":"material","code":"tab","name":"Tablets","countedIn":"pieces","atMost":3,"atMostInLitres":7}""")
            .Does("""{"kind":"receive","what":"must","lot":"M","vessel":"V1","litres":14}""")
            .Does("""{"kind":"add","lot":"M","items":[{"material":"tab","pieces":6}]}""").Raised("near_limit");
        Assert.Equal("6 pieces added / 14 L = 0.429/L; limit 3 pieces in 7 L = 0.429/L: 0/L left.", Of(check, "M", "tab", "packet.tab").Arithmetic.ToString());
        check.Refuses(RefusalCode.ReasonNeeded, """{"kind":"add","lot":"M","items":[{"material":"tab","pieces":1}]}""", "reason");
    }

    [Fact]
    public void What_a_packet_says_follows_the_wine_through_racking_blend_and_bottling()
    {
        var check = Kit().Does("""{"kind":"receive","what":"must","lot":"N","vessel":"V2","litres":20}""")
            .Does("""{"kind":"add","lot":"K","items":[{"material":"kit-sulphite-sachet","pieces":1}]}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"K","litres":23}],"targets":[{"lot":"N","vessel":"V2","litres":23}]}""");
        Assert.Equal(VerdictKind.Within, Of(check, "N", "kit-white-23", "so2").Kind);
        check.On("2026-04-01").Does("""{"kind":"declareWine","lot":"N","litres":43,"abv":12}""")
            .Does("""{"kind":"bottle","lot":"N","fills":[{"bottling":"N-75","bottles":50,"bottleMl":750}]}""");
        Assert.Contains(LotLimits.OfBottling(check.Book.Now, [], "N-75").Worst, pair => pair.Verdict.Set.Code == "kit-white-23");
    }

    [Fact]
    public void Ones_own_packet_is_taken_at_its_word_in_the_form_of_a_limit_set_too()
    {
        var check = new Check().On("2026-03-01").Vessel("V1", "30")
            .Does("""{"kind":"material","code":"stab","name":"Stabiliser","countedIn":"grams","contents":[{"substance":"potassium-sorbate","mgInOne":800}],"atMost":6,"atMostInLitres":23,"limits":[{"substances":"sorbic-acid","basis":"added_dose","kind":"max","value":"150","unit":"mg/L"}]}""")
            .Does("""{"kind":"receive","what":"bulkWine","lot":"W","vessel":"V1","litres":23,"abv":12}""")
            .Does("""{"kind":"add","lot":"W","items":[{"material":"stab","grams":5}]}""");
        // 5 g of the powder hold 4 g of sorbate, that is 2.986 g of sorbic acid in 23 L.
        Assert.Equal((VerdictKind.Within, 129.815m), (Of(check, "W", "stab", "sorbic-acid").Kind, decimal.Round(Of(check, "W", "stab", "sorbic-acid").Value!.Value.NanogramsPerLitre / 1e6m, 3)));
        Assert.Equal(VerdictKind.Within, Of(check, "W", "stab", "packet.stab").Kind);
        Assert.Equal("Stabiliser", Of(check, "W", "stab", "packet.stab").Set.Name);
        check.Refuses(RefusalCode.LimitsUnreadable, """{"kind":"material","code":"bad","name":"Bad","countedIn":"grams","limits":[{"substances":"moon","basis":"added_dose","kind":"max","value":"150","unit":"mg/L"}]}""", "limits[0].substances")
            .Refuses(RefusalCode.Missing, """{"kind":"material","code":"bad","name":"Bad","countedIn":"grams","atMost":6}""", "atMostInLitres")
            .Refuses(RefusalCode.NotPositive, """{"kind":"material","code":"bad","name":"Bad","countedIn":"grams","atMost":0,"atMostInLitres":23}""", "atMost")
            .Refuses(RefusalCode.TooFine, """{"kind":"material","code":"bad","name":"Bad","countedIn":"pieces","atMost":0.5,"atMostInLitres":23}""", "atMost");
    }

    [Fact]
    public void A_kit_of_ones_own_is_described_with_its_box_and_started_like_any_other()
    {
        var check = new Check().On("2026-03-01").Vessel("V1", "30")
            .Does("""{"kind":"material","code":"sorb-x","name":"Sorbate sachet X","countedIn":"pieces","contents":[{"substance":"potassium-sorbate","mgInOne":5000}]}""")
            .Does("""{"kind":"material","code":"kit-x","name":"Kit X","countedIn":"pieces","kit":{"concentrateLitres":8,"markLitres":20,"parts":[{"material":"sorb-x","pieces":2}]},"limits":[{"substances":"sorbic-acid","basis":"added_dose","kind":"max","value":"200","unit":"mg/L"}]}""")
            .Does("""{"kind":"deliver","items":[{"material":"kit-x","delivery":"X1","pieces":1}]}""")
            .Does("""{"kind":"startKit","kit":"Kit X","lot":"K","vessel":"V1"}""").Holds("K", "V1", "20").InStore("sorb-x", "X1", 2)
            .Does("""{"kind":"add","lot":"K","items":[{"material":"sorb-x","pieces":1}]}""").Raised("near_limit");
        Assert.Equal("kit-x", Of(check, "K", "kit-x", "sorbic-acid").Set.Code);
        check.Refuses(RefusalCode.UnknownMaterial, """{"kind":"material","code":"kit-y","name":"Y","countedIn":"pieces","kit":{"concentrateLitres":8,"markLitres":20,"parts":[{"material":"moon","pieces":1}]}}""", "kit.parts[0].material")
            .Refuses(RefusalCode.WrongUnit, """{"kind":"material","code":"kit-y","name":"Y","countedIn":"grams","kit":{"concentrateLitres":8,"markLitres":20}}""", "countedIn")
            .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"material","code":"kit-y","name":"Y","countedIn":"pieces","kit":{"concentrateLitres":8,"markLitres":7}}""", "kit.markLitres");
    }

    [Fact]
    public void Kilograms_for_grams_are_asked_about_before_a_reason_is_made_up()
    {
        var refusal = Kit().Refusals("""{"kind":"add","lot":"K","items":[{"material":"kmbs","grams":5000}]}""")[0];
        Assert.Equal(RefusalCode.ReasonNeeded, refusal.Code);
        Assert.Contains("Check the figure and its unit.", refusal.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_law_says_nothing_of_a_packet_itself()
    {
        var check = new Check().On("2026-03-01").Does("""{"kind":"premises","regimes":["eu"],"timeZone":"Europe/Vienna"}""").Vessel("V1", "30")
            .Does("""{"kind":"material","code":"tab","name":"Tablets","countedIn":"pieces","atMost":3,"atMostInLitres":7}""")
            .Does("""{"kind":"receive","what":"bulkWine","lot":"W","vessel":"V1","litres":14,"abv":12,"colour":"red"}""")
            .Does("""{"kind":"add","lot":"W","items":[{"material":"tab","pieces":1}]}""");
        Assert.DoesNotContain(Worst(check, "W"), verdict => verdict.Set.Code == "eu" && verdict.Substance.Code == "packet.tab");
    }
}
