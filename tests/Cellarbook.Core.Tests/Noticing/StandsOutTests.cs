using Cellarbook.Core.Noticing;
using Xunit;

namespace Cellarbook.Core.Tests.Noticing;

/// <summary>What a maker is told to look at; the habits behind it are common practice without a source, in seed/screens/stands-out.json.</summary>
public class StandsOutTests
{
    private const string Vessel = """{"kind":"vessel","day":"2026-03-01","code":"V1","capacityLitres":30}""";
    private const string Must = """{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":23}""";
    private const string Over = """{"kind":"declareWine","day":"2026-03-20","lot":"L1","litres":22.5,"abv":12.5}""";

    private static string Read(string day, string gravity, string vessel = "V1") => $$"""{"kind":"measure","day":"{{day}}","lot":"L1","vessel":"{{vessel}}","gravity":{{gravity}}}""";

    [Fact]
    public void A_ferment_that_falls_and_was_read_yesterday_is_left_in_peace()
    {
        var book = WrittenBook.Of(Vessel, Must, Read("2026-03-02", "1.080"), Read("2026-03-05", "1.050"));
        Assert.Empty(book.StandsOutOn("2026-03-06"));
    }

    [Fact]
    public void A_ferment_that_nobody_read_for_three_days_asks_for_a_reading()
    {
        var book = WrittenBook.Of(Vessel, Must, Read("2026-03-02", "1.080"));
        Assert.Empty(book.StandsOutOn("2026-03-04"));
        Assert.Equal(["NotRead L1 V1"], book.StandsOutOn("2026-03-05"));
    }

    [Fact]
    public void Must_that_was_never_read_counts_from_the_day_it_came()
    {
        var book = WrittenBook.Of(Vessel, Must);
        Assert.Equal(["NotRead L1 V1"], book.StandsOutOn("2026-03-04"));
    }

    [Fact]
    public void The_same_gravity_over_three_days_with_sugar_left_has_stood_still()
    {
        var book = WrittenBook.Of(Vessel, Must, Read("2026-03-08", "1.031"), Read("2026-03-10", "1.018"), Read("2026-03-13", "1.018"));
        var finding = Assert.Single(StandsOut.Find(book.Book, book.Index, new(2026, 3, 13), Habits.Usual));
        Assert.Equal((Standout.StoodStill, 3, "1.018"), (finding.What, finding.Days, finding.Read!.Text));
    }

    [Fact]
    public void A_point_of_difference_is_no_movement_but_two_are()
    {
        Assert.Equal(["StoodStill L1 V1"], WrittenBook.Of(Vessel, Must, Read("2026-03-10", "1.019"), Read("2026-03-13", "1.018")).StandsOutOn("2026-03-13"));
        Assert.Empty(WrittenBook.Of(Vessel, Must, Read("2026-03-10", "1.020"), Read("2026-03-13", "1.018")).StandsOutOn("2026-03-13"));
    }

    [Fact]
    public void Still_and_dry_it_looks_over_and_weeks_later_it_was_never_declared()
    {
        var book = WrittenBook.Of(Vessel, Must, Read("2026-03-10", "0.994"), Read("2026-03-14", "0.994"));
        Assert.Equal(["LooksOver L1 V1"], book.StandsOutOn("2026-03-15"));
        Assert.Equal(["NeverDeclared L1 V1"], book.StandsOutOn("2026-03-31"));
    }

    [Fact]
    public void A_reading_taken_back_counts_for_nothing()
    {
        var book = WrittenBook.Of(Vessel, Must, Read("2026-03-10", "1.018"));
        var wrong = book.Write(Read("2026-03-13", "1.018"));
        Assert.Equal(["StoodStill L1 V1"], book.StandsOutOn("2026-03-13"));
        book.Write($$"""{"kind":"correct","day":"2026-03-13","takesBack":{{wrong}},"reason":"read the wrong line","write":{{Read("2026-03-13", "1.008")}}}""");
        Assert.Empty(book.StandsOutOn("2026-03-13"));
    }

    [Fact]
    public void Two_buckets_of_one_lot_are_judged_each_by_itself()
    {
        var book = WrittenBook.Of(Vessel, """{"kind":"vessel","day":"2026-03-01","code":"V2","capacityLitres":15}""", Must,
            """{"kind":"transfer","day":"2026-03-02","sources":[{"lot":"L1","vessel":"V1","litres":10}],"targets":[{"lot":"L1","vessel":"V2","litres":10}]}""",
            Read("2026-03-10", "1.018"), Read("2026-03-13", "1.018"), Read("2026-03-10", "1.030", "V2"), Read("2026-03-13", "1.012", "V2"));
        Assert.Equal(["StoodStill L1 V1"], book.StandsOutOn("2026-03-13"));
    }

    [Fact]
    public void Oechsle_is_a_gravity_and_a_refractometer_is_none()
    {
        Assert.Equal(["StoodStill L1 V1"], WrittenBook.Of(Vessel, Must,
            """{"kind":"measure","day":"2026-03-10","lot":"L1","oechsle":18}""", """{"kind":"measure","day":"2026-03-13","lot":"L1","oechsle":18}""").StandsOutOn("2026-03-13"));
        Assert.Equal(["NotRead L1 V1"], WrittenBook.Of(Vessel, Must,
            """{"kind":"measure","day":"2026-03-10","lot":"L1","brix":6}""", """{"kind":"measure","day":"2026-03-13","lot":"L1","brix":6}""").StandsOutOn("2026-03-13"));
    }

    [Fact]
    public void A_ferment_with_little_room_may_foam_over()
    {
        var book = WrittenBook.Of(Vessel, """{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":27.5}""");
        Assert.Equal(["NearlyFull L1 V1"], book.StandsOutOn("2026-03-01"));
    }

    [Fact]
    public void Wine_under_much_air_is_named_at_once_and_full_wine_left_alone_after_six_weeks()
    {
        Assert.Equal(["Headspace L1 V1"], WrittenBook.Of(Vessel, Must, Over).StandsOutOn("2026-03-20"));
        var full = WrittenBook.Of("""{"kind":"vessel","day":"2026-03-01","code":"V1","capacityLitres":23}""", Must, Over);
        Assert.Empty(full.StandsOutOn("2026-04-30"));
        Assert.Equal(["NotTouched L1 V1"], full.StandsOutOn("2026-05-01"));
    }

    [Fact]
    public void Law_4_a_count_of_bottles_that_no_longer_agrees_names_the_bottling()
    {
        var book = WrittenBook.Of("""{"kind":"receive","day":"2026-03-01","what":"bottledWine","bottling":"B1","bottles":12,"bottleMl":750,"abv":12}""",
            """{"kind":"count","day":"2026-03-10","document":"Sheet 1","lines":[{"bottling":"B1","bottles":12}]}""", """{"kind":"remove","as":"gift","day":"2026-03-05","bottling":"B1","bottles":1}""");
        var finding = Assert.Single(StandsOut.Find(book.Book, book.Index, new(2026, 3, 11), Habits.Usual));
        Assert.Equal((Standout.NoLongerAgrees, null, "B1"), (finding.What, finding.Lot, finding.Bottling!.Value.Code));
    }

    [Fact]
    public void Wine_without_a_strength_and_a_vessel_without_a_capacity_are_named()
    {
        var book = WrittenBook.Of("""{"kind":"vessel","day":"2026-03-01","code":"V9"}""", """{"kind":"receive","day":"2026-03-01","what":"bulkWine","lot":"L2","vessel":"V9","litres":10}""");
        Assert.Equal(["StrengthUnstated L2 V9", "CapacityUnknown L2 V9"], book.StandsOutOn("2026-03-02"));
    }

    [Fact]
    public void Three_vessels_of_unknown_capacity_are_named_each_and_more_are_said_once()
    {
        static string In(int i) => $$"""{"kind":"receive","day":"2026-03-01","what":"bulkWine","lot":"L{{i}}","vessel":"V{{10 - i}}","litres":10,"abv":12}""";
        var book = WrittenBook.Of([.. Enumerable.Range(7, 4).Select(i => $$"""{"kind":"vessel","day":"2026-03-01","code":"V{{i}}"}"""), In(3), In(1), In(2)]);
        Assert.Equal(["CapacityUnknown L1 V9", "CapacityUnknown L2 V8", "CapacityUnknown L3 V7"], book.StandsOutOn("2026-03-02"));
        book.Write(In(0));
        var finding = Assert.Single(StandsOut.Find(book.Book, book.Index, new(2026, 3, 2), Habits.Usual));
        Assert.Equal((Standout.CapacityUnknown, "L0", "V10", 4), (finding.What, finding.Lot, finding.Vessel, finding.Vessels));
    }

    [Fact]
    public void Law_4_a_gauge_that_a_late_entry_contradicts_comes_first()
    {
        var book = WrittenBook.Of(Vessel, Must, Over, """{"kind":"gauge","day":"2026-03-22","vessel":"V1","litres":22.4}""",
            """{"kind":"lose","as":"spill","day":"2026-03-21","lot":"L1","litres":0.5}""");
        var finding = StandsOut.Find(book.Book, book.Index, new(2026, 3, 23), Habits.Usual).Order(StandsOut.Pressing).First();
        Assert.Equal((Standout.NoLongerAgrees, "L1", "21.9 L"), (finding.What, finding.Lot, finding.Disagreement!.Book.ToString()));
    }

    private const string Stores = """{"kind":"deliver","day":"2026-03-01","items":[{"material":"kmbs","delivery":"D1","grams":100,"bestBefore":"2026-04-30"},{"material":"yeast-sachet","delivery":"D1","pieces":2}]}""";

    [Fact]
    public void Material_past_its_day_is_named_while_some_of_it_is_left()
    {
        var book = WrittenBook.Of(Stores);
        Assert.Empty(book.StandsOutOn("2026-04-30"));
        Assert.Equal(["OutOfDate"], book.StandsOutOn("2026-05-01"));
        var finding = Assert.Single(StandsOut.Find(book.Book, book.Index, new(2026, 5, 3), Habits.Usual));
        Assert.Equal(("kmbs", "D1", 3), (finding.Store!.Material.Code, finding.Store.Place.Account.Place, finding.Days));
        book.Write("""{"kind":"takeFromStores","as":"spoilt","day":"2026-05-03","items":[{"material":"kmbs","delivery":"D1","grams":100}]}""");
        Assert.DoesNotContain("OutOfDate", book.StandsOutOn("2026-05-03"));
    }

    [Fact]
    public void Of_a_material_in_use_a_low_stock_is_named_once_until_it_comes_or_is_forgotten()
    {
        var book = WrittenBook.Of(Stores, """{"kind":"deliver","day":"2026-03-02","items":[{"material":"kmbs","delivery":"D2","grams":100}]}""", """{"kind":"takeFromStores","as":"cleaning","day":"2026-03-10","items":[{"material":"kmbs","grams":181}]}""");
        Assert.Equal(["LowStock"], book.StandsOutOn("2026-03-10"));
        Assert.Equal(("D2", 19_000), (Assert.Single(StandsOut.Find(book.Book, book.Index, new(2026, 3, 11), Habits.Usual)).Store!.Place.Account.Place, StandsOut.Find(book.Book, book.Index, new(2026, 3, 11), Habits.Usual)[0].Store!.Left.Units));
        // Nobody used it for more than a year: it isn't missed.
        Assert.Empty(book.StandsOutOn("2027-03-11"));
        book.Write("""{"kind":"deliver","day":"2026-03-12","items":[{"material":"kmbs","delivery":"D3","grams":50}]}""");
        Assert.Empty(book.StandsOutOn("2026-03-12"));
    }

    [Fact]
    public void What_is_empty_asks_for_nothing()
    {
        var book = WrittenBook.Of(Vessel, Must, Over, """{"kind":"gauge","day":"2026-03-22","vessel":"V1","litres":0,"as":"spill"}""");
        Assert.Empty(book.StandsOutOn("2026-12-31"));
    }

    [Fact]
    public void Every_habit_says_what_it_means_and_where_it_comes_from() =>
        Assert.All(Habits.Usual.All, habit => Assert.True(habit.Means.Pattern.Length > 10 && habit.Source.Pattern.Length > 5));
}
