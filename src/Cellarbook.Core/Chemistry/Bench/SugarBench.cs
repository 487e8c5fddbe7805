using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of the sugar scales.</summary>
internal static class SugarBench
{
    private const string Group = "Sugar";

    private static readonly Formula Gravity20 = new("Density and SG 20/20", "OIV-MA-AS2-01A: kg/L at 20 °C = SG 20/20 x 0.998203", SourceCheck.Read, "SG 0.980 to 1.400");

    /// <summary>Which rules' factor of sugar per % vol; never assumed.</summary>
    public static readonly BenchInput Factor = BenchInput.Choice("factor", "Rule for sugar per % vol",
        [.. PotentialAlcohol.Factors.Select(f => new BenchChoice(f.Code, $"{f.Label}: {Typed(f.GramsPerLitrePerAbv)} g/L"))]);

    private static readonly BenchInput Modulus = BenchInput.OptionalChoice("baumeModulus", "Baumé modulus", new BenchChoice("us145", "145 (US, 60/60 °F)"), new BenchChoice("europe144.3", "144.3 (European rational)"));

    public static IEnumerable<BenchCalculator> All =>
    [
        new("must-scales", Group, "Sugar scales of must", "Turns one reading of must into all scales, its sugar and the strength it could give. Before fermentation only.",
            [
                BenchInput.OptionalNumber("gravity", "Specific gravity 20/20", "SG", 0.980, 1.400), BenchInput.OptionalNumber("gravity60Fahrenheit", "Specific gravity 60/60 °F", "SG", 0.980, 1.400),
                BenchInput.OptionalNumber("brix", "°Brix by hydrometer", "°Brix", 0, 40), BenchInput.OptionalNumber("mustBrix", "°Brix by refractometer in grape must", "°Brix", 10, 30),
                BenchInput.OptionalNumber("oechsle", "°Oechsle", "°Oe", -20, 400), BenchInput.OptionalNumber("kmw", "KMW", "KMW", 0, 35),
                BenchInput.OptionalNumber("baume", "°Baumé", "°Bé", -3, 41), BenchInput.OptionalNumber("kgPerLitre", "Density at 20 °C", "kg/L", 0.978, 1.398),
                BenchInput.OptionalNumber("refractiveIndex", "Refractive index at 20 °C", "", 1.34782, 1.38115), Modulus, Factor,
            ], Scales),
        new("potential-strength", Group, "Potential strength of a sugar content", "What strength would this much sugar give when all of it ferments?",
            [BenchInput.Number("sugarGramsPerLitre", "Fermentable sugar", "g/L", 0, 400), Factor], Potential),
        new("german-natural-strength", Group, "Natural strength by the German table", "Natural strength of a must in Germany, as the statutory table decides.",
            [BenchInput.Number("oechsle", "Must weight, whole degrees", "°Oe", 40, 150)], German),
    ];

    /// <summary>The chosen factor.</summary>
    public static SugarFactor ChosenFactor(BenchSheet sheet) => PotentialAlcohol.Factors.First(f => f.Code == sheet.Choice(Factor.Name));

    /// <summary>Potential strength of so much sugar by the chosen rules.</summary>
    public static Explained PotentialOf(double sugar, SugarFactor factor) => PotentialAlcohol.Method.Explain("potentialAbv", "Potential strength", PotentialAlcohol.AbvFromSugar(sugar, factor.GramsPerLitrePerAbv), "% vol", 2,
        $"{Typed(Math.Round(sugar, 2))} / {Typed(factor.GramsPerLitrePerAbv)}") with
    { Caution = $"{factor.Label} ({factor.Source})." };

    private static double? ModulusOf(BenchSheet sheet) => sheet.MaybeChoice("baumeModulus") switch
    {
        "us145" => MustScales.BaumeModulusUs,
        "europe144.3" => MustScales.BaumeModulusEurope,
        _ => null,
    };

    private static void Scales(BenchSheet sheet)
    {
        if (sheet.OneOf("gravity", "gravity60Fahrenheit", "brix", "mustBrix", "oechsle", "kmw", "baume", "kgPerLitre", "refractiveIndex") is not { } given)
        {
            return;
        }

        if (given == "baume" && ModulusOf(sheet) is null)
        {
            sheet.Refuse(RefusalCodes.MissingInput, "baumeModulus", "A °Baumé reading needs the modulus of its instrument: choose it.", "us145, europe144.3", MustScales.Baume.Source);
            return;
        }

        double value = sheet[given];
        double gravity = given switch
        {
            "gravity" => value,
            "gravity60Fahrenheit" => SucroseDensity.GravityFromGravity60Fahrenheit(value),
            "brix" => BrixScale.ToGravity(value),
            "mustBrix" => MustTable.GravityFromDensity(MustTable.DensityKgPerLitre(value)),
            "oechsle" => MustScales.GravityFromOechsle(value),
            "kmw" => MustScales.GravityFromOechsle(MustScales.OechsleFromKmw(value)),

            // The US modulus belongs to 60/60 °F, the European one is taken at 20/20.
            "baume" when sheet.Choice("baumeModulus") == "us145" => SucroseDensity.GravityFromGravity60Fahrenheit(MustScales.GravityFromBaume(value, MustScales.BaumeModulusUs)),
            "baume" => MustScales.GravityFromBaume(value, MustScales.BaumeModulusEurope),
            "kgPerLitre" => MustTable.GravityFromDensity(value),
            _ => MustTable.GravityFromDensity(MustTable.DensityKgPerLitre(MustTable.BrixFromRefractiveIndex(value))),
        };
        AddScales(sheet, gravity, $"from {given} {Typed(value)}, SG 20/20");
        AddMust(sheet, gravity);
    }

    private static void AddScales(BenchSheet sheet, double gravity, string from)
    {
        string sg = Number(gravity, 5);
        double oechsle = MustScales.OechsleFromGravity(gravity), gravity60 = SucroseDensity.Gravity60FahrenheitFromGravity(gravity);
        sheet.Add(Gravity20.Explain("gravity", "Specific gravity 20/20", gravity, "SG", 4, from) with { EntryField = "gravity" });
        sheet.Add(SucroseDensity.Icumsa.Explain("gravity60Fahrenheit", "Specific gravity 60/60 °F", gravity60, "SG", 4, $"sucrose solution of SG {sg} at 15.56 °C"));
        sheet.Add(Gravity20.Explain("kgPerLitre", "Density at 20 °C", MustTable.DensityFromGravity(gravity), "kg/L", 4, $"{sg} x 0.998203"));
        sheet.Add(BrixScale.Nbs.Explain("brix", "°Brix (sucrose, by gravity)", BrixScale.FromGravity(gravity), "°Brix", 2, $"182.46007 x {sg}³ - 775.68212 x {sg}² + 1262.7794 x {sg} - 669.56218") with
        {
            Caution = gravity < 1 ? "Below SG 1.000 apparent °Brix, extrapolated: a sign of alcohol, no sugar content." : null,
        });
        sheet.Add(MustScales.OechsleDefinition.Explain("oechsle", "°Oechsle", oechsle, "°Oe", 1, $"1000 ({sg} - 1)"));
        sheet.Add(MustScales.KmwQuadratic.Explain("kmw", "KMW", MustScales.KmwFromOechsle(oechsle), "KMW", 2, $"(-4.54 + √(4.54² + 0.088 x {Number(oechsle, 2)})) / 0.044"));
        sheet.Add(MustScales.Baume.Explain("baumeUs", "°Baumé, modulus 145 at 60/60 °F", MustScales.BaumeFromGravity(gravity60, MustScales.BaumeModulusUs), "°Bé", 2, $"145 - 145 / {Number(gravity60, 5)}"));
        sheet.Add(MustScales.Baume.Explain("baumeEurope", "°Baumé, modulus 144.3", MustScales.BaumeFromGravity(gravity, MustScales.BaumeModulusEurope), "°Bé", 2, $"144.3 - 144.3 / {sg}"));
    }

    private static void AddMust(BenchSheet sheet, double gravity)
    {
        double density = MustTable.DensityFromGravity(gravity), brix = MustTable.BrixFromDensity(density), sugar = MustTable.SugarGramsPerLitreFromGravity(gravity);
        string row = $"table at density {Number(density, 4)} kg/L";
        sheet.Add(MustTable.Oiv.Explain("mustBrix", "°Brix of grape must by refractometer", brix, "°Brix", 2, row));
        sheet.Add(MustTable.Oiv.Explain("refractiveIndex", "Refractive index at 20 °C", MustTable.RefractiveIndex(brix), "", 5, row));
        sheet.Add(MustTable.Oiv.Explain("sugarGramsPerLitre", "Fermentable sugar", sugar, "g/L", 1, row));
        Explained potential = PotentialOf(sugar, ChosenFactor(sheet));

        // Without a sugar it is the must table that can't say, not the division.
        sheet.Add(double.IsNaN(sugar) ? potential with { Formula = MustTable.Oiv } : potential);
    }

    private static void Potential(BenchSheet sheet) => sheet.Add(PotentialOf(sheet["sugarGramsPerLitre"], ChosenFactor(sheet)));

    private static void German(BenchSheet sheet)
    {
        double oechsle = sheet["oechsle"];
        sheet.Add(GermanNaturalStrength.Table.Explain("naturalAbv", "Natural strength", GermanNaturalStrength.Abv(oechsle), "% vol", 1, $"table at {Typed(oechsle)} °Oe") with
        {
            Caution = "For the natural strength in Germany only; the table is not to be used for other conversions.",
        });
    }
}
