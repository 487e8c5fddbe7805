using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>Law 4, last sentence: a gauge, count or declaration whose ground has moved is flagged, with a ready correction.</summary>
public class MeasurementTests
{
    private static Check Cellar() => new Check().Vessel("V1", "40").Vessel("V2", "40")
        .On("2026-03-01").Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":23,"abv":12}""");

    /// <summary>Does a late entry that moves the ground, sees the flag, applies the ready correction, sees it gone.</summary>
    private static void Moves(Check check, long measuring, string late)
    {
        check.NoLongerAgree().Does(late).Flagged("no_longer_agrees").NoLongerAgree(measuring);
        check.Does(OperationJson.Write(check.Book.ReadyCorrection(measuring, new(2026, 6, 1))!)).NoLongerAgree();
    }

    [Fact]
    public void Law_4_a_gauge_that_no_longer_agrees_is_flagged_and_corrected()
    {
        var check = Cellar().On("2026-03-20").Does("""{"kind":"gauge","vessel":"V1","litres":22.5}""").Posted("GAUGE_LOSS BULK:L1:V1 > ADJ:GAUGE 0.5 L").On("2026-03-10");
        Moves(check, 4, """{"kind":"remove","as":"ownUse","lot":"L1","litres":0.3}""");
        check.Posted("GAUGE_LOSS BULK:L1:V1 > ADJ:GAUGE 0.2 L").Holds("L1", "V1", "22.5");
    }

    [Fact]
    public void Law_4_a_gauge_that_moved_nothing_is_flagged_when_the_vessel_was_empty_by_then()
    {
        var check = Cellar().On("2026-03-20").Does("""{"kind":"gauge","vessel":"V1","litres":23}""").Flagged("agrees")
            .On("2026-03-10").Does("""{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"V2","litres":23}]}""");
        check.Flagged("no_longer_agrees").NoLongerAgree(4);
    }

    [Fact]
    public void Law_4_a_gauge_that_moved_nothing_is_flagged_when_the_vessel_never_held_anything() => Cellar()
        .On("2026-03-20").Does("""{"kind":"gauge","vessel":"V1","litres":23}""")
        .Does("""{"kind":"correct","takesBack":3,"reason":"it was the other one","write":{"kind":"receive","day":"2026-03-01","what":"bulkWine","lot":"L1","vessel":"V2","litres":23,"abv":12}}""")
        .Flagged("no_longer_agrees").NoLongerAgree(4);

    [Fact]
    public void Law_4_a_vessel_gauged_empty_is_flagged_when_something_was_left()
    {
        var check = Cellar().On("2026-03-20").Does("""{"kind":"gauge","vessel":"V1","litres":0,"as":"lees"}""").Posted("LEES_REMOVED BULK:L1:V1 > BYPRODUCT:LEES 23 L").On("2026-03-10");
        Moves(check, 4, """{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":1,"abv":12}""");
        check.Posted("LEES_REMOVED BULK:L1:V1 > BYPRODUCT:LEES 24 L");
    }

    [Theory]
    [InlineData("""{"lot":"L1","litres":22.8}""")]
    [InlineData("""{"vessel":"V1","litres":22.8}""")]
    [InlineData("""{"lot":"L1","vessel":"V1","litres":22.8}""")]
    public void Law_4_a_count_that_no_longer_agrees_is_flagged_and_corrected(string line)
    {
        var check = Cellar().On("2026-03-20").Does($$"""{"kind":"count","document":"sheet 1","lines":[{{line}}]}""").On("2026-03-10");
        Moves(check, 4, """{"kind":"remove","as":"ownUse","lot":"L1","litres":0.1}""");
        check.Posted("INVENTORY_LOSS_BULK BULK:L1:V1 > ADJ:INVENTORY 0.1 L");
    }

    [Theory]
    [InlineData("""{"bottling":"B1","shelf":"A","bottles":19}""")]
    [InlineData("""{"bottling":"B1","bottles":19}""")]
    public void Law_4_a_count_of_bottles_that_no_longer_agrees_is_flagged_and_corrected(string line)
    {
        var check = Cellar().On("2026-03-05").Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B1","bottles":20,"bottleMl":750,"shelf":"OLD"}]}""")
            .Does("""{"kind":"shelve","bottling":"B1","toShelf":"A"}""")
            .On("2026-03-20").Does($$"""{"kind":"count","document":"sheet 1","lines":[{{line}}]}""").Posted("SHORTAGE BOTTLED:B1:A > ADJ:INVENTORY 1 bottles").On("2026-03-10");
        Moves(check, 6, """{"kind":"remove","as":"gift","bottling":"B1","bottles":1}""");
        check.Posted().Shelf("B1", 19, "A");
    }

    [Fact]
    public void Law_4_a_declaration_that_no_longer_agrees_is_flagged_and_corrected()
    {
        var check = new Check()
            .On("2026-03-01").Does("""{"kind":"receive","what":"must","lot":"L1","litres":23}""")
            .On("2026-03-20").Does("""{"kind":"declareWine","lot":"L1","litres":22,"abv":12}""").Posted("PRODUCED MUST:L1:unplaced > BULK:L1:unplaced 22 L", "FERMENT_VOLUME_CHANGE MUST:L1:unplaced > LOSS:FERMENT 1 L")
            .On("2026-03-10");
        Moves(check, 2, """{"kind":"receive","what":"must","lot":"L1","litres":0.5}""");
        check.Posted("PRODUCED MUST:L1:unplaced > BULK:L1:unplaced 22 L", "FERMENT_VOLUME_CHANGE MUST:L1:unplaced > LOSS:FERMENT 1.5 L");
    }

    [Fact]
    public void Law_4_a_declaration_in_a_vessel_stands_in_the_way_of_late_must() => new Check().Vessel("V1", "40")
        .On("2026-03-01").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""")
        .On("2026-03-20").Does("""{"kind":"declareWine","lot":"L1","vessel":"V1","litres":22,"abv":12}""")
        .On("2026-03-10").Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":1}""", "day", 3)
        .Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"remove","as":"sample","lot":"L1","litres":0.2}""", "day", 3);

    [Fact]
    public void Law_4_a_declaration_inside_a_racking_is_flagged_when_must_is_left_behind()
    {
        var check = new Check().Vessel("V1", "40").Vessel("V2", "40")
            .On("2026-03-01").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""")
            .On("2026-03-20").Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1"}],"targets":[{"lot":"L1","vessel":"V2","litres":22.4}],"losses":[{"kind":"lees","litres":0.4}],"declare":{"abv":12}}""")
            .On("2026-03-10");
        Moves(check, 4, """{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":1}""");
        check.Holds("L1", "V1", "0");
    }

    [Fact]
    public void Law_4_a_mark_reached_in_making_up_is_flagged_and_corrected()
    {
        var check = new Check().Vessel("V1", "40")
            .On("2026-03-01").Does("""{"kind":"receive","what":"concentrate","lot":"K1","vessel":"V1","litres":6}""")
            .On("2026-03-02").Does("""{"kind":"makeUp","lot":"K1","vessel":"V1","markLitres":23}""").Posted("WATER_ADDED_MUST MAT:WATER > MUST:K1:V1 17 L")
            .On("2026-03-01");
        Moves(check, 3, """{"kind":"receive","what":"concentrate","lot":"K1","vessel":"V1","litres":1}""");
        check.Posted("WATER_ADDED_MUST MAT:WATER > MUST:K1:V1 16 L").Holds("K1", "V1", "23");
    }

    [Fact]
    public void Law_4_a_vessel_bottled_empty_is_flagged_when_more_was_in_it()
    {
        var check = Cellar().On("2026-03-20").Does("""{"kind":"bottle","lot":"L1","empties":true,"fills":[{"bottling":"B1","bottles":30,"bottleMl":750}]}""")
            .Posted("BOTTLED BULK:L1:V1 > BOTTLED:B1:unplaced 30 bottles", "BOTTLING_LOSS BULK:L1:V1 > LOSS:BOTTLING 0.5 L").On("2026-03-10");
        Moves(check, 4, """{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":0.25,"abv":12}""");
        check.Posted("BOTTLED BULK:L1:V1 > BOTTLED:B1:unplaced 30 bottles", "BOTTLING_LOSS BULK:L1:V1 > LOSS:BOTTLING 0.75 L");
    }

    [Fact]
    public void Law_4_when_more_comes_out_than_the_book_holds_a_gauge_before_it_helps() => Cellar()
        .On("2026-03-20").Refuses(RefusalCode.MoreThanIsThere, """{"kind":"transfer","sources":[{"lot":"L1","litres":23.2}],"targets":[{"vessel":"V2","litres":23.2}]}""")
        .Does("""{"kind":"gauge","vessel":"V1","litres":23.2}""").Posted("GAUGE_GAIN ADJ:GAUGE > BULK:L1:V1 0.2 L")
        .Does("""{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"V2","litres":23.2}]}""").Holds("L1", "V2", "23.2").Stands("L1", "V2", "12");
}
