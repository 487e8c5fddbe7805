using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of density and strength.</summary>
internal static class StrengthBench
{
    private const string Group = "Density and strength";

    private static readonly Formula StrengthScales = EthanolWater.R22 with { Method = "Strength by volume, mass and density (OIML R 22)" };

    private static readonly Formula PureAlcohol = new("Litres of pure alcohol", "volume at 20 °C x % vol / 100; volume reduced by OIML R 22 density ratio", SourceCheck.Derived, "0 to 40 °C, 0 to 100 % vol");

    public static IEnumerable<BenchCalculator> All =>
    [
        new("water-density", Group, "Density of water", "How dense is pure water at a temperature?",
            [BenchInput.Number("celsius", "Temperature", "°C", 0, 150)], Water),
        new("strength", Group, "Strength: volume, mass, density", "Converts between % vol at 20 °C, % vol at 60 °F, mass per cent and density of ethanol in water.",
            [
                BenchInput.OptionalNumber("abv", "Strength at 20 °C", "% vol", 0, 100), BenchInput.OptionalNumber("abv60Fahrenheit", "Strength at 60 °F", "% vol", 0, 100),
                BenchInput.OptionalNumber("massPercent", "Mass per cent", "% mass", 0, 100), BenchInput.OptionalNumber("celsius", "Temperature for the density", "°C", 0, 40),
            ], Strength),
        new("strength-from-density", Group, "Strength from the density of a distillate", "What strength has a distillate of this density at this temperature? Wine must be distilled first.",
            [BenchInput.Number("kgPerCubicMetre", "Density", "kg/m³", 770, 1000), BenchInput.Number("celsius", "Temperature", "°C", 0, 40)], FromDensity),
        new("alcoholmeter", Group, "Alcoholmeter reading", "Corrects an alcoholmeter graduated at 20 °C for the temperature of the spirit.",
            [BenchInput.Number("readingAbv", "Reading", "% vol", 0, 100), BenchInput.Number("celsius", "Temperature", "°C", 0, 40), ReadingsBench.Glass], Alcoholmeter),
        new("hydrometer-distillate", Group, "Hydrometer in a distillate", "Strength of a distillate from an ordinary hydrometer.",
            [
                BenchInput.Number("gravity", "Reading", "SG", 0.780, 1.010), BenchInput.Number("celsius", "Temperature", "°C", 0, 40),
                BenchInput.Number("calibrationCelsius", "Calibration temperature of the instrument", "°C", 10, 30, "20, or 15.56 for 60 °F; it is printed on the stem"), ReadingsBench.Glass,
            ], HydrometerInDistillate),
        new("pure-alcohol", Group, "Litres of pure alcohol", "How much pure alcohol is in a volume, reduced to 20 °C?",
            [BenchInput.Number("litres", "Volume", "L", 0, 1e7), BenchInput.Number("celsius", "Temperature of the volume", "°C", 0, 40), BenchInput.Number("abv", "Strength", "% vol", 0, 100)], Pure),
    ];

    private static void Water(BenchSheet sheet)
    {
        double t = sheet["celsius"];
        sheet.Add(t <= WaterDensity.Celsius.High
            ? WaterDensity.Tanaka.Explain("kgPerCubicMetre", "Density of water", WaterDensity.KgPerCubicMetre(t), "kg/m³", 4,
                $"999.974950 (1 - ({Typed(t)} - 3.983035)² ({Typed(t)} + 301.797) / (522528.9 ({Typed(t)} + 69.34881)))")
            : WaterDensity.Kell.Explain("kgPerCubicMetre", "Density of water", WaterDensity.KellKgPerCubicMetre(t), "kg/m³", 3, $"Kell 1975 at {Typed(t)} °C"));
    }

    private static void Strength(BenchSheet sheet)
    {
        if (sheet.OneOf("abv", "abv60Fahrenheit", "massPercent") is not { } given)
        {
            return;
        }

        double value = sheet[given];
        double p = given switch
        {
            "abv" => AlcoholicStrength.MassFractionFromAbv(value),
            "abv60Fahrenheit" => AlcoholicStrength.MassFractionFromAbv60Fahrenheit(value),
            _ => value / 100,
        };
        AddStrengths(sheet, p);
        double density = EthanolWater.KgPerCubicMetre(p, 20);
        sheet.Add(EthanolWater.R22.Explain("kgPerCubicMetre20", "Density at 20 °C", density, "kg/m³", 2, $"R 22 density of {Number(100 * p, 4)} % mass at 20 °C"));
        sheet.Add(StrengthScales.Explain("ethanolGramsPerLitre", "Ethanol", p * density, "g/L", 2, $"{Number(p, 6)} x {Number(density, 2)} kg/m³"));
        if (sheet.Maybe("celsius") is double t)
        {
            sheet.Add(EthanolWater.R22.Explain("kgPerCubicMetre", $"Density at {Typed(t)} °C", EthanolWater.KgPerCubicMetre(p, t), "kg/m³", 2, $"R 22 density of {Number(100 * p, 4)} % mass at {Typed(t)} °C"));
        }
    }

    private static void AddStrengths(BenchSheet sheet, double p)
    {
        double abv = AlcoholicStrength.AbvFromMassFraction(p);
        sheet.Add(StrengthScales.Explain("abv", "Strength at 20 °C", abv, "% vol", 3, $"100 x {Number(p, 6)} x {Number(EthanolWater.KgPerCubicMetre(p, 20), 3)} / {Number(EthanolWater.Ethanol20KgPerCubicMetre, 4)}") with { EntryField = "abv" });
        sheet.Add(StrengthScales.Explain("abv60Fahrenheit", "Strength at 60 °F (United States)", AlcoholicStrength.Abv60FahrenheitFromMassFraction(p), "% vol at 60 °F", 3,
            $"100 x {Number(p, 6)} x {Number(EthanolWater.KgPerCubicMetre(p, AlcoholicStrength.SixtyFahrenheitCelsius), 3)} / {Number(EthanolWater.KgPerCubicMetre(1, AlcoholicStrength.SixtyFahrenheitCelsius), 4)}"));
        sheet.Add(StrengthScales.Explain("massPercent", "Mass per cent", 100 * p, "% mass", 3, $"100 x {Number(p, 6)}"));
    }

    private static void FromDensity(BenchSheet sheet)
    {
        double density = sheet["kgPerCubicMetre"], t = sheet["celsius"], p = EthanolWater.MassFractionFromDensity(density, t);
        if (double.IsNaN(p))
        {
            double water = EthanolWater.KgPerCubicMetre(0, t), ethanol = EthanolWater.KgPerCubicMetre(1, t);
            sheet.Refuse(RefusalCodes.Impossible, "kgPerCubicMetre", $"No ethanol-water mixture has {Typed(density)} kg/m³ at {Typed(t)} °C: water has {Number(water, 2)}, ethanol {Number(ethanol, 2)}.",
                $"{Number(ethanol, 2)} to {Number(water, 2)} kg/m³ at {Typed(t)} °C", EthanolWater.R22.Source);
            return;
        }

        AddStrengths(sheet, p);
    }

    private static void Alcoholmeter(BenchSheet sheet)
    {
        double reading = sheet["readingAbv"], t = sheet["celsius"], glass = ReadingsBench.GlassPerKelvin(sheet);
        sheet.Add(Chemistry.Alcoholmeter.Method.Explain("abv", "Strength at 20 °C", Chemistry.Alcoholmeter.TrueAbv(reading, t, glass), "% vol", 2,
            $"density of {Typed(reading)} % vol at 20 °C, {Number(AlcoholicStrength.KgPerCubicMetre(reading, 20), 2)} x (1 - {Typed(glass)} x ({Typed(t)} - 20)), sought in R 22 at {Typed(t)} °C") with
        {
            EntryField = "abv",
            Caution = "Spirit or distillate only: the extract of wine or liqueur makes it read low.",
        });
    }

    private static void HydrometerInDistillate(BenchSheet sheet)
    {
        double reading = sheet["gravity"], t = sheet["celsius"], tc = sheet["calibrationCelsius"], glass = ReadingsBench.GlassPerKelvin(sheet);
        double density = Chemistry.Alcoholmeter.DensityFromHydrometer(reading, t, tc, glass);
        sheet.Add(Chemistry.Alcoholmeter.HydrometerMethod.Explain("kgPerCubicMetre", $"Density at {Typed(t)} °C", density, "kg/m³", 2,
            $"{Typed(reading)} x {Number(EthanolWater.KgPerCubicMetre(0, tc), 3)} / (1 + {Typed(glass)} x ({Typed(t)} - {Typed(tc)}))"));
        sheet.Add(Chemistry.Alcoholmeter.HydrometerMethod.Explain("abv", "Strength at 20 °C", AlcoholicStrength.AbvFromDensity(density, t), "% vol", 2, $"sought in R 22 at {Typed(t)} °C and {Number(density, 2)} kg/m³") with
        {
            EntryField = "abv",
            Caution = "Spirit or distillate only: in wine the extract makes it worthless.",
        });
    }

    private static void Pure(BenchSheet sheet)
    {
        double litres = sheet["litres"], t = sheet["celsius"], abv = sheet["abv"], at20 = VolumeAt20.Litres(litres, t, abv, 0);
        sheet.Add(PureAlcohol.Explain("litres20", "Volume at 20 °C", at20, "L", 3, $"{Typed(litres)} x {Number(AlcoholicStrength.KgPerCubicMetre(abv, t), 2)} / {Number(AlcoholicStrength.KgPerCubicMetre(abv, 20), 2)}") with { EntryField = "litres" });
        sheet.Add(PureAlcohol.Explain("pureAlcoholLitres", "Pure alcohol", AlcoholicStrength.PureAlcoholLitres(at20, abv), "L", 3, $"{Number(at20, 3)} x {Typed(abv)} / 100"));
    }
}
