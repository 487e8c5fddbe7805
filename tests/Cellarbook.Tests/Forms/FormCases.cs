namespace Cellarbook.Tests.Forms;

/// <summary>What a maker says by a form, and the same as a script says it.</summary>
public sealed record FormCase(string Path, (string Name, string Value)[] Typed, string Json)
{
    public override string ToString() => Path;
}

/// <summary>One case for each form, on one small cellar.</summary>
public static class FormCases
{
    /// <summary>The cellar they start from: must, must on skins, two wines, bottles, fruit.</summary>
    public static string[] Cellar(string regime = "household") =>
    [
        $$"""{"kind":"premises","day":"2026-01-01","regimes":["{{regime}}"],"owner":"Ida","name":"Ashlar Hill"}""",
        """{"kind":"vessel","day":"2026-01-01","code":"V1","capacityLitres":30}""", """{"kind":"vessel","day":"2026-01-01","code":"V2","capacityLitres":30}""",
        """{"kind":"vessel","day":"2026-01-01","code":"V3","capacityLitres":60}""", """{"kind":"vessel","day":"2026-01-01","code":"V4","capacityLitres":60}""",
        """{"kind":"vessel","day":"2026-01-01","code":"V5","capacityLitres":60}""", """{"kind":"vessel","day":"2026-01-01","code":"V6","capacityLitres":60}""",
        """{"kind":"receive","day":"2026-01-02","what":"must","lot":"L1","vessel":"V1","litres":23}""",
        """{"kind":"receive","day":"2026-01-02","what":"must","lot":"L2","vessel":"V2","litres":20}""",
        """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"W1","vessel":"V3","litres":55,"abv":12.5,"taxPaid":true}""",
        """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"W2","vessel":"V4","litres":40,"abv":12,"taxPaid":true}""",
        """{"kind":"receive","day":"2026-01-02","what":"fruit","lot":"Plums","kilograms":40}""",
        """{"kind":"bottle","day":"2026-01-03","lot":"W1","vessel":"V3","fills":[{"bottling":"W1-75","bottles":20,"bottleMl":750,"shelf":"A"}]}""",
        """{"kind":"measure","day":"2026-01-03","lot":"L1","vessel":"V1","gravity":1.088,"celsius":20}""",
        """{"kind":"measure","day":"2026-01-20","lot":"L1","vessel":"V1","gravity":0.994,"celsius":18}""",
        """{"kind":"deliver","day":"2026-01-02","items":[{"material":"bentonite","delivery":"D1","grams":500},{"material":"kit-white-23","delivery":"BOX","pieces":1}]}""",
    ];

    public static IEnumerable<FormCase> All =>
    [
        new("/record/receive?what=must&vessel=V5", [("lot", "N1"), ("litres", "21,5"), ("supplier", "Linden Farm")], """{"kind":"receive","day":"2026-02-01","what":"must","lot":"N1","vessel":"V5","litres":21.5,"supplier":"Linden Farm"}"""),
        new("/record/receive?what=fruit", [("lot", "Sloes"), ("kilograms", "12.25")], """{"kind":"receive","day":"2026-02-01","what":"fruit","lot":"Sloes","kilograms":12.25}"""),
        new("/record/receive?what=bulkWine", [("lot", "N2"), ("litres", "6"), ("litres:unit", "US gal"), ("vessel", "V5"), ("abv", "11")], """{"kind":"receive","day":"2026-02-01","what":"bulkWine","lot":"N2","vessel":"V5","litres":22.712471,"abv":11,"taxPaid":true,"typed":{"litres":"6 US gal"}}"""),
        new("/record/receive?what=bottledWine", [("bottling", "Guest"), ("bottles", "12"), ("bottleMl", "750")], """{"kind":"receive","day":"2026-02-01","what":"bottledWine","bottling":"Guest","bottles":12,"bottleMl":750,"taxPaid":true}"""),
        new("/record/receive?what=spirit", [("litres", "2"), ("litres:unit", "L"), ("abv", "96")], """{"kind":"receive","day":"2026-02-01","what":"spirit","litres":2,"abv":96}"""),
        new("/record/make-up", [("lot", "K1"), ("vessel", "V5"), ("bagLitres", "10"), ("markLitres", "23")], """{"kind":"makeUp","day":"2026-02-01","lot":"K1","vessel":"V5","bagLitres":10,"markLitres":23}"""),
        new("/record/crush", [("fruit[0].parcel", "Plums"), ("targets[0].lot", "P1"), ("targets[0].litres", "28"), ("targets[0].vessel", "V5"), ("estimated", "true")], """{"kind":"crush","day":"2026-02-01","fruit":[{"parcel":"Plums"}],"targets":[{"lot":"P1","vessel":"V5","litres":28}],"estimated":true}"""),
        new("/record/press?lot=L1&vessel=V1", [("targets[0].lot", "L1"), ("targets[0].litres", "15"), ("targets[0].vessel", "V5"), ("targets[1].lot", "L1P"), ("targets[1].litres", "4"), ("targets[1].vessel", "V6")],
            """{"kind":"press","day":"2026-02-01","sources":[{"lot":"L1","vessel":"V1"}],"targets":[{"lot":"L1","vessel":"V5","litres":15},{"lot":"L1P","vessel":"V6","litres":4}]}"""),
        new("/record/pitch?lot=L1&vessel=V1", [("cultures[0].name", "House yeast"), ("cultures[0].amount", "5"), ("mustCelsius", "68"), ("mustCelsius:unit", "°F")], """{"kind":"pitch","day":"2026-02-01","lot":"L1","vessel":"V1","cultures":[{"name":"House yeast","what":"yeast","grams":5}],"mustCelsius":20.0,"typed":{"mustCelsius":"68 °F"}}"""),
        new("/record/measure?lot=L1&vessel=V1", [("gravity", "1,050"), ("celsius", "20")], """{"kind":"measure","day":"2026-02-01","lot":"L1","vessel":"V1","gravity":1.050,"celsius":20}"""),
        new("/record/measure", [("place", "W1@V3"), ("gravity", "5.5"), ("gravity:unit", "°Bx"), ("ph", "3.40"), ("sampleLitres", "100")], """{"kind":"measure","day":"2026-02-01","lot":"W1","vessel":"V3","brix":5.5,"ph":3.40,"sampleLitres":0.1,"typed":{"sampleLitres":"100 mL"}}"""),
        new("/record/measure?lot=W1&vessel=V3", [("contents[0].substance", "copper"), ("contents[0].mgPerLitre", "0.3")], """{"kind":"measure","day":"2026-02-01","lot":"W1","vessel":"V3","contents":[{"substance":"copper","mgPerLitre":0.3}]}"""),
        new("/record/add?lot=W1&vessel=V3", [("items[0].material", "Potassium metabisulphite"), ("items[0].amount", "1.5"), ("items[0].batch", "25-097")], """{"kind":"add","day":"2026-02-01","lot":"W1","vessel":"V3","items":[{"material":"Potassium metabisulphite","grams":1.5,"batch":"25-097"}]}"""),
        new("/record/deliver", [("items[0].material", "bentonite"), ("items[0].amount", "2.5"), ("items[0].amount:unit", "kg"), ("items[0].delivery", "D2"), ("items[0].price", "11.20"), ("currency", "EUR"), ("supplier", "Lindmoor Supplies")],
            """{"kind":"deliver","day":"2026-02-01","items":[{"material":"bentonite","delivery":"D2","grams":2500,"price":11.20}],"currency":"EUR","supplier":"Lindmoor Supplies","typed":{"items[0].grams":"2.5 kg"}}"""),
        new("/record/describe?lot=W1&vessel=V3", [("colour", "red"), ("schemes[0]", "organic"), ("zone", "B")], """{"kind":"describe","day":"2026-02-01","lot":"W1","vessel":"V3","colour":"red","schemes":["organic"],"zone":"B"}"""),
        new("/record/material", [("code", "tabs-2"), ("name", "Other tablets"), ("countedIn", "pieces"), ("contents[0].substance", "so2"), ("contents[0].mgInOne", "250")],
            """{"kind":"material","day":"2026-02-01","code":"tabs-2","name":"Other tablets","countedIn":"pieces","contents":[{"substance":"so2","mgInOne":250}]}"""),
        new("/record/material", [("code", "sachet-9"), ("name", "Sachet of ours"), ("countedIn", "pieces"), ("atMost", "1"), ("atMostInLitres", "11,5"), ("limits[0].substances", "so2"), ("limits[0].value", "62,5")],
            """{"kind":"material","day":"2026-02-01","code":"sachet-9","name":"Sachet of ours","countedIn":"pieces","atMost":1,"atMostInLitres":11.5,"limits":[{"substances":"so2","value":"62.5","unit":"mg/L","basis":"added_dose","kind":"max"}]}"""),
        new("/record/take-from-stores", [("as", "cleaning"), ("items[0].material", "soda-crystals"), ("items[0].amount", "100")], """{"kind":"takeFromStores","day":"2026-02-01","as":"cleaning","items":[{"material":"soda-crystals","grams":100}]}"""),
        new("/record/count-stores", [("lines[0].material", "bentonite"), ("lines[0].delivery", "D1"), ("lines[0].amount", "490"), ("document", "sheet 1")], """{"kind":"countStores","day":"2026-02-01","document":"sheet 1","lines":[{"material":"bentonite","delivery":"D1","grams":490}]}"""),
        new("/record/mix", [("material", "slurry"), ("delivery", "S1"), ("amount", "1000"), ("amount:unit", "mL"), ("items[0].material", "bentonite"), ("items[0].amount", "50")], """{"kind":"mix","day":"2026-02-01","material":"slurry","delivery":"S1","millilitres":1000,"items":[{"material":"bentonite","grams":50}]}"""),
        new("/record/start-kit", [("kit", "kit-white-23"), ("lot", "K7"), ("vessel", "V5"), ("markLitres", "23")], """{"kind":"startKit","day":"2026-02-01","kit":"kit-white-23","lot":"K7","vessel":"V5","markLitres":23}"""),
        new("/record/observe?lot=L1&vessel=V1", [("what", "stirred"), ("finding", "Thick lees")], """{"kind":"observe","day":"2026-02-01","lot":"L1","vessel":"V1","what":"stirred","finding":"Thick lees"}"""),
        new("/record/observe?vessel=V6", [("what", "cleaned")], """{"kind":"observe","day":"2026-02-01","vessel":"V6","what":"cleaned"}"""),
        new("/record/rack?lot=W1&vessel=V3", [("targets[0].litres", "39.2"), ("targets[0].vessel", "V5")], """{"kind":"transfer","day":"2026-02-01","sources":[{"lot":"W1","vessel":"V3","litres":40}],"targets":[{"lot":"W1","vessel":"V5","litres":39.2}],"losses":[{"kind":"lees","litres":0.8}]}"""),
        new("/record/rack?lot=L1&vessel=V1", [("losses[0].litres", "1.5"), ("targets[0].vessel", "V5"), ("declare", "true"), ("declare.abv", "12.3")], """{"kind":"transfer","day":"2026-02-01","sources":[{"lot":"L1","vessel":"V1","litres":23}],"targets":[{"lot":"L1","vessel":"V5","litres":21.5}],"losses":[{"kind":"lees","litres":1.5}],"declare":{"abv":12.3}}"""),
        new("/record/blend", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("sources[1]", "W2@V4"), ("sources[1].litres", "10"), ("targets[0].litres", "20"), ("targets[0].vessel", "V5"), ("targets[0].lot", "B1")],
            """{"kind":"transfer","day":"2026-02-01","sources":[{"lot":"W1","vessel":"V3","litres":10},{"lot":"W2","vessel":"V4","litres":10}],"targets":[{"lot":"B1","vessel":"V5","litres":20}]}"""),
        new("/record/blend-anew", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("targets[0].litres", "9.9"), ("targets[0].vessel", "V5"), ("targets[0].abv", "12.4")], """{"kind":"blend","day":"2026-02-01","sources":[{"lot":"W1","vessel":"V3","litres":10}],"targets":[{"lot":"W1","vessel":"V5","litres":9.9,"abv":12.4}]}"""),
        new("/record/declare?lot=L1&vessel=V1", [("litres", "22.6"), ("abv", "12.5"), ("losses[0].litres", "0.3")], """{"kind":"declareWine","day":"2026-02-01","lot":"L1","vessel":"V1","litres":22.6,"abv":12.5,"losses":[{"kind":"lees","litres":0.3}]}"""),
        new("/record/top-up?lot=W2&vessel=V4", [("casks[0].litres", "0.7"), ("from", "W1@V3")], """{"kind":"topUp","day":"2026-02-01","casks":[{"lot":"W2","vessel":"V4","litres":0.7}],"from":{"lot":"W1","vessel":"V3"}}"""),
        new("/record/top-up", [("casks[0]", "W2@V4"), ("casks[0].litres", "1"), ("fromBought", "true"), ("fromBought.abv", "12")], """{"kind":"topUp","day":"2026-02-01","casks":[{"lot":"W2","vessel":"V4","litres":1}],"fromBought":{"abv":12}}"""),
        new("/record/top-up-many", [("casks[0].litres", "1"), ("casks[1].litres", "0,5"), ("fromWater", "true")], """{"kind":"topUp","day":"2026-02-01","casks":[{"lot":"W1","vessel":"V3","litres":1},{"lot":"W2","vessel":"V4","litres":0.5}],"fromWater":true}"""),
        new("/record/gauge?vessel=V3", [("litres", "39.5")], """{"kind":"gauge","day":"2026-02-01","vessel":"V3","lot":"W1","litres":39.5}"""),
        new("/record/gauge?vessel=V3", [("nowEmpty", "true"), ("as", "spill")], """{"kind":"gauge","day":"2026-02-01","vessel":"V3","lot":"W1","litres":0,"as":"spill"}"""),
        new("/record/regauge?lot=W1&vessel=V3", [("abv", "12.7")], """{"kind":"regauge","day":"2026-02-01","lot":"W1","vessel":"V3","abv":12.7}"""),
        new("/record/bottle?lot=W2&vessel=V4", [("fills[0].bottling", "W2-75"), ("fills[0].bottles", "52"), ("fills[0].shelf", "A"), ("losses[0].litres", "0.35"), ("empties", "true")], """{"kind":"bottle","day":"2026-02-01","lot":"W2","vessel":"V4","fills":[{"bottling":"W2-75","bottles":52,"bottleMl":750,"shelf":"A"}],"losses":[{"kind":"bottling","litres":0.35}],"empties":true}"""),
        new("/record/bottle?lot=L1&vessel=V1", [("fills[0].bottling", "L1-75"), ("fills[0].bottles", "30"), ("declare", "true"), ("declare.abv", "12,3")], """{"kind":"bottle","day":"2026-02-01","lot":"L1","vessel":"V1","fills":[{"bottling":"L1-75","bottles":30,"bottleMl":750}],"declare":{"abv":12.3}}"""),
        new("/record/unbottle?bottling=W1-75", [("bottles", "2"), ("lot", "W1"), ("vessel", "V3")], """{"kind":"unbottle","day":"2026-02-01","bottling":"W1-75","shelf":"A","bottles":2,"lot":"W1","vessel":"V3"}"""),
        new("/record/shelve?bottling=W1-75", [("toShelf", "B"), ("bottles", "6")], """{"kind":"shelve","day":"2026-02-01","bottling":"W1-75","shelf":"A","toShelf":"B","bottles":6}"""),
        new("/record/lose?lot=W1&vessel=V3&as=spill", [("litres", "1")], """{"kind":"lose","day":"2026-02-01","as":"spill","lot":"W1","vessel":"V3","litres":1}"""),
        new("/record/remove?bottling=W1-75&as=gift", [("lines[0].bottles", "2")], """{"kind":"remove","day":"2026-02-01","as":"gift","lines":[{"bottling":"W1-75","shelf":"A","bottles":2}]}"""),
        new("/record/remove?as=ownUse", [("lines[0]", "W1-75@A"), ("lines[0].bottles", "1"), ("lines[100]", "W2@V4"), ("lines[100].litres", "0.5")], """{"kind":"remove","day":"2026-02-01","as":"ownUse","lines":[{"bottling":"W1-75","shelf":"A","bottles":1},{"lot":"W2","vessel":"V4","litres":0.5}]}"""),
        new("/record/return?bottling=W1-75", [("lines[0].bottles", "2")], """{"kind":"return","day":"2026-02-01","lines":[{"bottling":"W1-75","bottles":2}]}"""),
        new("/record/take-away", [("what", "lees"), ("litres", "3"), ("destination", "Compost")], """{"kind":"takeAway","day":"2026-02-01","what":"lees","litres":3,"destination":"Compost"}"""),
        new("/record/count", [("document", "Sheet 1"), ("lines[0].litres", "23"), ("lines[4].bottles", "19")], """{"kind":"count","day":"2026-02-01","document":"Sheet 1","lines":[{"lot":"L1","vessel":"V1","litres":23},{"bottling":"W1-75","shelf":"A","bottles":19}]}"""),
        new("/record/fortify", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("spiritLitres", "1"), ("spiritAbv", "96"), ("targets[0].litres", "10.9"), ("targets[0].vessel", "V5"), ("targets[0].lot", "F1"), ("targets[0].abv", "20")],
            """{"kind":"fortify","day":"2026-02-01","sources":[{"lot":"W1","vessel":"V3","litres":10}],"targets":[{"lot":"F1","vessel":"V5","litres":10.9,"abv":20}],"spiritLitres":1,"spiritAbv":96}"""),
        new("/record/sweeten", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("sweetenerLitres", "0.3"), ("material", "Sugar"), ("grams", "500"), ("targets[0].litres", "10.3"), ("targets[0].vessel", "V5")],
            """{"kind":"sweeten","day":"2026-02-01","sources":[{"lot":"W1","vessel":"V3","litres":10}],"targets":[{"lot":"W1","vessel":"V5","litres":10.3}],"sweetenerLitres":0.3,"material":"Sugar","grams":500}"""),
        new("/record/ameliorate", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("waterLitres", "1"), ("targets[0].litres", "11"), ("targets[0].vessel", "V5")], """{"kind":"ameliorate","day":"2026-02-01","sources":[{"lot":"W1","vessel":"V3","litres":10}],"targets":[{"lot":"W1","vessel":"V5","litres":11}],"waterLitres":1}"""),
        new("/record/sparkle", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("targets[0].litres", "10"), ("targets[0].vessel", "V5"), ("targets[0].lot", "S1")], """{"kind":"makeSparkling","day":"2026-02-01","sources":[{"lot":"W1","vessel":"V3","litres":10}],"targets":[{"lot":"S1","vessel":"V5","litres":10}]}"""),
        new("/record/correct?entry=14", [("reason", "Wrong vessel")], """{"kind":"correct","day":"2026-02-01","takesBack":14,"reason":"Wrong vessel"}"""),
        new("/record/blank-contact", [("contact", "1"), ("reason", "Asked for it")], """{"kind":"blankContact","day":"2026-02-01","contact":1,"reason":"Asked for it"}"""),
        new("/record/cost?lot=W1&vessel=V3", [("what", "Cellar work"), ("amount", "12.5"), ("currency", "EUR")], """{"kind":"cost","day":"2026-02-01","lot":"W1","vessel":"V3","what":"Cellar work","amount":12.5,"currency":"EUR"}"""),
        new("/record/close", [("through", "2026-01-31")], """{"kind":"close","day":"2026-02-01","through":"2026-01-31"}"""),
    ];
}
