using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>From fruit, bag and delivery to must, and from must to wine.</summary>
public class MakingTests
{
    [Theory]
    [InlineData("\"bagLitres\":6,\"waterLitres\":17")]
    [InlineData("\"bagLitres\":6,\"markLitres\":23")]
    [InlineData("\"waterLitres\":17,\"markLitres\":23")]
    [InlineData("\"bagLitres\":6,\"waterLitres\":17,\"markLitres\":23")]
    public void Any_two_of_bag_water_and_mark_tell_the_third(string given) => new Check().Vessel("V1", "30")
        .Does($$"""{"kind":"makeUp","lot":"K1","vessel":"V1",{{given}}}""")
        .Posted("MUST_RECEIVED EXT:SUPPLIER > MUST:K1:V1 6 L", "WATER_ADDED_MUST MAT:WATER > MUST:K1:V1 17 L").Holds("K1", "V1", "23");

    [Fact]
    public void Sugar_takes_up_room_too() => new Check().Vessel("V1", "30")
        .Does("""{"kind":"makeUp","lot":"K1","vessel":"V1","bagLitres":6,"markLitres":23,"sugarGrams":1000,"sugarLitres":0.62}""")
        .Posted("MUST_RECEIVED EXT:SUPPLIER > MUST:K1:V1 6 L", "WATER_ADDED_MUST MAT:WATER > MUST:K1:V1 16.38 L", "SUGAR_VOLUME_MUST MAT:SUGAR > MUST:K1:V1 0.62 L")
        .Does("""{"kind":"makeUp","lot":"K2","bagLitres":6,"markLitres":23,"sugarGrams":1000}""").Flagged("sugar_volume_unknown");

    [Fact]
    public void A_mark_that_can_not_be_is_refused() => new Check().Vessel("V1", "30")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"makeUp","lot":"K1","vessel":"V1","bagLitres":6,"waterLitres":16,"markLitres":23}""", "markLitres")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"makeUp","lot":"K1","vessel":"V1","bagLitres":6,"markLitres":5}""", "markLitres")
        .Refuses(RefusalCode.Missing, """{"kind":"makeUp","lot":"K1","vessel":"V1","markLitres":23}""", "waterLitres")
        .Refuses(RefusalCode.Missing, """{"kind":"makeUp","lot":"K1","vessel":"V1"}""", "markLitres")
        .Refuses(RefusalCode.NotPositive, """{"kind":"makeUp","lot":"K1","vessel":"V1","bagLitres":-6,"markLitres":23}""", "bagLitres");

    [Fact]
    public void Fruit_is_crushed_by_weight_into_must() => new Check().Vessel("T", "500").On("2026-09-10")
        .Does("""{"kind":"receive","what":"fruit","lot":"P1","kilograms":300.5}""")
        .Does("""{"kind":"crush","fruit":[{"parcel":"P1","kilograms":200}],"targets":[{"lot":"M1","vessel":"T","litres":140}],"estimated":true}""")
        .Posted("FRUIT_USED FRUIT:P1:unplaced > USED:FRUIT 200 kg", "GRAPES_CRUSHED EXT:GRAPES > MUST:M1:T 140 L")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"crush","fruit":[{"parcel":"P1","kilograms":100.501}],"targets":[{"lot":"M1","vessel":"T","litres":70}]}""")
        .Refuses(RefusalCode.NotPositive, """{"kind":"crush","fruit":[{"parcel":"P1","kilograms":-1}],"targets":[{"lot":"M1","vessel":"T","litres":70}]}""", "fruit[0].kilograms")
        .Does("""{"kind":"lose","as":"spill","parcel":"P1","kilograms":0.5}""")
        .Does("""{"kind":"crush","fruit":[{"parcel":"P1"}],"targets":[{"lot":"M1","vessel":"T","litres":70}]}""")
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"crush","fruit":[{"parcel":"P1"}],"targets":[{"lot":"M1","vessel":"T","litres":70}]}""", "fruit[0].kilograms")
        .Refuses(RefusalCode.UnknownLot, """{"kind":"crush","fruit":[{"parcel":"P9"}],"targets":[{"lot":"M1","vessel":"T","litres":70}]}""", "fruit[0].parcel")
        .Refuses(RefusalCode.Missing, """{"kind":"crush","fruit":[{"parcel":"P1"}]}""", "targets");

    [Fact]
    public void Must_on_skins_is_pressed_into_free_run_press_wine_and_marc() => new Check().Vessel("T", "500").Vessel("F", "400").Vessel("P", "100").On("2026-09-20")
        .Does("""{"kind":"receive","what":"must","lot":"M1","vessel":"T","litres":400}""")
        .Does("""{"kind":"press","sources":[{"lot":"M1"}],"targets":[{"lot":"FREE","vessel":"F","litres":280},{"lot":"PRESS","vessel":"P","litres":60}],"marcKilograms":70}""")
        .Posted("MUST_TRANSFER MUST:M1:T > MUST:FREE:F 280 L", "MUST_TRANSFER MUST:M1:T > MUST:PRESS:P 60 L", "MARC_REMOVED MUST:M1:T > BYPRODUCT:MARC 60 L")
        .Holds("FREE", "F", "280").Holds("PRESS", "P", "60").Holds("M1", "T", "0");

    [Fact]
    public void Several_lots_are_pressed_together_and_the_parts_add_up() => new Check().Vessel("T1", "100").Vessel("T2", "100").Vessel("F", "200").On("2026-09-20")
        .Does("""{"kind":"receive","what":"must","lot":"M1","vessel":"T1","litres":50}""")
        .Does("""{"kind":"receive","what":"must","lot":"M2","vessel":"T2","litres":100}""")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"press","sources":[{"lot":"M1"},{"lot":"M2"}],"targets":[{"lot":"FREE","vessel":"F","litres":120}],"marcLitres":29}""", "sources")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"press","sources":[{"lot":"M1"},{"lot":"M2"}],"targets":[{"lot":"FREE","vessel":"F","litres":151}]}""", "sources")
        .Does("""{"kind":"press","sources":[{"lot":"M1"},{"lot":"M2"}],"targets":[{"lot":"FREE","vessel":"F","litres":120}],"marcLitres":29,"losses":[{"kind":"spill","litres":1}]}""")
        .Holds("FREE", "F", "120").Holds("M1", "T1", "0").Holds("M2", "T2", "0");

    [Fact]
    public void Fruit_pressed_at_once_leaves_marc_that_never_was_must() => new Check().Vessel("T", "500").On("2026-09-10")
        .Does("""{"kind":"receive","what":"fruit","lot":"P1","kilograms":300}""")
        .Does("""{"kind":"press","fruit":[{"parcel":"P1"}],"targets":[{"lot":"M1","vessel":"T","litres":190}],"marcLitres":20}""").Flagged("marc_not_counted").Holds("M1", "T", "190");

    [Fact]
    public void Wine_is_not_pressed() => new Check().Vessel("T", "500")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"W1","vessel":"T","litres":100,"abv":12}""")
        .Refuses(RefusalCode.WrongAccount, """{"kind":"press","sources":[{"lot":"W1"}],"targets":[{"lot":"W1","litres":90}]}""", "sources");

    [Fact]
    public void Declaring_is_the_door_from_must_to_wine_and_hides_nothing() => new Check().Vessel("V1", "30")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":23}""")
        .Does("""{"kind":"declareWine","lot":"L1","litres":22.4,"abv":12.5,"losses":[{"kind":"lees","litres":0.4}]}""")
        .Posted("PRODUCED MUST:L1:V1 > BULK:L1:V1 22.4 L", "MUST_SOLIDS_REMOVED MUST:L1:V1 > BYPRODUCT:LEES 0.4 L", "FERMENT_VOLUME_CHANGE MUST:L1:V1 > LOSS:FERMENT 0.2 L")
        .Stands("L1", "V1", "12.5")
        .Refuses(RefusalCode.WrongAccount, """{"kind":"declareWine","lot":"L1","litres":22.4,"abv":12.5}""", "lot");

    [Fact]
    public void What_arrives_short_is_its_own_line() => new Check().Vessel("T", "500")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"W1","vessel":"T","litres":200,"arrivedLitres":198.5,"abv":12}""")
        .Posted("RECEIVED_BULK EXT:BONDED > BULK:W1:T 200 L", "TRANSIT_LOSS BULK:W1:T > LOSS:TRANSIT 1.5 L")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"receive","what":"bulkWine","lot":"W1","litres":200,"arrivedLitres":200.5,"abv":12}""", "arrivedLitres")
        .Refuses(RefusalCode.NotPositive, """{"kind":"receive","what":"bulkWine","lot":"W1","litres":200,"arrivedLitres":-1,"abv":12}""", "arrivedLitres");

    [Fact]
    public void Notes_belong_to_the_wine_and_follow_it()
    {
        var check = new Check().Vessel("V1", "30").Vessel("V2", "30").Vessel("V3", "60")
            .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":20}""")
            .Does("""{"kind":"pitch","lot":"L1","cultures":[{"name":"Yeast A","what":"yeast","grams":5}],"mustCelsius":19.5}""")
            .Does("""{"kind":"measure","lot":"L1","gravity":1.050,"celsius":20}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"L1"}],"targets":[{"vessel":"V2","litres":20}]}""");
        var notes = check.Book.Now.At(Account.Must("L1", "V2")).Notes;
        Assert.Equal(("1.050", "Yeast A"), (notes.Readings["gravity"].Text, Assert.Single(notes.Cultures)));
        check.Does("""{"kind":"receive","what":"must","lot":"L2","vessel":"V1","litres":10}""")
            .Does("""{"kind":"pitch","lot":"L2","cultures":[{"name":"Culture M","what":"malolactic"}]}""")
            .Does("""{"kind":"transfer","sources":[{"lot":"L1"},{"lot":"L2"}],"targets":[{"lot":"L3","vessel":"V3","litres":30}]}""");
        var met = check.Book.Now.At(Account.Must("L3", "V3")).Notes;
        // A reading of one part is no reading of the mix; cultures are in both.
        Assert.Empty(met.Readings);
        Assert.Equal(["Culture M", "Yeast A"], met.Cultures);
        Assert.Equal(Malolactic.Unknown, met.Malolactic);
    }

    [Fact]
    public void Additions_move_no_wine_except_the_rise_in_must() => new Check().Vessel("V1", "30").Vessel("V2", "30")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":20}""")
        .Does("""{"kind":"add","lot":"L1","items":[{"material":"sugar","grams":800,"riseLitres":0.5,"riseBy":"sugar"},{"material":"nutrient","grams":8}]}""")
        .Posted("SUGAR_VOLUME_MUST MAT:SUGAR > MUST:L1:V1 0.5 L", "MATERIAL_USED NOBATCH:sucrose > USED:MUST:L1:V1 800000 Milligrams")
        .Refuses(RefusalCode.UnknownWord, """{"kind":"add","lot":"L1","items":[{"material":"honey","grams":800,"riseLitres":0.5,"riseBy":"honey"}]}""", "items[0].riseBy")
        .Refuses(RefusalCode.NotPositive, """{"kind":"add","lot":"L1","items":[{"material":"sulphite","mgPerLitre":-30}]}""", "items[0].mgPerLitre")
        .Refuses(RefusalCode.NotPositive, """{"kind":"add","lot":"L1","items":[{"material":"tablets","pieces":0}]}""", "items[0].pieces")
        .Refuses(RefusalCode.Missing, """{"kind":"add","lot":"L1","items":[{"material":"sulphite"}]}""", "items[0].grams")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"W1","vessel":"V2","litres":20,"abv":12}""")
        .Refuses(RefusalCode.WrongAccount, """{"kind":"add","lot":"W1","items":[{"material":"sugar","grams":800,"riseLitres":0.5,"riseBy":"sugar"}]}""", "items[0].riseLitres");
}
