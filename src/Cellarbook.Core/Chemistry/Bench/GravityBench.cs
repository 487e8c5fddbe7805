using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of strength from gravities.</summary>
internal static class GravityBench
{
    private const string Group = "Strength from gravities";

    public static IEnumerable<BenchCalculator> All =>
    [
        new("strength-from-gravities", Group, "Strength from two gravities", "Estimates the strength of a wine to which nothing was added since the first gravity; every rule side by side.",
            [
                BenchInput.Number("originalGravity", "Original gravity 20/20", "SG", 0.980, 1.170), BenchInput.Number("finalGravity", "Gravity now 20/20", "SG", 0.980, 1.170),
                BenchInput.OptionalNumber("residualSugarGramsPerLitre", "Measured residual sugar", "g/L", 0, 400), SugarBench.Factor,
            ], TwoGravities),
        new("strength-after-additions", Group, "Strength after additions", "Estimates the strength when sugar, juice, water, wine or spirit went in after the first gravity, by mass.",
            [
                BenchInput.Number("litres", "Volume of must at the first gravity", "L", 0.001, 1e7), BenchInput.Number("originalGravity", "First gravity 20/20", "SG", 0.980, 1.179),
                BenchInput.OptionalNumber("gravityBefore", "Gravity read before the additions", "SG", 0.980, 1.179, "when fermentation was under way"),
                BenchInput.OptionalNumber("sugarKilograms", "Sugar added", "kg", 0, 1e6), BenchInput.OptionalNumber("juiceLitres", "Juice or concentrate added", "L", 0, 1e7),
                BenchInput.OptionalNumber("juiceGravity", "Its gravity", "SG", 1.000, 1.380), BenchInput.OptionalNumber("waterLitres", "Water added", "L", 0, 1e7),
                BenchInput.OptionalNumber("wineLitres", "Wine added", "L", 0, 1e7), BenchInput.OptionalNumber("wineAbv", "Its strength", "% vol", 0, 25),
                BenchInput.OptionalNumber("wineGravity", "Its gravity", "SG", 0.980, 1.150), BenchInput.OptionalNumber("spiritLitres", "Spirit added", "L", 0, 1e7),
                BenchInput.OptionalNumber("spiritAbv", "Its strength", "% vol", 0, 100), BenchInput.Number("finalGravity", "Gravity now 20/20", "SG", 0.980, 1.179),
                BenchInput.OptionalNumber("residualSugarGramsPerLitre", "Measured residual sugar", "g/L", 0, 400), SugarBench.Factor,
            ], AfterAdditions),
        new("duty-strength", Group, "UK duty strength", "Cuts a strength to one decimal as the UK does for duty.", [BenchInput.Number("abv", "Strength", "% vol", 0, 100)], Duty),
    ];

    private static void TwoGravities(BenchSheet sheet)
    {
        if (!sheet.Ordered("finalGravity", "originalGravity", "The gravity now cannot be above the original one; if sugar went in, use \"Strength after additions\"."))
        {
            return;
        }

        double og = sheet["originalGravity"], fg = sheet["finalGravity"];
        SugarFactor factor = SugarBench.ChosenFactor(sheet);
        double sugar = MustTable.SugarGramsPerLitreFromGravity(og);
        if (sheet.Maybe("residualSugarGramsPerLitre") is double left)
        {
            if (left > sugar)
            {
                sheet.Refuse(RefusalCodes.Impossible, "residualSugarGramsPerLitre", $"There cannot be more sugar left than the must had, {Number(sugar, 1)} g/L.", $"0 to {Number(sugar, 1)} g/L", MustTable.Oiv.Source);
                return;
            }

            sheet.Add(Estimate(sheet, GravityStrength.OivLessResidual, "abv", "Strength by sugar", GravityStrength.OivPotentialLessResidual(og, left, factor.GramsPerLitrePerAbv),
                $"({Number(sugar, 1)} - {Typed(left)}) / {Typed(factor.GramsPerLitrePerAbv)}") with
            { EntryField = "abv" });
        }
        else
        {
            sheet.Add(PotentialAlcohol.Method.Explain("potentialAbv", "Potential strength of the must", PotentialAlcohol.AbvFromSugar(sugar, factor.GramsPerLitrePerAbv), "% vol", 1,
                $"{Number(sugar, 1)} / {Typed(factor.GramsPerLitrePerAbv)}") with
            { Caution = "If all of it ferments; measure the residual sugar for the strength by this method." });
        }

        string ogText = Typed(og), fgText = Typed(fg);
        sheet.Add(Estimate(sheet, GravityStrength.LinearRule, "abvLinear", "Linear rule", GravityStrength.Linear(og, fg, GravityStrength.LinearFactor), $"131.25 ({ogText} - {fgText})") with { EntryField = "abv" });
        sheet.Add(Estimate(sheet, GravityStrength.BallingRule, "abvBalling", "Real extract (Balling)", GravityStrength.Balling(og, fg),
            $"original {Number(BrixScale.PlatoFromGravity(og), 2)} °P, apparent {Number(BrixScale.PlatoFromGravity(fg), 2)} °P: (OE - (0.1808 OE + 0.8192 AE)) / (2.0665 - 0.010665 OE) x {fgText} x 998.203 / 789.24"));
        sheet.Add(Estimate(sheet, GravityStrength.DivisorRule, "abvDivisor", "Divisor rule", GravityStrength.Divisor(og, fg, GravityStrength.CustomaryDivisor), $"1000 ({ogText} - {fgText}) / 7.36"));
        sheet.Add(Estimate(sheet, GravityStrength.HallRule, "abvHall", "Rational rule (Hall)", GravityStrength.Hall(og, fg), $"76.08 ({ogText} - {fgText}) / (1.775 - {ogText}) x {fgText} / 0.794"));
        sheet.Add(Estimate(sheet, GravityStrength.HmrcTable, "abvHmrc", "UK factor table (beer)", GravityStrength.Hmrc(og, fg), $"{Number(GravityStrength.HmrcDrop(og, fg), 1)} x factor of its band") with
        {
            Caution = "A table for beer duty; not the rule for wine.",
        });
    }

    private static Explained Estimate(BenchSheet sheet, Formula formula, string name, Sentence label, double value, string working) => formula.Explain(name, label, value, "% vol", 1, working) with
    {
        Uncertainty = sheet.UncertaintyGiven ? GravityStrength.LinearModelAbv : GravityStrength.CustomaryUncertaintyAbv,
        UncertaintyBasis = sheet.UncertaintyGiven ? "± 0.3 % vol assumed for the rule itself" : "assumed: customary for an estimate from gravities (common practice, no source)",
        Caution = "An estimate: the strength that counts is the measured one, and near a boundary of a class only that one.",
    };

    private static void AfterAdditions(BenchSheet sheet)
    {
        if (!Together(sheet, "juiceLitres", "juiceGravity") || !Together(sheet, "spiritLitres", "spiritAbv"))
        {
            return;
        }

        var steps = new List<StrengthStep> { new StrengthStep.FirstGravity(sheet["litres"], sheet["originalGravity"]) };
        if (sheet.Maybe("gravityBefore") is double before)
        {
            steps.Add(new StrengthStep.GravityRead(before));
        }

        if (sheet.Maybe("sugarKilograms") is double sugar)
        {
            steps.Add(new StrengthStep.SugarAdded(sugar));
        }

        if (sheet.Maybe("juiceLitres") is double juice)
        {
            steps.Add(new StrengthStep.JuiceAdded(juice, sheet["juiceGravity"]));
        }

        if (sheet.Maybe("waterLitres") is double water)
        {
            steps.Add(new StrengthStep.WaterAdded(water));
        }

        if (sheet.Maybe("wineLitres") is double wine)
        {
            steps.Add(new StrengthStep.WineAdded(wine, sheet.Maybe("wineAbv"), sheet.Maybe("wineGravity"), null));
        }

        if (sheet.Maybe("spiritLitres") is double spirit)
        {
            steps.Add(new StrengthStep.SpiritAdded(spirit, sheet["spiritAbv"]));
        }

        steps.Add(new StrengthStep.GravityRead(sheet["finalGravity"]));
        if (sheet.Maybe("residualSugarGramsPerLitre") is double left)
        {
            steps.Add(new StrengthStep.ResidualSugarMeasured(left));
        }

        sheet.Add(StrengthHistory.Now(steps, SugarBench.ChosenFactor(sheet).GramsPerLitrePerAbv));
    }

    private static bool Together(BenchSheet sheet, string amount, string quality)
    {
        if (!sheet.Has(amount) || sheet.Has(quality))
        {
            return true;
        }

        sheet.Refuse(RefusalCodes.MissingInput, quality, $"With {sheet.Label(amount)} give {sheet.Label(quality)} too, else the strength can't be said.", Sentence.Verbatim(quality), StrengthHistory.Estimated.Source);
        return false;
    }

    private static void Duty(BenchSheet sheet) => sheet.Add(StrengthOnLabel.UkDuty.Explain("dutyAbv", "Strength for duty", StrengthOnLabel.RoundedDownToTenth(sheet["abv"]), "% vol", 1, $"{Typed(sheet["abv"])} cut to one decimal"));
}
