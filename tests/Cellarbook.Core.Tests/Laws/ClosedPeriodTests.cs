using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>Law 5: a closed period takes no entries; law 4 within it: a take-back is postings of its own day.</summary>
public class ClosedPeriodTests
{
    /// <summary>Entry 3 is wine of 12 %, entry 4 tops it up with wine of 18 %, entry 5 closes March.</summary>
    private static Check March() => new Check().Vessel("V1", "60").Vessel("V2", "60")
        .On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":20,"abv":12}""")
        .On("2026-03-10").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":10,"abv":18}""")
        .On("2026-04-02").Does("""{"kind":"close","through":"2026-03-31"}""");

    [Theory]
    [InlineData("""{"kind":"receive","day":"2026-03-31","what":"bulkWine","lot":"L1","vessel":"V1","litres":1}""")]
    [InlineData("""{"kind":"observe","day":"2026-03-15","what":"taste","lot":"L1","finding":"good"}""")]
    [InlineData("""{"kind":"vessel","day":"2026-03-15","code":"V9"}""")]
    [InlineData("""{"kind":"premises","day":"2026-03-15","regimes":["household"]}""")]
    public void Law_5_a_closed_period_takes_no_entries(string json) => March().Refuses(RefusalCode.PeriodClosed, json, "day").Holds("L1", "V1", "30");

    [Fact]
    public void Law_5_the_day_after_is_open() => March().On("2026-04-01").Does("""{"kind":"remove","as":"ownUse","lot":"L1","litres":1}""").Holds("L1", "V1", "29");

    [Fact]
    public void Law_5_a_period_is_closed_when_it_is_over_and_only_once() => March()
        .Refuses(RefusalCode.DayToCome, """{"kind":"close","day":"2026-04-20","through":"2026-04-30"}""", "through")
        .Refuses(RefusalCode.PeriodClosed, """{"kind":"close","through":"2026-03-31"}""", "through")
        .Refuses(RefusalCode.PeriodClosed, """{"kind":"close","through":"2026-02-28"}""", "through");

    [Fact]
    public void Law_5_an_import_into_it_is_refused() => March()
        .RefusesImport(RefusalCode.PeriodClosed, "event_id,date,category,lot_to,vessel_to,volume_ml,abv_pct\nE1,2026-03-31,RECEIVED_BULK,L1,V1,1000,12\n", "date");

    [Fact]
    public void Law_5_no_correction_is_filed_or_written_in_it() => March()
        .On("2026-04-10").Does("""{"kind":"remove","as":"ownUse","lot":"L1","litres":1}""")
        .Refuses(RefusalCode.PeriodClosed, """{"kind":"correct","takesBack":6,"reason":"in March","write":{"kind":"remove","day":"2026-03-30","as":"ownUse","lot":"L1","litres":1}}""", "write[0].day")
        .Refuses(RefusalCode.PeriodClosed, """{"kind":"correct","day":"2026-03-30","takesBack":6,"reason":"in March"}""", "day")
        .Refuses(RefusalCode.PeriodClosed, """{"kind":"correct","day":"2026-03-30","takesBack":4,"reason":"in March"}""", "day");

    [Fact]
    public void Law_4_a_take_back_from_a_closed_period_is_postings_of_its_own_day() => March().Stands("L1", "V1", "14")
        .On("2026-04-10").Does("""{"kind":"correct","takesBack":4,"reason":"not ours"}""")
        .Posted("RECEIVED_BULK BULK:L1:V1 > EXT:BONDED 10 L")
        .Held("2026-04-09", "L1", "V1", "30").Holds("L1", "V1", "20")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "A16", "", Direction.Closing, "30")
        .States("2026-04-01", "2026-04-30", Section.Bulk, "B21", "RECEIVED_BULK", Direction.In, "-10");

    [Theory]
    [InlineData("2026-03-09", true)]
    [InlineData("2026-03-10", false)]
    public void Law_4_what_happened_on_the_last_closed_day_is_taken_back_by_postings(string through, bool leavesOut)
    {
        var check = new Check().Vessel("V1", "60")
            .On("2026-03-10").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":20,"abv":12}""")
            .On("2026-04-01").Does($$"""{"kind":"close","through":"{{through}}"}""").Does("""{"kind":"correct","takesBack":2,"reason":"never came"}""");
        Assert.Equal(leavesOut, check.Last.Entries[0].LeavesOut);
        check.Held("2026-03-10", "L1", "V1", leavesOut ? "0" : "20").Holds("L1", "V1", "0");
    }

    [Fact]
    public void Law_4_a_take_back_gives_each_wine_its_own_standing_again() => March().Stands("L1", "V1", "14")
        .On("2026-04-10").Does("""{"kind":"correct","takesBack":4,"reason":"not ours"}""").Stands("L1", "V1", "12");

    [Fact]
    public void Law_4_a_racking_of_a_closed_period_goes_back_whole() => new Check().Vessel("V1", "60").Vessel("V2", "60")
        .On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":20,"abv":12}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"V2","litres":20,"abv":18}""")
        .On("2026-03-05").Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":20}],"targets":[{"lot":"L2","vessel":"V2","litres":19}],"losses":[{"kind":"lees","litres":1}]}""")
        .On("2026-04-01").Does("""{"kind":"close","through":"2026-03-31"}""")
        .Does("""{"kind":"correct","takesBack":5,"reason":"wrong tank"}""")
        .Posted("LEES_REMOVED BYPRODUCT:LEES > BULK:L1:V1 1 L", "LOT_TRANSFER BULK:L2:V2 > BULK:L1:V1 19 L")
        .Holds("L1", "V1", "20").Stands("L1", "V1", "12").Holds("L2", "V2", "20").Stands("L2", "V2", "18");

    [Fact]
    public void Law_4_a_declaration_and_a_bottling_of_a_closed_period_go_back_as_they_came()
    {
        var check = new Check().Vessel("V1", "60")
            .On("2026-03-01").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""")
            .On("2026-03-20").Does("""{"kind":"declareWine","lot":"L1","litres":22.5,"abv":12}""")
            .On("2026-03-25").Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B1","bottles":28,"bottleMl":750}]}""")
            .On("2026-04-01").Does("""{"kind":"close","through":"2026-03-31"}""")
            .Does("""{"kind":"correct","takesBack":4,"reason":"never bottled"}""").Shelf("B1", 0).Holds("L1", "V1", "22.5").Stands("L1", "V1", "12")
            .Does("""{"kind":"correct","takesBack":3,"reason":"still fermenting"}""").Holds("L1", "V1", "23");
        Assert.Equal("23 L", check.Book.Now.At(Account.Must("L1", "V1")).Volume.ToString());
        Assert.Equal(0, check.Book.Now.Bottling("B1")!.Filled.Bottles);
    }

    [Fact]
    public void Law_4_a_take_back_follows_what_is_entered_late_before_it() => new Check().Vessel("V1", "60").Vessel("V2", "60")
        .On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":20,"abv":12}""")
        .On("2026-03-03").Does("""{"kind":"observe","what":"taste","lot":"L1","finding":"thin"}""")
        // The correction writes on two days; the first is closed later, so that it is taken back by postings.
        .On("2026-03-12").Does("""{"kind":"correct","takesBack":4,"reason":"two things were done","write":[{"kind":"receive","day":"2026-03-02","what":"bulkWine","lot":"L1","vessel":"V1","litres":10,"abv":18},{"kind":"receive","day":"2026-03-10","what":"bulkWine","lot":"L2","vessel":"V2","litres":5,"abv":19}]}""")
        .On("2026-03-13").Does("""{"kind":"close","through":"2026-03-04"}""").Stands("L1", "V1", "14")
        .On("2026-03-20").Does("""{"kind":"correct","takesBack":5,"reason":"nothing of it"}""").Stands("L1", "V1", "12")
        // A late entry between the two days folds only the second anew; the standing comes back all the same.
        .On("2026-03-06").Does("""{"kind":"observe","what":"stirred","lot":"L1"}""").Stands("L1", "V1", "12").Holds("L2", "V2", "0");

    [Fact]
    public void Law_6_stock_brought_forward_and_taken_back_later_leaves_the_opening_as_stated() => new Check().Vessel("V1", "60")
        .On("2026-01-01").Does("""{"kind":"open","stocks":[{"what":"wine","lot":"L1","vessel":"V1","litres":20,"abv":12}]}""")
        .On("2026-02-01").Does("""{"kind":"close","through":"2026-01-31"}""")
        .Does("""{"kind":"correct","takesBack":2,"reason":"it was 19","write":{"kind":"count","document":"sheet 1","lines":[{"lot":"L1","vessel":"V1","litres":19}]}}""").Holds("L1", "V1", "19")
        .States("2026-01-01", "2026-01-31", Section.Bulk, "A16", "", Direction.Opening, "20").States("2026-01-01", "2026-01-31", Section.Bulk, "A16", "", Direction.Closing, "20")
        .States("2026-02-01", "2026-02-28", Section.Bulk, "A16", "", Direction.Opening, "20").States("2026-02-01", "2026-02-28", Section.Bulk, "A16", "", Direction.Closing, "19");

    [Fact]
    public void Law_4_what_went_on_since_is_in_the_way_of_a_take_back() => March()
        .On("2026-04-05").Does("""{"kind":"remove","as":"sold","lot":"L1","litres":25}""")
        .On("2026-04-10").Refuses(RefusalCode.MoreThanIsThere, """{"kind":"correct","takesBack":4,"reason":"not ours"}""")
        .On("2026-04-03").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","takesBack":4,"reason":"not ours"}""", "day", 6);
}
