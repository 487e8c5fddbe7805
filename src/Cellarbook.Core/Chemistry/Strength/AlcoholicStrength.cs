namespace Cellarbook.Core.Chemistry;

/// <summary>Strength by volume at 20 °C (Europe) and at 60 °F (United States), by mass and by density, all through OIML R 22.</summary>
public static class AlcoholicStrength
{
    /// <summary>60 °F in °C: (60 − 32) / 1.8.</summary>
    public const double SixtyFahrenheitCelsius = 28 / 1.8;

    /// <summary>Grams of ethanol per litre for one % vol at 20 °C, rounded: 7.8924.</summary>
    public static double EthanolGramsPerLitrePerAbv => EthanolWater.Ethanol20KgPerCubicMetre / 100;

    /// <summary>% vol at 20 °C from the mass fraction: 100 p ρ(p,20) / ρ(1,20). NaN outside 0–1.</summary>
    public static double AbvFromMassFraction(double massFraction) => VolumePercent(massFraction, 20);

    /// <summary>Mass fraction from % vol at 20 °C. NaN outside 0–100.</summary>
    public static double MassFractionFromAbv(double abv) => MassFraction(abv, 20);

    /// <summary>% vol at 60 °F from the mass fraction. NaN outside 0–1.</summary>
    public static double Abv60FahrenheitFromMassFraction(double massFraction) => VolumePercent(massFraction, SixtyFahrenheitCelsius);

    /// <summary>Mass fraction from % vol at 60 °F. NaN outside 0–100.</summary>
    public static double MassFractionFromAbv60Fahrenheit(double abv60Fahrenheit) => MassFraction(abv60Fahrenheit, SixtyFahrenheitCelsius);

    /// <summary>% vol at 60 °F of a liquid that has <paramref name="abv"/> % vol at 20 °C.</summary>
    public static double Abv60FahrenheitFromAbv(double abv) => Abv60FahrenheitFromMassFraction(MassFractionFromAbv(abv));

    /// <summary>% vol at 20 °C of a liquid that has <paramref name="abv60Fahrenheit"/> % vol at 60 °F.</summary>
    public static double AbvFromAbv60Fahrenheit(double abv60Fahrenheit) => AbvFromMassFraction(MassFractionFromAbv60Fahrenheit(abv60Fahrenheit));

    /// <summary>Density in kg/m³ at a temperature of a mixture of <paramref name="abv"/> % vol at 20 °C.</summary>
    public static double KgPerCubicMetre(double abv, double celsius) => EthanolWater.KgPerCubicMetre(MassFractionFromAbv(abv), celsius);

    /// <summary>% vol at 20 °C from the density of a distillate at its temperature, 0–40 °C.</summary>
    public static double AbvFromDensity(double kgPerCubicMetre, double celsius) =>
        AbvFromMassFraction(EthanolWater.MassFractionFromDensity(kgPerCubicMetre, celsius));

    /// <summary>Litres of pure alcohol at 20 °C in a volume at 20 °C. NaN for a negative volume or a strength outside 0–100.</summary>
    public static double PureAlcoholLitres(double litres20, double abv) => litres20 >= 0 && abv is >= 0 and <= 100 ? litres20 * abv / 100 : double.NaN;

    /// <summary>Relative density weighed in air: buoyancy of 1.2 kg/m³ taken off both densities.</summary>
    public static double RelativeDensityInAir(double kgPerCubicMetre, double waterKgPerCubicMetre) => (kgPerCubicMetre - 1.2) / (waterKgPerCubicMetre - 1.2);

    /// <summary>US wine gallons at 60 °F per pound weighed in air with brass weights (8400 kg/m³), by % vol at 60 °F; compare 27 CFR 30.64.</summary>
    public static double GallonsPerPoundInAir(double abv60Fahrenheit)
    {
        double density = EthanolWater.KgPerCubicMetre(MassFractionFromAbv60Fahrenheit(abv60Fahrenheit), SixtyFahrenheitCelsius);
        return 1000 / Units.LitresPerUsGallon * Units.KilogramsPerPound / (density - (1.2 * (1 - (density / 8400))));
    }

    private static double VolumePercent(double massFraction, double celsius) =>
        100 * massFraction * EthanolWater.KgPerCubicMetre(massFraction, celsius) / EthanolWater.KgPerCubicMetre(1, celsius);

    private static double MassFraction(double volumePercent, double celsius)
    {
        if (!(volumePercent is >= 0 and <= 100))
        {
            return double.NaN;
        }

        return volumePercent switch
        {
            0 => 0,
            100 => 1,
            _ => Roots.Between(new VolumeCurve(volumePercent, celsius, EthanolWater.KgPerCubicMetre(1, celsius)), 0, 1),
        };
    }

    private readonly record struct VolumeCurve(double VolumePercent, double Celsius, double Ethanol) : ICurve
    {
        public double At(double x) => (100 * x * EthanolWater.KgPerCubicMetre(x, Celsius) / Ethanol) - VolumePercent;
    }
}
