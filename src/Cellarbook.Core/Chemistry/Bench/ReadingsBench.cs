using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators that correct instrument readings.</summary>
internal static class ReadingsBench
{
    private const string Group = "Readings";

    /// <summary>Glass of the instrument; never assumed.</summary>
    public static readonly BenchInput Glass = BenchInput.Choice("glass", "Glass of the instrument", new BenchChoice("sodaLime", "Soda-lime (usual)"), new BenchChoice("borosilicate", "Borosilicate"));

    private static readonly BenchInput Calibration = BenchInput.Number("calibrationCelsius", "Calibration temperature of the instrument", "°C", 10, 30, "20, or 15.56 for 60 °F; it is printed on the stem");

    public static IEnumerable<BenchCalculator> All =>
    [
        new("hydrometer-must", Group, "Hydrometer in must", "Brings a hydrometer reading in must to its calibration temperature and to SG 20/20.",
            [BenchInput.Number("gravity", "Reading", "SG", 0.980, 1.200), BenchInput.Number("celsius", "Temperature of the sample", "°C", 0, 40), Calibration, Glass], Must),
        new("hydrometer-wine", Group, "Hydrometer in wine", "Brings a hydrometer reading in wine to SG 20/20, knowing its strength roughly.",
            [
                BenchInput.Number("gravity", "Reading", "SG", 0.980, 1.050), BenchInput.Number("celsius", "Temperature of the sample", "°C", 0, 40), Calibration,
                BenchInput.Number("abv", "Strength, roughly", "% vol", 0, 25), Glass,
            ], Wine),
        new("refractometer-must", Group, "Refractometer in must", "Corrects a refractometer reading in must for temperature. Before fermentation only.",
            [
                BenchInput.Number("brix", "Reading", "°Brix", 10, 30), BenchInput.Number("celsius", "Temperature of the prism", "°C", 5, 30),
                BenchInput.Choice("compensated", "Does the instrument compensate by itself?", new BenchChoice("no", "No"), new BenchChoice("yes", "Yes")),
                BenchInput.Choice("fermenting", "Has fermentation begun?", new BenchChoice("no", "No"), new BenchChoice("yes", "Yes")),
            ], RefractometerMust),
        new("refractometer-ferment", Group, "Refractometer during fermentation", "Estimates the gravity from the first and the present refractometer reading: alcohol bends light too.",
            [
                BenchInput.Number("originalBrix", "Reading before fermentation, temperature-corrected", "°Brix", 9, 26), BenchInput.Number("brix", "Reading now, temperature-corrected", "°Brix", 0, 26),
            ], RefractometerFerment),
        new("refractometer-hydrometer", Group, "Strength by refractometer and hydrometer", "Estimates the strength of a wine from both instruments on one sample, without its first gravity.",
            [BenchInput.Number("brix", "Refractometer reading", "°Brix", 0, 40), BenchInput.Number("gravity", "Hydrometer reading corrected to 20/20", "SG", 0.980, 1.179)], Both),
        new("dry-extract", Group, "Dry extract of wine", "What is left of a wine without water and alcohol?",
            [BenchInput.Number("gravity", "Specific gravity 20/20 of the wine", "SG", 0.980, 1.150), BenchInput.Number("abv", "Strength", "% vol", 0, 25)], Extract),
    ];

    /// <summary>Cubic expansion of the chosen glass, 1/K.</summary>
    public static double GlassPerKelvin(BenchSheet sheet) =>
        sheet.Choice("glass") == "sodaLime" ? Alcoholmeter.SodaLimeGlassPerKelvin : Alcoholmeter.BorosilicateGlassPerKelvin;

    private static void Must(BenchSheet sheet)
    {
        double reading = sheet["gravity"], t = sheet["celsius"], tc = sheet["calibrationCelsius"], glass = GlassPerKelvin(sheet);
        double density = reading * WaterDensity.OfSucroseFormulaKgPerCubicMetre(tc) / (1 + (glass * (t - tc)));
        string found = $"density at {Typed(t)} °C {Typed(reading)} x {Number(WaterDensity.OfSucroseFormulaKgPerCubicMetre(tc), 3)} / (1 + {Typed(glass)} x ({Typed(t)} - {Typed(tc)})) = {Number(density, 2)} kg/m³, "
            + $"sucrose solution {Number(100 * SucroseDensity.MassFractionFromDensity(density, t), 2)} %";
        Sentence caution = reading < 1.000 ? "Below SG 1.000 there is alcohol: correct as wine instead." : "Degas the sample first: bubbles lift the spindle.";
        sheet.Add(Hydrometer.Must.Explain("gravity", "Corrected gravity 20/20", Hydrometer.InMustAt20(reading, t, tc, glass), "SG", 4, found + " at 20 °C") with { EntryField = "gravity", Caution = caution });
        sheet.Add(Hydrometer.Must.Explain("gravityAtCalibration", "Corrected gravity at the calibration temperature", Hydrometer.InMust(reading, t, tc, glass), "SG", 4, found + $" at {Typed(tc)} °C"));
        sheet.Add(Hydrometer.WaterLike.Explain("gravityWaterLike", "By the usual chart, at the calibration temperature", Hydrometer.LikeWater(reading, t, tc, glass), "SG", 4,
            $"{Typed(reading)} x {Number(WaterDensity.KgPerCubicMetre(tc), 3)} / {Number(WaterDensity.KgPerCubicMetre(t), 3)} / (1 + {Typed(glass)} x ({Typed(t)} - {Typed(tc)}))"));
    }

    private static void Wine(BenchSheet sheet)
    {
        double reading = sheet["gravity"], t = sheet["celsius"], tc = sheet["calibrationCelsius"], abv = sheet["abv"], glass = GlassPerKelvin(sheet);
        sheet.Add(Hydrometer.Wine.Explain("gravity", "Corrected gravity 20/20", Hydrometer.InWineAt20(reading, t, tc, abv, glass), "SG", 4,
            $"({Typed(reading)} x {Number(AlcoholicStrength.KgPerCubicMetre(0, tc), 3)} / (1 + {Typed(glass)} x ({Typed(t)} - {Typed(tc)})) - {Number(AlcoholicStrength.KgPerCubicMetre(abv, t) - AlcoholicStrength.KgPerCubicMetre(abv, 20), 3)}) / {Number(AlcoholicStrength.KgPerCubicMetre(0, 20), 3)}") with
        {
            EntryField = "gravity",
            Caution = "Degas the sample first: bubbles lift the spindle.",
        });
    }

    private static void RefractometerMust(BenchSheet sheet)
    {
        if (sheet.Choice("fermenting") == "yes")
        {
            sheet.Refuse(RefusalCodes.OutsideValidity, "brix", "Once there is alcohol a refractometer reads too high: use the first reading with this one in \"Refractometer during fermentation\", or a hydrometer.",
                "before fermentation", Refractometer.OivTemperature.Source);
            return;
        }

        double reading = sheet["brix"], t = sheet["celsius"];
        double correction = sheet.Choice("compensated") == "yes" ? 0 : Refractometer.TemperatureCorrection(reading, t);
        double brix = reading + correction, density = MustTable.DensityKgPerLitre(brix);
        sheet.Add(Refractometer.OivTemperature.Explain("brix", "Corrected reading", brix, "°Brix", 2, $"{Typed(reading)} + {Number(correction, 2)}"));
        sheet.Add(MustTable.Oiv.Explain("sugarGramsPerLitre", "Fermentable sugar", MustTable.SugarGramsPerLitre(brix), "g/L", 1, $"table at {Number(brix, 2)} °Brix"));
        sheet.Add(MustTable.Oiv.Explain("gravity", "Specific gravity 20/20", MustTable.GravityFromDensity(density), "SG", 4, $"table density {Number(density, 4)} / 0.998203") with { EntryField = "gravity" });
    }

    private static void RefractometerFerment(BenchSheet sheet)
    {
        if (!sheet.Ordered("brix", "originalBrix", "The reading now cannot be above the one before fermentation."))
        {
            return;
        }

        double i = sheet["originalBrix"], f = sheet["brix"], original = BrixScale.ToGravity(i), now = Refractometer.GravityByTerrill(i, f);
        const string caution = "A reading with alcohol in it, corrected by a correlation made on beer: confirm by hydrometer before deciding anything, above all before bottling.";
        sheet.Add(Refractometer.TerrillCubic.Explain("gravity", "Gravity now, by Terrill", now, "SG", 3,
            $"1 - 0.0044993 x {Typed(i)} + 0.011774 x {Typed(f)} + 0.00027581 x {Typed(i)}² - 0.0012717 x {Typed(f)}² - 0.00000728 x {Typed(i)}³ + 0.000063293 x {Typed(f)}³") with
        { Caution = caution });
        sheet.Add(Refractometer.Bonham.Explain("gravityByBonham", "Gravity now, by Bonham", Refractometer.GravityByBonham(i, f), "SG", 3,
            $"1.001843 - 0.002318474 x {Typed(i)} - 0.000007775 x {Typed(i)}² - 0.000000034 x {Typed(i)}³ + 0.00574 x {Typed(f)} + 0.00003344 x {Typed(f)}² + 0.000000086 x {Typed(f)}³") with
        { Caution = caution });
        sheet.Add(GravityStrength.LinearRule.Explain("abv", "Strength so far", GravityStrength.Linear(original, now, GravityStrength.LinearFactor), "% vol", 1, $"131.25 ({Number(original, 4)} - {Number(now, 4)})") with
        {
            Uncertainty = 1,
            UncertaintyBasis = "assumed: correlation and rule of thumb together (a judgement)",
            Caution = caution,
        });
    }

    private static void Both(BenchSheet sheet)
    {
        double brix = sheet["brix"], gravity = sheet["gravity"], baume = MustScales.BaumeFromGravity(gravity, MustScales.BaumeModulusUs);
        sheet.Add(Refractometer.RogersonSymington.Explain("abv", "Strength", Refractometer.AbvWithHydrometer(brix, gravity), "% vol", 1, $"1.646 x {Typed(brix)} - 2.703 x {Number(baume, 3)} - 1.794") with
        {
            EntryField = "abv",
            Caution = "Fitted on fortified wine; for table wine a rough guide. The strength that counts is the measured one.",
        });
    }

    private static void Extract(BenchSheet sheet)
    {
        double gravity = sheet["gravity"], abv = sheet["abv"], without = DryExtract.GravityWithoutAlcohol(gravity, abv);
        sheet.Add(DryExtract.Tabarie.Explain("gravityWithoutAlcohol", "Relative density without the alcohol", without, "SG", 5, $"{Typed(gravity)} - {Number(DryExtract.AlcoholGravity(abv), 5)} + 1.000"));
        sheet.Add(DryExtract.Tabarie.Explain("extractGramsPerLitre", "Total dry extract", DryExtract.GramsPerLitre(without), "g/L", 1, $"sucrose per litre at relative density {Number(without, 5)}"));
    }
}
