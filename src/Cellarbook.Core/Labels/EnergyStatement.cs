using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Labels;

/// <summary>Energy of 100 mL by the EU's factors; summed at full precision and rounded once.</summary>
/// <param name="Kilojoules">Whole kJ, half up.</param>
/// <param name="Kilocalories">Whole kcal, half up.</param>
/// <param name="ExactKilojoules">Before rounding.</param>
/// <param name="ExactKilocalories">Before rounding.</param>
public sealed record EnergyStatement(int Kilojoules, int Kilocalories, decimal ExactKilojoules, decimal ExactKilocalories)
{
    // Grams of ethanol in 100 mL of 1 % vol: 0.78924 g/mL at 20 °C (OIV alcoholometric tables, from memory).
    private const decimal GramsOfOnePercent = 0.78924m;

    /// <summary>Energy of a wine.</summary>
    public static EnergyStatement Of(Strength strength, Dose sugar, Dose glycerol, Dose organicAcids)
    {
        var ethanol = strength.Hundredths / 100m * GramsOfOnePercent;
        decimal kilojoules = 0, kilocalories = 0;
        Add("alcohol (ethanol)", ethanol);
        Add("carbohydrate (except polyols)", Per100Millilitres(sugar));
        Add("polyols", Per100Millilitres(glycerol));
        Add("organic acids", Per100Millilitres(organicAcids));
        return new((int)decimal.Round(kilojoules, MidpointRounding.AwayFromZero), (int)decimal.Round(kilocalories, MidpointRounding.AwayFromZero), kilojoules, kilocalories);

        void Add(string of, decimal grams)
        {
            var factor = LabelRules.Find("EU", "nutrition_factor", of);
            kilojoules += grams * factor.Number;
            // "= 7 kcal/g" stands in the condition of the factor in kJ.
            kilocalories += grams * decimal.Parse(factor.Condition.Split(' ')[1], System.Globalization.CultureInfo.InvariantCulture);
        }
    }

    private static decimal Per100Millilitres(Dose dose) => dose.NanogramsPerLitre / 10_000_000_000m;
}
