using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>Each kind of operation that the API takes is recorded at least once.</summary>
public class EveryKindTests
{
    public static TheoryData<string, string> Examples => new()
    {
        { "open", """{"kind":"open","day":"2026-03-01","stocks":[{"what":"wine","lot":"W9","vessel":"V3","litres":5,"abv":12}]}""" },
        { "receive", """{"kind":"receive","what":"must","lot":"M2","vessel":"V3","litres":23,"brix":21.5,"supplier":"Weingut Probe"}""" },
        { "makeUp", """{"kind":"makeUp","lot":"K9","vessel":"V3","bagLitres":6,"markLitres":23}""" },
        { "crush", """{"kind":"crush","fruit":[{"parcel":"P1","kilograms":60}],"targets":[{"lot":"M2","vessel":"T2","litres":40}]}""" },
        { "press", """{"kind":"press","sources":[{"lot":"M1"}],"targets":[{"vessel":"V3","litres":18}]}""" },
        { "pitch", """{"kind":"pitch","lot":"M1","cultures":[{"name":"Yeast A","what":"yeast","grams":5,"batch":"7"}],"mustCelsius":20}""" },
        { "measure", """{"kind":"measure","lot":"M1","gravity":1.050,"celsius":20,"sampleLitres":0.1}""" },
        { "add", """{"kind":"add","lot":"W1","items":[{"material":"sulphite","grams":4,"batch":"S-1"}]}""" },
        { "deliver", """{"kind":"deliver","currency":"EUR","supplier":"Lindmoor Supplies","document":"LS-118","items":[{"material":"kmbs","delivery":"D7","grams":1000,"batch":"K-26-04","bestBefore":"2028-03-31","price":8.90}]}""" },
        { "material", """{"kind":"material","code":"tabs-2","name":"Tablets of another maker","countedIn":"pieces","contents":[{"substance":"potassium-metabisulphite","mgInOne":500},{"substance":"sorbic-acid"}]}""" },
        { "takeFromStores", """{"kind":"takeFromStores","as":"cleaning","items":[{"material":"soda-crystals","grams":100}]}""" },
        { "countStores", """{"kind":"countStores","document":"sheet 2","lines":[{"material":"bentonite","delivery":"D1","grams":480}]}""" },
        { "mix", """{"kind":"mix","material":"bentonite-slurry","name":"Bentonite slurry","delivery":"S1","millilitres":1000,"items":[{"material":"bentonite","grams":50}]}""" },
        { "startKit", """{"kind":"startKit","kit":"kit-white-23","lot":"KIT1","vessel":"V3"}""" },
        { "observe", """{"kind":"observe","lot":"M1","what":"capPunched"}""" },
        { "declareWine", """{"kind":"declareWine","lot":"M1","litres":19.5,"abv":12,"losses":[{"kind":"lees","litres":0.3}]}""" },
        { "transfer", """{"kind":"transfer","sources":[{"lot":"W1","litres":20}],"targets":[{"vessel":"V3","litres":19.8}],"losses":[{"kind":"lees","litres":0.2}]}""" },
        { "topUp", """{"kind":"topUp","casks":[{"vessel":"C1","litres":0.4}],"from":{"lot":"W1"}}""" },
        { "fortify", """{"kind":"fortify","sources":[{"lot":"W2"}],"spiritLitres":1,"spiritAbv":96,"targets":[{"litres":20.9,"abv":21.5}]}""" },
        { "sweeten", """{"kind":"sweeten","sources":[{"lot":"W2"}],"sweetenerLitres":1,"targets":[{"litres":21,"abv":17.1}]}""" },
        { "ameliorate", """{"kind":"ameliorate","sources":[{"lot":"W2"}],"waterLitres":1,"targets":[{"litres":21,"abv":17.1}]}""" },
        { "blend", """{"kind":"blend","sources":[{"lot":"W1","litres":10},{"lot":"W2","litres":10}],"targets":[{"lot":"CUVEE","vessel":"V3","litres":20,"abv":15.2}]}""" },
        { "makeSparkling", """{"kind":"makeSparkling","sources":[{"lot":"W1","litres":20}],"targets":[{"lot":"S1","vessel":"V3","litres":20,"abv":12.5}]}""" },
        { "gauge", """{"kind":"gauge","vessel":"C1","litres":18.7}""" },
        { "regauge", """{"kind":"regauge","lot":"W1","abv":12.7}""" },
        { "bottle", """{"kind":"bottle","lot":"W1","fills":[{"bottling":"B2","bottles":100,"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.35}]}""" },
        { "unbottle", """{"kind":"unbottle","bottling":"B1","bottles":2,"lot":"W1"}""" },
        { "shelve", """{"kind":"shelve","bottling":"B1","toShelf":"SHOP","bottles":12}""" },
        { "lose", """{"kind":"lose","as":"evaporation","lot":"K1","litres":0.2}""" },
        { "remove", """{"kind":"remove","as":"ownUse","bottling":"B1","bottles":2}""" },
        { "return", """{"kind":"return","bottling":"B1","bottles":2}""" },
        { "takeAway", """{"kind":"takeAway","what":"lees","litres":1,"destination":"compost"}""" },
        { "count", """{"kind":"count","document":"sheet 1","lines":[{"bottling":"B1","bottles":59}]}""" },
        { "correct", """{"kind":"correct","takesBack":10,"reason":"no marc yet"}""" },
        { "vessel", """{"kind":"vessel","code":"V9","capacityLitres":54,"sort":"carboy","location":"cellar"}""" },
        { "premises", """{"kind":"premises","regimes":["household"],"timeZone":"Europe/Vienna","owner":"Ada"}""" },
        { "blankContact", """{"kind":"blankContact","contact":1}""" },
        { "cost", """{"kind":"cost","lot":"W1","what":"Cellar work","perHour":15,"hours":2.5,"currency":"EUR"}""" },
        { "describe", """{"kind":"describe","lot":"W1","colour":"red","schemes":["organic"],"zone":"B"}""" },
        { "limitSet", """{"kind":"limitSet","code":"house","as":"house","rows":[{"substances":"so2","basis":"total_measured","kind":"max","value":"120","unit":"mg/L","source":"own taste","seen":"text"}]}""" },
        { "close", """{"kind":"close","through":"2026-03-04"}""" },
    };

    [Theory]
    [MemberData(nameof(Examples))]
    public void A_kind_is_recorded(string kind, string json)
    {
        var check = Cellars.Stocked().Does("""{"kind":"deliver","items":[{"material":"bentonite","delivery":"D1","grams":500},{"material":"kit-white-23","delivery":"BOX","pieces":1}]}""");
        var before = check.Number;
        check.Does(json);
        Assert.Equal(before + 1, check.Number);
        Assert.Equal(kind, OperationJson.KindOf(check.Book.Find(check.Number)!.Operation!));
    }

    [Fact]
    public void No_kind_is_left_out() =>
        // An imported event comes in by a journal file alone; see the categories' tests.
        Assert.Equal(OperationJson.Kinds.Keys.Where(kind => kind != "imported").Order(), Examples.Select(row => row.Data.Item1).Order());

    [Fact]
    public void An_imported_event_is_no_operation_of_the_api() =>
        Cellars.Stocked().Refuses(Book.RefusalCode.UnknownKind, """{"kind":"imported","eventId":"E1","rows":[]}""", "kind");
}
