using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>Law 7: matter is conserved; shares of origin add up to one and travel with the wine.</summary>
public class OriginTests
{
    private static Check Two() => new Check().Vessel("V1", "100").Vessel("V2", "100").On("2026-03-01")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"A","vessel":"V1","litres":10,"abv":12,"origin":[{"variety":"Ambrosa","vintage":"2025"}]}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"B","vessel":"V2","litres":20,"abv":12,"origin":[{"variety":"Brunella","percent":60},{"variety":"Ambrosa","vintage":"2025","percent":15}]}""");

    [Fact]
    public void Law_7_what_is_missing_to_a_whole_is_unstated() => Two()
        .ComesFrom(Account.Bulk("A", "V1"), "Ambrosa 2025: 1000000000000")
        .ComesFrom(Account.Bulk("B", "V2"), "unstated: 250000000000", "Ambrosa 2025: 150000000000", "Brunella: 600000000000");

    [Fact]
    public void Law_7_shares_of_origin_go_where_the_wine_goes_and_add_up() => Two()
        .Does("""{"kind":"transfer","sources":[{"lot":"A","litres":10}],"targets":[{"lot":"B","vessel":"V2","litres":10}]}""")
        // 10 L of A among 30 L: 5/30 unstated, (10 + 3)/30 Ambrosa, 12/30 Brunella; the unit left over goes to the largest remainder.
        .ComesFrom(Account.Bulk("B", "V2"), "unstated: 166666666667", "Ambrosa 2025: 433333333333", "Brunella: 400000000000")
        .Does("""{"kind":"bottle","lot":"B","fills":[{"bottling":"B1","bottles":4,"bottleMl":750}]}""")
        .ComesFrom(Account.Bottled("B1", "unplaced"), "unstated: 166666666667", "Ambrosa 2025: 433333333333", "Brunella: 400000000000");

    [Fact]
    public void Law_7_a_loss_changes_no_share_and_a_gauge_brings_none() => Two()
        .Does("""{"kind":"lose","as":"evaporation","lot":"B","litres":3}""").Does("""{"kind":"gauge","vessel":"V2","litres":19}""")
        .ComesFrom(Account.Bulk("B", "V2"), "unstated: 250000000000", "Ambrosa 2025: 150000000000", "Brunella: 600000000000");

    [Fact]
    public void Law_7_fruit_gives_its_origin_to_the_must_by_weight() => new Check().Vessel("T", "500").On("2026-09-10")
        .Does("""{"kind":"receive","what":"fruit","lot":"P1","kilograms":300,"origin":[{"variety":"Ambrosa"}]}""")
        .Does("""{"kind":"receive","what":"fruit","lot":"P2","kilograms":100,"origin":[{"variety":"Brunella"}]}""")
        .Does("""{"kind":"crush","fruit":[{"parcel":"P1"},{"parcel":"P2"}],"targets":[{"lot":"M","vessel":"T","litres":280}]}""")
        .ComesFrom(Account.Must("M", "T"), "Ambrosa: 750000000000", "Brunella: 250000000000");

    [Fact]
    public void Law_7_what_a_process_makes_comes_from_what_was_put_in() => Two()
        .Does("""{"kind":"fortify","sources":[{"lot":"A","litres":10}],"spiritLitres":2,"spiritAbv":96,"targets":[{"lot":"A","vessel":"V1","litres":11.9,"abv":25}]}""")
        .ComesFrom(Account.Bulk("A", "V1"), "Ambrosa 2025: 1000000000000");

    [Fact]
    public void Law_7_water_and_sugar_bring_no_origin() => new Check().Vessel("V1", "40").On("2026-03-01")
        .Does("""{"kind":"makeUp","lot":"K","vessel":"V1","bagLitres":6,"markLitres":23,"origin":[{"variety":"Ambrosa"}]}""")
        .ComesFrom(Account.Must("K", "V1"), "Ambrosa: 1000000000000");

    [Fact]
    public void Law_7_bottles_that_come_back_have_the_origin_they_left_with_even_on_a_new_shelf() => Two()
        .Does("""{"kind":"bottle","lot":"A","fills":[{"bottling":"A1","bottles":10,"bottleMl":750}]}""")
        .Does("""{"kind":"remove","as":"sold","bottling":"A1","bottles":10}""")
        .Does("""{"kind":"return","bottling":"A1","bottles":2,"shelf":"BACK"}""")
        .ComesFrom(Account.Bottled("A1", "BACK"), "Ambrosa 2025: 1000000000000").BottlesStand("A1", "12", shelf: "BACK");

    [Fact]
    public void Law_7_origins_of_more_than_a_whole_are_refused() => Two()
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"receive","what":"must","lot":"M","litres":5,"origin":[{"variety":"X","percent":60},{"variety":"Y","percent":40.001}]}""", "origin")
        .Refuses(RefusalCode.Missing, """{"kind":"receive","what":"must","lot":"M","litres":5,"origin":[{"variety":"X","percent":60},{"variety":"Y"}]}""", "origin[1].percent");
}
