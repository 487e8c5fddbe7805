using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>Laws 2 and 3: nothing below nil, no vessel over the brim, one lot in a vessel at a time.</summary>
public class VesselTests
{
    private static Check Cellar() => new Check().Vessel("V1", "30").Vessel("V2", "30").On("2026-03-01")
        .Does("""{"kind":"receive","what":"must","lot":"M1","vessel":"V1","litres":20}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"W1","vessel":"V2","litres":20,"abv":12}""");

    [Fact]
    public void Law_2_more_than_is_there_is_refused() => Cellar()
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"lose","as":"spill","lot":"W1","vessel":"V2","litres":20.000001}""")
        .Does("""{"kind":"lose","as":"spill","lot":"W1","vessel":"V2","litres":20}""").Holds("W1", "V2", "0");

    [Fact]
    public void Law_2_more_than_the_vessel_holds_is_refused() => Cellar()
        .Refuses(RefusalCode.OverCapacity, """{"kind":"receive","what":"must","lot":"M1","vessel":"V1","litres":10.000001}""", "vessel")
        .Does("""{"kind":"receive","what":"must","lot":"M1","vessel":"V1","litres":10}""").Holds("M1", "V1", "30");

    [Fact]
    public void Law_2_a_vessel_of_unknown_capacity_is_not_checked_and_says_so()
    {
        var check = Cellar().Vessel("OLD").Does("""{"kind":"receive","what":"must","lot":"M2","vessel":"OLD","litres":9000}""");
        Assert.Contains(check.Last.Flags, flag => flag.Code == "capacity_unknown");
    }

    [Fact]
    public void Law_2_a_capacity_lower_than_was_ever_held_is_refused() => Cellar()
        .Does("""{"kind":"lose","as":"spill","lot":"W1","vessel":"V2","litres":15}""")
        .Refuses(RefusalCode.CapacityBelowHeld, """{"kind":"vessel","code":"V2","capacityLitres":19.999999,"changes":true}""", "capacityLitres")
        .Does("""{"kind":"vessel","code":"V2","capacityLitres":20,"changes":true}""")
        .Refuses(RefusalCode.OverCapacity, """{"kind":"receive","what":"bulkWine","lot":"W1","vessel":"V2","litres":15.5,"abv":12}""");

    [Fact]
    public void Law_2_what_was_held_and_corrected_away_no_longer_counts() => Cellar()
        .Does("""{"kind":"correct","takesBack":4,"reason":"12 it was","write":{"kind":"receive","what":"bulkWine","lot":"W1","vessel":"V2","litres":12,"abv":12}}""")
        .Does("""{"kind":"vessel","code":"V2","capacityLitres":15,"changes":true}""");

    [Fact]
    public void Law_2_what_went_too_far_is_named_by_its_field_the_line_that_did_it_and_no_other() => Cellar().Vessel("V3", "30").Vessel("V4", "30").Vessel("V5", "10")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"W2","vessel":"V3","litres":10,"abv":14}""")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"lose","as":"spill","lot":"W1","vessel":"V2","litres":21}""", "litres")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"remove","as":"ownUse","lines":[{"lot":"M1","litres":21},{"lot":"W2","litres":1}]}""", "lines[0].litres")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"remove","as":"ownUse","lines":[{"lot":"M1","litres":12},{"lot":"M1","litres":9},{"lot":"W2","litres":1}]}""", "lines[1].litres")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"transfer","sources":[{"lot":"W1","litres":20},{"lot":"W2","litres":11}],"targets":[{"lot":"B","vessel":"V4","litres":29}],"losses":[{"kind":"lees","litres":2}]}""", "sources[1].litres")
        .Refuses(RefusalCode.OverCapacity, """{"kind":"transfer","sources":[{"lot":"W1","litres":20},{"lot":"W2","litres":10}],"targets":[{"lot":"B","vessel":"V4","litres":19},{"lot":"B","vessel":"V5","litres":11}]}""", "targets[1].vessel")
        .Refuses(RefusalCode.OverCapacity, """{"kind":"gauge","vessel":"V2","litres":31}""", "litres")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"correct","takesBack":8,"reason":"Less","write":[{"kind":"lose","as":"spill","lot":"M1","vessel":"V1","litres":1},{"kind":"lose","as":"spill","lot":"W1","vessel":"V2","litres":21}]}""", "write[1].litres");

    [Fact]
    public void Law_3_a_vessel_holds_one_lot() => Cellar()
        .Refuses(RefusalCode.VesselHoldsAnother, """{"kind":"receive","what":"bulkWine","lot":"W2","vessel":"V2","litres":1,"abv":12}""", "vessel")
        .Does("""{"kind":"lose","as":"spill","lot":"W1","vessel":"V2","litres":20}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"W2","vessel":"V2","litres":1,"abv":12}""").Holds("W2", "V2", "1");

    [Fact]
    public void Law_3_putting_another_lot_in_is_a_blend_and_said_as_such() => Cellar().Vessel("V3", "30")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"W2","vessel":"V3","litres":10,"abv":14}""")
        .Refuses(RefusalCode.VesselHoldsAnother, """{"kind":"transfer","sources":[{"lot":"W2","litres":5}],"targets":[{"lot":"W2","vessel":"V2","litres":5}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"W2","litres":5}],"targets":[{"lot":"W1","vessel":"V2","litres":5}]}""")
        .Holds("W1", "V2", "25").Stands("W1", "V2", "12.4");

    [Fact]
    public void Must_and_wine_are_not_mixed() => Cellar()
        .Refuses(RefusalCode.WineIntoMust, """{"kind":"transfer","sources":[{"lot":"W1","litres":5}],"targets":[{"lot":"M1","vessel":"V1","litres":5}]}""")
        .Refuses(RefusalCode.MustIntoWine, """{"kind":"transfer","sources":[{"lot":"M1","litres":5}],"targets":[{"lot":"W1","vessel":"V2","litres":5}]}""")
        .Refuses(RefusalCode.VesselHoldsAnother, """{"kind":"receive","what":"bulkWine","lot":"M1","vessel":"V1","litres":1,"abv":12}""")
        .Refuses(RefusalCode.MustIntoWine, """{"kind":"bottle","lot":"M1","fills":[{"bottling":"B1","bottles":1,"bottleMl":750}]}""");

    [Fact]
    public void A_lot_may_be_must_here_and_wine_there() => Cellar().Vessel("V3", "30")
        .Does("""{"kind":"transfer","sources":[{"lot":"M1","litres":10}],"targets":[{"vessel":"V3","litres":10}]}""")
        .Does("""{"kind":"declareWine","lot":"M1","vessel":"V3","litres":10,"abv":11}""")
        .Holds("M1", "V1", "10").Holds("M1", "V3", "10").Stands("M1", "V3", "11");

    [Fact]
    public void A_lot_in_several_places_must_be_told_which() => Cellar().Vessel("V3", "30")
        .Does("""{"kind":"remove","as":"tasting","lot":"W1","litres":1}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"W1","litres":10}],"targets":[{"vessel":"V3","litres":10}]}""")
        .Refuses(RefusalCode.SeveralPlaces, """{"kind":"remove","as":"tasting","lot":"W1","litres":1}""", "vessel")
        .Refuses(RefusalCode.SeveralPlaces, """{"kind":"receive","what":"bulkWine","lot":"W1","litres":1,"abv":12}""", "vessel")
        .Refuses(RefusalCode.SeveralPlaces, """{"kind":"measure","lot":"W1","gravity":0.995}""", "vessel")
        .Does("""{"kind":"remove","as":"tasting","lot":"W1","vessel":"V3","litres":1}""").Holds("W1", "V3", "9");

    [Fact]
    public void A_new_lot_without_a_vessel_is_unplaced() => new Check()
        .Does("""{"kind":"receive","what":"must","lot":"L1","litres":5}""").Holds("L1", "unplaced", "5")
        .Does("""{"kind":"receive","what":"must","lot":"L2","litres":5}""").Holds("L2", "unplaced", "5");

    [Fact]
    public void Vessels_and_lots_must_be_known_and_capitals_tell_them_apart()
    {
        var check = Cellar()
            .Refuses(RefusalCode.UnknownVessel, """{"kind":"receive","what":"must","lot":"M2","vessel":"v1","litres":1}""", "vessel")
            .Refuses(RefusalCode.UnknownLot, """{"kind":"lose","as":"spill","lot":"w1","litres":1}""", "lot")
            .Refuses(RefusalCode.VesselExists, """{"kind":"vessel","code":"V1"}""", "code")
            .Refuses(RefusalCode.UnknownVessel, """{"kind":"vessel","code":"V9","changes":true}""", "code")
            .Refuses(RefusalCode.BadName, """{"kind":"vessel","code":"unplaced"}""", "code");
        Assert.Contains("V1", check.Refusals("""{"kind":"receive","what":"must","lot":"M2","vessel":"v1","litres":1}""")[0].Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Law_2_nothing_is_drawn_that_is_not_there_even_if_it_comes_back() => Cellar()
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"fortify","sources":[{"lot":"W1","vessel":"V2","litres":21}],"spiritLitres":1,"spiritAbv":96,"targets":[{"litres":22,"abv":16}]}""")
        .Does("""{"kind":"fortify","sources":[{"lot":"W1","vessel":"V2","litres":20}],"spiritLitres":1,"spiritAbv":96,"targets":[{"litres":21,"abv":16}]}""");
}
