using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Xunit;
using static Cellarbook.Core.Tests.Demo.DemonstrationBook;

namespace Cellarbook.Core.Tests.Demo;

/// <summary>What a visitor is promised to find, one by one; and what the book looks like on its last evening.</summary>
public class DemonstrationFeaturesTests
{
    private static readonly Dictionary<string, Func<bool>> Features = new(StringComparer.Ordinal)
    {
        ["stock brought forward, in vessels and in bottles"] = () => Written.OfType<Open>().Single().Stocks!.Select(stock => stock.What).Distinct().Count() == 2,
        ["a white from pressed grapes, settled, sugared, pitched"] = () => Written.OfType<Press>().Any(press => press.Fruit?.Count > 0 && press.Colour == "white")
            && Postings.Any(posting => posting.Category.Code == "MUST_SOLIDS_REMOVED" && posting.From.Name == "W25") && Postings.Any(posting => posting.Category.Code == "SUGAR_VOLUME_MUST" && posting.To.Name == "W25"),
        ["declared at the racking"] = () => Written.OfType<Transfer>().Any(transfer => transfer.Declare is not null),
        ["a red on skins in two vats with two yeasts"] = () => Written.OfType<Pitch>().Where(pitch => pitch.Lot == "R25" && pitch.Cultures![0].What == "yeast").Select(pitch => (pitch.Vessel, pitch.Cultures![0].Name)).Distinct().Count() == 2,
        ["cap punched"] = () => Written.OfType<Observe>().Count(observe => observe.What == "capPunched") >= 5,
        ["free run and press wine as two lots"] = () => Written.OfType<Press>().Any(press => press.Targets!.Select(target => target.Lot).Distinct().Count() == 2),
        ["malolactic pitched and found done by a named test, in two vessels"] = () => Written.OfType<Pitch>().Count(pitch => pitch.Lot == "R25" && pitch.Cultures![0].What == "malolactic") == 2
            && Written.OfType<Measure>().Count(measure => measure is { Lot: "R25", Malolactic: Malolactic.Done, Method: not null }) == 2,
        ["a cask with evaporation and toppings from own wine, own bottles and bought wine"] = () => Written.OfType<TopUp>().Any(top => top.From is not null) && Written.OfType<TopUp>().Any(top => top.FromBottles is not null)
            && Written.OfType<TopUp>().Any(top => top.FromBought is not null) && Postings.Count(posting => posting.Category.Code == "EVAPORATION") >= 10,
        ["a country wine from fruit, water and sugar"] = () => Postings.Any(posting => posting.Category.Code == "FRUIT_USED" && posting.From.Name == "PLUM25") && new[] { "WATER_ADDED_MUST", "SUGAR_VOLUME_MUST" }.All(code => Postings.Any(posting => posting.Category.Code == code && posting.To.Name == "P25")),
        ["a kit in a bucket from two of bag, water and mark"] = () => Written.OfType<MakeUp>().Any(make => make is { BagLitres: not null, MarkLitres: not null, WaterLitres: null }),
        ["a bulk purchase that arrived short"] = () => Written.OfType<Receive>().Any(receive => receive.What == "bulkWine" && receive.ArrivedLitres < receive.Litres) && Postings.Any(posting => posting.Category.Code == "TRANSIT_LOSS"),
        ["a blend across classes and one within a class"] = () => Written.OfType<Blend>().Any() && Written.OfType<Transfer>().Any(transfer => transfer.Sources!.Select(source => source.Lot).Distinct().Count() == 2),
        ["a fortified lot that changes class, with contraction"] = () => Written.OfType<Fortify>().Any(fortify => fortify.Sources![0].Lot == "P25" && fortify.Targets![0].Abv?.Hundredths > 1600) && Postings.Any(posting => posting.Category.Code == "PROCESS_CONTRACTION"),
        ["a small sparkling lot"] = () => Whole.Now.Places.Any(place => place.Account.Section == Section.Bottled && place.Standing.Kind == ProductKind.Sparkling && !place.IsEmpty),
        ["a sweetened wine"] = () => Written.OfType<Sweeten>().Any(),
        ["bottlings in three sizes"] = () => new long[] { 375, 750, 1500 }.All(size => Written.OfType<Bottle>().SelectMany(bottle => bottle.Fills!).Any(fill => fill.BottleMl?.Volume == new Volume(size * 1000))),
        ["line losses and a short last bottle"] = () => Written.OfType<Bottle>().Any(bottle => bottle.Losses!.Any(loss => loss.Kind == "bottling") && bottle.Losses!.Any(loss => loss.Kind == "tasting")),
        ["stock-takes with surplus and shortage on a named sheet"] = () => Written.OfType<Count>().All(count => count.Document!.StartsWith("COUNT-", StringComparison.Ordinal))
            && new[] { "INVENTORY_GAIN_BULK", "INVENTORY_LOSS_BULK", "INVENTORY_GAIN_BOTTLED", "SHORTAGE" }.All(code => Postings.Any(posting => posting.Category.Code == code)),
        ["a gauge and a re-gauge"] = () => Written.OfType<Gauge>().Any() && Written.OfType<Regauge>().Any(regauge => regauge.Instrument is not null),
        ["a correction with rewriting on the same day"] = () => Corrections.Any(correct => correct.Write is [{ } written] && written.Day == Taken(correct).Day),
        ["a correction that moves an entry to another day"] = () => Corrections.Any(correct => correct.Write is [{ } written] && written.Day < Taken(correct).Day),
        ["a correction that writes nothing"] = () => Corrections.Any(correct => correct.Write is null),
        ["a late entry"] = () => Written.Any(operation => operation.EnteredOn > operation.Day),
        ["lees and marc taken away"] = () => Written.OfType<TakeAway>().Select(away => away.What).Distinct().Count() == 2,
        ["additions with a batch"] = () => Written.OfType<Add>().SelectMany(add => add.Items!).Count(item => item.Batch is not null) >= 20,
        ["estimated figures marked so"] = () => Written.Any(operation => operation.Estimated == true),
        ["bottles moved to a shelf and emptied back"] = () => Written.OfType<Shelve>().Any() && Written.OfType<Unbottle>().Any(),
    };

    public static TheoryData<string> Promised() => [.. Features.Keys];

    public static TheoryData<string> KindsShown() => [.. OperationJson.Kinds.Keys.Where(kind => kind is not ("imported" or "ameliorate" or "blankContact"))];

    [Theory, MemberData(nameof(Promised))]
    public void A_visitor_finds(string feature) => Assert.True(Features[feature](), feature);

    [Theory, MemberData(nameof(KindsShown))]
    public void Every_kind_of_operation_but_watering_wine_is_in_the_diary(string kind) =>
        Assert.Contains(Whole.Entries, entry => OperationJson.KindOf(entry.Operation!) == kind);

    [Theory]
    [InlineData("REMOVED_TAXPAID"), InlineData("REMOVED_TAXPAID_BULK"), InlineData("GIFT"), InlineData("TASTING"), InlineData("TASTING_BULK"), InlineData("OWN_USE"), InlineData("BREAKAGE")]
    [InlineData("SAMPLE_BULK"), InlineData("SAMPLE_BOTTLED"), InlineData("SAMPLE_MUST"), InlineData("RETURNED_TO_BOND"), InlineData("TRANSFER_OUT"), InlineData("EXPORT"), InlineData("TO_VINEGAR"), InlineData("DESTROYED_BULK")]
    [InlineData("BYPRODUCT_OUT"), InlineData("LEES_REMOVED"), InlineData("FILTER_LOSS"), InlineData("SPILLAGE"), InlineData("GAUGE_LOSS"), InlineData("FRUIT_LOST"), InlineData("SPIRIT_RECEIVED"), InlineData("FERMENT_VOLUME_CHANGE")]
    public void Wine_left_or_came_as(string category) => Assert.Contains(Postings, posting => posting.Category.Code == category);

    [Fact]
    public void On_the_last_evening_there_is_wine_in_vessels_and_bottles_lie_on_shelves()
    {
        Assert.True(Whole.Now.Places.Count(place => place.Account.Section == Section.Bulk && !place.IsEmpty) >= 5);
        Assert.True(Whole.Now.Places.Where(place => place.Account.Section == Section.Bottled).Sum(place => place.Bottles.Bottles) >= 400);
        Assert.True(Whole.Now.Places.Where(place => place.Account.Section == Section.Bottled && !place.IsEmpty).Select(place => place.Account.Place).Distinct().Count() >= 5);
    }

    [Fact]
    public void On_the_last_evening_a_quince_is_fermenting_and_a_malolactic_is_under_way()
    {
        var readings = Gravities("Q26");
        Assert.True(readings.Count >= 4 && readings[^1].Day >= Last.AddDays(-3));
        Assert.InRange(readings[^1].Gravity, 1.02, 1.06);
        Assert.True(readings[^2].Gravity - readings[^1].Gravity > 0.005);
        Assert.Equal(Malolactic.UnderWay, Whole.Now.At(Account.Bulk("R26", "T3")).Notes.Malolactic);
    }

    [Fact]
    public void On_the_last_evening_the_plum_stands_still_above_dry_in_spite_of_a_second_yeast()
    {
        var readings = Gravities("P26");
        Assert.Equal([1.019, 1.019, 1.019, 1.019], readings.TakeLast(4).Select(reading => reading.Gravity));
        Assert.True(readings[^1].Day.DayNumber - readings[^4].Day.DayNumber >= 28);
        Assert.Equal(Section.Must, Assert.Single(Whole.Now.PlacesOfLot("P26")).Account.Section);
        Assert.Equal(2, Whole.Now.PlacesOfLot("P26")[0].Notes.Cultures.Count);
    }

    [Fact]
    public void On_the_last_evening_the_cask_has_not_been_topped_for_seven_weeks()
    {
        var topped = Written.OfType<TopUp>().Where(top => top.Casks!.Any(cask => cask.Vessel == "K1")).Select(top => top.Day).Order().ToList();
        Assert.True(Last.DayNumber - topped[^1].DayNumber >= 49);
        for (var i = 1; i < topped.Count; i++) if (topped[i] > new DateOnly(2026, 1, 1) && topped[i - 1] > new DateOnly(2026, 1, 1)) Assert.InRange(topped[i].DayNumber - topped[i - 1].DayNumber, 20, 30);
        Assert.Equal(Malolactic.Done, Whole.Now.At(Account.Bulk("R25", "K1")).Notes.Malolactic);
    }

    private static Operation Taken(Correct correct) => Whole.Find(correct.TakesBack!.Value.Number!.Value)!.Operation!;

    private static List<(DateOnly Day, double Gravity)> Gravities(string lot) =>
        [.. Written.OfType<Measure>().Where(measure => measure.Lot == lot && measure.Gravity is not null).Select(measure => (measure.Day, measure.Gravity!.Value.Value)).OrderBy(reading => reading.Day)];
}
