namespace Cellarbook.Core.Chemistry;

/// <summary>Chaptalisation with the volume the sugar takes up, and making up concentrate, both by mass.</summary>
public static class Enrichment
{
    /// <summary>Volume of dissolved sugar, mL per gram: 13.5 lb make one US gallon (27 CFR 24.181).</summary>
    public const double DissolvedMillilitresPerGram = 0.618;

    /// <summary>Grams of sucrose that give one gram of hexose (342.30 / 360.31).</summary>
    public const double SucrosePerHexose = 0.950;

    /// <summary>With volume.</summary>
    public static readonly Formula Chaptalisation = new("Chaptalisation with the volume of the sugar", "m = V0 (F A - s0)/(1 - c F A/1000); c = 0.618 mL/g (27 CFR 24.181: 13.5 lb = 1 gallon), handbooks 0.60 to 0.63",
        SourceCheck.Derived, "target above present potential and up to 20 % vol; fermentable hexose, sucrose is 0.950 of it");

    /// <summary>Without.</summary>
    public static readonly Formula Naive = new("Chaptalisation, volume left out", "m = V0 (F A - s0); 12 to 13 % too little sugar at 12 % vol", SourceCheck.Derived, "for comparison only");

    /// <summary>Water into concentrate.</summary>
    public static readonly Formula MakeUp = new("Make-up by mass of extract", "extract and mass conserved on the ICUMSA sucrose density at 20 °C", SourceCheck.Derived,
        "SG 20/20 1.000 to 1.380 (0 to 75 % by mass); grape concentrate is not pure sucrose: check the gravity after mixing");

    /// <summary>Grams of fermentable hexose to bring a must to a potential strength, its own volume counted. NaN below the present potential or above 20 % vol.</summary>
    /// <param name="litres">Volume of must.</param>
    /// <param name="sugarGramsPerLitre">Its fermentable sugar.</param>
    /// <param name="targetAbv">Potential strength wanted, % vol.</param>
    /// <param name="gramsPerLitrePerAbv">Factor of the chosen rules.</param>
    /// <param name="millilitresPerGram">Volume of dissolved sugar.</param>
    public static double HexoseGrams(double litres, double sugarGramsPerLitre, double targetAbv, double gramsPerLitrePerAbv, double millilitresPerGram)
    {
        double grams = NaiveGrams(litres, sugarGramsPerLitre, targetAbv, gramsPerLitrePerAbv);
        return millilitresPerGram is >= 0.5 and <= 0.7 ? grams / (1 - (millilitresPerGram / 1000 * gramsPerLitrePerAbv * targetAbv)) : double.NaN;
    }

    /// <summary>The same with the volume of the sugar left out: too little sugar.</summary>
    public static double NaiveGrams(double litres, double sugarGramsPerLitre, double targetAbv, double gramsPerLitrePerAbv)
    {
        double missing = (gramsPerLitrePerAbv * targetAbv) - sugarGramsPerLitre;
        return litres >= 0 && sugarGramsPerLitre >= 0 && targetAbv is >= 0 and <= 20 && missing >= 0 ? litres * missing : double.NaN;
    }

    /// <summary>Volume in mL that one gram takes when so many pounds make so many US gallons.</summary>
    public static double MillilitresPerGram(double usGallons, double pounds) => 1000 * usGallons * Units.LitresPerUsGallon / (pounds * Units.KilogramsPerPound * 1000);

    /// <summary>Litres of water at 20 °C that bring a concentrate or must down to a gravity. NaN when the target is above it.</summary>
    public static double WaterLitres(double litres, double gravity, double targetGravity)
    {
        if (!(litres >= 0 && targetGravity <= gravity && targetGravity > 1))
        {
            return double.NaN;
        }

        double mass = litres * gravity * WaterDensity.Oiv20KgPerLitre;
        double w = SucroseDensity.MassFractionFromGravity(gravity), target = SucroseDensity.MassFractionFromGravity(targetGravity);
        return mass * ((w / target) - 1) / WaterDensity.Oiv20KgPerLitre;
    }

    /// <summary>Litres at 20 °C of a must made of two parts of known gravity, by mass of extract.</summary>
    public static double MixedLitres(double firstLitres, double firstGravity, double secondLitres, double secondGravity) =>
        MixedMass(firstLitres, firstGravity, secondLitres, secondGravity) / WaterDensity.Oiv20KgPerLitre / MixedGravity(firstLitres, firstGravity, secondLitres, secondGravity);

    /// <summary>SG 20/20 of a must made of two parts of known gravity, by mass of extract. Water has gravity 1.</summary>
    public static double MixedGravity(double firstLitres, double firstGravity, double secondLitres, double secondGravity)
    {
        if (!(firstLitres >= 0 && secondLitres >= 0 && firstLitres + secondLitres > 0))
        {
            return double.NaN;
        }

        double m1 = firstLitres * firstGravity, m2 = secondLitres * secondGravity;
        double w = ((m1 * SucroseDensity.MassFractionFromGravity(firstGravity)) + (m2 * SucroseDensity.MassFractionFromGravity(secondGravity))) / (m1 + m2);
        return SucroseDensity.Gravity(w, 20);
    }

    /// <summary>Kilograms of dry sucrose that raise a must to a gravity, by mass. NaN when the target is below it.</summary>
    public static double SucroseKilogramsToGravity(double litres, double gravity, double targetGravity)
    {
        double w = SucroseDensity.MassFractionFromGravity(gravity), target = SucroseDensity.MassFractionFromGravity(targetGravity);
        return litres >= 0 && targetGravity >= gravity ? litres * gravity * WaterDensity.Oiv20KgPerLitre * (target - w) / (1 - target) : double.NaN;
    }

    private static double MixedMass(double firstLitres, double firstGravity, double secondLitres, double secondGravity) =>
        ((firstLitres * firstGravity) + (secondLitres * secondGravity)) * WaterDensity.Oiv20KgPerLitre;
}
