using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;
using static Cellarbook.Core.Book.Account;

namespace Cellarbook.Core.Tests.Stores;

/// <summary>The stores as a diary: deliveries by batch, what is used, and laws 1 and 2 for every gram, drop and piece.</summary>
public class StoreTests
{
    private static Check Cellar() => new Check().On("2026-03-01").Vessel("V1", "100").Vessel("V2", "100")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"A","vessel":"V1","litres":60,"abv":12}""")
        .Does("""{"kind":"deliver","items":[{"material":"kmbs","delivery":"D1","grams":50,"batch":"K-1"}]}""")
        .On("2026-03-02")
        .Does("""{"kind":"deliver","items":[{"material":"kmbs","delivery":"D2","grams":100,"batch":"K-2"},{"material":"silica-sol-30","delivery":"D2","millilitres":500},{"material":"kmbs-tablet","delivery":"D2","pieces":20}]}""");

    [Fact]
    public void A_delivery_not_chosen_is_the_oldest_and_marked_as_assumed() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":60}]}""").Flagged("assumed", "dose_above_usual")
        .Posted("MATERIAL_USED_ASSUMED STORES:kmbs:D1 > USED:BULK:A:V1 50000 Milligrams", "MATERIAL_USED_ASSUMED STORES:kmbs:D2 > USED:BULK:A:V1 10000 Milligrams")
        .InStore("kmbs", "D1", 0).InStore("kmbs", "D2", 90_000);

    [Fact]
    public void A_delivery_chosen_is_taken_and_nothing_is_assumed() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","delivery":"D2","grams":6}]}""").Flagged()
        .Posted("MATERIAL_USED STORES:kmbs:D2 > USED:BULK:A:V1 6000 Milligrams");

    [Fact]
    public void Law_2_no_gram_is_used_that_is_not_in_store() => Cellar()
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":151}]}""", "items[0].grams")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"add","lot":"A","items":[{"material":"kmbs","delivery":"D1","grams":51}]}""", "items[0].grams")
        // Two lines of one entry are taken one after the other.
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"add","lot":"A","items":[{"material":"kmbs","delivery":"D1","grams":30},{"material":"kmbs","delivery":"D1","grams":21}]}""", "items[1].grams")
        .Refuses(RefusalCode.UnknownDelivery, """{"kind":"add","day":"2026-03-01","lot":"A","items":[{"material":"kmbs","delivery":"D2","grams":1}]}""");

    [Fact]
    public void Law_2_holds_for_late_entries_and_corrections_too() => Cellar()
        .Does("""{"kind":"add","day":"2026-03-05","lot":"A","items":[{"material":"kmbs","delivery":"D1","grams":40}]}""")
        .Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"add","day":"2026-03-03","lot":"A","items":[{"material":"kmbs","delivery":"D1","grams":11}]}""", "day", 6)
        .Refuses(RefusalCode.LaterEntriesNeedIt, """{"kind":"correct","day":"2026-03-06","takesBack":4,"reason":"never came"}""", "takesBack", 6)
        .Does("""{"kind":"add","day":"2026-03-03","lot":"A","items":[{"material":"kmbs","delivery":"D1","grams":10}]}""")
        .InStore("kmbs", "D1", 0);

    [Fact]
    public void A_unit_that_is_not_the_materials_is_refused() => Cellar()
        .Refuses(RefusalCode.WrongUnit, """{"kind":"add","lot":"A","items":[{"material":"kmbs","millilitres":5}]}""", "items[0].millilitres")
        .Refuses(RefusalCode.WrongUnit, """{"kind":"add","lot":"A","items":[{"material":"kmbs-tablet","grams":5}]}""", "items[0].grams")
        .Refuses(RefusalCode.TooFine, """{"kind":"add","lot":"A","items":[{"material":"kmbs-tablet","pieces":0.5}]}""", "items[0].pieces")
        // A liquid may be weighed where its density is known: 12 g at 1.2 g/mL are 10 mL.
        .Does("""{"kind":"add","lot":"A","items":[{"material":"silica-sol-30","grams":12}]}""").InStore("silica-sol-30", "D2", 490_000);

    [Fact]
    public void A_rate_is_of_the_volume_there_and_every_place_of_a_lot_takes_its_share() => Cellar()
        .Does("""{"kind":"transfer","sources":[{"lot":"A","litres":20}],"targets":[{"vessel":"V2","litres":20}]}""")
        .Does("""{"kind":"add","lot":"A","everyPlace":true,"items":[{"material":"kmbs","delivery":"D2","gramsPerHectolitre":5},{"material":"silica-sol-30","delivery":"D2","mlPer23Litres":11.5}]}""")
        .Posted("MATERIAL_USED STORES:kmbs:D2 > USED:BULK:A:V1 2000 Milligrams", "MATERIAL_USED STORES:kmbs:D2 > USED:BULK:A:V2 1000 Milligrams",
            "MATERIAL_USED STORES:silica-sol-30:D2 > USED:BULK:A:V1 20000 Microlitres", "MATERIAL_USED STORES:silica-sol-30:D2 > USED:BULK:A:V2 10000 Microlitres")
        .Carries(Bulk("A", "V2"), "potassium-metabisulphite", "0", "1000", "1000", "50");

    [Fact]
    public void A_teaspoon_is_a_guess_and_says_so() => Cellar()
        .Refuses(RefusalCode.Missing, """{"kind":"add","lot":"A","items":[{"material":"kmbs","teaspoons":1,"gramsPerTeaspoon":6}]}""", "items[0].gramsPerTeaspoon")
        .Does("""{"kind":"add","lot":"A","estimated":true,"items":[{"material":"kmbs","delivery":"D2","teaspoons":0.5,"gramsPerTeaspoon":6}]}""")
        .InStore("kmbs", "D2", 97_000);

    [Fact]
    public void Kilograms_for_grams_are_asked_about_and_recorded() => Cellar()
        .Does("""{"kind":"deliver","items":[{"material":"bentonite","delivery":"B1","grams":60000}]}""")
        .Does("""{"kind":"add","lot":"A","items":[{"material":"bentonite","delivery":"B1","grams":60000}]}""").Flagged("dose_above_usual");

    [Fact]
    public void What_cleans_or_packs_does_not_go_into_wine_and_a_kit_is_started() => Cellar()
        .Refuses(RefusalCode.NotForWine, """{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":3},{"material":"caustic-soda","grams":3}]}""", "items[1].material")
        .Refuses(RefusalCode.NotForWine, """{"kind":"add","lot":"A","items":[{"material":"Bleach","millilitres":3}]}""", "items[0].material")
        .Refuses(RefusalCode.NotForWine, """{"kind":"add","lot":"A","items":[{"material":"cork-natural","pieces":3}]}""", "items[0].material")
        .Refuses(RefusalCode.NotForWine, """{"kind":"add","lot":"A","items":[{"material":"kit-white-23","pieces":1}]}""", "items[0].material")
        .Does("""{"kind":"bottle","lot":"A","fills":[{"bottling":"A-75","bottles":3,"bottleMl":750}],"materials":[{"material":"cork-natural","pieces":3}]}""")
        .Refuses(RefusalCode.NotForWine, """{"kind":"bottle","lot":"A","fills":[{"bottling":"A-75","bottles":3,"bottleMl":750}],"materials":[{"material":"bleach","millilitres":3}]}""", "materials[0].material");

    [Fact]
    public void Free_text_is_kept_as_written_with_its_batch_unknown() => Cellar()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"grandmother's powder","grams":3}]}""").Flagged("batch_unknown").Posted()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"grandmother's powder","grams":3,"batch":"1962"}]}""").Flagged().Posted()
        .Does("""{"kind":"add","lot":"A","items":[{"material":"bentonite","grams":30}]}""").Flagged("batch_unknown")
        .Posted("MATERIAL_USED NOBATCH:bentonite > USED:BULK:A:V1 30000 Milligrams")
        .Refuses(RefusalCode.UnknownMaterial, """{"kind":"add","lot":"A","items":[{"material":"grandmother's powder","delivery":"D1","grams":3}]}""", "items[0].material");

    [Fact]
    public void A_solution_carries_what_went_into_it_by_its_share() => Cellar()
        .Does("""{"kind":"mix","material":"kmbs-10","name":"Solution","delivery":"S1","millilitres":500,"items":[{"material":"kmbs","delivery":"D2","grams":50}]}""")
        .Posted("MATERIAL_TO_MIX STORES:kmbs:D2 > MIXED:kmbs-10 50000 Milligrams", "MATERIAL_MIXED MIXED:kmbs-10 > STORES:kmbs-10:S1 500000 Microlitres")
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs-10","delivery":"S1","millilitres":60}]}""")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "6000", "6000", "100")
        .InStore("kmbs-10", "S1", 440_000)
        .Refuses(RefusalCode.DeliveryExists, """{"kind":"mix","material":"kmbs-10","delivery":"S1","millilitres":500,"items":[{"material":"kmbs","grams":5}]}""");

    [Fact]
    public void A_kit_is_one_box_until_it_is_started() => Cellar()
        .Refuses(RefusalCode.UnknownDelivery, """{"kind":"startKit","kit":"kit-white-23","lot":"K","vessel":"V2"}""", "delivery")
        .Does("""{"kind":"deliver","items":[{"material":"kit-white-23","delivery":"BOX","pieces":2}]}""")
        .Does("""{"kind":"startKit","kit":"kit-white-23","lot":"K","vessel":"V2","waterLitres":12.5}""").Flagged("assumed")
        .Posted("MUST_RECEIVED EXT:SUPPLIER > MUST:K:V2 10 L", "WATER_ADDED_MUST MAT:WATER > MUST:K:V2 12.5 L", "KIT_OPENED STORES:kit-white-23:BOX > KITS:kit-white-23 1 Pieces",
            "MATERIAL_FROM_KIT KITS:kit-white-23 > STORES:kit-yeast-sachet:BOX 1 Pieces", "MATERIAL_FROM_KIT KITS:kit-white-23 > STORES:kit-sulphite-sachet:BOX 1 Pieces",
            "MATERIAL_FROM_KIT KITS:kit-white-23 > STORES:kit-stabiliser-sachet:BOX 1 Pieces", "MATERIAL_FROM_KIT KITS:kit-white-23 > STORES:kit-finings-sachet:BOX 2 Pieces")
        .Does("""{"kind":"pitch","lot":"K","cultures":[{"name":"kit-yeast-sachet","packets":1}]}""").Flagged("assumed")
        .InStore("kit-yeast-sachet", "BOX", 0).InStore("kit-white-23", "BOX", 1);

    [Fact]
    public void A_count_posts_the_difference_and_what_left_for_anything_but_wine_is_said() => Cellar()
        .Does("""{"kind":"takeFromStores","as":"spoilt","reason":"wet","items":[{"material":"kmbs","delivery":"D1","grams":20}]}""")
        .Posted("MATERIAL_SPOILT STORES:kmbs:D1 > LOSS:STORES 20000 Milligrams")
        .Does("""{"kind":"countStores","document":"sheet","lines":[{"material":"kmbs","delivery":"D1","grams":0},{"material":"kmbs-tablet","delivery":"D2","pieces":21},{"material":"kmbs","delivery":"D2","grams":100}]}""")
        .Posted("MATERIAL_SHORT STORES:kmbs:D1 > ADJ:STORES 30000 Milligrams", "MATERIAL_OVER ADJ:STORES > STORES:kmbs-tablet:D2 1 Pieces")
        .Refuses(RefusalCode.UnknownDelivery, """{"kind":"countStores","lines":[{"material":"kmbs","delivery":"D7","grams":1}]}""")
        .Refuses(RefusalCode.UnknownWord, """{"kind":"takeFromStores","as":"lost","items":[{"material":"kmbs","grams":1}]}""");

    [Fact]
    public void Bottling_takes_corks_and_bottles_shared_over_its_fills() => Cellar()
        .Does("""{"kind":"deliver","items":[{"material":"cork-natural","delivery":"C1","pieces":100}]}""")
        .Does("""{"kind":"bottle","lot":"A","fills":[{"bottling":"A-75","bottles":20,"bottleMl":750},{"bottling":"A-37","bottles":40,"bottleMl":375}],"materials":[{"material":"cork-natural","delivery":"C1","pieces":61}]}""")
        .Posted("BOTTLED BULK:A:V1 > BOTTLED:A-75:unplaced 20 bottles", "BOTTLED BULK:A:V1 > BOTTLED:A-37:unplaced 40 bottles",
            "MATERIAL_USED STORES:cork-natural:C1 > USED:BOTTLED:A-75:unplaced 20 Pieces", "MATERIAL_USED STORES:cork-natural:C1 > USED:BOTTLED:A-37:unplaced 41 Pieces")
        .InStore("cork-natural", "C1", 39);

    [Fact]
    public void Ones_own_material_says_what_the_packet_says() => Cellar()
        .Does("""{"kind":"material","code":"tabs-2","name":"Other tablets","countedIn":"pieces","contents":[{"substance":"potassium-metabisulphite","mgInOne":500},{"substance":"sorbic-acid"}]}""")
        .Does("""{"kind":"add","lot":"A","items":[{"material":"Other tablets","pieces":12}]}""").Flagged("assumed", "batch_unknown")
        .Carries(Bulk("A", "V1"), "potassium-metabisulphite", "0", "6000", "6000", "100")
        .Refuses(RefusalCode.MaterialExists, """{"kind":"material","code":"tabs-2","name":"Others","countedIn":"pieces"}""");

    [Fact]
    public void A_delivery_keeps_its_batch_best_before_and_price()
    {
        var check = Cellar().Does("""{"kind":"deliver","supplier":"Lindmoor Supplies","document":"L-9","currency":"EUR","items":[{"material":"bentonite","delivery":"B1","grams":500,"batch":"77","bestBefore":"2026-03-01","price":3.25}]}""").Flagged("out_of_date");
        var facts = check.Book.Now.At(Account.Stores("bentonite", "B1")).Delivery!;
        Assert.Equal(("Lindmoor Supplies", "77", new DateOnly(2026, 3, 1), "3.25", "EUR", "L-9"), (facts.Supplier, facts.Batch, facts.BestBefore, facts.Price?.Text, facts.Currency, facts.Document));
        check.Refuses(RefusalCode.Missing, """{"kind":"deliver","items":[{"material":"bentonite","delivery":"B2","grams":500,"price":3.25}]}""", "currency");
    }
}
