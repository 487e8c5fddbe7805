using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>All 65 fixed categories and all own ones can arise: each from an operation, and from an import row.</summary>
public class EveryCategoryTests
{
    public static TheoryData<string, string> ByOperation => new()
    {
        { "OPENING", """{"kind":"open","day":"2026-03-01","stocks":[{"what":"must","lot":"M9","litres":5}]}""" },
        { "MUST_RECEIVED", """{"kind":"receive","what":"juice","lot":"M2","litres":5}""" },
        { "GRAPES_CRUSHED", """{"kind":"crush","fruit":[{"parcel":"P1","kilograms":10}],"targets":[{"lot":"M2","litres":7}]}""" },
        { "WATER_ADDED_MUST", """{"kind":"makeUp","lot":"M2","bagLitres":5,"waterLitres":15}""" },
        { "SUGAR_VOLUME_MUST", """{"kind":"add","lot":"M1","items":[{"material":"sugar","grams":500,"riseLitres":0.31,"riseBy":"sugar"}]}""" },
        { "MUST_TRANSFER", """{"kind":"transfer","sources":[{"lot":"M1","litres":5}],"targets":[{"vessel":"V3","litres":5}]}""" },
        { "MUST_SOLIDS_REMOVED", """{"kind":"lose","as":"solids","lot":"M1","litres":1}""" },
        { "MARC_REMOVED", """{"kind":"press","sources":[{"lot":"M1"}],"targets":[{"vessel":"V3","litres":18}]}""" },
        { "FERMENT_VOLUME_CHANGE", """{"kind":"lose","as":"shrinkage","lot":"M1","litres":0.2}""" },
        { "MUST_SPILLED", """{"kind":"lose","as":"spill","lot":"M1","litres":0.2}""" },
        { "MUST_REMOVED", """{"kind":"remove","as":"sold","lot":"M1","litres":5}""" },
        { "PRODUCED", """{"kind":"declareWine","lot":"M1","litres":20,"abv":12}""" },
        { "RECEIVED_BULK", """{"kind":"receive","what":"bulkWine","lot":"W3","litres":5,"abv":12}""" },
        { "TRANSIT_LOSS", """{"kind":"receive","what":"bulkWine","lot":"W3","litres":5,"arrivedLitres":4.9,"abv":12}""" },
        { "UNBOTTLED", """{"kind":"unbottle","bottling":"B1","bottles":2,"lot":"W1"}""" },
        { "INVENTORY_GAIN_BULK", """{"kind":"count","document":"s","lines":[{"vessel":"T1","litres":80.5}]}""" },
        { "LOT_TRANSFER", """{"kind":"transfer","sources":[{"lot":"W1","litres":5}],"targets":[{"vessel":"V3","litres":5}]}""" },
        { "CLASS_CHANGE", """{"kind":"regauge","lot":"W1","abv":16.2}""" },
        { "FORTIFY_USED", """{"kind":"fortify","sources":[{"lot":"W2"}],"spiritLitres":1,"spiritAbv":96,"targets":[{"litres":21,"abv":21}]}""" },
        { "FORTIFY_SPIRIT", """{"kind":"fortify","sources":[{"lot":"W2"}],"spiritLitres":1,"spiritAbv":96,"targets":[{"litres":21,"abv":21}]}""" },
        { "FORTIFY_MADE", """{"kind":"fortify","sources":[{"lot":"W2"}],"spiritLitres":1,"spiritAbv":96,"targets":[{"litres":21,"abv":21}]}""" },
        { "SWEETEN_USED", """{"kind":"sweeten","sources":[{"lot":"W2"}],"sweetenerLitres":1,"targets":[{"litres":21,"abv":17}]}""" },
        { "SWEETEN_SUGAR", """{"kind":"sweeten","sources":[{"lot":"W2"}],"sweetenerLitres":1,"targets":[{"litres":21,"abv":17}]}""" },
        { "SWEETEN_MADE", """{"kind":"sweeten","sources":[{"lot":"W2"}],"sweetenerLitres":1,"targets":[{"litres":21,"abv":17}]}""" },
        { "AMELIORATE_USED", """{"kind":"ameliorate","sources":[{"lot":"W2"}],"waterLitres":1,"targets":[{"litres":21,"abv":17}]}""" },
        { "AMELIORATE_WATER", """{"kind":"ameliorate","sources":[{"lot":"W2"}],"waterLitres":1,"targets":[{"litres":21,"abv":17}]}""" },
        { "AMELIORATE_MADE", """{"kind":"ameliorate","sources":[{"lot":"W2"}],"waterLitres":1,"targets":[{"litres":21,"abv":17}]}""" },
        { "BLEND_USED", """{"kind":"blend","sources":[{"lot":"W1","litres":5},{"lot":"W2","litres":5}],"targets":[{"lot":"C","vessel":"V3","litres":10}]}""" },
        { "BLEND_MADE", """{"kind":"blend","sources":[{"lot":"W1","litres":5},{"lot":"W2","litres":5}],"targets":[{"lot":"C","vessel":"V3","litres":10}]}""" },
        { "SPARKLE_USED", """{"kind":"makeSparkling","sources":[{"lot":"W1","litres":5}],"dosageLitres":0.1,"targets":[{"lot":"S","litres":5.1}]}""" },
        { "SPARKLE_DOSAGE", """{"kind":"makeSparkling","sources":[{"lot":"W1","litres":5}],"dosageLitres":0.1,"targets":[{"lot":"S","litres":5.1}]}""" },
        { "SPARKLE_MADE", """{"kind":"makeSparkling","sources":[{"lot":"W1","litres":5}],"dosageLitres":0.1,"targets":[{"lot":"S","litres":5.1}]}""" },
        { "PROCESS_CONTRACTION", """{"kind":"fortify","sources":[{"lot":"W2"}],"spiritLitres":1,"spiritAbv":96,"targets":[{"litres":20.9,"abv":21}]}""" },
        { "BOTTLED", """{"kind":"bottle","lot":"W1","fills":[{"bottling":"B2","bottles":10,"bottleMl":750}]}""" },
        { "BOTTLING_LOSS", """{"kind":"bottle","lot":"W1","fills":[{"bottling":"B2","bottles":10,"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.2}]}""" },
        { "LEES_REMOVED", """{"kind":"lose","as":"lees","lot":"W1","litres":1}""" },
        { "FILTER_LOSS", """{"kind":"lose","as":"filter","lot":"W1","litres":1}""" },
        { "EVAPORATION", """{"kind":"lose","as":"evaporation","lot":"W1","litres":1}""" },
        { "SPILLAGE", """{"kind":"lose","as":"spill","lot":"W1","litres":1}""" },
        { "CASUALTY", """{"kind":"lose","as":"casualty","bottling":"B1","bottles":3,"reason":"a shelf fell","document":"report 4"}""" },
        { "SAMPLE_BULK", """{"kind":"measure","lot":"W1","gravity":0.994,"sampleLitres":0.1}""" },
        { "TASTING_BULK", """{"kind":"remove","as":"tasting","lot":"W1","litres":1}""" },
        { "REMOVED_TAXPAID_BULK", """{"kind":"remove","as":"sold","lot":"W1","litres":1}""" },
        { "TRANSFER_OUT_BULK", """{"kind":"remove","as":"inBond","lot":"W1","litres":1}""" },
        { "TO_DISTILLING", """{"kind":"remove","as":"distilling","lot":"W1","litres":1}""" },
        { "TO_VINEGAR", """{"kind":"remove","as":"vinegar","lot":"W1","litres":1}""" },
        { "EXPORT_BULK", """{"kind":"remove","as":"export","lot":"W1","litres":1}""" },
        { "OWN_USE_BULK", """{"kind":"remove","as":"ownUse","lot":"W1","litres":1}""" },
        { "DESTROYED_BULK", """{"kind":"remove","as":"destroyed","lot":"W1","litres":1}""" },
        { "INVENTORY_LOSS_BULK", """{"kind":"count","document":"s","lines":[{"vessel":"T1","litres":79.5}]}""" },
        { "RECEIVED_BOTTLED", """{"kind":"receive","what":"bottledWine","bottling":"X1","bottles":12,"bottleMl":750,"abv":13}""" },
        { "RETURNED_TO_BOND", """{"kind":"return","bottling":"B1","bottles":1}""" },
        { "INVENTORY_GAIN_BOTTLED", """{"kind":"count","document":"s","lines":[{"bottling":"B1","bottles":61}]}""" },
        { "CLASS_CHANGE_BOTTLED", """{"kind":"regauge","bottling":"B1","abv":16.3}""" },
        { "REMOVED_TAXPAID", """{"kind":"remove","as":"sold","bottling":"B1","bottles":1}""" },
        { "TRANSFER_OUT", """{"kind":"remove","as":"inBond","bottling":"B1","bottles":1}""" },
        { "TASTING", """{"kind":"remove","as":"tasting","bottling":"B1","bottles":1}""" },
        { "EXPORT", """{"kind":"remove","as":"export","bottling":"B1","bottles":1}""" },
        { "OWN_USE", """{"kind":"remove","as":"ownUse","bottling":"B1","bottles":1}""" },
        { "SAMPLE_BOTTLED", """{"kind":"remove","as":"analysis","bottling":"B1","bottles":1}""" },
        { "DESTROYED_BOTTLED", """{"kind":"remove","as":"destroyed","bottling":"B1","bottles":1}""" },
        { "BREAKAGE", """{"kind":"lose","as":"breakage","bottling":"B1","bottles":1}""" },
        { "SHORTAGE", """{"kind":"count","document":"s","lines":[{"bottling":"B1","bottles":59}]}""" },
        { "CASED", """{"kind":"shelve","bottling":"B1","bottles":12,"cases":2,"toShelf":"SHOP"}""" },
        { "FRUIT_RECEIVED", """{"kind":"receive","what":"fruit","lot":"P2","kilograms":5}""" },
        { "FRUIT_USED", """{"kind":"crush","fruit":[{"parcel":"P1","kilograms":10}],"targets":[{"lot":"M2","litres":7}]}""" },
        { "FRUIT_LOST", """{"kind":"lose","as":"casualty","parcel":"P1","kilograms":3}""" },
        { "SPIRIT_RECEIVED", """{"kind":"receive","what":"spirit","litres":5,"abv":96}""" },
        { "SAMPLE_MUST", """{"kind":"remove","as":"sample","lot":"M1","litres":0.1}""" },
        { "EVAPORATION_MUST", """{"kind":"lose","as":"evaporation","lot":"M1","litres":0.1}""" },
        { "DESTROYED_MUST", """{"kind":"remove","as":"destroyed","lot":"M1","litres":0.1}""" },
        { "INVENTORY_LOSS_MUST", """{"kind":"count","document":"s","lines":[{"vessel":"V1","litres":19}]}""" },
        { "INVENTORY_GAIN_MUST", """{"kind":"count","document":"s","lines":[{"vessel":"V1","litres":21}]}""" },
        { "GAUGE_LOSS_MUST", """{"kind":"gauge","vessel":"V1","litres":19}""" },
        { "GAUGE_GAIN_MUST", """{"kind":"gauge","vessel":"V1","litres":21}""" },
        { "GAUGE_LOSS", """{"kind":"gauge","vessel":"T1","litres":79}""" },
        { "GAUGE_GAIN", """{"kind":"gauge","vessel":"T1","litres":81}""" },
        { "GIFT_BULK", """{"kind":"remove","as":"gift","lot":"W1","litres":1}""" },
        { "GIFT", """{"kind":"remove","as":"gift","bottling":"B1","bottles":1}""" },
        { "WINE_BOUGHT_BULK", """{"kind":"receive","what":"bulkWine","taxPaid":true,"lot":"W3","litres":5,"abv":12}""" },
        { "WINE_BOUGHT", """{"kind":"receive","what":"bottledWine","taxPaid":true,"bottling":"X1","bottles":12,"bottleMl":750,"abv":13}""" },
        { "SWEETEN_MUST", """{"kind":"sweeten","sources":[{"lot":"W2"}],"must":{"lot":"M1","litres":1},"targets":[{"litres":21,"abv":17}]}""" },
        { "MATERIAL_DELIVERED", """{"kind":"deliver","items":[{"material":"bentonite","delivery":"D8","grams":500}]}""" },
        { "MATERIAL_USED", """{"kind":"add","lot":"W1","items":[{"material":"kmbs","delivery":"unknown","grams":4}]}""" },
        { "MATERIAL_USED_ASSUMED", """{"kind":"add","lot":"W1","items":[{"material":"tartaric-acid","grams":40}]}""" },
        { "MATERIAL_CLEANING", """{"kind":"takeFromStores","as":"cleaning","items":[{"material":"tartaric-acid","grams":40}]}""" },
        { "MATERIAL_SPOILT", """{"kind":"takeFromStores","as":"spoilt","items":[{"material":"tartaric-acid","grams":40}]}""" },
        { "MATERIAL_GIVEN", """{"kind":"takeFromStores","as":"gift","items":[{"material":"tartaric-acid","delivery":"D1","grams":40}]}""" },
        { "MATERIAL_SHORT", """{"kind":"countStores","lines":[{"material":"tartaric-acid","delivery":"D1","grams":990}]}""" },
        { "MATERIAL_OVER", """{"kind":"countStores","lines":[{"material":"tartaric-acid","delivery":"D1","grams":1010}]}""" },
        { "MATERIAL_TO_MIX", """{"kind":"mix","material":"acid-mix","delivery":"S1","grams":100,"items":[{"material":"tartaric-acid","grams":60},{"material":"malic-acid","grams":40}]}""" },
        { "MATERIAL_MIXED", """{"kind":"mix","material":"acid-mix","delivery":"S1","grams":100,"items":[{"material":"tartaric-acid","grams":60},{"material":"malic-acid","grams":40}]}""" },
        { "KIT_OPENED", """{"kind":"startKit","kit":"kit-red-23","lot":"KIT1","vessel":"V3"}""" },
        { "MATERIAL_FROM_KIT", """{"kind":"startKit","kit":"kit-red-23","lot":"KIT1","vessel":"V3"}""" },
        { "BYPRODUCT_OUT", """{"kind":"takeAway","what":"marc","litres":0.5}""" },
    };

    /// <summary>An addition is an operation of its own kind here; as a posting-less row the category comes in by import alone.</summary>
    private static readonly string[] ByImportAlone = ["TREATMENT"];

    public static TheoryData<string> Fixed => [.. Csv.Records(Facts.Seed.Text("seed/records/event_categories.csv")).Skip(1).Select(row => row[0])];

    [Theory]
    [MemberData(nameof(ByOperation))]
    public void A_category_arises_from_an_operation(string category, string json)
    {
        var check = Cellars.Stocked().Does("""{"kind":"deliver","items":[{"material":"tartaric-acid","delivery":"D1","grams":1000},{"material":"kit-red-23","delivery":"BOX","pieces":1}]}""").Does(json);
        var posting = check.Last.Entries[0].Deeds[0].Postings.FirstOrDefault(posting => posting.Category.Code == category);
        Assert.True(posting is not null, $"{category} did not arise.");
        // It runs between the accounts that the category names.
        Assert.True(Fits(posting.Category.From, posting.From) && Fits(posting.Category.To, posting.To), $"{posting}");
    }

    [Fact]
    public void No_category_is_left_out() =>
        Assert.Equal(Category.All.Select(category => category.Code).Order(), ByOperation.Select(row => row.Data.Item1).Concat(ByImportAlone).Order());

    [Fact]
    public void There_are_65_fixed_ones() => Assert.Equal(65, Fixed.Select(row => row.Data).Distinct().Count());

    [Theory]
    [MemberData(nameof(Fixed))]
    public void A_fixed_category_comes_in_by_import(string code)
    {
        var category = Category.Of(code);
        var rows = new List<string> { Row("A", "2026-01-01", Category.Of("RECEIVED_BULK"), 100_000, to: "W1"), Row("B", "2026-01-01", Category.Of("MUST_RECEIVED"), 100_000, to: "M1"), Row("C", "2026-01-01", Category.Of("RECEIVED_BOTTLED"), 75_000, to: "B1") };
        if (code == "OPENING") rows.Clear();
        var day = code == "OPENING" ? "2026-01-01" : "2026-01-02";
        rows.Add(Row("X", day, category, 7_500));
        // A process is brought to nil by what goes in or comes out of it.
        if (category.To.IsProcess && !category.From.IsProcess) rows.Add(Row("X", day, Category.Of(code == "PROCESS_CONTRACTION" ? "BLEND_USED" : "BLEND_MADE"), 7_500));
        else if (category.From.IsProcess) rows.Add(Row("X", day, Category.Of("BLEND_USED"), 7_500));
        var check = new Check().Imports("event_id,date,category,lot_from,lot_to,volume_ml,bottles,bottle_ml,abv_pct\n" + string.Join("\n", rows) + "\n");
        if (category.MovesNothing) Assert.Contains(check.Last.Entries, entry => entry.Deeds[0].Postings.Count == 0);
        else Assert.Contains(check.Last.Entries.SelectMany(entry => entry.Deeds).SelectMany(deed => deed.Postings), posting => posting.Category == category);
    }

    private static string Row(string id, string day, Category category, int millilitres, string? to = null)
    {
        var (give, receive) = (Lot(category.From, "1"), to ?? Lot(category.To, category.Code is "RECEIVED_BULK" or "RECEIVED_BOTTLED" or "MUST_RECEIVED" ? "1" : "2"));
        if (category.MovesNothing) give = "W1";
        var bottled = give.StartsWith('B') || receive.StartsWith('B');
        // What bottles are filled into or cased to keeps its code, and so its size.
        return string.Join(",", id, day, category.Code, give, receive, category.MovesNothing ? "" : $"{millilitres}", bottled ? $"{millilitres / 750}" : "", bottled ? "750" : "", receive.StartsWith('W') || receive.StartsWith('B') ? "12.5" : "");
    }

    private static string Lot(Category.Side side, string number) => side.Sections.Count == 0 ? "" : side.Sections[0] switch
    {
        Section.Must => "M" + number,
        Section.Bulk => "W" + number,
        Section.Bottled => "B" + number,
        _ => "",
    };

    private static bool Fits(Category.Side side, Account account) =>
        account.Section == Section.None ? side.Counters.Any(counter => account.Name == counter || account.Name.StartsWith(counter + ":", StringComparison.Ordinal)) : side.Allows(account.Section);
}
