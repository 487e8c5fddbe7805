using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>Law 4: entries are never changed or removed; a correction takes one back whole and may write others instead.</summary>
public class CorrectionTests
{
    /// <summary>Entries 1–2 make the vessels, 3 receives 23 L on 1 March, 4 racks 22 L on 10 March.</summary>
    private static Check Racked() => new Check().Vessel("V1", "30").Vessel("V2", "25")
        .On("2026-03-01").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""")
        .On("2026-03-10").Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":22.5}],"targets":[{"lot":"L1","vessel":"V2","litres":22}],"losses":[{"kind":"lees","litres":0.5}]}""");

    [Fact]
    public void Law_4_a_correction_stands_in_the_place_of_the_original() => Racked()
        .On("2026-03-20").Does("""{"kind":"correct","takesBack":3,"reason":"misread the slip","write":{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":24}}""")
        .Held("2026-03-01", "L1", "V1", "24").Holds("L1", "V1", "1.5").Holds("L1", "V2", "22")
        .States("2026-03-01", "2026-03-31", Section.Must, "", "MUST_RECEIVED", Direction.In, "24");

    [Fact]
    public void Law_4_the_original_stays_visible_and_both_are_linked()
    {
        var check = Racked().On("2026-03-20").Does("""{"kind":"correct","takesBack":3,"reason":"misread","write":{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":24}}""");
        var (original, correction) = (check.Book.Find(3)!, check.Book.Find(5)!);
        Assert.Equal((5L, 3L, true), (original.TakenBackBy, correction.TakesBack, correction.LeavesOut));
        Assert.Equal("23 L", original.Deeds[0].Postings[0].Volume.ToString());
        Assert.Empty(check.Book.EffectsOf(3));
        Assert.Single(check.Book.EffectsOf(5));
    }

    [Fact]
    public void Law_4_the_rewriting_stands_before_what_came_later_on_the_same_day() => new Check().Vessel("V1", "30").Vessel("V2", "30").On("2026-03-01")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":20}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":20}],"targets":[{"lot":"L1","vessel":"V2","litres":20}]}""")
        .Does("""{"kind":"correct","takesBack":3,"reason":"21 it was","write":{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":21}}""")
        .Holds("L1", "V1", "1").Holds("L1", "V2", "20");

    [Fact]
    public void Law_4_a_rewriting_on_another_day_stands_on_that_day() => Racked()
        .On("2026-03-20").Does("""{"kind":"correct","takesBack":3,"reason":"it came on the 5th","write":{"kind":"receive","day":"2026-03-05","what":"must","lot":"L1","vessel":"V1","litres":23}}""")
        .Held("2026-03-04", "L1", "V1", "0").Held("2026-03-05", "L1", "V1", "23").Holds("L1", "V2", "22");

    [Fact]
    public void Law_4_what_a_correction_writes_on_one_day_keeps_its_order_before_what_came_later() => new Check().Vessel("V1", "30").Vessel("V2", "30").Vessel("V3", "30").On("2026-03-01")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V2","litres":20}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V2","litres":20}],"targets":[{"lot":"L1","vessel":"V3","litres":20}]}""")
        .Does("""{"kind":"correct","takesBack":4,"reason":"it came in V1 first","write":[{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":20},{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":20}],"targets":[{"lot":"L1","vessel":"V2","litres":20}]}]}""")
        .Holds("L1", "V1", "0").Holds("L1", "V3", "20");

    [Fact]
    public void Law_4_a_correction_may_write_several_operations() => Racked()
        .On("2026-03-20").Does("""
            {"kind":"correct","takesBack":4,"reason":"it was two rackings","write":[
              {"kind":"transfer","day":"2026-03-10","sources":[{"lot":"L1","vessel":"V1","litres":10}],"targets":[{"lot":"L1","vessel":"V2","litres":10}]},
              {"kind":"transfer","day":"2026-03-12","sources":[{"lot":"L1","vessel":"V1","litres":13}],"targets":[{"lot":"L1","vessel":"V2","litres":12.6}],"losses":[{"kind":"lees","litres":0.4}]}]}
            """)
        .Held("2026-03-11", "L1", "V2", "10").Holds("L1", "V2", "22.6").Holds("L1", "V1", "0");

    [Fact]
    public void Law_4_what_later_entries_need_is_refused_with_their_list() => Racked()
        .On("2026-03-20").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","takesBack":3,"reason":"never came"}""", "takesBack", 4)
        .Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","takesBack":3,"reason":"less","write":{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":20}}""", null, 4)
        .Holds("L1", "V1", "0.5");

    [Fact]
    public void Law_4_an_operation_that_needs_what_it_takes_back_is_refused_at_its_own_field() => Racked()
        .On("2026-03-20").Refuses(RefusalCode.MoreThanIsThere, """{"kind":"correct","takesBack":4,"reason":"more","write":{"kind":"transfer","day":"2026-03-10","sources":[{"lot":"L1","vessel":"V1","litres":23.5}],"targets":[{"lot":"L1","vessel":"V2","litres":23.5}]}}""");

    [Fact]
    public void Law_4_taking_back_restores_the_cellar()
    {
        var check = new Check().Vessel("V1", "30").On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":10,"abv":12}""");
        var before = CellarPicture.Of(check.Book);
        check.On("2026-03-02").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":10,"abv":16}""").Stands("L1", "V1", "14");
        check.On("2026-03-03").Does("""{"kind":"correct","takesBack":3,"reason":"another house's wine"}""").Stands("L1", "V1", "12");
        Assert.Equal(before, CellarPicture.Of(check.Book));
    }

    [Fact]
    public void Law_4_taking_back_a_correction_takes_back_what_it_wrote() => Racked()
        .On("2026-03-20").Does("""{"kind":"correct","takesBack":4,"reason":"less lees","write":{"kind":"transfer","day":"2026-03-10","sources":[{"lot":"L1","vessel":"V1","litres":22.5}],"targets":[{"lot":"L1","vessel":"V2","litres":22.4}],"losses":[{"kind":"lees","litres":0.1}]}}""")
        .Holds("L1", "V2", "22.4")
        .Does("""{"kind":"correct","takesBack":5,"reason":"never racked at all"}""")
        .Holds("L1", "V1", "23").Holds("L1", "V2", "0");

    [Fact]
    public void Law_4_a_correction_of_a_correction_stands_in_its_place() => Racked()
        .On("2026-03-20").Does("""{"kind":"correct","takesBack":3,"reason":"24","write":{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":24}}""")
        .Does("""{"kind":"correct","takesBack":5,"reason":"25 after all","write":{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":25}}""")
        .Held("2026-03-01", "L1", "V1", "25").Holds("L1", "V1", "2.5");

    [Fact]
    public void Law_4_a_correction_that_wrote_nothing_is_not_taken_back() => Racked()
        .On("2026-03-20").Does("""{"kind":"correct","takesBack":4,"reason":"never racked"}""")
        .Refuses(RefusalCode.CantBeTakenBack, """{"kind":"correct","takesBack":5,"reason":"it was racked"}""", "takesBack");

    [Fact]
    public void Law_4_what_was_taken_back_is_not_taken_back_again() => Racked()
        .On("2026-03-20").Does("""{"kind":"correct","takesBack":4,"reason":"never racked"}""")
        .Refuses(RefusalCode.AlreadyTakenBack, """{"kind":"correct","takesBack":4,"reason":"again"}""", "takesBack", 5);

    [Fact]
    public void Law_4_entries_about_the_book_itself_are_changed_by_further_entries() => Racked()
        .Refuses(RefusalCode.CantBeTakenBack, """{"kind":"correct","takesBack":1,"reason":"no such vessel"}""", "takesBack")
        .Refuses(RefusalCode.UnknownEntry, """{"kind":"correct","takesBack":99,"reason":"?"}""", "takesBack")
        .Refuses(RefusalCode.Missing, """{"kind":"correct","takesBack":3}""", "reason")
        .Refuses(RefusalCode.Missing, """{"kind":"correct","reason":"which?"}""", "takesBack")
        .Refuses(RefusalCode.UnknownKind, """{"kind":"correct","takesBack":3,"reason":"x","write":{"kind":"vessel","code":"V9"}}""", "write[0].kind");

    [Fact]
    public void Law_4_an_imported_event_is_taken_back_by_postings_of_its_own_day() => new Check().Vessel("V1", "30")
        .Imports("event_id,date,category,lot_to,vessel_to,volume_ml,abv_pct\nE1,2026-03-01,RECEIVED_BULK,L1,V1,20000,12.5\nE2,2026-03-02,RECEIVED_BULK,L1,V1,2000,12.5\n")
        .On("2026-04-05").Does("""{"kind":"correct","takesBack":"E2","reason":"not ours","write":{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":1,"abv":12.5}}""")
        .Posted("RECEIVED_BULK BULK:L1:V1 > EXT:BONDED 2 L", "RECEIVED_BULK EXT:BONDED > BULK:L1:V1 1 L")
        .Held("2026-03-31", "L1", "V1", "22").Holds("L1", "V1", "21")
        .States("2026-04-01", "2026-04-30", Section.Bulk, "A16", "RECEIVED_BULK", Direction.In, "-1");

    [Fact]
    public void Law_4_stock_brought_forward_on_a_wrong_day_is_moved_to_another() => new Check().Vessel("V1", "30")
        .On("2026-01-01").Does("""{"kind":"open","stocks":[{"what":"wine","lot":"L1","vessel":"V1","litres":20,"abv":12}]}""")
        .On("2026-02-01").Does("""{"kind":"correct","takesBack":2,"reason":"the book begins in February","write":{"kind":"open","stocks":[{"what":"wine","lot":"L1","vessel":"V1","litres":20,"abv":12}]}}""")
        .Held("2026-01-31", "L1", "V1", "0").Holds("L1", "V1", "20")
        .On("2026-02-02").Does("""{"kind":"correct","takesBack":3,"reason":"or with January","write":{"kind":"open","day":"2026-01-05","stocks":[{"what":"wine","lot":"L1","vessel":"V1","litres":20,"abv":12}]}}""")
        .Held("2026-01-05", "L1", "V1", "20");

    [Fact]
    public void Law_4_what_was_read_and_added_later_needs_its_wine() => new Check().Vessel("V1", "30").Vessel("V2", "30")
        .On("2026-03-01").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":20}""")
        .On("2026-03-02").Does("""{"kind":"add","lot":"L1","vessel":"V1","items":[{"material":"nutrient","grams":8}]}""")
        .On("2026-03-05").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","takesBack":3,"reason":"it was V2","write":{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V2","litres":20}}""", null, 4)
        .Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","takesBack":3,"reason":"never came"}""", null, 4);

    [Fact]
    public void Law_4_bottles_that_came_back_need_their_bottling() => new Check().Vessel("V1", "30")
        .On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":20,"abv":12}""")
        .On("2026-03-02").Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B1","bottles":10,"bottleMl":750}]}""")
        .On("2026-03-04").Does("""{"kind":"return","bottling":"B1","bottles":2}""")
        .On("2026-03-05").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","takesBack":3,"reason":"never bottled"}""", "takesBack", 4);

    [Fact]
    public void Law_4_a_racking_within_a_blend_goes_back_whole_from_a_closed_period() => new Check().Vessel("V1", "30").Vessel("V2", "30")
        .On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":10,"abv":12}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"V2","litres":10,"abv":18}""")
        // Part of L2 goes into the blend, which is made in L2's own vessel.
        .Does("""{"kind":"transfer","sources":[{"lot":"L1","litres":5},{"lot":"L2","litres":4}],"targets":[{"lot":"L2","vessel":"V2","litres":8}],"losses":[{"kind":"filter","litres":1}]}""")
        .On("2026-04-01").Does("""{"kind":"close","through":"2026-03-31"}""")
        .Does("""{"kind":"correct","takesBack":5,"reason":"never blended"}""")
        .Holds("L1", "V1", "10").Stands("L1", "V1", "12").Holds("L2", "V2", "10").Stands("L2", "V2", "18");
}
