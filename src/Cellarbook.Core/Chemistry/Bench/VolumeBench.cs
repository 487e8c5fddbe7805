using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of blending, diluting, sweetening, and volumes at 20 °C.</summary>
internal static class VolumeBench
{
    private const string Group = "Blending and volumes";

    private static readonly BenchChoice[] UnitChoices = [.. Units.All.Select(u => new BenchChoice(u.Code, u.Label))];

    public static IEnumerable<BenchCalculator> All =>
    [
        new("blend-to-strength", Group, "Blend or fortify to a strength", "How much of a second liquid brings the first to a strength? Pearson's square and the true blend by mass side by side.",
            [
                BenchInput.Number("litres", "First volume at 20 °C", "L", 0.001, 1e7), BenchInput.Number("abv", "Its strength", "% vol", 0, 100), BenchInput.Number("secondAbv", "Strength of the second", "% vol", 0, 100),
                BenchInput.Number("targetAbv", "Strength wanted", "% vol", 0, 100),
            ], BlendTo),
        new("mix", Group, "Mix two liquids", "What volume and strength come of mixing two?",
            [
                BenchInput.Number("litres", "First volume at 20 °C", "L", 0, 1e7), BenchInput.Number("abv", "Its strength", "% vol", 0, 100), BenchInput.Number("secondLitres", "Second volume at 20 °C", "L", 0.001, 1e7),
                BenchInput.Number("secondAbv", "Its strength", "% vol", 0, 100),
            ], Mix),
        new("make-up", Group, "Make up or dilute to a gravity", "How much water brings a concentrate or must down to a gravity?",
            [BenchInput.Number("litres", "Concentrate or must", "L", 0.001, 1e7), BenchInput.Number("gravity", "Its gravity 20/20", "SG", 1.001, 1.380), BenchInput.Number("targetGravity", "Gravity wanted", "SG", 1.001, 1.380)], MakeUp),
        new("mix-gravities", Group, "Mix two musts", "What volume and gravity come of mixing must, juice, concentrate or water?",
            [
                BenchInput.Number("litres", "First volume", "L", 0, 1e7), BenchInput.Number("gravity", "Its gravity 20/20", "SG", 1.000, 1.380), BenchInput.Number("secondLitres", "Second volume", "L", 0.001, 1e7),
                BenchInput.Number("secondGravity", "Its gravity 20/20", "SG", 1.000, 1.380),
            ], MixGravities),
        new("sugar-to-gravity", Group, "Sugar to a gravity", "How much dry sugar raises a must to a gravity?",
            [BenchInput.Number("litres", "Must", "L", 0.001, 1e7), BenchInput.Number("gravity", "Its gravity 20/20", "SG", 1.000, 1.200), BenchInput.Number("targetGravity", "Gravity wanted", "SG", 1.000, 1.200)], SugarTo),
        new("chaptalise", Group, "Chaptalise to a strength", "How much sugar brings a must to a potential strength, with the volume the sugar takes?",
            [
                BenchInput.Number("litres", "Must", "L", 0.001, 1e7), BenchInput.Number("sugarGramsPerLitre", "Its fermentable sugar", "g/L", 0, 350), BenchInput.Number("targetAbv", "Potential strength wanted", "% vol", 0, 20), SugarBench.Factor,
            ], Chaptalise),
        new("volume-at-20", Group, "Volume at 20 °C", "Reduces a volume read at cellar temperature to 20 °C, and to 60 °F.",
            [
                BenchInput.Number("litres", "Volume read", "L", 0, 1e7), BenchInput.Number("celsius", "Temperature of the wine", "°C", 0, 40), BenchInput.Number("abv", "Strength", "% vol", 0, 100),
                BenchInput.Choice("vessel", "Measured in", new BenchChoice("none", "Glass, or expansion left out"), new BenchChoice("steel", "Steel"), new BenchChoice("stainless", "Stainless steel")),
            ], At20),
        new("convert", Group, "Convert units", "Exact conversion of volume and mass.",
            [BenchInput.Number("value", "Amount", "in the unit chosen", 0, 1e12), BenchInput.Choice("from", "Unit", UnitChoices), BenchInput.Choice("to", "Wanted in", UnitChoices)], Convert),
        new("blend-ph", Group, "pH of a blend", "A first guess of the pH when two wines meet.",
            [
                BenchInput.Number("litres", "First volume", "L", 0.001, 1e7), BenchInput.Number("ph", "Its pH", "pH", 2, 7), BenchInput.Number("secondLitres", "Second volume", "L", 0.001, 1e7), BenchInput.Number("secondPh", "Its pH", "pH", 2, 7),
            ], Ph),
    ];

    private static void BlendTo(BenchSheet sheet)
    {
        double litres = sheet["litres"], q1 = sheet["abv"], q2 = sheet["secondAbv"], target = sheet["targetAbv"];
        if (target == q2 || target < Math.Min(q1, q2) || target > Math.Max(q1, q2))
        {
            sheet.Refuse(RefusalCodes.Impossible, "targetAbv", $"The strength wanted must lie between {Typed(q1)} and {Typed(q2)} % vol and differ from the second.", $"between {Typed(Math.Min(q1, q2))} and {Typed(Math.Max(q1, q2))} % vol", Blending.Pearson.Source);
            return;
        }

        double second = Blending.LitresForStrength(litres, q1, q2, target);
        Blend blend = Blending.ByMass(litres, q1, second, q2);
        sheet.Add(Blending.ByMassBalance.Explain("secondLitres", "Second liquid, by mass", second, "L", 3,
            $"{Typed(litres)} x {Number(AlcoholicStrength.KgPerCubicMetre(q1, 20), 2)} x ({MassPercent(target)} - {MassPercent(q1)}) / ({MassPercent(q2)} - {MassPercent(target)}) / {Number(AlcoholicStrength.KgPerCubicMetre(q2, 20), 2)}") with
        { EntryField = "litres" });
        sheet.Add(Blending.ByMassBalance.Explain("litresAfter", "Volume afterwards, by mass", blend.Litres, "L", 3, $"mass {Typed(litres)} L + {Number(second, 3)} L over density at {Typed(target)} % vol") with { EntryField = "litres" });
        sheet.Add(Blending.ByMassBalance.Explain("contractionLitres", "Contraction", litres + second - blend.Litres, "L", 3, $"{Typed(litres)} + {Number(second, 3)} - {Number(blend.Litres, 3)}") with { Caution = "What contracts is no loss: the pure alcohol stays the same." });
        sheet.Add(Blending.Pearson.Explain("secondLitresPearson", "Second liquid, by Pearson's square", Blending.PearsonLitres(litres, q1, q2, target), "L", 3, $"{Typed(litres)} x ({Typed(target)} - {Typed(q1)}) / ({Typed(q2)} - {Typed(target)})"));
    }

    private static string MassPercent(double abv) => Number(100 * AlcoholicStrength.MassFractionFromAbv(abv), 4);

    private static void Mix(BenchSheet sheet)
    {
        double v1 = sheet["litres"], q1 = sheet["abv"], v2 = sheet["secondLitres"], q2 = sheet["secondAbv"];
        Blend blend = Blending.ByMass(v1, q1, v2, q2);
        string parts = $"{Typed(v1)} L at {Typed(q1)} and {Typed(v2)} L at {Typed(q2)} % vol, mass and ethanol conserved";
        sheet.Add(Blending.ByMassBalance.Explain("litres", "Volume at 20 °C, by mass", blend.Litres, "L", 3, parts) with { EntryField = "litres" });
        sheet.Add(Blending.ByMassBalance.Explain("abv", "Strength, by mass", blend.Abv, "% vol", 2, parts) with { EntryField = "abv" });
        sheet.Add(Blending.Mean.Explain("abvMean", "Strength, volume-weighted mean", Blending.VolumeWeighted(v1, q1, v2, q2), "% vol", 2, $"({Typed(v1)} x {Typed(q1)} + {Typed(v2)} x {Typed(q2)}) / ({Typed(v1)} + {Typed(v2)})"));
    }

    private static void MakeUp(BenchSheet sheet)
    {
        if (!sheet.Ordered("targetGravity", "gravity", "Water can't raise a gravity: the gravity wanted is above the present one."))
        {
            return;
        }

        double litres = sheet["litres"], gravity = sheet["gravity"], target = sheet["targetGravity"], water = Enrichment.WaterLitres(litres, gravity, target);
        sheet.Add(Enrichment.MakeUp.Explain("waterLitres", "Water", water, "L", 2,
            $"{Typed(litres)} x {Typed(gravity)} x ({Number(100 * SucroseDensity.MassFractionFromGravity(gravity), 2)} / {Number(100 * SucroseDensity.MassFractionFromGravity(target), 2)} - 1)") with
        { EntryField = "litres" });
        sheet.Add(Enrichment.MakeUp.Explain("litresAfter", "Volume afterwards", Enrichment.MixedLitres(litres, gravity, water, 1), "L", 2, $"({Typed(litres)} x {Typed(gravity)} + {Number(water, 3)}) / {Typed(target)}") with
        {
            EntryField = "litres",
            Caution = "Concentrate is not pure sugar: add most of the water, mix, read the gravity and go on. Adding water to grape must for sale is forbidden or limited in many places.",
        });
    }

    private static void MixGravities(BenchSheet sheet)
    {
        double v1 = sheet["litres"], g1 = sheet["gravity"], v2 = sheet["secondLitres"], g2 = sheet["secondGravity"];
        string parts = $"{Typed(v1)} L at SG {Typed(g1)} and {Typed(v2)} L at SG {Typed(g2)}, mass and extract conserved";
        sheet.Add(Enrichment.MakeUp.Explain("gravity", "Gravity", Enrichment.MixedGravity(v1, g1, v2, g2), "SG", 4, parts) with { EntryField = "gravity" });
        sheet.Add(Enrichment.MakeUp.Explain("litres", "Volume at 20 °C", Enrichment.MixedLitres(v1, g1, v2, g2), "L", 2, parts) with { EntryField = "litres" });
    }

    private static void SugarTo(BenchSheet sheet)
    {
        if (!sheet.Ordered("gravity", "targetGravity", "Sugar can't lower a gravity: the gravity wanted is below the present one."))
        {
            return;
        }

        double litres = sheet["litres"], gravity = sheet["gravity"], target = sheet["targetGravity"], kilograms = Enrichment.SucroseKilogramsToGravity(litres, gravity, target);
        double w = 100 * SucroseDensity.MassFractionFromGravity(gravity), wanted = 100 * SucroseDensity.MassFractionFromGravity(target);
        sheet.Add(Enrichment.MakeUp.Explain("grams", "Sugar (sucrose)", kilograms * 1000, "g", 0, $"1000 x {Typed(litres)} x {Typed(gravity)} x 0.998203 x ({Number(wanted, 3)} - {Number(w, 3)}) / (100 - {Number(wanted, 3)})") with
        {
            EntryField = "grams",
            Caution = "Enrichment is limited by law in most places; check the rules for this wine.",
        });
        double after = ((litres * gravity * WaterDensity.Oiv20KgPerLitre) + kilograms) / (target * WaterDensity.Oiv20KgPerLitre);
        sheet.Add(Enrichment.MakeUp.Explain("litresAfter", "Volume afterwards", after, "L", 2, $"({Typed(litres)} x {Typed(gravity)} x 0.998203 + {Number(kilograms, 3)}) / ({Typed(target)} x 0.998203)"));
    }

    private static void Chaptalise(BenchSheet sheet)
    {
        double litres = sheet["litres"], sugar = sheet["sugarGramsPerLitre"], target = sheet["targetAbv"], factor = SugarBench.ChosenFactor(sheet).GramsPerLitrePerAbv;
        if (factor * target < sugar)
        {
            sheet.Refuse(RefusalCodes.Impossible, "targetAbv", $"The must has {Number(sugar / factor, 2)} % vol potential already.", $"{Number(sugar / factor, 2)} to 20 % vol", Enrichment.Chaptalisation.Source);
            return;
        }

        const double c = Enrichment.DissolvedMillilitresPerGram;
        double hexose = Enrichment.HexoseGrams(litres, sugar, target, factor, c);
        const string caution = "Enrichment is limited by law in most places; check the rules for this wine.";
        sheet.Add(Enrichment.Chaptalisation.Explain("hexoseGrams", "Sugar as hexose (dextrose without water)", hexose, "g", 0, $"{Typed(litres)} x ({Typed(factor)} x {Typed(target)} - {Typed(sugar)}) / (1 - {Typed(c)} / 1000 x {Typed(factor)} x {Typed(target)})") with { EntryField = "grams", Caution = caution });
        sheet.Add(Enrichment.Chaptalisation.Explain("sucroseGrams", "Sugar as sucrose (household sugar)", hexose * Enrichment.SucrosePerHexose, "g", 0, $"{Number(hexose, 1)} x 0.950") with { EntryField = "grams", Caution = caution });
        sheet.Add(Enrichment.Chaptalisation.Explain("litresAfter", "Volume afterwards", litres + (c * hexose / 1e6 * 1000), "L", 2, $"{Typed(litres)} + {Typed(c)} x {Number(hexose, 1)} / 1000") with { EntryField = "litres" });
        sheet.Add(Enrichment.Naive.Explain("naiveGrams", "With the volume left out (too little)", Enrichment.NaiveGrams(litres, sugar, target, factor), "g", 0, $"{Typed(litres)} x ({Typed(factor)} x {Typed(target)} - {Typed(sugar)})"));
    }

    private static void At20(BenchSheet sheet)
    {
        double litres = sheet["litres"], t = sheet["celsius"], abv = sheet["abv"];
        double vessel = sheet.Choice("vessel") switch { "steel" => VolumeAt20.SteelPerKelvin, "stainless" => VolumeAt20.StainlessPerKelvin, _ => 0 };
        sheet.Add(VolumeAt20.Ratio.Explain("litres", "Volume at 20 °C", VolumeAt20.Litres(litres, t, abv, vessel), "L", 3,
            $"{Typed(litres)} x {Number(AlcoholicStrength.KgPerCubicMetre(abv, t), 3)} / {Number(AlcoholicStrength.KgPerCubicMetre(abv, 20), 3)} x (1 + {Typed(vessel)} x ({Typed(t)} - 20))") with
        { EntryField = "litres" });
        double vesselAtT = 1 + (vessel * (t - 20)), at60 = VolumeAt20.LitresAt60Fahrenheit(litres * vesselAtT, t, abv);
        sheet.Add(VolumeAt20.Ratio.Explain("litres60Fahrenheit", "Volume at 60 °F", at60, "L", 3, $"{Number(litres * vesselAtT, 4)} x {Number(AlcoholicStrength.KgPerCubicMetre(abv, t), 3)} / {Number(AlcoholicStrength.KgPerCubicMetre(abv, AlcoholicStrength.SixtyFahrenheitCelsius), 3)}"));
        sheet.Add(VolumeAt20.Ratio.Explain("usGallons60Fahrenheit", "US gallons at 60 °F", at60 / Units.LitresPerUsGallon, "US gal", 3, $"{Number(at60, 4)} / 3.785411784"));
    }

    private static void Convert(BenchSheet sheet)
    {
        Unit from = Units.Find(sheet.Choice("from"))!, to = Units.Find(sheet.Choice("to"))!;
        if (from.Kind != to.Kind)
        {
            sheet.Refuse(RefusalCodes.Impossible, "to", $"A {from.Label} is no measure of the same kind as a {to.Label}.", Sentence.Verbatim(string.Join(", ", Units.All.Where(u => u.Kind == from.Kind).Select(u => u.Code))), Units.Definition.Source);
            return;
        }

        double value = sheet["value"];
        sheet.Add(Units.Definition.Explain("amount", "Amount", Units.Convert(value, from, to), to.Code, 9, $"{Typed(value)} x {Typed((double)from.Factor)} / {Typed((double)to.Factor)}"));
    }

    private static void Ph(BenchSheet sheet)
    {
        double v1 = sheet["litres"], p1 = sheet["ph"], v2 = sheet["secondLitres"], p2 = sheet["secondPh"];
        sheet.Add(Blending.HydrogenMean.Explain("ph", "pH, first guess", Blending.Ph(v1, p1, v2, p2), "pH", 2, $"-log10(({Typed(v1)} x 10^-{Typed(p1)} + {Typed(v2)} x 10^-{Typed(p2)}) / ({Typed(v1)} + {Typed(v2)}))") with
        {
            Caution = "Wines are buffered: mix a bench trial and measure it.",
        });
    }
}
