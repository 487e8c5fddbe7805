namespace Cellarbook.Core.Chemistry;

/// <summary>Energy of 100 mL by Reg. (EU) 1169/2011 Annex XIV. Two sums of their own: kcal is not kJ / 4.184.</summary>
public static class Energy
{
    /// <summary>Grams of ethanol in 100 mL for one % vol.</summary>
    public const double EthanolGramsPer100MillilitresPerAbv = 0.789;

    /// <summary>The method of this class.</summary>
    public static readonly Formula AnnexXiv = new("Energy per 100 mL", "Reg. (EU) 1169/2011 Annex XIV: ethanol 29 kJ/g 7 kcal/g, sugar 17 and 4, organic acid 13 and 3, polyol 10 and 2.4", SourceCheck.Read,
        "0 to 100 % vol, sugar 0 to 400 g/L, acid and glycerol 0 to 50 g/L; rounded once, at the end");

    /// <summary>kJ per 100 mL.</summary>
    public static double KilojoulesPer100Millilitres(double abv, double sugarGramsPerLitre, double acidGramsPerLitre, double glycerolGramsPerLitre) =>
        Sum(abv, sugarGramsPerLitre, acidGramsPerLitre, glycerolGramsPerLitre, 29, 17, 13, 10);

    /// <summary>kcal per 100 mL.</summary>
    public static double KilocaloriesPer100Millilitres(double abv, double sugarGramsPerLitre, double acidGramsPerLitre, double glycerolGramsPerLitre) =>
        Sum(abv, sugarGramsPerLitre, acidGramsPerLitre, glycerolGramsPerLitre, 7, 4, 3, 2.4);

    private static double Sum(double abv, double sugar, double acid, double glycerol, double perEthanol, double perSugar, double perAcid, double perGlycerol) =>
        abv is >= 0 and <= 100 && sugar is >= 0 and <= 400 && acid is >= 0 and <= 50 && glycerol is >= 0 and <= 50
            ? (abv * EthanolGramsPer100MillilitresPerAbv * perEthanol) + (((sugar * perSugar) + (acid * perAcid) + (glycerol * perGlycerol)) / 10)
            : double.NaN;
}
