using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of yeast-assimilable nitrogen.</summary>
internal static class NutrientBench
{
    private const string Group = "Nutrient";

    public static IEnumerable<BenchCalculator> All =>
    [
        new("nitrogen-need", Group, "Nitrogen for the yeast", "How much assimilable nitrogen does this must want, and which addition brings it?",
            [
                BenchInput.Number("brix", "Sugar of the must", "°Brix", 21, 27), BenchInput.Choice("demand", "Demand of the strain", new BenchChoice("low", "Low (25 % less)"), new BenchChoice("medium", "Medium"), new BenchChoice("high", "High (25 % more)")),
                BenchInput.Number("yanMgPerLitre", "Assimilable nitrogen there is", "mg N/L", 0, 1000), BenchInput.Number("litres", "Volume", "L", 0.001, 1e7),
                BenchInput.OptionalNumber("productNitrogenPercent", "Nitrogen of another nutrient, from its packet", "% N", 0.1, 50),
                BenchInput.OptionalNumber("productLimitGramsPerLitre", "Its greatest dose, from its packet", "g/L", 0.001, 10),
            ], Need),
        new("yan-total", Group, "Assimilable nitrogen from analysis", "Adds amino nitrogen and ammonia reported as NH3.",
            [BenchInput.Number("aminoMgNitrogenPerLitre", "Primary amino nitrogen", "mg N/L", 0, 2000), BenchInput.Number("ammoniaMgPerLitre", "Ammonia as NH3", "mg/L", 0, 2000)], Total),
        new("formol", Group, "Assimilable nitrogen by formol", "Assimilable nitrogen from the alkali used after formaldehyde.",
            [BenchInput.Number("titrantMillilitres", "Alkali used", "mL", 0, 100), BenchInput.Number("normality", "Its normality", "N", 0.001, 2), BenchInput.Number("sampleMillilitres", "Sample", "mL", 0.1, 1000)], Formol),
    ];

    private static void Need(BenchSheet sheet)
    {
        double share = sheet.Choice("demand") switch { "low" => 0.75, "high" => 1.25, _ => 1 };
        double need = share * Nutrient.NeedMgPerLitre(sheet["brix"]), missing = Math.Max(0, need - sheet["yanMgPerLitre"]), litres = sheet["litres"];
        sheet.Add(Nutrient.Need.Explain("needMgPerLitre", "Assimilable nitrogen wanted", need, "mg N/L", 0, $"{Number(Nutrient.NeedMgPerLitre(sheet["brix"]), 1)} x {Typed(share)}"));
        sheet.Add(Nutrient.Need.Explain("missingMgPerLitre", "Missing", missing, "mg N/L", 0, $"{Number(need, 1)} - {Typed(sheet["yanMgPerLitre"])}, not below 0"));
        foreach (NitrogenSource source in Nutrient.Sources)
        {
            sheet.Add(Dose(source.Code + "Grams", source.Label, litres, missing, source.NitrogenFraction, source.LimitGramsPerLitre, source.LimitSource));
        }

        if (sheet.Maybe("productNitrogenPercent") is double percent)
        {
            sheet.Add(Dose("productGrams", "The other nutrient", litres, missing, percent / 100, sheet.Maybe("productLimitGramsPerLitre"), "its packet"));
        }
    }

    private static Explained Dose(string name, Sentence label, double litres, double missing, double fraction, double? limit, string limitSource)
    {
        double grams = Nutrient.DoseGrams(litres, missing, fraction), perLitre = grams / litres;
        string dose = $"{Number(perLitre, 3)} g/L";
        return Nutrient.Dose.Explain(name, label, grams, "g", 1, $"{Typed(litres)} x {Number(missing, 1)} / 1000 / {Number(fraction, 4)}") with
        {
            EntryField = "grams",
            Caution = limit is not double most ? (Sentence)$"{dose}; keep to the dose on its packet."
                : perLitre > most ? (Sentence)$"{dose} is over the limit of {Typed(most)} g/L ({limitSource}): use less and another source with it."
                : (Sentence)$"{dose}, limit {Typed(most)} g/L ({limitSource}).",
        };
    }

    private static void Total(BenchSheet sheet)
    {
        double amino = sheet["aminoMgNitrogenPerLitre"], ammonia = sheet["ammoniaMgPerLitre"];
        sheet.Add(Nutrient.Sum.Explain("yanMgPerLitre", "Assimilable nitrogen", Nutrient.TotalMgPerLitre(amino, ammonia), "mg N/L", 1, $"{Typed(amino)} + {Typed(ammonia)} x 14.007 / 17.031"));
    }

    private static void Formol(BenchSheet sheet)
    {
        double titrant = sheet["titrantMillilitres"], normality = sheet["normality"], sample = sheet["sampleMillilitres"];
        sheet.Add(Nutrient.Formol.Explain("yanMgPerLitre", "Assimilable nitrogen", Nutrient.FormolMgPerLitre(titrant, normality, sample), "mg N/L", 0, $"{Typed(titrant)} x {Typed(normality)} x 14007 / {Typed(sample)}") with
        {
            Caution = "Formaldehyde is poisonous and causes cancer: fume hood and gloves, local rules. The method may read 10 to 20 % off.",
        });
    }
}
