using Cellarbook.Core.Chemistry;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Never a number that looks right: bad input is refused with a code, the valid range and the source.</summary>
public class BadInputTests
{
    private static BenchInputs Inputs(params (string Name, object Value)[] given) => given.Aggregate(BenchInputs.None, (inputs, g) =>
        g.Value is string choice ? inputs.With(g.Name, choice) : inputs.With(g.Name, Convert.ToDouble(g.Value, System.Globalization.CultureInfo.InvariantCulture)));

    private static BenchAnswer Answer(string id, params (string Name, object Value)[] given) => BenchCalculators.Find(id)!.Answer(Inputs(given));

    private static BenchRefusal OnlyRefusal(BenchAnswer answer)
    {
        Assert.Empty(answer.Results);
        return Assert.Single(answer.Refusals);
    }

    [Fact]
    public void A_final_gravity_above_the_original_is_refused()
    {
        BenchRefusal refusal = OnlyRefusal(Answer("strength-from-gravities", ("originalGravity", 1.050), ("finalGravity", 1.060), ("factor", "eu")));
        Assert.Equal((RefusalCodes.Impossible, "finalGravity"), (refusal.Code, refusal.Path));
    }

    [Fact]
    public void PH_15_is_refused() =>
        Assert.Equal(RefusalCodes.OutOfRange, OnlyRefusal(Answer("molecular-so2", ("freeMgPerLitre", 30), ("ph", 15), ("pKaMethod", "chart"))).Code);

    [Fact]
    public void Negative_sugar_is_refused() =>
        Assert.Equal(RefusalCodes.OutOfRange, OnlyRefusal(Answer("potential-strength", ("sugarGramsPerLitre", -1), ("factor", "eu"))).Code);

    [Fact]
    public void A_strength_of_120_percent_is_refused() =>
        Assert.Equal(RefusalCodes.OutOfRange, OnlyRefusal(Answer("strength", ("abv", 120))).Code);

    [Fact]
    public void A_temperature_of_minus_300_is_refused() =>
        Assert.Equal(RefusalCodes.OutOfRange, OnlyRefusal(Answer("water-density", ("celsius", -300))).Code);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void What_is_no_number_is_refused(double value) =>
        Assert.Equal(RefusalCodes.NotANumber, OnlyRefusal(Answer("water-density", ("celsius", value))).Code);

    [Fact]
    public void A_name_without_its_unit_is_refused_and_the_right_name_told()
    {
        BenchAnswer answer = Answer("water-density", ("temperature", 20));
        Assert.Empty(answer.Results);
        Assert.Equal([RefusalCodes.UnknownInput, RefusalCodes.MissingInput], answer.Refusals.Select(r => r.Code));
        Assert.Contains("celsius", answer.Refusals[0].Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Text_where_a_number_is_needed_is_refused() =>
        Assert.Equal(RefusalCodes.NotANumber, OnlyRefusal(Answer("water-density", ("celsius", "warm"))).Code);

    [Fact]
    public void An_unknown_choice_is_refused() =>
        Assert.Equal(RefusalCodes.UnknownChoice, OnlyRefusal(Answer("potential-strength", ("sugarGramsPerLitre", 200), ("factor", "moon"))).Code);

    [Fact]
    public void Two_answers_to_one_question_are_refused() =>
        Assert.Equal(RefusalCodes.Impossible, OnlyRefusal(Answer("strength", ("abv", 12), ("massPercent", 12))).Code);

    [Fact]
    public void A_gravity_below_the_must_table_has_no_sugar_yet_the_other_scales_are_given()
    {
        BenchAnswer answer = Answer("must-scales", ("gravity", 1.030), ("factor", "eu"));
        Assert.NotNull(answer.Find("brix"));
        Assert.Null(answer.Find("sugarGramsPerLitre"));
        BenchRefusal refusal = answer.Refusals.Single(r => r.Path == "sugarGramsPerLitre");
        Assert.Equal(RefusalCodes.OutsideValidity, refusal.Code);
        Assert.Contains("OIV-MA-AS2-02", refusal.Source.ToString(), StringComparison.Ordinal);
        Assert.Contains("1.0410", refusal.Valid.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_refractometer_in_fermenting_must_is_refused_and_the_way_out_told()
    {
        BenchRefusal refusal = OnlyRefusal(Answer("refractometer-must", ("brix", 15), ("celsius", 20), ("compensated", "yes"), ("fermenting", "yes")));
        Assert.Contains("alcohol", refusal.Sentence.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_density_no_mixture_has_is_refused_with_the_possible_ones()
    {
        BenchRefusal refusal = OnlyRefusal(Answer("strength-from-density", ("kgPerCubicMetre", 999), ("celsius", 20)));
        Assert.Equal(RefusalCodes.Impossible, refusal.Code);
        Assert.Contains("998.20", refusal.Valid.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void The_German_table_is_not_interpolated() =>
        Assert.Equal(RefusalCodes.OutsideValidity, OnlyRefusal(Answer("german-natural-strength", ("oechsle", 95.5))).Code);

    [Fact]
    public void A_stalled_ferment_has_no_forecast()
    {
        BenchAnswer answer = Answer("ferment-forecast", ("originalGravity", 1.095), ("finalGravity", 0.994), ("targetGravity", 1.000),
            ("day1", 5), ("gravity1", 1.020), ("day2", 9), ("gravity2", 1.020));
        Assert.Equal(RefusalCodes.CannotSay, OnlyRefusal(answer).Code);
    }

    [Fact]
    public void Formulas_alone_answer_NaN_outside_their_validity()
    {
        double[] outside =
        [
            WaterDensity.KgPerCubicMetre(40.1), WaterDensity.KellKgPerCubicMetre(-1), EthanolWater.KgPerCubicMetre(1.01, 20), EthanolWater.KgPerCubicMetre(0.05, -10),
            EthanolWater.MassFractionFromDensity(1000, 20), EthanolWater.MassFractionFromDensity(900, -5), AlcoholicStrength.MassFractionFromAbv(100.1), AlcoholicStrength.PureAlcoholLitres(-1, 12),
            Alcoholmeter.TrueAbv(0, 30, Alcoholmeter.SodaLimeGlassPerKelvin), BrixScale.FromGravity(1.18), BrixScale.ToGravity(41), MustTable.SugarGramsPerLitre(9.9), MustTable.SugarGramsPerLitreFromGravity(1.04),
            MustScales.KmwFromOechsle(-1), PotentialAlcohol.AbvFromSugar(-1, 16.83), PotentialAlcohol.AbvFromSugar(200, 10), GermanNaturalStrength.Abv(151), Hydrometer.InMust(1.05, 45, 20, 25e-6),
            Hydrometer.InWineAt20(1.06, 20, 20, 12, 25e-6), Refractometer.TemperatureCorrection(20, 31), Refractometer.GravityByTerrill(20, 21), GravityStrength.Linear(1.05, 1.06, 131.25), GravityStrength.Hmrc(1.1, 0.994),
            GravityStrength.OivPotentialLessResidual(1.1, 300, 16.83), DryExtract.GramsPerLitre(0.999), StrengthOnLabel.RoundedDownToTenth(101), Sulphite.MolecularMgPerLitre(30, 15, 1.81), Sulphite.ThermodynamicPKa(16, 20),
            Sulphite.SaltGrams(100, 20, 1, 0.57), Acid.Convert(-1, Acid.Scales[0], Acid.Scales[1]), Nutrient.NeedMgPerLitre(20), Blending.PearsonLitres(100, 12, 96, 97), Blending.LitresForStrength(100, 12, 96, 10),
            Enrichment.HexoseGrams(100, 240, 12, 16.83, 0.62), Enrichment.WaterLitres(10, 1.05, 1.06), VolumeAt20.Litres(100, 41, 12, 0), Tank.LyingLitres(2, 1, 1.1), Cask.LyingLitres(0.7, 0.6, 0.9, 0.71),
            Cask.ParabolicLitres(0.6, 0.7, 0.9), BottleFill.TolerableNegativeErrorMillilitres(10001), BottleFill.FromVolume(-1, 750).RestLitres, FermentGas.GasLitresPerLitre(200, -1), FermentHeat.KilojoulesPerLitre(-1),
            FermentCurve.Day(1.1, 1.095, 0.994, 0.9, 4), DissolvedGas.GramsPerLitreBar(41), DissolvedGas.BottleBar(4, 0, 10, 51), Energy.KilojoulesPer100Millilitres(101, 0, 0, 0), Units.Convert(1, Units.Find("L")!, Units.Find("kg")!),
        ];
        Assert.All(outside, value => Assert.True(double.IsNaN(value)));
    }
}
