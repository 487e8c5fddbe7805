using Cellarbook.Core.Chemistry;
using CsCheck;
using Xunit;
using static Cellarbook.Core.Chemistry.StrengthStep;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Strength from what happened to a wine: additions enter by mass, what can't be reckoned says so, a measurement holds until the wine changes.</summary>
public class StrengthHistoryTests
{
    private const double Eu = 16.83;

    private static BenchAnswer Now(params StrengthStep[] steps) => StrengthHistory.Now(steps, Eu);

    private static Explained Abv(params StrengthStep[] steps) => Now(steps).Find("abv")!;

    [Fact]
    public void Nothing_added_gives_the_linear_rule()
    {
        Explained abv = Abv(new FirstGravity(23, 1.095), new GravityRead(1.030), new GravityRead(0.994));
        Assert.Equal(131.25 * (1.095 - 0.994), abv.Value, 1e-6);
        Assert.Equal("Strength, estimated from gravities", abv.Label);
        Assert.Equal(0.5, abv.Uncertainty);
    }

    [Fact]
    public void Drawing_samples_changes_no_strength() => Gen.Select(Gen.Double[0.1, 5], Gen.Double[0.1, 5]).Sample((a, b) => Assert.Equal(
        Abv(new FirstGravity(23, 1.090), new GravityRead(0.996)).Value,
        Abv(new FirstGravity(23, 1.090), new Taken(a), new GravityRead(1.020), new Taken(b), new GravityRead(0.996)).Value, 1e-6));

    [Fact]
    public void Water_after_the_first_gravity_thins_the_wine_instead_of_counting_as_alcohol()
    {
        // 20 L at 1.090 and 5 L of water: as a must it would have been 1.0722.
        Explained watered = Abv(new FirstGravity(20, 1.090), new WaterAdded(5), new GravityRead(0.996));
        Assert.Equal(131.25 * (Enrichment.MixedGravity(20, 1.090, 5, 1) - 0.996), watered.Value, 1e-5);
        Assert.True(watered.Value < 131.25 * (1.090 - 0.996) - 2);
    }

    [Fact]
    public void Sugar_fed_in_the_middle_counts_by_mass()
    {
        Explained fed = Abv(new FirstGravity(20, 1.080), new GravityRead(1.010), new SugarAdded(1.0), new GravityRead(0.994));
        double plain = Abv(new FirstGravity(20, 1.080), new GravityRead(0.994)).Value;

        // One kilogram in 20 L is near 50 g/L, near 2.7 to 3 % vol by any rule.
        Assert.InRange(fed.Value - plain, 2, 3);
    }

    [Fact]
    public void Juice_and_must_together_are_one_must()
    {
        double apart = Abv(new FirstGravity(10, 1.100), new JuiceAdded(10, 1.060), new GravityRead(0.995)).Value;
        double together = Abv(new FirstGravity(Enrichment.MixedLitres(10, 1.100, 10, 1.060), Enrichment.MixedGravity(10, 1.100, 10, 1.060)), new GravityRead(0.995)).Value;
        Assert.Equal(together, apart, 1e-6);
    }

    [Fact]
    public void Spirit_added_is_not_taken_for_fermentation()
    {
        // 100 L of dry wine at 12.9 % and 7 L at 96 % make about 18.3 %, although the gravity falls through the spirit alone.
        Explained abv = Abv(new FirstGravity(100, 1.092), new GravityRead(0.994), new SpiritAdded(7, 96));
        double wine = 131.25 * (1.092 - 0.994);
        Assert.Equal(Blending.ByMass(100, wine, 7, 96).Abv, abv.Value, 0.05);
        double gravityAfter = (WineBody.Of(100, 0.994, wine) + WineBody.OfSpirit(7, 96)).Gravity();
        Assert.True(gravityAfter < 0.990);
        Assert.Equal(abv.Value, Abv(new FirstGravity(100, 1.092), new GravityRead(0.994), new SpiritAdded(7, 96), new GravityRead(gravityAfter)).Value, 1e-6);
    }

    [Fact]
    public void Wine_added_brings_its_own_strength()
    {
        double abv = Abv(new FirstGravity(50, 1.090), new GravityRead(0.995), new WineAdded(50, 10, 0.996, null)).Value;
        Assert.Equal(((131.25 * 0.095) + 10) / 2, abv, 0.02);
    }

    [Fact]
    public void By_the_sugar_account_residual_sugar_and_factor_count()
    {
        BenchAnswer answer = Now(new FirstGravity(23, 1.100), new GravityRead(0.994), new ResidualSugarMeasured(2));
        Assert.Equal(GravityStrength.OivPotentialLessResidual(1.100, 2, Eu), answer.Find("abvBySugar")!.Value, 1e-6);

        // A kilogram of sucrose is 1053 g of hexose; 20 L grow by 0.62 L.
        BenchAnswer fed = Now(new FirstGravity(20, 1.080), new SugarAdded(1), new GravityRead(0.994), new ResidualSugarMeasured(2));
        double sugar = ((20 * MustTable.SugarGramsPerLitreFromGravity(1.080)) + (1000 / 0.95)) / 20.62;
        Assert.Equal((sugar - 2) / Eu, fed.Find("abvBySugar")!.Value, 0.01);
    }

    [Fact]
    public void A_measured_strength_holds_until_the_wine_changes_and_is_then_carried_forward()
    {
        StrengthStep[] measured = [new FirstGravity(20, 1.090), new GravityRead(0.994), new StrengthMeasured(12.6)];
        Assert.Equal((12.6, "Strength, measured"), (Abv(measured).Value, Abv(measured).Label));
        Assert.Equal("Strength, measured", Abv([.. measured, new Taken(3), new GravityRead(0.9935)]).Label);
        Explained carried = Abv([.. measured, new WaterAdded(1)]);
        Assert.Equal("Strength, carried forward from a measurement", carried.Label);
        Assert.Equal(12.6 * 20 / 21, carried.Value, 0.02);
        Assert.Contains("measured at 12.6", carried.Worked, StringComparison.Ordinal);
    }

    [Fact]
    public void A_wine_that_ferments_on_after_its_measurement_gains_by_the_fall_of_gravity()
    {
        Explained abv = Abv(new FirstWine(50, 11.0, 1.010), new GravityRead(0.998));
        Assert.Equal("Strength, measured and then estimated", abv.Label);
        Assert.Equal(11.0 + (131.25 * 0.012), abv.Value, 1e-6);
    }

    [Fact]
    public void Sugar_after_a_measurement_and_no_reading_since_is_said()
    {
        Explained abv = Abv(new FirstWine(50, 11.0, 0.996), new SugarAdded(1));
        Assert.Contains("Sugar went in", abv.Caution?.ToString(), StringComparison.Ordinal);
        Assert.True(abv.Value < 11);
    }

    public static TheoryData<string, StrengthStep[]> CannotSay => new()
    {
        { "no first gravity", [new GravityRead(0.996)] },
        { "nothing read since", [new FirstGravity(20, 1.090)] },
        { "an addition nobody measured", [new FirstGravity(20, 1.090), new UnknownAdded("some juice of unknown volume"), new GravityRead(0.996)] },
        { "wine of unknown strength", [new FirstGravity(20, 1.090), new GravityRead(0.996), new WineAdded(5, null, 0.995, null)] },
        { "a fall after wine of unknown gravity", [new FirstGravity(20, 1.090), new GravityRead(1.010), new WineAdded(5, 12, null, null), new GravityRead(0.996)] },
        { "sugar and no gravity after it", [new FirstGravity(20, 1.090), new GravityRead(1.000), new SugarAdded(1)] },
        { "a gravity that rises by itself", [new FirstGravity(20, 1.050), new GravityRead(1.060)] },
        { "more taken than there was", [new FirstGravity(20, 1.050), new Taken(21), new GravityRead(0.996)] },
        { "two beginnings", [new FirstGravity(20, 1.050), new FirstGravity(20, 1.060), new GravityRead(0.996)] },
    };

    [Theory]
    [MemberData(nameof(CannotSay))]
    public void What_cannot_be_reckoned_says_so(string why, StrengthStep[] steps)
    {
        BenchAnswer answer = Now(steps);
        Assert.Null(answer.Find("abv"));
        BenchRefusal refusal = Assert.Single(answer.Refusals);
        Assert.True(refusal.Code is RefusalCodes.CannotSay or RefusalCodes.Impossible, why);
    }

    [Fact]
    public void A_later_measurement_makes_an_unknown_addition_good_again() =>
        Assert.Equal(12.1, Abv(new FirstGravity(20, 1.090), new UnknownAdded("a bottle of something"), new StrengthMeasured(12.1)).Value);
}
