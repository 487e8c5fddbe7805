namespace Cellarbook.Browser.Tests;

/// <summary>A household's year: a kit, a garden wine, bottles drunk, given away, broken and counted.</summary>
internal static class HouseholdDiary
{
    public static async Task Write(RunningCellar cellar)
    {
        foreach (var operation in Operations()) await cellar.Write(operation);
    }

    private static string Day(int ago) => DateTime.UtcNow.AddDays(-ago - 1).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static IEnumerable<string> Operations() =>
    [
        $$"""{"kind":"premises","day":"{{Day(0)}}","regimes":["household"],"name":"Under the stairs","owner":"Mim","timeZone":"Etc/UTC"}""",
        $$"""{"kind":"vessel","day":"{{Day(120)}}","code":"B1","name":"White bucket","capacityLitres":30,"sort":"bucket"}""",
        $$"""{"kind":"vessel","day":"{{Day(120)}}","code":"C1","capacityLitres":25,"sort":"carboy"}""",
        $$"""{"kind":"makeUp","day":"{{Day(120)}}","lot":"KIT","vessel":"B1","bagLitres":7.5,"waterLitres":15.5}""",
        $$"""{"kind":"pitch","day":"{{Day(120)}}","lot":"KIT","cultures":[{"name":"Yeast of the kit","packets":1}]}""",
        $$"""{"kind":"measure","day":"{{Day(119)}}","lot":"KIT","gravity":1.082,"celsius":22}""",
        $$"""{"kind":"measure","day":"{{Day(112)}}","lot":"KIT","gravity":1.010,"celsius":21}""",
        $$"""{"kind":"declareWine","day":"{{Day(105)}}","lot":"KIT","litres":22.6,"abv":11.8,"losses":[{"kind":"lees","litres":0.3}]}""",
        $$"""{"kind":"transfer","day":"{{Day(104)}}","sources":[{"lot":"KIT","vessel":"B1","litres":22.6}],"targets":[{"lot":"KIT","vessel":"C1","litres":22.2}],"losses":[{"kind":"lees","litres":0.4}],"note":"<script>document.title='taken over'</script> & =1+1"}""",
        $$"""{"kind":"add","day":"{{Day(103)}}","lot":"KIT","items":[{"material":"Potassium metabisulphite","grams":1.1,"batch":"7"}]}""",
        $$"""{"kind":"bottle","day":"{{Day(60)}}","lot":"KIT","fills":[{"bottling":"KIT-75","bottles":28,"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.2}],"empties":true}""",
        $$"""{"kind":"remove","as":"ownUse","day":"{{Day(30)}}","bottling":"KIT-75","bottles":3}""",
        $$"""{"kind":"remove","as":"gift","day":"{{Day(29)}}","bottling":"KIT-75","bottles":2}""",
        $$"""{"kind":"lose","as":"breakage","day":"{{Day(28)}}","bottling":"KIT-75","bottles":1}""",
        $$"""{"kind":"remove","as":"sold","day":"{{Day(27)}}","bottling":"KIT-75","bottles":1,"recipient":"village fair"}""",
        $$"""{"kind":"return","day":"{{Day(26)}}","bottling":"KIT-75","bottles":1}""",
        $$"""{"kind":"count","day":"{{Day(25)}}","lines":[{"bottling":"KIT-75","bottles":21}],"document":"back of an envelope"}""",
        $$"""{"kind":"receive","day":"{{Day(9)}}","what":"juice","lot":"GARDEN","vessel":"B1","litres":20,"origin":[{"variety":"Apple","place":"Garden"}]}""",
        $$"""{"kind":"measure","day":"{{Day(8)}}","lot":"GARDEN","gravity":1.048}""",
        $$"""{"kind":"measure","day":"{{Day(5)}}","lot":"GARDEN","gravity":1.019}""",
        $$"""{"kind":"measure","day":"{{Day(1)}}","lot":"GARDEN","gravity":1.019}""",
    ];
}
