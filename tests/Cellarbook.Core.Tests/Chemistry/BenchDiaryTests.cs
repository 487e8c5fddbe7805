using System.Globalization;
using Cellarbook.Core.Chemistry;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>An evening at the bench: whole calculators with figures known from elsewhere in this folder, so that formula, unit and wording belong together.</summary>
public class BenchDiaryTests
{
    private static BenchAnswer Answer(string id, params (string Name, object Value)[] given) => BenchCalculators.Find(id)!.Answer(given.Aggregate(BenchInputs.None,
        (inputs, g) => g.Value is string choice ? inputs.With(g.Name, choice) : inputs.With(g.Name, Convert.ToDouble(g.Value, CultureInfo.InvariantCulture))));

    [Fact]
    public void Fortifying_shows_Pearson_and_the_true_blend_side_by_side()
    {
        BenchAnswer answer = Answer("blend-to-strength", ("litres", 100), ("abv", 12), ("secondAbv", 96), ("targetAbv", 18));
        Assert.Equal("7.549 L", answer.Find("secondLitres")!.ToString());          // row B24
        Assert.Equal("7.692 L", answer.Find("secondLitresPearson")!.ToString());   // row B01
        Assert.Equal(100 + 7.549 - answer.Find("litresAfter")!.Value, answer.Find("contractionLitres")!.Value, 0.001);
        Assert.Equal("100 x (18 - 12) / (96 - 18) = 7.692 L", answer.Find("secondLitresPearson")!.Worked);
    }

    [Fact]
    public void Sulphite_says_salt_solution_and_the_total_it_makes()
    {
        BenchAnswer answer = Answer("sulphite-dose", ("litres", 1000), ("freeMgPerLitre", 10), ("wantedFreeMgPerLitre", 30), ("boundPercent", 0), ("totalMgPerLitre", 80), ("solutionGramsPer100Millilitres", 5));
        Assert.Equal(34.704, answer.Find("potassiumMetabisulphiteGrams")!.Value, 0.01);   // row F56
        Assert.Equal(400, answer.Find("solutionMillilitres")!.Value, 1e-9);
        Assert.Equal(100, answer.Find("totalMgPerLitre")!.Value, 1e-9);
        Assert.Contains("asthma", answer.Find("so2Grams")!.Caution?.ToString(), StringComparison.Ordinal);
        Assert.Equal("grams", answer.Find("potassiumMetabisulphiteGrams")!.EntryField);

        // What binds must be added too, and counts in the total.
        BenchAnswer binding = Answer("sulphite-dose", ("litres", 1000), ("freeMgPerLitre", 10), ("wantedFreeMgPerLitre", 30), ("boundPercent", 50));
        Assert.Equal(40, binding.Find("totalAddedMgPerLitre")!.Value, 1e-9);
    }

    [Fact]
    public void The_pKa_is_printed_and_the_other_convention_is_marked()
    {
        Assert.Contains("1.81", Answer("molecular-so2", ("freeMgPerLitre", 30), ("ph", 3.0), ("pKaMethod", "chart")).Find("molecularMgPerLitre")!.Worked, StringComparison.Ordinal);
        BenchAnswer oiv = Answer("molecular-so2", ("freeMgPerLitre", 30), ("ph", 3.0), ("pKaMethod", "oiv"), ("abv", 10), ("celsius", 25));
        Assert.Equal(2.198, oiv.Find("pKa")!.Value, 1e-9);
        Assert.Contains("Another convention", oiv.Find("pKa")!.Caution?.ToString(), StringComparison.Ordinal);
        Assert.Equal(RefusalCodes.MissingInput, Assert.Single(Answer("molecular-so2", ("freeMgPerLitre", 30), ("ph", 3.0), ("pKaMethod", "oiv")).Refusals).Code);
    }

    [Fact]
    public void A_barrel_fermenting_in_a_closed_cellar_is_a_danger_and_says_so()
    {
        // SG 1.090 in 225 L frees about 12 m3 of gas.
        double sugar = MustTable.SugarGramsPerLitreFromGravity(1.090);
        BenchAnswer answer = Answer("co2-in-a-room", ("litres", 225), ("sugarGramsPerLitre", sugar), ("celsius", 20), ("roomCubicMetres", 60));
        Assert.Equal(12, answer.Find("gasCubicMetres")!.Value, 0.5);
        Assert.StartsWith("At or over 4 %", answer.Find("roomPercent")!.Caution?.ToString(), StringComparison.Ordinal);
        Assert.NotNull(answer.Find("dangerReachedPercent"));
        Assert.StartsWith("Below the lowest limit", Answer("co2-in-a-room", ("litres", 1), ("sugarGramsPerLitre", 100), ("celsius", 20), ("roomCubicMetres", 500)).Find("roomPercent")!.Caution?.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, "Small")]
    [InlineData(2.5, "At 2 g/L")]
    [InlineData(5, "Danger: pressure of a semi-sparkling")]
    [InlineData(20, "Danger: pressure of a sparkling")]
    public void Sugar_left_in_a_bottle_warns_by_the_pressure_it_can_make(double sugar, string warning) => Assert.StartsWith(warning,
        Answer("refermentation", ("sugarGramsPerLitre", sugar), ("co2GramsPerLitre", 0), ("celsius", 20), ("headspacePercent", 2)).Find("co2Bar")!.Caution?.ToString(), StringComparison.Ordinal);

    [Fact]
    public void A_nutrient_dose_over_its_limit_is_flagged_and_not_hidden()
    {
        Explained over = Answer("nitrogen-need", ("brix", 27), ("demand", "high"), ("yanMgPerLitre", 50), ("litres", 100)).Find("dapGrams")!;
        Assert.Contains("over the limit of 1 g/L", over.Caution?.ToString(), StringComparison.Ordinal);
        Explained within = Answer("nitrogen-need", ("brix", 23), ("demand", "medium"), ("yanMgPerLitre", 150), ("litres", 1000)).Find("dapGrams")!;
        Assert.Equal(471.41, within.Value, 0.02);   // row N09: 100 mg N/L in 1000 L
        Assert.DoesNotContain("over", within.Caution?.ToString(), StringComparison.Ordinal);
        Assert.Equal(0, Answer("nitrogen-need", ("brix", 23), ("demand", "low"), ("yanMgPerLitre", 300), ("litres", 100)).Find("dapGrams")!.Value);
    }

    [Fact]
    public void Both_gravities_of_a_wine_give_every_rule_with_its_name()
    {
        BenchAnswer answer = Answer("strength-from-gravities", ("originalGravity", 1.100), ("finalGravity", 0.994), ("residualSugarGramsPerLitre", 0), ("factor", "eu"));
        string[] found = [.. new[] { "abv", "abvLinear", "abvBalling", "abvDivisor", "abvHall" }.Select(n => Show.Number(answer.Find(n)!.Value, 2))];
        Assert.Equal(["13.82", "13.91", "14.39", "14.40", "14.96"], found);
        Assert.Equal("abvHmrc", Assert.Single(answer.Refusals).Path);   // the table ends at a drop of 100.7
        Assert.Equal("abvLinear", answer.Results.First(r => r.Method.ToString() == "Linear rule of thumb").Name);
    }

    [Fact]
    public void One_gravity_reads_on_all_scales()
    {
        BenchAnswer answer = Answer("must-scales", ("oechsle", 100), ("factor", "eu"));
        Assert.Equal(23.774, answer.Find("brix")!.Value, 0.002);        // row S81
        Assert.Equal(20.0738, answer.Find("kmw")!.Value, 0.0005);       // row S128
        Assert.Equal(13.82, answer.Find("potentialAbv")!.Value, 0.01);
        Assert.Equal(answer.Find("gravity")!.Value + 0.0004, answer.Find("gravity60Fahrenheit")!.Value, 0.0001);
        foreach ((string name, string back) in new[] { ("gravity60Fahrenheit", "gravity60Fahrenheit"), ("brix", "brix"), ("mustBrix", "mustBrix"), ("kmw", "kmw"), ("kgPerLitre", "kgPerLitre"), ("refractiveIndex", "refractiveIndex") })
        {
            Assert.Equal(1.100, Answer("must-scales", (name, answer.Find(back)!.Value), ("factor", "eu")).Find("gravity")!.Value, 1e-7);
        }

        Assert.Equal(1.100, Answer("must-scales", ("baume", answer.Find("baumeUs")!.Value), ("baumeModulus", "us145"), ("factor", "eu")).Find("gravity")!.Value, 1e-9);
        Assert.Equal(1.100, Answer("must-scales", ("baume", answer.Find("baumeEurope")!.Value), ("baumeModulus", "europe144.3"), ("factor", "eu")).Find("gravity")!.Value, 1e-9);
        Assert.Equal("baumeModulus", Assert.Single(Answer("must-scales", ("baume", 12), ("factor", "eu")).Refusals).Path);
    }

    [Fact]
    public void A_hydrometer_and_an_alcoholmeter_in_one_spirit_agree()
    {
        // 40 % vol at 25 °C: the alcoholmeter shows what its own density at 20 °C would be; the SG hydrometer shows that density over water.
        double density = AlcoholicStrength.KgPerCubicMetre(40, 25), glass = 1 + (Alcoholmeter.SodaLimeGlassPerKelvin * 5);
        double gravity = density * glass / EthanolWater.KgPerCubicMetre(0, 20);
        Assert.Equal(40, Answer("hydrometer-distillate", ("gravity", gravity), ("celsius", 25), ("calibrationCelsius", 20), ("glass", "sodaLime")).Find("abv")!.Value, 1e-6);
        double reading = AlcoholicStrength.AbvFromDensity(density * glass, 20);
        Assert.Equal(40, Answer("alcoholmeter", ("readingAbv", reading), ("celsius", 25), ("glass", "sodaLime")).Find("abv")!.Value, 0.001);
    }

    [Fact]
    public void A_cone_below_a_tank_fills_first()
    {
        BenchAnswer full = Answer("upright-cylinder", ("diameterMetres", 1.2), ("heightMetres", 1.5), ("coneMetres", 0.4), ("depthMetres", 1.9));
        Assert.Equal(1696.460 + 150.796, full.Find("litres")!.Value, 0.01);   // rows V30 and V32
        Assert.Equal(0, full.Find("ullageLitres")!.Value, 1e-9);
        BenchAnswer half = Answer("upright-cylinder", ("diameterMetres", 1.2), ("heightMetres", 1.5), ("coneMetres", 0.4), ("depthMetres", 0.2));
        Assert.Equal(150.796 / 8, half.Find("litres")!.Value, 0.01);
        Assert.Equal(RefusalCodes.Impossible, Assert.Single(Answer("upright-cylinder", ("diameterMetres", 1.2), ("heightMetres", 1.5), ("depthMetres", 1.6)).Refusals).Code);
    }

    [Fact]
    public void Numbers_are_written_with_a_point_and_no_negative_nothing()
    {
        Assert.Equal("0.000025", Show.Typed(25e-6));
        Assert.Equal("0.00", Show.Number(-0.001, 2));
        Assert.Equal("-0.01", Show.Number(-0.011, 2));
        Assert.Equal("1.1", Show.Typed(1.100));
        Assert.Equal("3.785411784 L", Answer("convert", ("value", 1), ("from", "us_gal"), ("to", "L")).Find("amount")!.ToString());
    }
}
