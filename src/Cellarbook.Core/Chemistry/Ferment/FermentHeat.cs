namespace Cellarbook.Core.Chemistry;

/// <summary>Heat of fermentation.</summary>
public static class FermentHeat
{
    /// <summary>24 kcal per mole of hexose, in kJ.</summary>
    public const double KilojoulesPerMole = 24 * 4.184;

    /// <summary>The method of this class.</summary>
    public static readonly Formula Heat = new("Heat of fermentation", "24 kcal per mol hexose (review texts; formation enthalpies give about 100 kJ/mol)", SourceCheck.Read, "0 to 400 g/L sugar; no heat lost: real vessels warm far less");

    /// <summary>Heat in kJ per litre of must. NaN outside 0–400 g/L.</summary>
    public static double KilojoulesPerLitre(double sugarGramsPerLitre) => sugarGramsPerLitre is >= 0 and <= 400 ? sugarGramsPerLitre / FermentGas.HexoseGramsPerMole * KilojoulesPerMole : double.NaN;

    /// <summary>Rise in K if no heat is lost.</summary>
    public static double RiseKelvin(double sugarGramsPerLitre, double kgPerLitre, double kilojoulesPerKilogramKelvin) =>
        kgPerLitre is > 0.9 and < 1.5 && kilojoulesPerKilogramKelvin is >= 2 and <= 4.2 ? KilojoulesPerLitre(sugarGramsPerLitre) / (kgPerLitre * kilojoulesPerKilogramKelvin) : double.NaN;
}
