using Cellarbook.Core.Chemistry;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Law 7 in the chemistry: blends conserve mass and alcohol, whatever is mixed.</summary>
public class ConservationTests
{
    private static readonly Gen<double> Litres = Gen.Double[0.01, 10_000];
    private static readonly Gen<double> Abv = Gen.Double[0, 100];
    private static readonly Gen<double> MustGravity = Gen.Double[1.000, 1.150];

    private static double Mass(double litres, double abv) => litres * AlcoholicStrength.KgPerCubicMetre(abv, 20);

    [Fact]
    public void Mixing_by_mass_keeps_mass_and_pure_alcohol() => Gen.Select(Litres, Abv, Litres, Abv).Sample((v1, q1, v2, q2) =>
    {
        Blend blend = Blending.ByMass(v1, q1, v2, q2);
        Close(Mass(v1, q1) + Mass(v2, q2), Mass(blend.Litres, blend.Abv), 1e-9);
        Close(AlcoholicStrength.PureAlcoholLitres(v1, q1) + AlcoholicStrength.PureAlcoholLitres(v2, q2), AlcoholicStrength.PureAlcoholLitres(blend.Litres, blend.Abv), 1e-9);
    });

    [Fact]
    public void A_blend_of_one_wine_with_itself_changes_nothing_and_order_does_not_matter() => Gen.Select(Litres, Abv, Litres, Abv).Sample((v1, q1, v2, q2) =>
    {
        Blend same = Blending.ByMass(v1, q1, v2, q1);
        Close(v1 + v2, same.Litres, 1e-9);
        Assert.Equal(q1, same.Abv, 1e-8);
        Blend one = Blending.ByMass(v1, q1, v2, q2), other = Blending.ByMass(v2, q2, v1, q1);
        Close(one.Litres, other.Litres, 1e-12);
    });

    [Fact]
    public void Fortifying_by_mass_reaches_the_strength_asked_for() => Gen.Select(Litres, Gen.Double[0, 15], Gen.Double[50, 96], Gen.Double[15.1, 40]).Sample((v, q1, q2, target) =>
        Assert.Equal(target, Blending.ByMass(v, q1, Blending.LitresForStrength(v, q1, q2, target), q2).Abv, 1e-7));

    [Fact]
    public void Spirit_and_water_contract_and_wine_with_wine_hardly() => Gen.Select(Litres, Gen.Double[10, 15], Gen.Double[10, 15]).Sample((v, q1, q2) =>
    {
        Assert.True(Blending.ByMass(v, 96, v, 0).Litres < 2 * v * 0.98);
        Assert.InRange(Blending.ByMass(v, q1, v, q2).Litres / (2 * v), 0.9995, 1.0005);
    });

    [Fact]
    public void Made_up_concentrate_has_the_gravity_asked_for_and_keeps_its_mass() => Gen.Select(Litres, Gen.Double[1.150, 1.350], Gen.Double[1.040, 1.140]).Sample((v, concentrate, target) =>
    {
        double water = Enrichment.WaterLitres(v, concentrate, target);
        Assert.Equal(target, Enrichment.MixedGravity(v, concentrate, water, 1), 1e-8);
        Close((v * concentrate) + water, Enrichment.MixedLitres(v, concentrate, water, 1) * target, 1e-8);
    });

    [Fact]
    public void Sugar_raises_a_must_to_the_gravity_asked_for() => Gen.Select(Litres, Gen.Double[1.040, 1.090], Gen.Double[1.0901, 1.140]).Sample((v, gravity, target) =>
        Assert.Equal(target, (WineBody.Of(v, gravity, 0) + WineBody.OfSugar(Enrichment.SucroseKilogramsToGravity(v, gravity, target))).Gravity(), 1e-8));

    [Fact]
    public void Chaptalised_must_has_the_sugar_asked_for_in_its_new_volume() => Gen.Select(Litres, Gen.Double[100, 180], Gen.Double[12, 15]).Sample((v, sugar, target) =>
    {
        double grams = Enrichment.HexoseGrams(v, sugar, target, 16.83, 0.618);
        Close(16.83 * target, ((v * sugar) + grams) / (v + (0.618 * grams / 1000)), 1e-9);
    });

    [Fact]
    public void A_body_gives_back_its_volume_gravity_and_strength() => Gen.Select(Litres, Gen.Double[0.985, 1.100], Gen.Double[0, 20]).Sample((v, gravity, abv) =>
    {
        WineBody body = WineBody.Of(v, gravity, abv);
        Assert.Equal(gravity, body.Gravity(), 1e-8);
        Assert.Equal(abv, body.Abv(), 1e-6);
        Close(v, body.Litres(), 1e-8);
    });

    [Fact]
    public void Bodies_that_meet_keep_mass_extract_and_alcohol_in_any_order() => Gen.Select(Litres, MustGravity, Litres, Abv, Litres).Sample((v1, must, v2, spirit, v3) =>
    {
        WineBody a = WineBody.Of(v1, must, 0), b = WineBody.OfSpirit(v2, spirit), c = WineBody.OfSpirit(v3, 0);
        WineBody left = a + b + c, right = c + (b + a);
        Close(left.MassKilograms, right.MassKilograms, 1e-12);
        Close(left.PureAlcoholLitres, left.Litres() * left.Abv() / 100, 1e-9);
        Assert.Equal(v2 * spirit / 100, left.PureAlcoholLitres, 1e-9);
    });

    [Fact]
    public void Spirit_and_water_as_bodies_agree_with_mixing_by_mass() => Gen.Select(Litres, Abv, Litres, Abv).Sample((v1, q1, v2, q2) =>
    {
        WineBody body = WineBody.OfSpirit(v1, q1) + WineBody.OfSpirit(v2, q2);
        Blend blend = Blending.ByMass(v1, q1, v2, q2);
        Close(blend.Litres, body.Litres(), 1e-6);
        Assert.Equal(blend.Abv, body.Abv(), 1e-4);
    });

    [Fact]
    public void Bottles_and_rest_make_the_volume_again() => Gen.Select(Gen.Long[0, 10_000_000_000], Gen.Int[5, 30_000]).Sample((microlitres, size) =>
    {
        FilledBottles filled = BottleFill.FromVolume(microlitres / 1e6, size);
        Assert.Equal(microlitres, (filled.Bottles * size * 1000) + (long)Math.Round(filled.RestLitres * 1e6));
        Assert.True(filled.RestLitres * 1000 < size);
    });

    private static void Close(double expected, double found, double relative) =>
        Assert.True(Math.Abs(expected - found) <= relative * Math.Max(1, Math.Abs(expected)), $"expected {expected:R}, found {found:R}");
}
