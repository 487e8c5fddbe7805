using System.Globalization;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.LotFigures;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.LotFigures;

/// <summary>
/// Law 8 on a lot's page: every derived figure opens to its formula and its entries. Strength as design §6 has it: the estimate counts what went in
/// after the first gravity or says "cannot say"; measured, stated, carried forward and estimated are told apart.
/// </summary>
public class LotFiguresTests
{
    private static FiguresDiary Must() => new FiguresDiary().Vessels("V1", "V2", "V3")
        .On("2026-03-01", """ "kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23 """)
        .On("2026-03-01", """ "kind":"measure","lot":"L1","vessel":"V1","gravity":1.090,"celsius":20 """)
        .On("2026-03-01", """ "kind":"pitch","lot":"L1","vessel":"V1","cultures":[{"name":"Plain wine yeast"}] """);

    private static FiguresDiary Dry() => Must()
        .On("2026-03-20", """ "kind":"measure","lot":"L1","vessel":"V1","gravity":0.995,"celsius":20 """);

    private static LotFigure Abv(FiguresDiary diary, string lot = "L1") => diary.Figures(lot).Find("abvEstimated")!;

    private static string Missing(FiguresDiary diary, string name, string lot = "L1") => Assert.Single(diary.Figures(lot).CannotSay, refusal => refusal.Path == name).Sentence.ToString();

    [Fact]
    public void Two_gravities_and_nothing_between_give_the_linear_rule_and_lead_back_to_both_entries()
    {
        var abv = Abv(Dry());
        Assert.Equal(131.25 * (1.090 - 0.995), abv.Result.Value, 0.05);
        Assert.Equal(0.5, abv.Result.Uncertainty);
        Assert.Contains("131.25", abv.Result.Worked, StringComparison.Ordinal);
        Assert.Equal([5L, 7L], abv.Readings.Select(reading => reading.Entry));
        Assert.Contains("gravity 1.090 at 20 °C", abv.Readings[0].What.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Must_at_1_100_that_ferments_dry_ends_at_13_5_to_15_by_the_rule_asked()
    {
        // Common practice, no source.
        var figures = new FiguresDiary().Vessels("V1")
            .On("2026-03-01", """ "kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23 """)
            .On("2026-03-01", """ "kind":"measure","lot":"L1","gravity":1.100,"celsius":20 """)
            .On("2026-03-20", """ "kind":"measure","lot":"L1","gravity":0.996,"celsius":20,"sugarGramsPerLitre":2 """).Figures("L1");
        Assert.InRange(figures.Find("abvEstimated")!.Result.Value, 13.5, 15);
        Assert.InRange(figures.Find("abvBySugar")!.Result.Value, 13.5, 15);
        Assert.InRange(figures.Find("potentialAbv")!.Result.Value, 13.5, 15);
    }

    [Fact]
    public void Sugar_after_the_first_gravity_enters_the_estimate_by_mass()
    {
        var plain = Abv(Dry()).Result.Value;
        var fed = Abv(Must()
            .On("2026-03-04", """ "kind":"add","lot":"L1","items":[{"material":"sugar","grams":1150}] """)
            .On("2026-03-20", """ "kind":"measure","lot":"L1","gravity":0.995,"celsius":20 """));

        // 50 g/L of sugar are near 3 % vol by any rule.
        Assert.InRange(fed.Result.Value - plain, 2, 3.2);
        Assert.Contains("+ 1.15 kg sugar", fed.Result.Worked, StringComparison.Ordinal);
        Assert.Contains(fed.Readings, reading => reading.Entry == 7 && reading.What.ToString() == "+ 1.15 kg sugar");
    }

    [Fact]
    public void Sugar_and_no_reading_since_says_what_is_missing()
    {
        var diary = Must().On("2026-03-04", """ "kind":"add","lot":"L1","items":[{"material":"sugar","grams":1150}] """);
        Assert.Null(Abv(diary));
        Assert.Contains("no gravity was read after", Missing(diary, "abvEstimated"), StringComparison.Ordinal);
    }

    [Fact]
    public void Water_thins_the_estimate_instead_of_counting_as_alcohol()
    {
        var watered = Abv(Must()
            .On("2026-03-04", """ "kind":"add","lot":"L1","items":[{"material":"water","millilitres":5000,"riseLitres":5,"riseBy":"water"}] """)
            .On("2026-03-20", """ "kind":"measure","lot":"L1","gravity":0.996,"celsius":20 """));
        Assert.Equal(131.25 * (Enrichment.MixedGravity(23, 1.090, 5, 1) - 0.996), watered.Result.Value, 0.05);
    }

    [Theory]
    [InlineData("""{"material":"blossom honey","grams":900}""")]
    [InlineData("""{"material":"elderberry syrup","pieces":1}""")]
    [InlineData("""{"material":"pale rum","millilitres":700}""")]
    public void An_addition_that_nobody_can_reckon_gives_cannot_say(string item)
    {
        var diary = Must().On("2026-03-04", $$""" "kind":"add","lot":"L1","items":[{{item}}] """)
            .On("2026-03-20", """ "kind":"measure","lot":"L1","gravity":0.995,"celsius":20 """);
        Assert.Null(Abv(diary));
        Assert.Contains(System.Text.Json.JsonDocument.Parse(item).RootElement.GetProperty("material").GetString()!, Missing(diary, "abvEstimated"), StringComparison.Ordinal);
        Assert.Null(diary.Proposal("L1").Abv);
        Assert.Contains("went in", diary.Proposal("L1").CannotSay?.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("""{"material":"potassium metabisulphite","grams":1.5}""")]
    [InlineData("""{"material":"wine tannin","gramsPerHectolitre":10}""")]
    [InlineData("""{"material":"yeast nutrient","grams":10}""")]
    [InlineData("""{"material":"liquid finings","millilitres":60}""")]
    [InlineData("""{"material":"oak staves","pieces":2}""")]
    public void What_cellars_dose_by_the_gram_changes_no_strength(string item) => Assert.Equal(Abv(Dry()).Result.Value, Abv(Must()
        .On("2026-03-04", $$""" "kind":"add","lot":"L1","items":[{{item}}] """)
        .On("2026-03-20", """ "kind":"measure","lot":"L1","gravity":0.995,"celsius":20 """)).Result.Value, 1e-9);

    [Fact]
    public void Racking_and_losses_change_no_strength_and_the_readings_go_along()
    {
        var racked = Dry().On("2026-03-21", """ "kind":"transfer","sources":[{"lot":"L1","vessel":"V1"}],"targets":[{"lot":"L1","vessel":"V2","litres":21.8}],"losses":[{"kind":"solids","litres":1.2}] """);
        Assert.Equal(Abv(Dry()).Result.Value, Abv(racked).Result.Value, 1e-9);
        Assert.Equal([5L, 7L], Abv(racked).Readings.Select(reading => reading.Entry));
        Assert.NotNull(racked.Figures("L1").Find("gravity20"));
    }

    [Fact]
    public void A_wine_parted_and_put_together_again_is_the_same_wine()
    {
        var diary = Dry()
            .On("2026-03-21", """ "kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":10}],"targets":[{"lot":"L1","vessel":"V2","litres":10}] """)
            .On("2026-03-22", """ "kind":"transfer","sources":[{"lot":"L1","vessel":"V1"}],"targets":[{"lot":"L1","vessel":"V2","litres":13}] """);
        Assert.Equal(Abv(Dry()).Result.Value, Abv(diary).Result.Value, 1e-9);
        Assert.Equal([5L, 7L], Abv(diary).Readings.Select(reading => reading.Entry));
    }

    [Fact]
    public void A_measured_strength_holds_and_is_carried_forward_after_topping()
    {
        var diary = Dry()
            .On("2026-03-21", """ "kind":"declareWine","lot":"L1","vessel":"V1","litres":22.5,"abv":12.3 """)
            .On("2026-03-25", """ "kind":"measure","lot":"L1","abvFound":12.62 """);
        var measured = diary.Figures("L1");
        Assert.Equal((12.62, "Strength, measured"), (measured.Find("abvMeasured")!.Result.Value, measured.Find("abvMeasured")!.Result.Label));
        Assert.Equal([9L], measured.Find("abvMeasured")!.Readings.Select(reading => reading.Entry));
        Assert.Null(measured.Find("abvCarried"));

        diary.On("2026-04-01", """ "kind":"receive","what":"bulkWine","lot":"TOP","vessel":"V2","litres":5,"abv":10 """)
            .On("2026-05-01", """ "kind":"topUp","casks":[{"vessel":"V1","litres":1.5}],"from":{"lot":"TOP","vessel":"V2"} """);
        var topped = diary.Figures("L1");
        Assert.Null(topped.Find("abvMeasured"));
        var carried = topped.Find("abvCarried")!;
        Assert.Equal("Strength, carried forward from a measurement", carried.Result.Label);
        Assert.Equal(((12.62 * 21) + (10 * 1.5)) / 22.5, carried.Result.Value, 0.03);
        Assert.Equal([9L, 11L], carried.Readings.Select(reading => reading.Entry));

        // The book's own mixing starts from what was stated, not from what was found.
        Assert.Equal("Strength, mixed from what was stated", topped.Find("abvStated")!.Result.Label);
        Assert.Equal(12.15, topped.Find("abvStated")!.Result.Value);
        Assert.Equal([11L], topped.Find("abvStated")!.Readings.Select(reading => reading.Entry));
    }

    [Fact]
    public void Stated_measured_and_estimated_are_told_apart()
    {
        var figures = Dry().On("2026-03-21", """ "kind":"declareWine","lot":"L1","vessel":"V1","litres":22.5,"abv":12.3,"estimated":true """).Figures("L1");
        Assert.Equal((12.3, "Strength, stated"), (figures.Find("abvStated")!.Result.Value, figures.Find("abvStated")!.Result.Label));
        Assert.Equal("Strength, estimated from gravities", figures.Find("abvEstimated")!.Result.Label);
        Assert.Null(figures.Find("abvMeasured"));
        var lab = Dry().On("2026-03-21", """ "kind":"declareWine","lot":"L1","vessel":"V1","litres":22.5,"abv":12.3,"estimated":false """).Figures("L1");
        Assert.Equal(12.3, lab.Find("abvMeasured")!.Result.Value);
    }

    [Fact]
    public void Wine_of_unknown_strength_makes_the_strength_unknown_until_it_is_measured()
    {
        var diary = Dry()
            .On("2026-03-21", """ "kind":"declareWine","lot":"L1","vessel":"V1","litres":20,"abv":12.3 """)
            .On("2026-03-22", """ "kind":"receive","what":"bulkWine","lot":"B","vessel":"V2","litres":5 """)
            .On("2026-03-23", """ "kind":"transfer","sources":[{"lot":"B","vessel":"V2"}],"targets":[{"lot":"L1","vessel":"V1","litres":5}] """);
        Assert.Null(Abv(diary));
        Assert.Contains("of unknown strength", Missing(diary, "abvEstimated"), StringComparison.Ordinal);
        Assert.Equal(11.8, diary.On("2026-04-01", """ "kind":"regauge","lot":"L1","abv":11.8 """).Figures("L1").Find("abvMeasured")!.Result.Value);
    }

    [Fact]
    public void Spirit_is_reckoned_by_mass_and_not_as_fermentation()
    {
        var diary = Dry()
            .On("2026-03-21", """ "kind":"declareWine","lot":"L1","vessel":"V1","litres":22.5,"abv":12.5 """)
            .On("2026-03-22", """ "kind":"fortify","sources":[{"lot":"L1","vessel":"V1"}],"spiritLitres":2,"spiritAbv":96,"targets":[{"litres":24.4,"abv":19}] """);
        var wine = Abv(Dry()).Result.Value;
        Assert.Equal(Blending.ByMass(22.5, wine, 2, 96).Abv, Abv(diary).Result.Value, 0.1);
        Assert.Equal(19, diary.Figures("L1").Find("abvStated")!.Result.Value);
    }

    [Fact]
    public void A_reading_taken_back_is_no_reading_and_a_late_addition_counts_from_its_day()
    {
        var diary = Dry().On("2026-03-22", """ "kind":"correct","takesBack":7,"reason":"read on the wrong side of the meniscus","write":{"kind":"measure","day":"2026-03-20","lot":"L1","gravity":0.998,"celsius":20} """);
        Assert.Equal(131.25 * (1.090 - 0.998), Abv(diary).Result.Value, 0.05);
        var late = Dry().On("2026-03-04", """ "kind":"add","lot":"L1","items":[{"material":"sugar","grams":1150}] """);
        Assert.Contains("+ 1.15 kg sugar", Abv(late).Result.Worked, StringComparison.Ordinal);
    }

    [Fact]
    public void Concentrate_made_up_by_its_Brix_begins_with_the_must_made_up()
    {
        var diary = new FiguresDiary().Vessels("V1")
            .On("2026-03-01", """ "kind":"makeUp","lot":"K","vessel":"V1","bagLitres":7,"markLitres":23,"brixAfter":20 """)
            .On("2026-03-20", """ "kind":"measure","lot":"K","gravity":0.995,"celsius":20 """);
        Assert.Equal(131.25 * (BrixScale.ToGravity(20) - 0.995), Abv(diary, "K").Result.Value, 0.05);
    }

    [Fact]
    public void A_better_reading_before_the_yeast_takes_the_place_of_what_the_paper_said()
    {
        var diary = new FiguresDiary().Vessels("V1")
            .On("2026-03-01", """ "kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23,"brix":22 """)
            .On("2026-03-01", """ "kind":"measure","lot":"L1","gravity":1.090,"celsius":20 """)
            .On("2026-03-20", """ "kind":"measure","lot":"L1","gravity":0.995,"celsius":20 """);
        Assert.Equal(131.25 * (1.090 - 0.995), Abv(diary).Result.Value, 0.05);
    }

    [Fact]
    public void The_first_gravity_read_too_late_says_so()
    {
        var diary = new FiguresDiary().Vessels("V1")
            .On("2026-03-01", """ "kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23 """)
            .On("2026-03-20", """ "kind":"measure","lot":"L1","gravity":1.002,"celsius":20 """);
        Assert.Contains("well under way or over", Missing(diary, "abvEstimated"), StringComparison.Ordinal);
    }

    [Fact]
    public void Gravity_is_brought_to_20_degrees_with_what_was_assumed()
    {
        var diary = Must().On("2026-03-02", """ "kind":"measure","lot":"L1","gravity":1.087,"celsius":28,"calibrationCelsius":15.56 """);
        var gravity = diary.Figures("L1").Find("gravity20")!;
        Assert.Equal(Hydrometer.InMustAt20(1.087, 28, 15.56, Alcoholmeter.SodaLimeGlassPerKelvin), gravity.Result.Value, 1e-12);
        Assert.Equal([7L], gravity.Readings.Select(reading => reading.Entry));
        Assert.Contains("Assumed", Must().Figures("L1").Find("gravity20")!.Result.Caution?.ToString(), StringComparison.Ordinal);
        var bare = Must().On("2026-03-02", """ "kind":"measure","lot":"L1","gravity":1.087 """);
        Assert.Null(bare.Figures("L1").Find("gravity20"));
        Assert.Contains("temperature", Missing(bare, "gravity20"), StringComparison.Ordinal);
    }

    [Fact]
    public void Gravity_is_called_steady_only_when_it_is()
    {
        var falling = Dry().Figures("L1").Find("gravityFall")!;
        Assert.EndsWith("falling", falling.Result.Label.ToString(), StringComparison.Ordinal);
        var steady = Dry().On("2026-03-24", """ "kind":"measure","lot":"L1","gravity":0.995,"celsius":20 """).On("2026-03-27", """ "kind":"measure","lot":"L1","gravity":0.994,"celsius":20 """).Figures("L1").Find("gravityFall")!;
        Assert.Equal("Gravity over the last 3 readings: steady", steady.Result.Label);
        Assert.Contains("stuck", steady.Result.Caution?.ToString(), StringComparison.Ordinal);
        Assert.Equal([7L, 8L, 9L], steady.Readings.Select(reading => reading.Entry));
        Assert.Contains("two readings", Missing(Must(), "gravityFall"), StringComparison.Ordinal);
    }

    [Fact]
    public void Molecular_SO2_needs_both_readings_and_says_when_they_are_old()
    {
        var diary = Dry().On("2026-03-21", """ "kind":"measure","lot":"L1","freeSo2MgPerLitre":30 """);
        Assert.Contains("pH", Missing(diary, "molecularMgPerLitre"), StringComparison.Ordinal);
        diary.On("2026-03-22", """ "kind":"measure","lot":"L1","ph":3.40 """);
        var molecular = diary.Figures("L1").Find("molecularMgPerLitre")!;
        Assert.Equal(30 / (1 + Math.Pow(10, 3.40 - 1.81)), molecular.Result.Value, 1e-12);
        Assert.Equal([8L, 9L], molecular.Readings.Select(reading => reading.Entry));
        diary.On("2026-03-23", """ "kind":"add","lot":"L1","items":[{"material":"potassium metabisulphite","grams":1.5}] """);
        Assert.Contains("measure it again", diary.Figures("L1").Find("molecularMgPerLitre")!.Result.Caution?.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_strength_proposed_at_declaring_is_a_whole_hundredth()
    {
        var proposal = Dry().Proposal("L1");
        Assert.Equal("abvEstimated", proposal.Figure!.Result.Name);
        Assert.Equal(1247, proposal.Abv!.Value.Hundredths);
        Assert.Null(proposal.CannotSay);
        Assert.NotNull(new FiguresDiary().Vessels("V1").On("2026-03-01", """ "kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23 """).Proposal("L1").CannotSay);
    }

    [Fact]
    public void As_of_a_day_nothing_later_is_known()
    {
        var figures = Dry().Figures("L1", new(2026, 3, 10));
        Assert.Null(figures.Find("abvEstimated"));
        Assert.Equal(1.090, figures.Find("gravity20")!.Result.Value, 0.0005);
        Assert.Null(PlaceFigures.OfLot(Dry().Book, "nothing"));
    }

    [Fact]
    public void Whatever_is_drawn_racked_gauged_or_sampled_the_estimate_stays() => Gen.Int[0, 4].Array[1, 12].Sample(steps =>
    {
        var diary = Must();
        var (here, left, day) = (1, 23m, new DateOnly(2026, 3, 2));
        foreach (var step in steps)
        {
            var on = (day = day.AddDays(1)).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
            var there = here % 3 + 1;
            switch (step)
            {
                case 0:
                    diary.On(on, $$""" "kind":"measure","lot":"L1","ph":3.4,"sampleLitres":0.1 """);
                    left -= 0.1m;
                    break;
                case 1:
                    diary.On(on, $$""" "kind":"transfer","sources":[{"lot":"L1","vessel":"V{{here}}"}],"targets":[{"lot":"L1","vessel":"V{{there}}","litres":{{left - 0.5m}}}],"losses":[{"kind":"solids","litres":0.5}] """);
                    (here, left) = (there, left - 0.5m);
                    break;
                case 2:
                    diary.On(on, $$""" "kind":"gauge","vessel":"V{{here}}","litres":{{left += 0.3m}} """);
                    break;
                case 3:
                    diary.On(on, $$""" "kind":"lose","as":"spill","lot":"L1","litres":0.2 """);
                    left -= 0.2m;
                    break;
                default:
                    diary.On(on, $$""" "kind":"transfer","sources":[{"lot":"L1","vessel":"V{{here}}","litres":5}],"targets":[{"lot":"L1","vessel":"V{{there}}","litres":5}] """)
                        .On(on, $$""" "kind":"transfer","sources":[{"lot":"L1","vessel":"V{{there}}"}],"targets":[{"lot":"L1","vessel":"V{{here}}","litres":5}] """);
                    break;
            }
        }
        diary.On("2026-03-20", $$""" "kind":"measure","lot":"L1","vessel":"V{{here}}","gravity":0.995,"celsius":20 """);
        Assert.Equal(Abv(Dry()).Result.Value, Abv(diary).Result.Value, 1e-6);
    }, iter: 60);

    [Fact]
    public void A_sale_taken_back_after_its_period_closed_brings_the_same_wine_back()
    {
        var diary = Dry()
            .On("2026-03-21", """ "kind":"declareWine","lot":"L1","vessel":"V1","litres":23.4,"abv":12.3 """)
            .On("2026-03-25", """ "kind":"remove","as":"sold","lot":"L1","vessel":"V1","litres":3 """)
            .On("2026-04-01", """ "kind":"close","through":"2026-03-31" """)
            .On("2026-04-02", """ "kind":"correct","takesBack":9,"reason":"the buyer never came" """);
        Assert.Equal(Abv(Dry()).Result.Value, Abv(diary).Result.Value, 1e-9);
    }

    [Fact]
    public void Sugar_taken_back_after_its_period_closed_makes_the_strength_unknown()
    {
        var diary = Must()
            .On("2026-03-04", """ "kind":"add","lot":"L1","items":[{"material":"sugar","grams":1150,"riseLitres":0.71,"riseBy":"sugar"}] """)
            .On("2026-04-01", """ "kind":"close","through":"2026-03-31" """)
            .On("2026-04-02", """ "kind":"correct","takesBack":7,"reason":"the sugar went into another bucket" """)
            .On("2026-04-20", """ "kind":"measure","lot":"L1","gravity":0.995,"celsius":20 """);
        Assert.Null(Abv(diary));
        Assert.Contains("entry 7", Missing(diary, "abvEstimated"), StringComparison.Ordinal);
    }

    [Fact]
    public void Wine_that_came_with_a_stated_strength_carries_it_forward_and_calls_it_stated()
    {
        var figures = new FiguresDiary().Vessels("V1")
            .On("2026-03-01", """ "kind":"receive","what":"bulkWine","lot":"B","vessel":"V1","litres":20,"abv":12 """)
            .On("2026-03-05", """ "kind":"ameliorate","sources":[{"lot":"B","vessel":"V1"}],"waterLitres":1,"targets":[{"litres":21}] """).Figures("B");
        Assert.Equal("Strength, carried forward from what was stated", figures.Find("abvCarried")!.Result.Label);
        Assert.Equal(12 * 20 / 21.0, figures.Find("abvCarried")!.Result.Value, 0.02);
    }
}
