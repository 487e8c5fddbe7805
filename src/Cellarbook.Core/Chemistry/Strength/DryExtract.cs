namespace Cellarbook.Core.Chemistry;

/// <summary>Total dry extract of wine by densities (OIV-MA-AS2-03B, Tabarié).</summary>
public static class DryExtract
{
    /// <summary>The method of this class.</summary>
    public static readonly Formula Tabarie = new("Total dry extract by Tabarié's relation", "OIV-MA-AS2-03B: dr = dv - da + 1.000; extract as sucrose of that relative density",
        SourceCheck.Read, "0 to 25 % vol, wine SG 20/20 0.980 to 1.150, result not below water");

    /// <summary>Relative density 20/20 of the wine without its alcohol, from SG 20/20 and strength.</summary>
    public static double GravityWithoutAlcohol(double gravity, double abv) => gravity is >= 0.980 and <= 1.150 && abv is >= 0 and <= 25
        ? gravity - AlcoholGravity(abv) + 1.0
        : double.NaN;

    /// <summary>Relative density of the wine without its alcohol, from densities in g/mL: 1.00180 (ρv − ρa) + 1.000.</summary>
    public static double GravityWithoutAlcoholFromDensities(double wineGramsPerMillilitre, double alcoholGramsPerMillilitre) =>
        (1.00180 * (wineGramsPerMillilitre - alcoholGramsPerMillilitre)) + 1.0;

    /// <summary>Extract in g/L: mass of sucrose per litre of the solution with that relative density. NaN below 1.000.</summary>
    public static double GramsPerLitre(double gravityWithoutAlcohol)
    {
        if (!(gravityWithoutAlcohol >= 1))
        {
            return double.NaN;
        }

        double density = gravityWithoutAlcohol * SucroseDensity.KgPerCubicMetre(0, 20);
        return SucroseDensity.MassFractionFromDensity(density, 20) * density;
    }

    /// <summary>Relative density 20/20 of the ethanol–water mixture alone.</summary>
    public static double AlcoholGravity(double abv) => AlcoholicStrength.KgPerCubicMetre(abv, 20) / EthanolWater.KgPerCubicMetre(0, 20);
}
