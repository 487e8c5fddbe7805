using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>Racking, splitting, blending, settling, declaring on the way; casks topped up.</summary>
public class TransferTests
{
    private static Check Cellar() => new Check().Vessel("A", "100").Vessel("B", "100").Vessel("C", "100").Vessel("D", "100").On("2026-03-01")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"A","litres":10,"abv":12}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"B","litres":20,"abv":12}""");

    [Fact]
    public void Several_sources_and_targets_are_drawn_in_proportion_by_largest_remainder() => Cellar()
        .Does("""{"kind":"transfer","sources":[{"lot":"L1","litres":10},{"lot":"L2","litres":20}],"targets":[{"lot":"X","vessel":"C","litres":0.000002},{"lot":"Y","vessel":"D","litres":29.9}],"losses":[{"kind":"lees","litres":0.099998}]}""")
        .Posted(
            // 2 µL of 10 : 20 are 0.67 and 1.33: one each.
            "LOT_TRANSFER BULK:L1:A > BULK:X:C 0.000001 L", "LOT_TRANSFER BULK:L2:B > BULK:X:C 0.000001 L",
            // 29.9 L of 9.999999 : 19.999999 left; then the lees get exactly what is left of each.
            "LOT_TRANSFER BULK:L1:A > BULK:Y:D 9.966666 L", "LOT_TRANSFER BULK:L2:B > BULK:Y:D 19.933334 L",
            "LEES_REMOVED BULK:L1:A > BYPRODUCT:LEES 0.033333 L", "LEES_REMOVED BULK:L2:B > BYPRODUCT:LEES 0.066665 L")
        .Holds("L1", "A", "0").Holds("L2", "B", "0").Holds("X", "C", "0.000002").Holds("Y", "D", "29.9");

    [Fact]
    public void Sources_are_targets_plus_losses() => Cellar()
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"transfer","sources":[{"lot":"L1","litres":10}],"targets":[{"vessel":"C","litres":9.5}],"losses":[{"kind":"lees","litres":0.4}]}""", "targets")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"transfer","sources":[{"lot":"L1","litres":10}],"targets":[{"vessel":"C","litres":10.1}]}""", "targets")
        .Does("""{"kind":"transfer","sources":[{"lot":"L1","litres":10}],"targets":[{"vessel":"C","litres":9.5}],"losses":[{"kind":"lees","litres":0.4},{"kind":"filter","litres":0.1}]}""")
        .Holds("L1", "C", "9.5");

    [Fact]
    public void A_source_without_a_volume_is_drawn_whole() => Cellar()
        .Does("""{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"C","litres":10}]}""").Holds("L1", "C", "10").Holds("L1", "A", "0");

    [Fact]
    public void A_cask_topped_from_its_own_lot_in_its_own_vessel_nets_to_nil() => Cellar()
        .Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"A","litres":2}],"targets":[{"lot":"L1","vessel":"A","litres":2}]}""").Holds("L1", "A", "10").Stands("L1", "A", "12");

    [Fact]
    public void Wines_of_different_kinds_meet_only_with_the_kind_stated() => Cellar()
        .Does("""{"kind":"receive","what":"bulkWine","lot":"C1","vessel":"C","litres":10,"abv":6,"product":"cider"}""")
        .Refuses(RefusalCode.KindsMeet, """{"kind":"transfer","sources":[{"lot":"C1"}],"targets":[{"lot":"L1","vessel":"A","litres":10}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"C1"}],"targets":[{"lot":"L1","vessel":"A","litres":10}],"product":"cider"}""")
        .Stands("L1", "A", "9", ProductKind.Cider);

    [Fact]
    public void Must_is_declared_on_its_way_and_what_is_missing_is_shrinkage() => new Check().Vessel("A", "30").Vessel("B", "30").On("2026-03-01")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"A","litres":23}""")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"B","litres":22.4}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"B","litres":22.4}],"losses":[{"kind":"lees","litres":0.4}],"declare":{"abv":12.5}}""")
        .Posted("PRODUCED MUST:L1:A > BULK:L1:B 22.4 L", "MUST_SOLIDS_REMOVED MUST:L1:A > BYPRODUCT:LEES 0.4 L", "FERMENT_VOLUME_CHANGE MUST:L1:A > LOSS:FERMENT 0.2 L")
        .Stands("L1", "B", "12.5")
        .Refuses(RefusalCode.WrongAccount, """{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"A","litres":22.4}],"declare":{"abv":12.5}}""", "declare");

    [Fact]
    public void Juice_is_settled_off_its_solids() => new Check().Vessel("A", "30").Vessel("B", "30").On("2026-09-10")
        .Does("""{"kind":"receive","what":"juice","lot":"L1","vessel":"A","litres":23}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"B","litres":22}],"losses":[{"kind":"solids","litres":1}]}""")
        .Posted("MUST_TRANSFER MUST:L1:A > MUST:L1:B 22 L", "MUST_SOLIDS_REMOVED MUST:L1:A > BYPRODUCT:LEES 1 L");

    [Fact]
    public void Casks_are_topped_from_own_wine_and_what_went_in_had_evaporated() => Cellar()
        .Does("""{"kind":"topUp","casks":[{"vessel":"A","litres":0.4},{"vessel":"B","litres":0.6}],"from":{"lot":"L2","vessel":"B"}}""")
        .Posted("EVAPORATION BULK:L1:A > LOSS:EVAPORATION 0.4 L", "EVAPORATION BULK:L2:B > LOSS:EVAPORATION 0.6 L", "LOT_TRANSFER BULK:L2:B > BULK:L1:A 0.4 L", "LOT_TRANSFER BULK:L2:B > BULK:L2:B 0.6 L")
        .Holds("L1", "A", "10").Holds("L2", "B", "19");

    [Fact]
    public void A_full_cask_is_topped_up_without_going_over_the_brim() => new Check().Vessel("CASK", "20").Vessel("A", "20").On("2026-03-01")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"CASK","litres":20,"abv":12}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"A","litres":5,"abv":13}""")
        .Does("""{"kind":"topUp","casks":[{"vessel":"CASK","litres":1}],"from":{"lot":"L2"}}""").Holds("L1", "CASK", "20").Stands("L1", "CASK", "12.05");

    [Fact]
    public void Casks_are_topped_from_bottles_opened_whole_and_the_rest_is_spilt() => Cellar()
        .Does("""{"kind":"bottle","lot":"L2","fills":[{"bottling":"B1","bottles":4,"bottleMl":750}]}""")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"topUp","casks":[{"vessel":"A","litres":0.8}],"fromBottles":{"bottling":"B1","bottles":1}}""", "fromBottles.bottles")
        .Does("""{"kind":"topUp","casks":[{"vessel":"A","litres":0.5},{"vessel":"B","litres":0.9}],"fromBottles":{"bottling":"B1","bottles":2}}""")
        .Holds("L1", "A", "10").Holds("L2", "B", "17").Shelf("B1", 2);

    [Fact]
    public void Casks_are_topped_from_bought_wine() => Cellar()
        .Does("""{"kind":"topUp","casks":[{"vessel":"A","litres":0.5}],"fromBought":{"what":"supermarket red","abv":13}}""")
        .Posted("EVAPORATION BULK:L1:A > LOSS:EVAPORATION 0.5 L", "WINE_BOUGHT_BULK EXT:TAXPAID > BULK:L1:A 0.5 L").Stands("L1", "A", "12.05");

    [Fact]
    public void A_top_up_names_one_source_and_casks_that_hold_something() => Cellar()
        .Refuses(RefusalCode.Missing, """{"kind":"topUp","casks":[{"vessel":"A","litres":0.5}]}""", "from")
        .Refuses(RefusalCode.Missing, """{"kind":"topUp","casks":[{"vessel":"A","litres":0.5}],"from":{"lot":"L2"},"fromBought":{}}""", "from")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"topUp","casks":[{"vessel":"C","litres":0.5}],"from":{"lot":"L2"}}""", "casks[0].vessel")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"topUp","casks":[{"vessel":"A","litres":10.5}],"from":{"lot":"L2"}}""", "casks[0].litres")
        .Does("""{"kind":"receive","what":"must","lot":"M1","vessel":"C","litres":5}""")
        .Refuses(RefusalCode.WineIntoMust, """{"kind":"topUp","casks":[{"vessel":"C","litres":0.5}],"from":{"lot":"L2"}}""", "from")
        .Refuses(RefusalCode.WineIntoMust, """{"kind":"topUp","casks":[{"vessel":"C","litres":0.5}],"fromBought":{}}""", "casks")
        .Refuses(RefusalCode.MustIntoWine, """{"kind":"topUp","casks":[{"vessel":"A","litres":0.5}],"from":{"lot":"M1"}}""", "from");

    [Fact]
    public void Two_casks_topped_with_water_are_each_thinned_by_their_own_share_and_must_is_let_down() => new Check().Vessel("A", "20").Vessel("B", "20").Vessel("M", "20")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"A","litres":20,"abv":12}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"B","litres":20,"abv":16}""")
        .Does("""{"kind":"receive","what":"must","lot":"L3","vessel":"M","litres":20}""")
        .Does("""{"kind":"topUp","casks":[{"vessel":"A","litres":1},{"vessel":"B","litres":2},{"vessel":"M","litres":0.5}],"fromWater":true}""").Flagged("strength_by_volume")
        .Posted("EVAPORATION BULK:L1:A > LOSS:EVAPORATION 1 L", "EVAPORATION BULK:L2:B > LOSS:EVAPORATION 2 L", "EVAPORATION_MUST MUST:L3:M > LOSS:EVAPORATION 0.5 L",
            "AMELIORATE_USED BULK:L1:A > PROC 19 L", "AMELIORATE_WATER MAT:WATER > PROC 1 L", "AMELIORATE_MADE PROC > BULK:L1:A 20 L",
            "AMELIORATE_USED BULK:L2:B > PROC 18 L", "AMELIORATE_WATER MAT:WATER > PROC 2 L", "AMELIORATE_MADE PROC > BULK:L2:B 20 L",
            "WATER_ADDED_MUST MAT:WATER > MUST:L3:M 0.5 L")
        .Holds("L1", "A", "20").Stands("L1", "A", "11.4").Stands("L2", "B", "14.4").Holds("L3", "M", "20")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"topUp","casks":[{"vessel":"A","litres":20}],"fromWater":true}""", "casks[0].litres")
        .Refuses(RefusalCode.Missing, """{"kind":"topUp","casks":[{"vessel":"A","litres":1}],"from":{"lot":"L2"},"fromWater":true}""", "from");
}
