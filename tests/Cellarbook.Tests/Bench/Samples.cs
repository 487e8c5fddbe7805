using System.Globalization;
using Cellarbook.Core.Chemistry;
using Xunit;

namespace Cellarbook.Tests.Bench;

/// <summary>One set of sensible inputs for every calculator, as they stand in an address.</summary>
internal static class Samples
{
    private const string Sulphite = "ph=3.4&pKaMethod=chart";

    public static readonly IReadOnlyDictionary<string, string> Query = new Dictionary<string, string>
    {
        ["water-density"] = "celsius=20",
        ["strength"] = "abv=12.5&celsius=15",
        ["strength-from-density"] = "kgPerCubicMetre=983&celsius=20",
        ["alcoholmeter"] = "readingAbv=42&celsius=24&glass=sodaLime",
        ["hydrometer-distillate"] = "gravity=0.985&celsius=18&calibrationCelsius=20&glass=sodaLime",
        ["pure-alcohol"] = "litres=50&celsius=12&abv=12.5",
        ["must-scales"] = "oechsle=85&factor=eu",
        ["potential-strength"] = "sugarGramsPerLitre=200&factor=eu",
        ["german-natural-strength"] = "oechsle=80",
        ["hydrometer-must"] = "gravity=1.085&celsius=26&calibrationCelsius=20&glass=sodaLime",
        ["hydrometer-wine"] = "gravity=0.994&celsius=14&calibrationCelsius=20&abv=12&glass=sodaLime",
        ["refractometer-must"] = "brix=21&celsius=24&compensated=no&fermenting=no",
        ["refractometer-ferment"] = "originalBrix=21&brix=9",
        ["refractometer-hydrometer"] = "brix=12&gravity=1.030",
        ["dry-extract"] = "gravity=0.993&abv=12.5",
        ["strength-from-gravities"] = "originalGravity=1.090&finalGravity=0.995&factor=eu",
        ["strength-after-additions"] = "litres=23&originalGravity=1.080&sugarKilograms=1&finalGravity=0.995&factor=eu",
        ["duty-strength"] = "abv=12.48",
        ["molecular-so2"] = "freeMgPerLitre=30&" + Sulphite,
        ["free-so2-needed"] = "molecularMgPerLitre=0.6&" + Sulphite,
        ["sulphite-dose"] = "litres=23&freeMgPerLitre=8&wantedFreeMgPerLitre=30&boundPercent=40",
        ["so2-titration"] = "titrantMillilitres=3&normality=0.01&sampleMillilitres=20",
        ["acid-convert"] = "value=6&from=tartaric&to=sulfuric",
        ["acid-titration"] = "titrantMillilitres=8&normality=0.1&sampleMillilitres=10&endPoint=8.2",
        ["acid-addition"] = "litres=23&raiseGramsPerLitre=1&acid=tartaric",
        ["deacidification"] = "litres=23&dropGramsPerLitre=1&salt=",
        ["nitrogen-need"] = "brix=22&demand=medium&yanMgPerLitre=140&litres=23",
        ["yan-total"] = "aminoMgNitrogenPerLitre=90&ammoniaMgPerLitre=60",
        ["formol"] = "titrantMillilitres=2&normality=0.1&sampleMillilitres=25",
        ["blend-to-strength"] = "litres=100&abv=12&secondAbv=96&targetAbv=18",
        ["mix"] = "litres=20&abv=12&secondLitres=5&secondAbv=14",
        ["make-up"] = "litres=7&gravity=1.300&targetGravity=1.085",
        ["mix-gravities"] = "litres=20&gravity=1.080&secondLitres=5&secondGravity=1.000",
        ["sugar-to-gravity"] = "litres=23&gravity=1.070&targetGravity=1.085",
        ["chaptalise"] = "litres=23&sugarGramsPerLitre=180&targetAbv=12&factor=eu",
        ["volume-at-20"] = "litres=100&celsius=12&abv=12.5&vessel=stainless",
        ["convert"] = "value=5&from=&to=",
        ["blend-ph"] = "litres=20&ph=3.3&secondLitres=5&secondPh=3.6",
        ["upright-cylinder"] = "diameterMetres=0.6&heightMetres=1.2&depthMetres=0.9",
        ["lying-cylinder"] = "diameterMetres=0.8&lengthMetres=1.5&litres=300",
        ["cask"] = "bilgeMetres=0.69&headMetres=0.56&lengthMetres=0.88&depthMetres=0.6",
        ["dip-table"] = "dip1Metres=0&dip1Litres=0&dip2Metres=0.5&dip2Litres=150&dipMetres=0.3",
        ["headspace"] = "capacityLitres=25&litres=23",
        ["co2-in-a-room"] = "litres=100&sugarGramsPerLitre=200&celsius=20&roomCubicMetres=30",
        ["ferment-heat"] = "litres=100&sugarGramsPerLitre=200&gravity=1.085",
        ["ferment-forecast"] = "originalGravity=1.090&finalGravity=0.994&targetGravity=1.000&day1=2&gravity1=1.070&day2=5&gravity2=1.030",
        ["dissolved-co2"] = "celsius=12",
        ["bottles"] = "litres=23&bottleMillilitres=750",
        ["fill-tolerance"] = "bottleMillilitres=750",
        ["refermentation"] = "sugarGramsPerLitre=6&co2GramsPerLitre=1&celsius=20&headspacePercent=2",
        ["energy"] = "abv=12.5&sugarGramsPerLitre=4&acidGramsPerLitre=6&glycerolGramsPerLitre=8",
    };

    public static TheoryData<string> Ids => [.. Query.Keys];

    /// <summary>The inputs of a calculator; a choice left empty above takes its first code.</summary>
    public static string Of(string id) => string.Join('&', Query[id].Split('&').Select(pair => pair.EndsWith('=')
        ? pair + Uri.EscapeDataString(BenchCalculators.Find(id)!.Inputs.First(input => input.Name == pair[..^1]).Choices[0].Code)
        : pair));

    public static IEnumerable<KeyValuePair<string, string>> Pairs(string id) =>
        Of(id).Split('&').Select(pair => pair.Split('=')).Select(pair => KeyValuePair.Create(pair[0], Uri.UnescapeDataString(pair[1])));

    /// <summary>The same for the core.</summary>
    public static BenchInputs Inputs(string id)
    {
        var inputs = BenchInputs.None;
        foreach (var (name, text) in Pairs(id))
            inputs = BenchCalculators.Find(id)!.Inputs.Single(input => input.Name == name).IsChoice ? inputs.With(name, text) : inputs.With(name, double.Parse(text, CultureInfo.InvariantCulture));
        return inputs;
    }
}
