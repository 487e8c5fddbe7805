using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>Laws 2 and 4: what is entered late goes to its place of book order, and everything after it still holds.</summary>
public class LateEntryTests
{
    private static Check Cellar() => new Check().Vessel("V1", "30").Vessel("V2", "30")
        .On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":20,"abv":12}""")
        .On("2026-03-20").Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":15}],"targets":[{"lot":"L1","vessel":"V2","litres":15}]}""");

    [Fact]
    public void Law_2_a_late_entry_takes_what_was_there_on_its_day() => Cellar()
        .On("2026-03-10").Does("""{"kind":"remove","as":"ownUse","lot":"L1","vessel":"V1","litres":5}""")
        .Held("2026-03-09", "L1", "V1", "20").Held("2026-03-10", "L1", "V1", "15").Holds("L1", "V1", "0");

    [Fact]
    public void Law_2_a_late_entry_that_leaves_later_ones_too_little_is_refused_with_their_list() => Cellar()
        .On("2026-03-10").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"remove","as":"ownUse","lot":"L1","vessel":"V1","litres":6}""", "day", 4);

    [Fact]
    public void Law_2_a_late_entry_that_fills_a_vessel_over_the_brim_later_on_is_refused() => Cellar()
        .On("2026-03-21").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V2","litres":14,"abv":12}""")
        .On("2026-03-20").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V2","litres":2,"abv":12}""", null, 5);

    [Fact]
    public void Law_3_a_late_entry_that_puts_another_lot_where_one_comes_later_is_refused() => Cellar()
        .On("2026-03-15").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"receive","what":"bulkWine","lot":"OTHER","vessel":"V2","litres":5,"abv":12}""", null, 4);

    [Fact]
    public void A_late_entry_mixes_into_all_that_came_after() => Cellar().Stands("L1", "V2", "12")
        .On("2026-03-05").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":5,"abv":17}""")
        .Stands("L1", "V1", "13").Stands("L1", "V2", "13")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "B21", "RECEIVED_BULK", Direction.In, "5");

    [Fact]
    public void Within_a_day_one_with_a_time_goes_before_the_first_with_a_later_time() => new Check().Vessel("V1", "30").On("2026-03-01")
        .Does("""{"kind":"receive","time":"08:00","what":"bulkWine","lot":"L1","vessel":"V1","litres":20,"abv":12}""")
        .Does("""{"kind":"remove","time":"16:00","as":"sold","lot":"L1","vessel":"V1","litres":25}""".Replace("25", "20", StringComparison.Ordinal))
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"remove","as":"tasting","lot":"L1","vessel":"V1","litres":1}""")
        .Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"remove","time":"12:00","as":"tasting","lot":"L1","vessel":"V1","litres":1}""", "day", 3)
        .Does("""{"kind":"receive","time":"12:00","what":"bulkWine","lot":"L1","vessel":"V1","litres":5,"abv":12}""")
        .Does("""{"kind":"remove","time":"15:59:30","as":"tasting","lot":"L1","vessel":"V1","litres":1}""")
        .Holds("L1", "V1", "4");

    [Fact]
    public void A_bottling_keeps_one_size_whatever_is_entered_late() => Cellar()
        .On("2026-03-25").Does("""{"kind":"bottle","lot":"L1","vessel":"V2","fills":[{"bottling":"B1","bottles":10,"bottleMl":750}]}""")
        .On("2026-03-22").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"bottle","lot":"L1","vessel":"V2","fills":[{"bottling":"B1","bottles":2,"bottleMl":375}]}""", null, 5)
        .Does("""{"kind":"bottle","lot":"L1","vessel":"V2","fills":[{"bottling":"B1","bottles":2,"bottleMl":750}]}""").Shelf("B1", 12);

    [Fact]
    public void Law_6_a_late_entry_in_an_earlier_month_moves_every_later_opening() => Cellar()
        .States("2026-04-01", "2026-04-30", Section.Bulk, "A16", "", Direction.Opening, "20")
        .On("2026-03-10").Does("""{"kind":"remove","as":"ownUse","lot":"L1","vessel":"V1","litres":5}""")
        .States("2026-04-01", "2026-04-30", Section.Bulk, "A16", "", Direction.Opening, "15");

    /// <summary>A re-gauge across a class says of all that lies there how strong it is, whatever is entered late before it.</summary>
    [Theory]
    [InlineData("""{"kind":"remove","as":"sample","lot":"L1","vessel":"V1","litres":1}""", "4", "19")]
    [InlineData("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":1,"abv":12}""", "6", "21")]
    public void Law_6_a_late_entry_before_a_regauge_leaves_no_wine_in_the_old_class(string late, string left, string changed)
    {
        var check = Cellar().On("2026-03-15").Does("""{"kind":"regauge","lot":"L1","vessel":"V1","abv":16.5}""").On("2026-03-10").Does(late).Flagged("no_longer_agrees").NoLongerAgree(5);
        check.Holds("L1", "V1", left).Stands("L1", "V1", "16.5").Stands("L1", "V2", "16.5").States("2026-03-01", "2026-03-31", Section.Bulk, "A16", "", Direction.Closing, "0");
        check.Does(Core.Operations.OperationJson.Write(check.Book.ReadyCorrection(5, new(2026, 3, 21))!)).NoLongerAgree()
            .States("2026-03-01", "2026-03-31", Section.Bulk, "A16", "CLASS_CHANGE", Direction.Out, changed).States("2026-03-01", "2026-03-31", Section.Bulk, "A16", "CLASS_CHANGE", Direction.In, "0");
    }

    [Fact]
    public void Law_2_a_move_within_one_place_moves_no_more_than_is_there() => Cellar()
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":6}],"targets":[{"lot":"L1","vessel":"V1","litres":6}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":5}],"targets":[{"lot":"L1","vessel":"V1","litres":5}]}""")
        .On("2026-03-10").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"remove","as":"ownUse","lot":"L1","vessel":"V1","litres":0.5}""", "day", 5);

    [Fact]
    public void Law_2_labels_are_put_on_no_more_bottles_than_there_are() => Cellar()
        .On("2026-03-25").Does("""{"kind":"bottle","lot":"L1","vessel":"V2","fills":[{"bottling":"B1","bottles":10,"bottleMl":750}]}""")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"shelve","bottling":"B1","bottles":11,"labelName":"Hausrot"}""")
        .Does("""{"kind":"shelve","bottling":"B1","bottles":10,"labelName":"Hausrot"}""").Shelf("B1", 10);
}
