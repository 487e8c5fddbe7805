using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>Bottling, shelves, bottles that go out and come back.</summary>
public class BottleTests
{
    private static Check Wine() => new Check().Vessel("V1", "60").Vessel("V2", "60").On("2026-03-01")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":50,"abv":15.8}""");

    [Fact]
    public void Count_times_nominal_size_is_filled_and_what_the_line_lost_is_said() => Wine()
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B75","bottles":40,"bottleMl":750,"lotMark":"L26-1"},{"bottling":"B37","bottles":20,"bottleMl":375}],"losses":[{"kind":"bottling","litres":0.35}]}""")
        .Posted("BOTTLED BULK:L1:V1 > BOTTLED:B75:unplaced 40 bottles", "BOTTLED BULK:L1:V1 > BOTTLED:B37:unplaced 20 bottles", "BOTTLING_LOSS BULK:L1:V1 > LOSS:BOTTLING 0.35 L")
        .Holds("L1", "V1", "12.15").BottlesStand("B75", "15.8");

    [Fact]
    public void A_bottling_stated_in_another_class_changes_class_first_in_bulk() => Wine()
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B75","bottles":20,"bottleMl":750,"abv":16.2}]}""")
        .BottlesStand("B75", "16.2").Stands("L1", "V1", "15.8")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "A16", "CLASS_CHANGE", Direction.Out, "15").States("2026-03-01", "2026-03-31", Section.Bulk, "B21", "CLASS_CHANGE", Direction.In, "15")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "B21", "BOTTLED", Direction.Out, "15").States("2026-03-01", "2026-03-31", Section.Bottled, "B21", "BOTTLED", Direction.In, "15");

    [Fact]
    public void Must_is_declared_whole_before_it_is_bottled_less_the_shrinkage() => new Check().Vessel("V1", "60")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""")
        .Refuses(RefusalCode.MustIntoWine, """{"kind":"bottle","lot":"L1","fills":[{"bottling":"B75","bottles":29,"bottleMl":750}]}""", "lot")
        .Does("""{"kind":"bottle","lot":"L1","declare":{"abv":12.5},"fills":[{"bottling":"B75","bottles":29,"bottleMl":750}],"losses":[{"kind":"shrinkage","litres":0.5},{"kind":"bottling","litres":0.75}]}""")
        .Posted("FERMENT_VOLUME_CHANGE MUST:L1:V1 > LOSS:FERMENT 0.5 L", "PRODUCED MUST:L1:V1 > BULK:L1:V1 22.5 L", "BOTTLED BULK:L1:V1 > BOTTLED:B75:unplaced 29 bottles", "BOTTLING_LOSS BULK:L1:V1 > LOSS:BOTTLING 0.75 L")
        .BottlesStand("B75", "12.5").Holds("L1", "V1", "0")
        .Refuses(RefusalCode.UnknownWord, """{"kind":"bottle","lot":"L1","fills":[{"bottling":"B75","bottles":1}],"losses":[{"kind":"shrinkage","litres":0.5}]}""", "losses[0].kind");

    [Fact]
    public void Wine_is_not_declared_again() => Wine()
        .Refuses(RefusalCode.WrongAccount, """{"kind":"bottle","lot":"L1","declare":{"abv":12},"fills":[{"bottling":"B75","bottles":1,"bottleMl":750}]}""", "declare");

    [Fact]
    public void A_bottling_has_one_size() => Wine()
        .Refuses(RefusalCode.Missing, """{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":10}]}""", "fills[0].bottleMl")
        .Refuses(RefusalCode.OtherBottleSize, """{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":10,"bottleMl":750},{"bottling":"B","bottles":10,"bottleMl":375}]}""")
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":10,"bottleMl":750}]}""")
        .Refuses(RefusalCode.OtherBottleSize, """{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":10,"bottleMl":375}]}""", "fills[0].bottleMl")
        .Refuses(RefusalCode.OtherBottleSize, """{"kind":"receive","what":"bottledWine","bottling":"B","bottles":10,"bottleMl":375}""", "bottleMl")
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":10}]}""").Shelf("B", 20)
        .Refuses(RefusalCode.TooLargeNumber, """{"kind":"bottle","lot":"L1","fills":[{"bottling":"KEG","bottles":1,"bottleMl":60001}]}""", "fills[0].bottleMl");

    [Fact]
    public void Bottles_move_between_shelves_and_no_volume_moves() => Wine()
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":30,"bottleMl":750,"shelf":"A"}]}""")
        .Does("""{"kind":"shelve","bottling":"B","shelf":"A","toShelf":"SHOP","bottles":12,"cases":2}""").Shelf("B", 18, "A").Shelf("B", 12, "SHOP").BottlesStand("B", "15.8", shelf: "SHOP")
        .States("2026-03-01", "2026-03-31", Section.Bottled, "A16", "CASED", Direction.In, "0")
        .Refuses(RefusalCode.SeveralPlaces, """{"kind":"remove","as":"sold","bottling":"B","bottles":1}""", "shelf")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"remove","as":"sold","bottling":"B","shelf":"SHOP","bottles":13}""")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"remove","as":"sold","bottling":"B","shelf":"MOON","bottles":1}""", "shelf")
        .Refuses(RefusalCode.BadName, """{"kind":"shelve","bottling":"B","shelf":"A","toShelf":"a:b"}""", "toShelf")
        .Refuses(RefusalCode.BadName, """{"kind":"receive","what":"bottledWine","bottling":"X","shelf":"a:b","bottles":1,"bottleMl":750}""", "shelf")
        .Refuses(RefusalCode.BadName, """{"kind":"return","bottling":"B","shelf":"a:b","bottles":1}""", "shelf");

    [Fact]
    public void Opened_bottles_go_back_to_bulk_and_the_spill_is_a_second_row() => Wine()
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":20,"bottleMl":750}]}""")
        .Does("""{"kind":"unbottle","bottling":"B","bottles":4,"lot":"L1","losses":[{"kind":"spill","litres":0.1}]}""")
        .Posted("UNBOTTLED BOTTLED:B:unplaced > BULK:L1:V1 4 bottles", "SPILLAGE BULK:L1:V1 > LOSS:SPILL 0.1 L").Shelf("B", 16).Holds("L1", "V1", "37.9")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"unbottle","bottling":"B","bottles":17,"lot":"L1"}""")
        .Refuses(RefusalCode.NotPositive, """{"kind":"unbottle","bottling":"B","bottles":0,"lot":"L1"}""", "bottles");

    [Fact]
    public void What_comes_back_from_the_market_keeps_its_strength() => Wine()
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":20,"bottleMl":750,"shelf":"A"}]}""")
        .Does("""{"kind":"remove","as":"sold","lines":[{"bottling":"B","bottles":20}]}""")
        .Does("""{"kind":"return","bottling":"B","bottles":3}""").Posted("RETURNED_TO_BOND OUT:TAXPAID > BOTTLED:B:A 3 bottles").BottlesStand("B", "15.8", shelf: "A")
        .Does("""{"kind":"return","lines":[{"bottling":"B","bottles":2,"shelf":"BACK"}]}""").BottlesStand("B", "15.8", shelf: "BACK")
        .Refuses(RefusalCode.UnknownBottling, """{"kind":"return","bottling":"NONE","bottles":3}""", "bottling");

    [Fact]
    public void Strength_and_kind_are_stated_anew_in_bulk_and_in_bottles() => Wine()
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":20,"bottleMl":750}]}""")
        .Does("""{"kind":"regauge","bottling":"B","abv":16.1}""").BottlesStand("B", "16.1").Shelf("B", 20)
        .Does("""{"kind":"regauge","lot":"L1","product":"carbonated"}""").Stands("L1", "V1", "15.8", ProductKind.Carbonated)
        .States("2026-03-01", "2026-03-31", Section.Bottled, "B21", "CLASS_CHANGE_BOTTLED", Direction.In, "15")
        .States("2026-03-01", "2026-03-31", Section.Bulk, "D_CARB", "CLASS_CHANGE", Direction.In, "35")
        .Refuses(RefusalCode.Missing, """{"kind":"regauge","lot":"L1"}""", "abv");

    [Fact]
    public void A_stock_take_posts_gain_and_loss_and_never_sets_them_off() => Wine()
        .Does("""{"kind":"bottle","lot":"L1","fills":[{"bottling":"B","bottles":20,"bottleMl":750},{"bottling":"C","bottles":10,"bottleMl":750}]}""")
        .Does("""{"kind":"count","document":"sheet 7","lines":[{"bottling":"B","bottles":21},{"bottling":"C","bottles":9},{"vessel":"V1","litres":27}]}""")
        .Posted("INVENTORY_GAIN_BOTTLED ADJ:INVENTORY > BOTTLED:B:unplaced 1 bottles", "SHORTAGE BOTTLED:C:unplaced > ADJ:INVENTORY 1 bottles", "INVENTORY_LOSS_BULK BULK:L1:V1 > ADJ:INVENTORY 0.5 L")
        .Does("""{"kind":"count","document":"sheet 8","lines":[{"bottling":"B","bottles":21}]}""").Flagged("agrees").Posted()
        .Refuses(RefusalCode.Missing, """{"kind":"count","lines":[{"bottling":"B","bottles":21}]}""", "document")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"count","document":"sheet 9","lines":[{"bottling":"B","bottles":20},{"bottling":"B","bottles":19}]}""", "lines[1]")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"count","document":"sheet 9","lines":[{"vessel":"V2","litres":1}]}""", "lines[0].vessel");
}
