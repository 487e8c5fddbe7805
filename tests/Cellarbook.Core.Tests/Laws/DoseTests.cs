using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;
using static Cellarbook.Core.Book.Account;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>
/// What was dosed travels with the wine (law 7), to the nanogram. 10 g of potassium metabisulphite are 5.762917714 g of sulphur dioxide
/// (2 × 64.058 / 222.311, conventional atomic weights, from memory).
/// </summary>
public class DoseTests
{
    private static Check Cellar() => new Check().On("2026-03-01").Vessel("V1", "100").Vessel("V2", "100").Vessel("V3", "100")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"A","vessel":"V1","litres":60,"abv":12}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"B","vessel":"V2","litres":40,"abv":12}""");

    [Fact]
    public void Law_7_a_dose_is_carried_as_active_substance() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":10}]}""").Flagged("batch_unknown")
        .Posted("MATERIAL_USED NOBATCH:kmbs > USED:BULK:A:V1 10000 Milligrams")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "10000", "10000", "166.666667")
        .Carries(Bulk("A", "V1"), "so2", "0", "5762.917714", "5762.917714", "96.048629");

    [Fact]
    public void Law_7_racking_takes_it_along_lees_take_their_share_and_nothing_is_lost() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"tartaric-acid","grams":60}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"A","vessel":"V1","litres":60}],"targets":[{"vessel":"V3","litres":59}],"losses":[{"kind":"lees","litres":1}]}""")
        .Carries(Bulk("A", "V3"), "tartaric-acid", "0", "59000", "59000", "1000")
        .Carries(Bulk("A", "V1"), "tartaric-acid", "0", "0", "0", "0");

    [Fact]
    public void Law_7_an_odd_nanogram_goes_to_the_target_first() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"ascorbic-acid","grams":0.001}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"A","vessel":"V1","litres":20}],"targets":[{"vessel":"V3","litres":20}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"A","vessel":"V1","litres":20}],"targets":[{"vessel":"V3","litres":20}]}""")
        // A third of a milligram, then half of the 666 667 ng that were left: the target takes the odd one.
        .Carries(Bulk("A", "V3"), "ascorbic-acid", "0", "0.666667", "0.666667", "0.016667")
        .Carries(Bulk("A", "V1"), "ascorbic-acid", "0", "0.333333", "0.333333", "0.016667");

    [Fact]
    public void Law_7_a_blend_adds_by_volume_and_keeps_the_highest_that_any_part_had() => Cellar()
        // Worked test 8 of the limits: 600 L at 300 mg/L with 400 L at nil is 180 mg/L, here a tenth of it.
        .Does("""{"kind":"add","lot":"A","items":[{"material":"lysozyme","mgPerLitre":300}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"A"},{"lot":"B"}],"targets":[{"lot":"C","vessel":"V3","litres":100}]}""")
        .Carries(Bulk("C", "V3"), "lysozyme", "0", "18000", "18000", "300");

    [Fact]
    public void Law_7_what_evaporates_leaves_the_dose_behind() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"potassium-sorbate","grams":6}]}""")
        .Does("""{"kind":"lose","as":"evaporation","lot":"A","litres":10}""")
        .Carries(Bulk("A", "V1"), "potassium-sorbate", "0", "6000", "6000", "100")
        .Does("""{"kind":"lose","as":"spill","lot":"A","litres":25}""")
        .Carries(Bulk("A", "V1"), "potassium-sorbate", "0", "3000", "3000", "100");

    [Fact]
    public void Law_7_bottles_take_it_along_and_bring_it_back() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":6}]}""")
        .Does("""{"kind":"bottle","lot":"A","fills":[{"bottling":"A-75","bottles":80,"bottleMl":750}]}""")
        .Carries(Bottled("A-75", Unplaced), "potassium-metabisulphite", "0", "6000", "6000", "100")
        .Does("""{"kind":"remove","as":"sold","bottling":"A-75","bottles":30}""")
        .Carries(Bottled("A-75", Unplaced), "potassium-metabisulphite", "0", "3750", "3750", "100")
        .Does("""{"kind":"return","bottling":"A-75","bottles":10}""")
        .Carries(Bottled("A-75", Unplaced), "potassium-metabisulphite", "0", "4500", "4500", "100");

    [Fact]
    public void Law_7_bottles_sold_before_anything_was_dosed_count_in_what_comes_back() => Cellar()
        .Does("""{"kind":"bottle","lot":"A","fills":[{"bottling":"A-75","bottles":20,"bottleMl":750}]}""")
        .Does("""{"kind":"remove","as":"sold","bottling":"A-75","bottles":20}""")
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":4.5}]}""")
        .Does("""{"kind":"bottle","lot":"A","fills":[{"bottling":"A-75","bottles":20,"bottleMl":750}]}""")
        .Does("""{"kind":"remove","as":"sold","bottling":"A-75","bottles":20}""")
        .Does("""{"kind":"return","bottling":"A-75","bottles":10}""")
        .Carries(Bottled("A-75", Unplaced), "potassium-metabisulphite", "0", "375", "375", "100");

    [Fact]
    public void Law_7_wine_lost_before_the_dose_brings_none_of_it_back() => Cellar()
        .Does("""{"kind":"lose","as":"spill","lot":"A","litres":10}""")
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":5}]}""")
        .Does("""{"kind":"lose","as":"spill","lot":"A","litres":5}""")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "4500", "4500", "100")
        .Does("""{"kind":"close","day":"2026-03-31","through":"2026-03-31"}""")
        .Does("""{"kind":"correct","day":"2026-04-02","takesBack":6,"reason":"the drain was shut"}""")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "4500", "4500", "100");

    [Fact]
    public void Law_7_a_process_shares_what_went_in_by_what_came_out_and_contraction_takes_none() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":6}]}""")
        .Does("""{"kind":"sweeten","sources":[{"lot":"A"}],"sweetenerLitres":2,"targets":[{"lot":"A","vessel":"V1","litres":30},{"lot":"S","vessel":"V3","litres":31}]}""")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "2950.819672", "2950.819672", "100")
        .Carries(Bulk("S", "V3"), "potassium-metabisulphite", "0", "3049.180328", "3049.180328", "100");

    [Fact]
    public void Law_7_a_take_back_brings_back_what_went() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":6}]}""")
        .Does("""{"kind":"add","lot":"B","items":[{"material":"kmbs","grams":1}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"A","litres":20}],"targets":[{"lot":"B","vessel":"V2","litres":20}]}""")
        .Does("""{"kind":"close","day":"2026-03-31","through":"2026-03-31"}""")
        .Carries(Bulk("B", "V2"), "potassium-metabisulphite", "0", "3000", "3000", "100")
        .Does("""{"kind":"correct","day":"2026-04-02","takesBack":8,"reason":"it was another tank"}""")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "6000", "6000", "100")
        .Carries(Bulk("B", "V2"), "potassium-metabisulphite", "0", "1000", "1000", "100");

    [Fact]
    public void A_corrected_dose_is_the_right_one_and_one_taken_back_is_none() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":60}]}""")
        .Does("""{"kind":"correct","takesBack":6,"reason":"grams, not tens of them","write":{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":6}]}}""")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "6000", "6000", "100")
        .Does("""{"kind":"close","day":"2026-03-31","through":"2026-03-31"}""")
        .Does("""{"kind":"correct","day":"2026-04-02","takesBack":7,"reason":"not done at all"}""")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "0", "0", "0");

    private static Check Moved() => Cellar()
        .Does("""{"kind":"deliver","items":[{"material":"kmbs","delivery":"D1","grams":100}]}""")
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":12}]}""")
        .Does("""{"kind":"add","lot":"B","items":[{"material":"kmbs","grams":2}]}""")
        .Does("""{"kind":"close","day":"2026-03-31","through":"2026-03-31"}""")
        .On("2026-04-05")
        .Does("""{"kind":"transfer","sources":[{"lot":"A","litres":30}],"targets":[{"lot":"B","vessel":"V2","litres":30}]}""")
        .Does("""{"kind":"bottle","lot":"B","fills":[{"bottling":"B-75","bottles":56,"bottleMl":750}]}""")
        .Does("""{"kind":"remove","as":"sold","bottling":"B-75","bottles":14}""");

    [Fact]
    public void Law_7_a_dose_taken_back_late_is_taken_out_wherever_the_wine_carried_it()
    {
        // 12 g in A: 6 g stayed, 6 g went into B's 70 L, of which 42 L were bottled and a quarter of those sold. With 2 g of its own B had 8.
        var check = Moved().Carries(Bulk("B", "V2"), "potassium-metabisulphite", "0", "3200", "3200", "200").Carries(Bottled("B-75", Unplaced), "potassium-metabisulphite", "0", "3600", "3600", "200")
            .On("2026-04-10").Does("""{"kind":"correct","takesBack":7,"reason":"it was another tank"}""").Flagged("dose_taken_out")
            .InStore("kmbs", "D1", 98_000)
            .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "0", "0", "0")
            .Carries(Bulk("B", "V2"), "potassium-metabisulphite", "0", "800", "800", "50")
            .Carries(Bottled("B-75", Unplaced), "potassium-metabisulphite", "0", "900", "900", "50")
            .Does("""{"kind":"return","bottling":"B-75","bottles":14}""")
            .Carries(Bottled("B-75", Unplaced), "potassium-metabisulphite", "0", "1200", "1200", "50");
        var said = check.Book.UndosedBy(new(13)).Select(sentence => sentence.ToString()).ToArray();
        Assert.Contains("potassium metabisulphite: taken out where the wine had carried it: 2.7 g in bottles B-75, 6 g in A, V1, 2.4 g in B, V2.", said);
        Assert.Contains(said, sentence => sentence.StartsWith("potassium metabisulphite: 0.9 g had left the cellar with wine by then.", StringComparison.Ordinal));
        Assert.Empty(check.Book.UndosedBy(new(8)));
        // The delivery's and the bottles' traces know nothing of it any more.
        var trace = check.Book.TraceOf(Account.Stores("kmbs", "D1"))!;
        Assert.Equal(2_000_000_000, trace.InWine.Millionths);
        Assert.Equal(1_200_000_000, Core.Stores.BottleTrace.Of(check.Book, "B-75")!.Sources.Single().About.Millionths);
    }

    [Fact]
    public void Law_7_two_of_them_and_a_late_entry_in_between_leave_nothing_behind() => Moved()
        .On("2026-04-10").Does("""{"kind":"correct","takesBack":7,"reason":"it was another tank"}""")
        .Does("""{"kind":"correct","takesBack":8,"reason":"nor was that"}""")
        .Does("""{"kind":"lose","day":"2026-04-06","as":"spill","lot":"B","litres":1}""")
        .Carries(Bulk("B", "V2"), "so2", "0", "0", "0", "0").Carries(Bottled("B-75", Unplaced), "so2", "0", "0", "0", "0");

    /// <summary>So much lies between the two that the second is worked out from a state in which the first still counted.</summary>
    [Fact]
    public void Law_7_two_taken_back_late_leave_no_high_dose_behind()
    {
        var check = Cellar().Does("""{"kind":"receive","what":"bulkWine","lot":"W","vessel":"V3","litres":90,"abv":12}""")
            .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":1.2}]}""")
            .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":12}]}""");
        var drops = string.Concat(Enumerable.Range(0, 3_000).Select(i => $"E{i},2026-03-{2 + i / 200:00},EVAPORATION,W,,20\n"));
        check.Book.Accept(Csv.Import(check.Book, "event_id,date,category,lot_from,lot_to,volume_ml\n" + drops));
        check.On("2026-03-20").Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":3}]}""");
        var second = check.Book.LastNumber;
        check.Does("""{"kind":"close","day":"2026-03-31","through":"2026-03-31"}""")
            .On("2026-04-10").Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "16200", "16200", "270")
            .Does("""{"kind":"correct","takesBack":8,"reason":"it was another tank"}""")
            .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "4200", "4200", "70")
            .Does($$"""{"kind":"correct","takesBack":{{second}},"reason":"nor was that"}""")
            .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "1200", "1200", "20");
    }

    [Fact]
    public void What_an_analysis_found_stays_found_when_an_addition_before_it_is_taken_back() => Moved()
        .Does("""{"kind":"measure","lot":"B","totalSo2MgPerLitre":61}""")
        .On("2026-04-10").Does("""{"kind":"correct","takesBack":7,"reason":"it was another tank"}""")
        .Carries(Bulk("B", "V2"), "so2", "0", "461.033417", "1708", "28.814589", Analysed.All);

    [Fact]
    public void What_a_packet_left_open_is_closed_when_it_is_taken_back_late()
    {
        var check = Cellar().Does("""{"kind":"add","lot":"A","items":[{"material":"kit-stabiliser-sachet","pieces":1}]}""").Does("""{"kind":"close","day":"2026-03-31","through":"2026-03-31"}""")
            .On("2026-04-05").Does("""{"kind":"transfer","sources":[{"lot":"A","litres":5}],"targets":[{"lot":"B","vessel":"V2","litres":5}]}""")
            .Does("""{"kind":"correct","takesBack":6,"reason":"it lies in the drawer"}""");
        Assert.Null(check.Book.Now.At(Bulk("B", "V2")).Carried?.Of(Core.Limits.Substances.Find("sorbic-acid")!));
    }

    [Fact]
    public void An_analysis_stands_for_all_additions_before_it_and_later_ones_come_on_top() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"sulphite-solution-5","millilitres":60}]}""")
        .Carries(Bulk("A", "V1"), "so2", "0", "3000", "3000", "50")
        .Does("""{"kind":"measure","lot":"A","totalSo2MgPerLitre":42}""")
        .Carries(Bulk("A", "V1"), "so2", "0", "3000", "2520", "50", Analysed.All)
        .Does("""{"kind":"add","lot":"A","items":[{"material":"sulphite-solution-5","millilitres":12}]}""")
        .Carries(Bulk("A", "V1"), "so2", "0", "3600", "3120", "60", Analysed.All)
        // With wine that nobody analysed, only a part of the blend is.
        .Does("""{"kind":"transfer","sources":[{"lot":"B","litres":20}],"targets":[{"lot":"A","vessel":"V1","litres":20}]}""")
        .Carries(Bulk("A", "V1"), "so2", "0", "3600", "3120", "60", Analysed.Part)
        .Does("""{"kind":"measure","lot":"A","totalSo2MgPerLitre":40}""")
        .Carries(Bulk("A", "V1"), "so2", "0", "3600", "3200", "60", Analysed.All);

    [Fact]
    public void Must_and_wine_are_told_apart_and_shrinkage_takes_none() => new Check().On("2026-03-01").Vessel("V1", "30")
        .Does("""{"kind":"receive","what":"must","lot":"M","vessel":"V1","litres":23}""")
        .Does("""{"kind":"add","lot":"M","items":[{"material":"tartaric-acid","grams":23}]}""")
        .Does("""{"kind":"declareWine","lot":"M","litres":22.5,"abv":12,"losses":[]}""")
        .Carries(Bulk("M", "V1"), "acidification-tartaric", "23000", "0", "23000", "1000")
        .Does("""{"kind":"add","lot":"M","items":[{"material":"tartaric-acid","grams":9}]}""")
        .Carries(Bulk("M", "V1"), "acidification-tartaric", "23000", "9000", "32000", "1422.222222");

    [Fact]
    public void What_the_packet_does_not_state_is_carried_as_unstated()
    {
        var check = Cellar().Does("""{"kind":"add","lot":"A","items":[{"material":"kit-stabiliser-sachet","pieces":1}]}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"A","litres":5}],"targets":[{"lot":"B","vessel":"V2","litres":5}]}""");
        Assert.True(check.Book.Now.At(Bulk("B", "V2")).Carried!.Of(Core.Limits.Substances.Find("sorbic-acid")!)!.HasUnstated);
        check.Does("""{"kind":"measure","lot":"B","totalSo2MgPerLitre":30}""");
        Assert.False(check.Book.Now.At(Bulk("B", "V2")).Carried!.Of(Core.Limits.Substances.Find("so2")!)!.HasUnstated);
    }

    [Fact]
    public void Colour_and_the_days_it_became_wine_stay_with_it()
    {
        var check = new Check().On("2026-03-01").Vessel("V1", "30").Vessel("V2", "30").Vessel("V3", "30")
            .Does("""{"kind":"receive","what":"must","lot":"M","vessel":"V1","litres":20,"colour":"red"}""")
            .Does("""{"kind":"receive","what":"must","lot":"N","vessel":"V2","litres":20,"colour":"white"}""")
            .On("2026-03-20").Does("""{"kind":"declareWine","lot":"M","litres":20,"abv":12}""")
            .On("2026-03-25").Does("""{"kind":"declareWine","lot":"N","litres":20,"abv":12}""");
        Assert.Equal("red", check.Book.Now.At(Bulk("M", "V1")).Notes.Colour);
        Assert.Equal(new ProducedDays(new(2026, 3, 20), new(2026, 3, 20)), check.Book.Now.At(Bulk("M", "V1")).Produced);
        check.Does("""{"kind":"transfer","sources":[{"lot":"M","litres":5},{"lot":"N","litres":5}],"targets":[{"lot":"C","vessel":"V3","litres":10}]}""");
        Assert.Null(check.Book.Now.At(Bulk("C", "V3")).Notes.Colour);
        Assert.Equal(new ProducedDays(new(2026, 3, 20), new(2026, 3, 25)), check.Book.Now.At(Bulk("C", "V3")).Produced);
        check.Does("""{"kind":"receive","what":"bulkWine","lot":"C","vessel":"V3","litres":5,"abv":12}""");
        Assert.False(check.Book.Now.At(Bulk("C", "V3")).Produced.IsKnown);
    }
}
