using Cellarbook.Core.Chemistry;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Conversions lead back to where they came from, and grow where nature grows.</summary>
public class RoundTripTests
{
    [Fact]
    public void Strength_by_volume_mass_and_density_and_back_at_any_temperature() => Gen.Select(Gen.Double[0, 100], Gen.Double[0, 40]).Sample((abv, celsius) =>
    {
        Assert.Equal(abv, AlcoholicStrength.AbvFromMassFraction(AlcoholicStrength.MassFractionFromAbv(abv)), 1e-9);
        Assert.Equal(abv, AlcoholicStrength.AbvFromAbv60Fahrenheit(AlcoholicStrength.Abv60FahrenheitFromAbv(abv)), 1e-8);
        Assert.Equal(abv, AlcoholicStrength.AbvFromDensity(AlcoholicStrength.KgPerCubicMetre(abv, celsius), celsius), 1e-6);
    });

    [Fact]
    public void Density_falls_strictly_with_strength_at_every_temperature() => Gen.Select(Gen.Double[0, 40], Gen.Double[0, 0.9999]).Sample((celsius, p) =>
        Assert.True(EthanolWater.KgPerCubicMetre(p + 0.0001, celsius) < EthanolWater.KgPerCubicMetre(p, celsius)));

    [Fact]
    public void Warm_spirit_is_lighter_and_the_expansion_is_the_slope_of_the_density() => Gen.Select(Gen.Double[5, 39], Gen.Double[0, 1]).Sample((celsius, p) =>
    {
        const double h = 1e-3;
        double slope = -(EthanolWater.KgPerCubicMetre(p, celsius + h) - EthanolWater.KgPerCubicMetre(p, celsius - h)) / (2 * h) / EthanolWater.KgPerCubicMetre(p, celsius);
        Assert.Equal(slope, EthanolWater.ExpansionPerKelvin(p, celsius), 1e-8);
        Assert.True(slope > 0);
    });

    [Fact]
    public void Edges_of_strength_are_water_and_ethanol()
    {
        for (int celsius = 0; celsius <= 40; celsius++)
        {
            // OIML R 22 and Tanaka are two waters; they agree within 0.008 kg/m3.
            Assert.Equal(WaterDensity.KgPerCubicMetre(celsius), EthanolWater.KgPerCubicMetre(0, celsius), 0.008);
            Assert.Equal(0, EthanolWater.MassFractionFromDensity(EthanolWater.KgPerCubicMetre(0, celsius), celsius));
            Assert.Equal(1, EthanolWater.MassFractionFromDensity(EthanolWater.KgPerCubicMetre(1, celsius), celsius));
        }

        Assert.Equal((0d, 1d, 0d, 100d), (AlcoholicStrength.MassFractionFromAbv(0), AlcoholicStrength.MassFractionFromAbv(100), AlcoholicStrength.AbvFromMassFraction(0), AlcoholicStrength.AbvFromMassFraction(1)));
        Assert.Equal((0d, 100d), (AlcoholicStrength.Abv60FahrenheitFromAbv(0), AlcoholicStrength.Abv60FahrenheitFromAbv(100)));
        Assert.Equal(12, Alcoholmeter.TrueAbv(12, 20, Alcoholmeter.SodaLimeGlassPerKelvin), 1e-9);
    }

    [Fact]
    public void Sugar_scales_lead_back() => Gen.Double[1.042, 1.130].Sample(gravity =>
    {
        Assert.Equal(gravity, BrixScale.ToGravity(BrixScale.FromGravity(gravity)), 1e-10);
        Assert.Equal(gravity, MustScales.GravityFromOechsle(MustScales.OechsleFromKmw(MustScales.KmwFromOechsle(MustScales.OechsleFromGravity(gravity)))), 1e-10);
        Assert.Equal(gravity, MustScales.GravityFromBaume(MustScales.BaumeFromGravity(gravity, 145), 145), 1e-10);
        Assert.Equal(gravity, SucroseDensity.Gravity(SucroseDensity.MassFractionFromGravity(gravity), 20), 1e-10);
        Assert.Equal(gravity, SucroseDensity.GravityFromGravity60Fahrenheit(SucroseDensity.Gravity60FahrenheitFromGravity(gravity)), 1e-10);
        double brix = MustTable.BrixFromDensity(MustTable.DensityFromGravity(gravity));
        Assert.Equal(gravity, MustTable.GravityFromDensity(MustTable.DensityKgPerLitre(brix)), 1e-10);
        Assert.Equal(brix, MustTable.BrixFromRefractiveIndex(MustTable.RefractiveIndex(brix)), 1e-9);
        double sugar = MustTable.SugarGramsPerLitreFromGravity(gravity);
        Assert.Equal(MustTable.DensityFromGravity(gravity), MustTable.DensityFromSugar(sugar), 1e-9);
    });

    [Fact]
    public void Sugar_scales_rise_together() => Gen.Double[1.042, 1.129].Sample(gravity =>
    {
        double more = gravity + 0.0005;
        Assert.True(BrixScale.FromGravity(more) > BrixScale.FromGravity(gravity));
        Assert.True(MustTable.SugarGramsPerLitreFromGravity(more) > MustTable.SugarGramsPerLitreFromGravity(gravity));
        Assert.True(MustScales.KmwFromOechsle(MustScales.OechsleFromGravity(more)) > MustScales.KmwFromOechsle(MustScales.OechsleFromGravity(gravity)));
        Assert.True(GravityStrength.Balling(more, 0.995) > GravityStrength.Balling(gravity, 0.995));
    });

    [Fact]
    public void A_hydrometer_at_its_own_temperature_is_right_and_in_warm_must_reads_low() => Gen.Select(Gen.Double[1.000, 1.130], Gen.Double[15, 25]).Sample((reading, calibration) =>
    {
        const double glass = Alcoholmeter.SodaLimeGlassPerKelvin;
        Assert.Equal(reading, Hydrometer.InMust(reading, calibration, calibration, glass), 1e-9);
        Assert.True(Hydrometer.InMust(reading, calibration + 10, calibration, glass) > reading);
        Assert.Equal(Math.Min(reading, 1.04), Hydrometer.InWineAt20(Math.Min(reading, 1.04), 20, 20, 12, glass), 1e-9);
    });

    [Fact]
    public void Sulphite_free_and_molecular_lead_back_and_acid_wine_needs_less() => Gen.Select(Gen.Double[0.1, 2], Gen.Double[2.6, 4.9]).Sample((molecular, ph) =>
    {
        double free = Sulphite.FreeNeededMgPerLitre(molecular, ph, Sulphite.CustomaryPKa);
        Assert.Equal(molecular, free > 1000 ? molecular : Sulphite.MolecularMgPerLitre(free, ph, Sulphite.CustomaryPKa), 1e-9);
        Assert.True(Sulphite.FreeNeededMgPerLitre(molecular, ph + 0.05, Sulphite.CustomaryPKa) > free);
    });

    [Fact]
    public void Acid_scales_lead_back_through_any_other() => Gen.Select(Gen.Double[0, 15], Gen.Int[0, 6], Gen.Int[0, 6]).Sample((value, from, to) =>
        Assert.Equal(value, Acid.Convert(Acid.Convert(value, Acid.Scales[from], Acid.Scales[to]), Acid.Scales[to], Acid.Scales[from]), 1e-9));

    [Fact]
    public void Units_are_exact_in_decimals()
    {
        Assert.Equal(3.785411784m, Units.ConvertExactly(1, Units.Find("us_gal")!, Units.Find("L")!));
        Assert.Equal(4546.09m, Units.ConvertExactly(1, Units.Find("imp_gal")!, Units.Find("mL")!));
        Assert.Equal(231m, Units.ConvertExactly(1, Units.Find("us_gal")!, Units.Find("in3")!));
        Assert.Equal(128m, Units.ConvertExactly(1, Units.Find("us_gal")!, Units.Find("us_fl_oz")!));
        Assert.Equal(16m, Units.ConvertExactly(1, Units.Find("lb")!, Units.Find("oz")!));
        Assert.Null(Units.ConvertExactly(1, Units.Find("lb")!, Units.Find("L")!));
    }

    [Fact]
    public void Depth_and_volume_of_vessels_lead_back_and_full_is_full() => Gen.Select(Gen.Double[0.3, 2], Gen.Double[0.5, 1], Gen.Double[0.4, 3], Gen.Double[0, 1]).Sample((diameter, headShare, length, fill) =>
    {
        double head = diameter * headShare, depth = diameter * fill;
        Assert.Equal(depth, Tank.LyingDepthMetres(length, diameter, Tank.LyingLitres(length, diameter, depth)), 1e-5);
        Assert.Equal(depth, Cask.LyingDepthMetres(diameter, head, length, Cask.LyingLitres(diameter, head, length, depth)), 1e-4);
        Assert.Equal(1000 * Math.PI * diameter * diameter / 4 * length, Tank.LyingLitres(length, diameter, diameter), 1e-6);
        Assert.Equal(1, Cask.LyingLitres(diameter, head, length, diameter) / Cask.ParabolicLitres(diameter, head, length), 1e-9);
        Assert.Equal(0.5, Cask.LyingLitres(diameter, head, length, diameter / 2) / Cask.ParabolicLitres(diameter, head, length), 1e-9);

        // What is below a level and what is above the mirrored one make the whole, to a hundred thousandth.
        double both = Cask.LyingLitres(diameter, head, length, depth) + Cask.LyingLitres(diameter, head, length, diameter - depth);
        Assert.InRange(both / Cask.ParabolicLitres(diameter, head, length), 1 - 1e-5, 1 + 1e-5);
    });

    [Fact]
    public void A_cask_without_bulge_is_a_cylinder() => Gen.Select(Gen.Double[0.3, 2], Gen.Double[0.4, 3], Gen.Double[0.01, 0.99]).Sample((diameter, length, fill) =>
        Assert.Equal(Tank.LyingLitres(length, diameter, diameter * fill), Cask.LyingLitres(diameter, diameter, length, diameter * fill), 1e-6));

    [Fact]
    public void Volume_at_20_is_itself_at_20_and_grows_from_the_cold() => Gen.Select(Gen.Double[0, 100], Gen.Double[5, 19]).Sample((abv, celsius) =>
    {
        Assert.Equal(100, VolumeAt20.Litres(100, 20, abv, VolumeAt20.SteelPerKelvin), 1e-9);
        Assert.True(VolumeAt20.Litres(100, celsius, abv, 0) > 100);
    });

    [Fact]
    public void Gas_pressure_rises_with_sugar_and_warmth_and_the_room_never_passes_100_percent() => Gen.Select(Gen.Double[0, 50], Gen.Double[0, 35], Gen.Double[1, 1e6]).Sample((sugar, celsius, gas) =>
    {
        Assert.True(DissolvedGas.BottleBar(sugar + 1, 0, celsius, 2) > DissolvedGas.BottleBar(sugar, 0, celsius, 2));
        Assert.True(DissolvedGas.BottleBar(sugar + 1, 0, celsius + 1, 2) > DissolvedGas.BottleBar(sugar + 1, 0, celsius, 2));
        Assert.InRange(FermentGas.RoomPercent(gas, 1000), 0, 100);
        double percent = FermentGas.RoomPercent(gas, 1e6);
        Assert.Equal(gas, FermentGas.GasLitresForPercent(percent, 1e6), 1e-3);
    });

    [Fact]
    public void A_logistic_curve_is_found_again_from_its_own_points() => Gen.Select(Gen.Double[0.3, 1.5], Gen.Double[2, 8]).Sample((perDay, middle) =>
    {
        double[] days = [middle - 1.5, middle - 0.5, middle + 0.7, middle + 1.2];
        double[] gravities = [.. days.Select(d => FermentCurve.Gravity(d, 1.095, 0.994, perDay, middle))];
        Assert.Equal(FermentCurve.Day(1.000, 1.095, 0.994, perDay, middle), FermentCurve.ForecastDay(days, gravities, 1.000, 1.095, 0.994), 1e-6);
    });
}
