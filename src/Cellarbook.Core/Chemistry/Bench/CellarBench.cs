using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of sulphite and acid.</summary>
internal static class CellarBench
{
    private const string Sulphites = "Sulphite";
    private const string Acids = "Acid";

    private const string So2Caution = "SO2 fumes hurt lungs and set off asthma: air the room, add salts to liquid, follow the packet and local rules. Measure free SO2 again after a day and check the legal limit of total SO2.";

    private static readonly BenchInput PkMethod = BenchInput.Choice("pKaMethod", "pKa",
        new BenchChoice("chart", "1.81, as printed charts use"), new BenchChoice("oiv", "OIV pKT by strength and temperature (another convention, gives more molecular SO2)"));

    private static readonly BenchInput[] PkInputs =
    [
        BenchInput.Number("ph", "pH", "pH", 2.5, 5.0), PkMethod,
        BenchInput.OptionalNumber("abv", "Strength, for the OIV pKT", "% vol", 0, 15), BenchInput.OptionalNumber("celsius", "Temperature, for the OIV pKT", "°C", 20, 40),
    ];

    private static readonly BenchChoice[] AcidChoices = [.. Acid.Scales.Select(s => new BenchChoice(s.Code, s.Label))];
    private static readonly BenchChoice[] SaltChoices = [.. Acid.Salts.Select(s => new BenchChoice(s.Code, s.Label))];
    private static readonly BenchChoice[] EndPoints = [new("7.0", "pH 7.0 (OIV)"), new("8.2", "pH 8.2 (United States)")];

    public static IEnumerable<BenchCalculator> All =>
    [
        new("molecular-so2", Sulphites, "Molecular SO2", "How much of the free SO2 protects the wine at this pH?",
            [BenchInput.Number("freeMgPerLitre", "Free SO2", "mg/L", 0, 1000), .. PkInputs], Molecular),
        new("free-so2-needed", Sulphites, "Free SO2 for a target", "How much free SO2 gives the molecular SO2 wanted at this pH?",
            [BenchInput.Number("molecularMgPerLitre", "Molecular SO2 wanted", "mg/L", 0, 5, "common practice, no source: 0.5 to 0.6 dry red, 0.8 white and sweet, 1.5 and more to stop yeast"), .. PkInputs], FreeNeeded),
        new("sulphite-dose", Sulphites, "Sulphite addition", "How much metabisulphite or solution raises the free SO2, and what total it makes?",
            [
                BenchInput.Number("litres", "Volume", "L", 0.001, 1e7), BenchInput.Number("freeMgPerLitre", "Free SO2 now", "mg/L", 0, 500), BenchInput.Number("wantedFreeMgPerLitre", "Free SO2 wanted", "mg/L", 0, 500),
                BenchInput.Number("boundPercent", "Share that will bind", "%", 0, 95, "first additions bind 30 to 60 % (common practice, no source); 0 if none"),
                BenchInput.OptionalNumber("totalMgPerLitre", "Total SO2 now", "mg/L", 0, 1000),
                BenchInput.OptionalNumber("saltSo2Percent", "SO2 content of an older potassium salt", "% SO2", 30, 58, "57.6 % fresh by formula, about 50 % old stock (from memory)"),
                BenchInput.OptionalNumber("solutionGramsPer100Millilitres", "SO2 in a solution", "g/100 mL", 0.1, 20),
            ], Dose),
        new("so2-titration", Sulphites, "SO2 by titration", "SO2 from the titrant used: iodine (Ripper), or alkali after aspiration.",
            [BenchInput.Number("titrantMillilitres", "Titrant used", "mL", 0, 100), BenchInput.Number("normality", "Its normality", "N", 0.0001, 1), BenchInput.Number("sampleMillilitres", "Sample", "mL", 0.1, 1000)], So2Titration),
        new("acid-convert", Acids, "Acidity in another expression", "Turns acidity as one acid into another or into meq/L.",
            [BenchInput.Number("value", "Acidity", "g/L or meq/L as chosen", 0, 1000), BenchInput.Choice("from", "Expressed as", AcidChoices), BenchInput.Choice("to", "Wanted as", AcidChoices)], ConvertAcid),
        new("acid-titration", Acids, "Titratable acidity", "Titratable acidity from the alkali used.",
            [
                BenchInput.Number("titrantMillilitres", "Alkali used", "mL", 0, 100), BenchInput.Number("normality", "Its normality", "N", 0.001, 2), BenchInput.Number("sampleMillilitres", "Sample", "mL", 0.1, 1000),
                BenchInput.Choice("endPoint", "End point", EndPoints),
            ], AcidTitration),
        new("acid-addition", Acids, "Acid addition", "How much acid raises the titratable acidity by so much?",
            [
                BenchInput.Number("litres", "Volume", "L", 0.001, 1e7), BenchInput.Number("raiseGramsPerLitre", "Rise wanted, as tartaric", "g/L", 0, 10),
                BenchInput.Choice("acid", "Acid added", [.. AcidChoices.Where(c => c.Code is "tartaric" or "malic" or "citric" or "lactic")]),
            ], AddAcid),
        new("deacidification", Acids, "Deacidification", "How much salt lowers the titratable acidity by so much?",
            [BenchInput.Number("litres", "Volume", "L", 0.001, 1e7), BenchInput.Number("dropGramsPerLitre", "Drop wanted, as tartaric", "g/L", 0, 10), BenchInput.Choice("salt", "Salt", SaltChoices)], Deacidify),
    ];

    private static double? PKa(BenchSheet sheet)
    {
        if (sheet.Choice("pKaMethod") == "chart")
        {
            return Sulphite.CustomaryPKa;
        }

        foreach (string name in new[] { "abv", "celsius" })
        {
            if (!sheet.Has(name))
            {
                sheet.Refuse(RefusalCodes.MissingInput, name, $"The OIV pKT needs {sheet.Label(name)}.", Sulphite.OivPk.Validity, Sulphite.OivPk.Source);
                return null;
            }
        }

        double pKa = Sulphite.ThermodynamicPKa(sheet["abv"], sheet["celsius"]);
        sheet.Add(Sulphite.OivPk.Explain("pKa", "pKT", pKa, "", 3, $"table at {Typed(sheet["abv"])} % vol and {Typed(sheet["celsius"])} °C") with
        {
            Caution = "Another convention than the charts made with 1.81: at 25 °C it doubles the molecular figure. Do not mix the two.",
        });
        return pKa;
    }

    private static void Molecular(BenchSheet sheet)
    {
        if (PKa(sheet) is not double pKa)
        {
            return;
        }

        double free = sheet["freeMgPerLitre"], ph = sheet["ph"];
        sheet.Add(Sulphite.HendersonHasselbalch.Explain("molecularMgPerLitre", "Molecular SO2", Sulphite.MolecularMgPerLitre(free, ph, pKa), "mg/L", 2, $"{Typed(free)} / (1 + 10^({Typed(ph)} - {Typed(pKa)}))"));
        sheet.Add(Sulphite.HendersonHasselbalch.Explain("molecularPercent", "Share of the free SO2", 100 * Sulphite.MolecularFraction(ph, pKa), "%", 2, $"100 / (1 + 10^({Typed(ph)} - {Typed(pKa)}))"));
    }

    private static void FreeNeeded(BenchSheet sheet)
    {
        if (PKa(sheet) is double pKa)
        {
            double wanted = sheet["molecularMgPerLitre"], ph = sheet["ph"];
            sheet.Add(Sulphite.HendersonHasselbalch.Explain("freeMgPerLitre", "Free SO2 needed", Sulphite.FreeNeededMgPerLitre(wanted, ph, pKa), "mg/L", 1, $"{Typed(wanted)} x (1 + 10^({Typed(ph)} - {Typed(pKa)}))"));
        }
    }

    private static void Dose(BenchSheet sheet)
    {
        if (!sheet.Ordered("freeMgPerLitre", "wantedFreeMgPerLitre", "There is already more free SO2 than wanted; an addition can't lower it."))
        {
            return;
        }

        double litres = sheet["litres"], rise = sheet["wantedFreeMgPerLitre"] - sheet["freeMgPerLitre"], bound = sheet["boundPercent"] / 100;
        double so2 = Sulphite.So2Grams(litres, rise, bound), added = Sulphite.TotalAddedMgPerLitre(so2, litres);
        string grams = Number(so2, 3);
        sheet.Add(Sulphite.Dose.Explain("so2Grams", "SO2 to add", so2, "g", 2, $"{Typed(litres)} x ({Typed(sheet["wantedFreeMgPerLitre"])} - {Typed(sheet["freeMgPerLitre"])}) / 1000 / (1 - {Typed(bound)})") with { Caution = So2Caution });
        double potassium = sheet.Maybe("saltSo2Percent") / 100 ?? Sulphite.Potassium.So2Fraction;
        sheet.Add(Salt("potassiumMetabisulphiteGrams", "Potassium metabisulphite", so2 / potassium, grams, potassium));
        sheet.Add(Salt("sodiumMetabisulphiteGrams", "Sodium metabisulphite", so2 / Sulphite.Sodium.So2Fraction, grams, Sulphite.Sodium.So2Fraction));
        if (sheet.Maybe("solutionGramsPer100Millilitres") is double strength)
        {
            sheet.Add(Sulphite.Dose.Explain("solutionMillilitres", "Solution", Sulphite.SolutionMillilitres(litres, rise, bound, strength), "mL", 1, $"{grams} / {Typed(strength)} x 100"));
        }

        sheet.Add(Sulphite.Dose.Explain("totalAddedMgPerLitre", "Total SO2 added", added, "mg/L", 1, $"{grams} x 1000 / {Typed(litres)}"));
        if (sheet.Maybe("totalMgPerLitre") is double total)
        {
            sheet.Add(Sulphite.Dose.Explain("totalMgPerLitre", "Total SO2 afterwards", total + added, "mg/L", 1, $"{Typed(total)} + {Number(added, 2)}") with { Caution = "Check it against the legal limit of total SO2 for this wine." });
        }
    }

    private static Explained Salt(string name, Sentence label, double value, string so2, double fraction) =>
        Sulphite.Dose.Explain(name, label, value, "g", 2, $"{so2} / {Number(fraction, 4)}") with { EntryField = "grams" };

    private static void So2Titration(BenchSheet sheet)
    {
        double titrant = sheet["titrantMillilitres"], normality = sheet["normality"], sample = sheet["sampleMillilitres"];
        Formula titration = Sulphite.Dose with { Method = "SO2 by titration", Source = "mL x N x 32032 / mL of sample (equivalent mass 32.032)", Validity = "aspiration is the reference; iodine reads high in reds and with ascorbic acid" };
        sheet.Add(titration.Explain("so2MgPerLitre", "SO2", Sulphite.TitrationMgPerLitre(titrant, normality, sample), "mg/L", 1, $"{Typed(titrant)} x {Typed(normality)} x 32032 / {Typed(sample)}") with
        {
            EntryField = "mgPerLitre",
            Caution = "Store the method with the result.",
        });
    }

    private static AcidScale Scale(BenchSheet sheet, string name) => Acid.Scales.First(s => s.Code == sheet.Choice(name));

    private static string UnitOf(AcidScale scale) => scale.Code == "meq" ? "meq/L" : "g/L";

    private static void ConvertAcid(BenchSheet sheet)
    {
        AcidScale from = Scale(sheet, "from"), to = Scale(sheet, "to");
        double value = sheet["value"];
        sheet.Add(Acid.Equivalents.Explain("acidity", $"Acidity, {to.Label}", Acid.Convert(value, from, to), UnitOf(to), 2,
            $"{Typed(value)}{(from.Code == "meq" ? "" : " x 1000 / " + Typed(from.GramsPerEquivalent))}{(to.Code == "meq" ? "" : " x " + Typed(to.GramsPerEquivalent) + " / 1000")}"));
    }

    private static void AcidTitration(BenchSheet sheet)
    {
        double titrant = sheet["titrantMillilitres"], normality = sheet["normality"], sample = sheet["sampleMillilitres"];
        double acidity = Acid.TitratableTartaricGramsPerLitre(titrant, normality, sample);
        Sentence end = $"End point pH {sheet.Choice("endPoint")}: figures of the other end point differ by some 0.1 to 0.5 g/L (from memory).";
        sheet.Add(Acid.Titration.Explain("tartaricGramsPerLitre", "Titratable acidity as tartaric acid", acidity, "g/L", 2, $"{Typed(titrant)} x {Typed(normality)} x 75.0435 / {Typed(sample)}") with { Caution = end });
        sheet.Add(Acid.Equivalents.Explain("sulfuricGramsPerLitre", "Titratable acidity as sulphuric acid", Acid.Convert(acidity, Acid.Tartaric, Acid.Scales[1]), "g/L", 2, $"{Number(acidity, 3)} x 49.039 / 75.0435") with { Caution = end });
    }

    private static void AddAcid(BenchSheet sheet)
    {
        AcidScale acid = Scale(sheet, "acid");
        double litres = sheet["litres"], raise = sheet["raiseGramsPerLitre"];
        sheet.Add(Acid.Addition.Explain("grams", "Acid to add", Acid.AdditionGrams(litres, raise, acid), "g", 1, $"{Typed(litres)} x {Typed(raise)} x {Typed(acid.GramsPerEquivalent)} / 75.0435") with
        {
            EntryField = "grams",
            Caution = "pH can't be told from acidity without the wine's buffer: make a bench trial. Bitartrate may fall out afterwards.",
        });
    }

    private static void Deacidify(BenchSheet sheet)
    {
        DeacidifyingSalt salt = Acid.Salts.First(s => s.Code == sheet.Choice("salt"));
        double litres = sheet["litres"], drop = sheet["dropGramsPerLitre"];
        string basis = $"{Typed(litres)} x {Typed(drop)} / 75.0435 x {Typed(salt.GramsPerMole)}";
        const string caution = "It foams: leave headspace. Make a bench trial; calcium tartrate falls out slowly.";
        sheet.Add(Acid.Deacidification.Explain("grams", "Salt, acid-base effect only", Acid.DeacidificationGrams(litres, drop, salt, false), "g", 1, $"{basis} / {salt.Equivalents}") with { EntryField = "grams", Caution = caution });
        if (salt.BitartrateEquivalents > 0)
        {
            sheet.Add(Acid.Deacidification.Explain("gramsWithBitartrate", "Salt, when the potassium falls out as bitartrate (after cold)", Acid.DeacidificationGrams(litres, drop, salt, true), "g", 1,
                $"{basis} / {salt.Equivalents + salt.BitartrateEquivalents}") with
            { EntryField = "grams", Caution = caution });
        }
    }
}
