namespace Cellarbook.Core.Chemistry;

/// <summary>A body of must or wine as masses that add up when bodies meet: everything, extract, and the alcohol as its pure volume at 20 °C.</summary>
/// <remarks>
/// Density follows OIV-MA-AS2-03B (Tabarié): relative density = that of the extract as sucrose + that of the alcohol in water − 1.
/// So water and spirit contract as OIML R 22 says, and sugar takes the volume of a sucrose solution.
/// </remarks>
/// <param name="MassKilograms">All of it.</param>
/// <param name="ExtractKilograms">Sugar and other solids, as sucrose.</param>
/// <param name="PureAlcoholLitres">Pure alcohol at 20 °C.</param>
public readonly record struct WineBody(double MassKilograms, double ExtractKilograms, double PureAlcoholLitres)
{
    /// <summary>The method of this type.</summary>
    public static readonly Formula Balance = new("Mass balance with Tabarié's relation", "mass, extract and alcohol conserved; density by OIV-MA-AS2-03B, OIML R 22 and ICUMSA sucrose at 20 °C", SourceCheck.Derived,
        "SG 20/20 0.790 to 1.380, 0 to 100 % vol, volumes at 20 °C");

    /// <summary>A body of known volume, SG 20/20 and strength.</summary>
    public static WineBody Of(double litres20, double gravity, double abv)
    {
        double withoutAlcohol = gravity - DryExtract.AlcoholGravity(abv) + 1;
        double w = SucroseDensity.MassFractionFromGravity(withoutAlcohol);
        double extract = litres20 * w * withoutAlcohol * WaterDensity.Oiv20KgPerLitre;
        return new WineBody(litres20 * gravity * WaterDensity.Oiv20KgPerLitre, extract, litres20 * abv / 100);
    }

    /// <summary>Spirit or water: ethanol and water only.</summary>
    public static WineBody OfSpirit(double litres20, double abv) => Of(litres20, DryExtract.AlcoholGravity(abv), abv);

    /// <summary>Dry sugar.</summary>
    public static WineBody OfSugar(double kilograms) => new(kilograms, kilograms, 0);

    /// <summary>Two bodies together.</summary>
    public static WineBody operator +(WineBody left, WineBody right) => Add(left, right);

    /// <summary>Two bodies together.</summary>
    public static WineBody Add(WineBody left, WineBody right) => new(
        left.MassKilograms + right.MassKilograms, left.ExtractKilograms + right.ExtractKilograms, left.PureAlcoholLitres + right.PureAlcoholLitres);

    /// <summary>What is left when a share goes.</summary>
    public WineBody Left(double share) => new(MassKilograms * share, ExtractKilograms * share, PureAlcoholLitres * share);

    /// <summary>SG 20/20 of the body, found by repeating: volume from density, concentrations from volume, density from concentrations.</summary>
    public double Gravity()
    {
        double gravity = MassKilograms > 0 ? 1 : double.NaN, solution = 1;
        for (int step = 0; step < 60; step++)
        {
            double litres = MassKilograms / (gravity * WaterDensity.Oiv20KgPerLitre);
            solution = SucroseDensity.Gravity(ExtractKilograms / litres / (solution * WaterDensity.Oiv20KgPerLitre), 20);
            double next = solution + DryExtract.AlcoholGravity(Math.Min(100, 100 * PureAlcoholLitres / litres)) - 1;
            if (double.IsNaN(next) || Math.Abs(next - gravity) < 1e-12)
            {
                return next;
            }

            gravity = next;
        }

        return gravity;
    }

    /// <summary>Litres at 20 °C.</summary>
    public double Litres() => MassKilograms / (Gravity() * WaterDensity.Oiv20KgPerLitre);

    /// <summary>% vol at 20 °C.</summary>
    public double Abv() => 100 * PureAlcoholLitres / Litres();
}
