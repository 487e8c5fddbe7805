using Cellarbook.Core.Chemistry;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Further values from outside, each with its source; they were not used to build the formulas.</summary>
public class FurtherPublishedValuesTests
{
    [Fact]
    public void Old_British_proof_spirit_is_57_1_percent_by_volume()
    {
        // Customs and Excise Act 1952 s. 172 (from memory): at 51 °F proof spirit weighs twelve thirteenths of an equal volume of water.
        // Known to be 57.1 % vol (from memory). An anchor far from 20 °C, so that the cross terms count.
        const double celsius = (51 - 32) / 1.8;
        double density = EthanolWater.KgPerCubicMetre(0, celsius) * 12 / 13;
        Assert.Equal(57.1, AlcoholicStrength.AbvFromDensity(density, celsius), 0.06);
    }

    [Fact]
    public void The_azeotrope_of_95_6_percent_by_mass_is_97_2_by_volume() =>
        Assert.Equal(97.2, AlcoholicStrength.AbvFromMassFraction(0.956), 0.05); // CRC Handbook of Chemistry and Physics, table of azeotropes, from memory

    [Fact]
    public void The_cross_terms_count_away_from_20_degrees()
    {
        // OIML R 22 general formula: without C terms 40 % vol at 30 °C would be 2 kg/m3 too dense; see the rows at 10 and 30 °C as well.
        double p = AlcoholicStrength.MassFractionFromAbv(40);
        double waterOnly = EthanolWater.KgPerCubicMetre(p, 20) + EthanolWater.KgPerCubicMetre(0, 30) - EthanolWater.KgPerCubicMetre(0, 20);
        Assert.True(waterOnly - EthanolWater.KgPerCubicMetre(p, 30) > 2);
        double pc = AlcoholicStrength.MassFractionFromAbv(12);
        Assert.NotEqual(EthanolWater.KgPerCubicMetre(pc, 10), EthanolWater.KgPerCubicMetre(pc, 20) + EthanolWater.KgPerCubicMetre(0, 10) - EthanolWater.KgPerCubicMetre(0, 20), 0.3);
    }

    [Fact]
    public void Water_is_densest_near_4_degrees()
    {
        double densest = Enumerable.Range(0, 401).Select(i => i / 10d).MaxBy(WaterDensity.KgPerCubicMetre);
        Assert.Equal(4.0, densest, 0.05); // 3.98 °C, common knowledge
    }

    [Fact]
    public void Must_at_1_100_ends_between_13_5_and_15_percent_by_the_rules_for_wine()
    {
        // Common practice, no source.
        double[] rules =
        [
            GravityStrength.OivPotentialLessResidual(1.100, 2, 16.83), GravityStrength.Linear(1.100, 0.994, GravityStrength.LinearFactor),
            GravityStrength.Balling(1.100, 0.994), GravityStrength.Divisor(1.100, 0.994, GravityStrength.CustomaryDivisor), GravityStrength.Hall(1.100, 0.994),
        ];
        Assert.All(rules, abv => Assert.InRange(abv, 13.5, 15));
    }

    [Fact]
    public void Twenty_three_litres_fill_30_bottles_of_750_with_half_a_litre_over() =>
        Assert.Equal(new FilledBottles(30, 0.5), BottleFill.FromVolume(23, 750)); // common practice, no source

    [Fact]
    public void Rogerson_and_Symington_is_the_relation_of_their_abstract()
    {
        // Am. J. Enol. Vitic. 57, 486 (2006), abstract: % vol = 1.646 apparent °Brix - 2.703 apparent °Baumé - 1.794.
        double gravity = MustScales.GravityFromBaume(4, MustScales.BaumeModulusUs);
        Assert.Equal((1.646 * 20) - (2.703 * 4) - 1.794, Refractometer.AbvWithHydrometer(20, gravity), 1e-9);
        Assert.True(double.IsNaN(Refractometer.AbvWithHydrometer(2, gravity)), "a strength below nothing is not given");
    }

    [Fact]
    public void Two_refractometer_correlations_made_apart_agree_where_beer_is_usual()
    {
        // Terrill 2011 and Bonham 2001, fitted on different beers: within 0.004 from 11 to 16 °Brix when half of the reading is left.
        for (double original = 11; original <= 16; original += 0.5)
        {
            Assert.Equal(Refractometer.GravityByTerrill(original, original / 2), Refractometer.GravityByBonham(original, original / 2), 0.004);
        }
    }

    [Fact]
    public void The_German_table_stays_within_a_third_of_a_percent_of_the_OIV_route_between_60_and_120()
    {
        for (int oechsle = 60; oechsle <= 120; oechsle++)
        {
            double oiv = PotentialAlcohol.AbvFromGravity(MustScales.GravityFromOechsle(oechsle), PotentialAlcohol.Eu.GramsPerLitrePerAbv);
            Assert.Equal(oiv, GermanNaturalStrength.Abv(oechsle), 0.35);
        }
    }
}
