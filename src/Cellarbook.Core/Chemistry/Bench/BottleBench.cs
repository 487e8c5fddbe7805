using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of bottling and label.</summary>
internal static class BottleBench
{
    private const string Group = "Bottle";

    public static IEnumerable<BenchCalculator> All =>
    [
        new("bottles", Group, "Bottles of a volume", "How many bottles does a volume fill, and what is left over?",
            [
                BenchInput.Number("litres", "Volume", "L", 0, 1e7), BenchInput.Number("bottleMillilitres", "Size of the bottle", "mL", 5, 30000), BenchInput.OptionalNumber("lossLitres", "Lost in hoses and filter", "L", 0, 1e7),
            ], Bottles),
        new("fill-tolerance", Group, "Tolerance of a fill", "How far may a single bottle be short of its nominal volume?", [BenchInput.Number("bottleMillilitres", "Nominal volume", "mL", 5, 10000)], Tolerance),
        new("refermentation", Group, "Pressure if a bottle referments", "What pressure builds up if the sugar left in a closed bottle ferments?",
            [
                BenchInput.Number("sugarGramsPerLitre", "Fermentable sugar", "g/L", 0, 100), BenchInput.Number("co2GramsPerLitre", "CO2 in the wine already", "g/L", 0, 20), BenchInput.Number("celsius", "Temperature of the bottle", "°C", 0, 40),
                BenchInput.Number("headspacePercent", "Headspace in % of the wine", "%", 0, 50),
            ], Pressure),
        new("energy", Group, "Energy per 100 mL", "Energy for the label, in kJ and kcal.",
            [
                BenchInput.Number("abv", "Strength", "% vol", 0, 100), BenchInput.Number("sugarGramsPerLitre", "Sugar", "g/L", 0, 400), BenchInput.Number("acidGramsPerLitre", "Organic acids", "g/L", 0, 50),
                BenchInput.Number("glycerolGramsPerLitre", "Glycerol", "g/L", 0, 50),
            ], Kilojoules),
    ];

    private static void Bottles(BenchSheet sheet)
    {
        double litres = sheet["litres"], loss = sheet.Maybe("lossLitres") ?? 0, size = sheet["bottleMillilitres"];
        if (loss > litres)
        {
            sheet.Refuse(RefusalCodes.Impossible, "lossLitres", "More can't be lost than there is.", $"0 to {Typed(litres)} L", BottleFill.Count.Source);
            return;
        }

        FilledBottles filled = BottleFill.FromVolume(litres - loss, size);
        string working = $"({Typed(litres)} - {Typed(loss)}) L / {Typed(size)} mL";
        sheet.Add(BottleFill.Count.Explain("bottles", "Full bottles", filled.Bottles, "bottles", 0, working + ", whole") with { EntryField = "bottles" });
        sheet.Add(BottleFill.Count.Explain("restLitres", "Left over", filled.RestLitres, "L", 3, $"{Typed(litres)} - {Typed(loss)} - {filled.Bottles} x {Typed(size / 1000)}") with { EntryField = "litres" });
    }

    private static void Tolerance(BenchSheet sheet)
    {
        double nominal = sheet["bottleMillilitres"], tolerance = BottleFill.TolerableNegativeErrorMillilitres(nominal);
        sheet.Add(BottleFill.Tolerance.Explain("toleranceMillilitres", "Tolerable negative error", tolerance, "mL", 2, $"table at {Typed(nominal)} mL"));
        sheet.Add(BottleFill.Tolerance.Explain("leastMillilitres", "No bottle below", nominal - (2 * tolerance), "mL", 1, $"{Typed(nominal)} - 2 x {Typed(tolerance)}") with { Caution = "And the mean of the batch not below the nominal volume, all at 20 °C." });
    }

    private static void Pressure(BenchSheet sheet)
    {
        double sugar = sheet["sugarGramsPerLitre"], before = sheet["co2GramsPerLitre"], t = sheet["celsius"], headspace = sheet["headspacePercent"];
        double formed = FermentGas.Co2GramsPerLitre(sugar), bar = DissolvedGas.BottleBar(sugar, before, t, headspace), total = before + formed;
        double gas = headspace / 100 * FermentGas.Co2GramsPerMole / (FermentGas.GasConstant * (t + 273.15)) * 100;
        sheet.Add(DissolvedGas.BottlePressure.Explain("co2Bar", "Pressure of CO2", bar, "bar", 2, $"({Typed(before)} + {Number(formed, 3)}) / ({Number(DissolvedGas.GramsPerLitreBar(t), 3)} + {Number(gas, 3)})") with { Caution = Warning(sugar, bar) });
        sheet.Add(DissolvedGas.BottlePressure.Explain("co2GramsPerLitre", "CO2 in the bottle", total, "g/L", 2, $"{Typed(before)} + {Typed(sugar)} x {Number(FermentGas.Co2PerHexose, 5)}") with
        {
            Caution = total > DissolvedGas.UsStillCeilingGramsPerLitre ? "Above 3.92 g/L, the United States ceiling for still wine (26 USC 5041, from memory)." : null,
        });
    }

    private static Sentence Warning(double sugar, double bar)
    {
        Sentence live = "Ordinary wine bottles and corks are no pressure vessels and may burst: bottle sweet wine only when sterile-filtered or stabilised, and by readings that stay the same.";
        return bar >= DissolvedGas.SparklingBar ? (Sentence)$"Danger: pressure of a sparkling wine, which needs bottles and closures made for it. {live}"
            : bar >= DissolvedGas.SemiSparklingBar ? (Sentence)$"Danger: pressure of a semi-sparkling wine in a still bottle. {live}"
            : sugar >= DissolvedGas.WarningSugarGramsPerLitre ? (Sentence)$"At 2 g/L fermentable sugar and more with live yeast (a judgement, not a standard) corks move and bottles may burst. {live}"
            : $"Small, if no more than this ferments. Air trapped under the cork adds to it. {live}";
    }

    private static void Kilojoules(BenchSheet sheet)
    {
        double abv = sheet["abv"], sugar = sheet["sugarGramsPerLitre"], acid = sheet["acidGramsPerLitre"], glycerol = sheet["glycerolGramsPerLitre"];
        sheet.Add(Energy.AnnexXiv.Explain("kilojoules", "Energy", Energy.KilojoulesPer100Millilitres(abv, sugar, acid, glycerol), "kJ/100 mL", 0, $"{Typed(abv)} x 0.789 x 29 + (17 x {Typed(sugar)} + 13 x {Typed(acid)} + 10 x {Typed(glycerol)}) / 10"));
        sheet.Add(Energy.AnnexXiv.Explain("kilocalories", "Energy", Energy.KilocaloriesPer100Millilitres(abv, sugar, acid, glycerol), "kcal/100 mL", 0, $"{Typed(abv)} x 0.789 x 7 + (4 x {Typed(sugar)} + 3 x {Typed(acid)} + 2.4 x {Typed(glycerol)}) / 10"));
    }
}
