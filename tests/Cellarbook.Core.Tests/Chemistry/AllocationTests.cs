using Cellarbook.Core.Chemistry;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Formulas allocate nothing, inversions included.</summary>
public class AllocationTests
{
    private const double Glass = Alcoholmeter.SodaLimeGlassPerKelvin;
    private static readonly double[] Days = [1, 2, 3, 4], Gravities = [1.0884, 1.0797, 1.0652, 1.0445];

    private static readonly AcidScale Sulphuric = Acid.Scales[1];

    private static double Everything(double x) =>
        WaterDensity.KgPerCubicMetre(x) + WaterDensity.KellKgPerCubicMetre(x) + EthanolWater.KgPerCubicMetre(0.1, x) + EthanolWater.ExpansionPerKelvin(0.1, x)
        + EthanolWater.MassFractionFromDensity(950, x) + AlcoholicStrength.MassFractionFromAbv(x) + AlcoholicStrength.Abv60FahrenheitFromAbv(x) + Alcoholmeter.TrueAbv(40, x, Glass)
        + BrixScale.FromGravity(1.09) + BrixScale.ToGravity(x) + MustTable.SugarGramsPerLitreFromGravity(1.09) + SucroseDensity.MassFractionFromGravity(1.09) + MustScales.KmwFromOechsle(x)
        + PotentialAlcohol.AbvFromGravity(1.09, 16.83) + GermanNaturalStrength.Abv(90) + Hydrometer.InMust(1.09, x, 20, Glass) + Hydrometer.InWineAt20(0.995, x, 20, 12, Glass)
        + Refractometer.TemperatureCorrection(x, x) + Refractometer.GravityByTerrill(24, 10) + GravityStrength.Balling(1.09, 0.995) + GravityStrength.Hmrc(1.05, 1.01) + DryExtract.GramsPerLitre(1.01)
        + StrengthOnLabel.RoundedDownToTenth(7.59) + Sulphite.MolecularMgPerLitre(30, 3.4, 1.81) + Sulphite.ThermodynamicPKa(12, 22) + Acid.Convert(6, Acid.Tartaric, Sulphuric) + Nutrient.NeedMgPerLitre(24)
        + Blending.ByMass(1, 96, 1, x).Abv + Blending.LitresForStrength(100, 12, 96, 18) + Enrichment.WaterLitres(10, 1.3, 1.09) + VolumeAt20.Litres(100, x, 12, 0)
        + Tank.LyingLitres(2, 1.2, 0.4) + Tank.LyingDepthMetres(2, 1.2, 500) + Cask.LyingLitres(0.69, 0.56, 0.8, 0.4) + Cask.LyingDepthMetres(0.69, 0.56, 0.8, 100)
        + BottleFill.FromVolume(23, 750).RestLitres + BottleFill.TolerableNegativeErrorMillilitres(750) + FermentGas.GasLitresPerLitre(200, x) + FermentHeat.KilojoulesPerLitre(200)
        + FermentCurve.ForecastDay(Days, Gravities, 1.0, 1.095, 0.994) + DissolvedGas.BottleBar(4, 0, x, 2) + Energy.KilojoulesPer100Millilitres(12, 3, 6, 7)
        + Uncertainty.Combined(1, 2, x) + (WineBody.Of(20, 1.09, 0) + WineBody.OfSpirit(1, 96)).Abv();

    [Fact]
    public void A_thousand_rounds_of_all_formulas_allocate_nothing()
    {
        double sum = Everything(21) + Everything(22);
        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 1000; i++)
        {
            sum += Everything(20 + (i % 10));
        }

        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;
        Assert.Equal(0, allocated);
        Assert.True(double.IsFinite(sum));
    }
}
