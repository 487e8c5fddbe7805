using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of fermentation.</summary>
internal static class FermentBench
{
    private const string Group = "Ferment";
    private const int Readings = 6;

    private const string GasCaution = "CO2 kills without warning and collects at floor level: air the room, never enter a vessel or a closed room with a ferment alone, measure before going in. Local rules and trained people decide.";

    public static IEnumerable<BenchCalculator> All =>
    [
        new("co2-in-a-room", Group, "CO2 of a ferment and the room", "How much CO2 will this must set free, and what does it do in a closed room?",
            [
                BenchInput.Number("litres", "Must", "L", 0.001, 1e7), BenchInput.Number("sugarGramsPerLitre", "Sugar that will ferment", "g/L", 0, 400), BenchInput.Number("celsius", "Temperature", "°C", 0, 40),
                BenchInput.Number("roomCubicMetres", "Air in the room", "m³", 0.1, 1e6),
            ], Gas),
        new("ferment-heat", Group, "Heat of a ferment", "How much heat comes free, and how far would the must warm if none were lost?",
            [BenchInput.Number("litres", "Must", "L", 0.001, 1e7), BenchInput.Number("sugarGramsPerLitre", "Sugar that will ferment", "g/L", 0, 400), BenchInput.Number("gravity", "Gravity of the must 20/20", "SG", 0.980, 1.200)], Heat),
        new("ferment-forecast", Group, "When will it be dry?", "Forecast from readings of gravity by a logistic curve; says so when there is none.",
            [
                BenchInput.Number("originalGravity", "Original gravity", "SG", 1.010, 1.179), BenchInput.Number("finalGravity", "Gravity at which it will end", "SG", 0.980, 1.100, "dry wine about 0.992 to 0.996 by strength (common practice, no source)"),
                BenchInput.Number("targetGravity", "Gravity asked for", "SG", 0.980, 1.179), .. Enumerable.Range(1, Readings).SelectMany(Reading),
            ], Forecast),
        new("dissolved-co2", Group, "CO2 left in the wine", "How much CO2 does a finished, undisturbed wine still hold at a temperature?", [BenchInput.Number("celsius", "Temperature", "°C", 0, 40)], Dissolved),
    ];

    private static BenchInput[] Reading(int number) => number <= 2
        ? [BenchInput.Number("day" + number, $"Day of reading {number}", "day", 0, 3650), BenchInput.Number("gravity" + number, $"Gravity {number}", "SG", 0.980, 1.179)]
        : [BenchInput.OptionalNumber("day" + number, $"Day of reading {number}", "day", 0, 3650), BenchInput.OptionalNumber("gravity" + number, $"Gravity {number}", "SG", 0.980, 1.179)];

    private static void Gas(BenchSheet sheet)
    {
        double litres = sheet["litres"], sugar = sheet["sugarGramsPerLitre"], t = sheet["celsius"], room = sheet["roomCubicMetres"] * 1000;
        double each = FermentGas.GasLitresPerLitre(sugar, t), gas = litres * each, percent = FermentGas.RoomPercent(gas, room);
        sheet.Add(FermentGas.Stoichiometry.Explain("co2GramsPerLitre", "CO2 per litre of must", FermentGas.Co2GramsPerLitre(sugar), "g/L", 1, $"{Typed(sugar)} x {Number(FermentGas.Co2PerHexose, 5)}"));
        sheet.Add(FermentGas.Stoichiometry.Explain("gasLitresPerLitre", "Gas per litre of must", each, "L/L", 1, $"{Typed(sugar)} x {Number(FermentGas.Co2PerHexose, 5)} / 44.0095 x 8.314462618 x {Typed(t + 273.15)} / 101.325") with { Caution = GasCaution });
        sheet.Add(FermentGas.Stoichiometry.Explain("gasCubicMetres", "Gas of the whole ferment", gas / 1000, "m³", 3, $"{Typed(litres)} x {Number(each, 2)} / 1000") with { Caution = GasCaution });
        ExposureLimit? passed = FermentGas.Limits.LastOrDefault(l => percent >= l.Percent);
        sheet.Add(FermentGas.Room.Explain("roomPercent", "CO2 in the closed room, well mixed", percent, "% CO2", 2, $"100 (1 - exp(-{Number(gas, 1)} / {Typed(room)}))") with
        {
            Caution = passed is null ? (Sentence)$"Below the lowest limit of {Typed(FermentGas.Limits[0].Percent)} %, yet at the floor it can be many times more. {(Sentence)GasCaution}" : (Sentence)$"At or over {Typed(passed.Percent)} %: {passed.Label}. {(Sentence)GasCaution}",
        });
        foreach (ExposureLimit limit in FermentGas.Limits)
        {
            double fermented = 100 * FermentGas.GasLitresForPercent(limit.Percent, room) / gas;
            if (fermented <= 100)
            {
                sheet.Add(FermentGas.Room.Explain(limit.Kind + "ReachedPercent", $"Share fermented when {Typed(limit.Percent)} % is reached: {limit.Label}", fermented, "% of the sugar", 1, $"-100 x {Typed(room)} x ln(1 - {Typed(limit.Percent / 100)}) / {Number(gas, 1)}"));
            }
        }
    }

    private static void Heat(BenchSheet sheet)
    {
        double litres = sheet["litres"], sugar = sheet["sugarGramsPerLitre"], density = MustTable.DensityFromGravity(sheet["gravity"]), each = FermentHeat.KilojoulesPerLitre(sugar);
        const double specific = 3.6;
        sheet.Add(FermentHeat.Heat.Explain("kilojoulesPerLitre", "Heat per litre", each, "kJ/L", 1, $"{Typed(sugar)} / 180.156 x 100.416"));
        sheet.Add(FermentHeat.Heat.Explain("kilojoules", "Heat of the whole ferment", each * litres, "kJ", 0, $"{Number(each, 2)} x {Typed(litres)}"));
        sheet.Add(FermentHeat.Heat.Explain("kilowattHours", "The same", each * litres / 3600, "kWh", 2, $"{Number(each * litres, 0)} / 3600"));
        sheet.Add(FermentHeat.Heat.Explain("riseKelvin", "Rise if no heat were lost", FermentHeat.RiseKelvin(sugar, density, specific), "K", 1, $"{Number(each, 2)} / ({Number(density, 4)} x {Typed(specific)})") with
        {
            Caution = "Assumed: specific heat of must 3.6 kJ/(kg K), from memory. A real vessel loses heat; above some 35 °C yeast dies.",
        });
    }

    private static void Forecast(BenchSheet sheet)
    {
        double og = sheet["originalGravity"], fg = sheet["finalGravity"], target = sheet["targetGravity"];
        if (!(fg < target && target < og))
        {
            sheet.Refuse(RefusalCodes.Impossible, "targetGravity", "The gravity asked for must lie strictly between the final and the original one.", $"above {Typed(fg)}, below {Typed(og)}", FermentCurve.Logistic.Source);
            return;
        }

        var days = new List<double>();
        var gravities = new List<double>();
        for (int i = 1; i <= Readings; i++)
        {
            if (sheet.Has("day" + i) && sheet.Has("gravity" + i))
            {
                days.Add(sheet["day" + i]);
                gravities.Add(sheet["gravity" + i]);
            }
        }

        double day = FermentCurve.ForecastDay(days.ToArray(), gravities.ToArray(), target, og, fg);
        if (double.IsNaN(day))
        {
            sheet.Refuse(RefusalCodes.CannotSay, "day", "No forecast: it needs two readings on different days, strictly between final and original gravity, and a falling gravity. A stuck ferment has none.", FermentCurve.Logistic.Validity, FermentCurve.Logistic.Source);
            return;
        }

        sheet.Add(FermentCurve.Logistic.Explain("day", "Day on which it gets there", day, "day", 1, $"line through ln(({Typed(og)} - SG)/(SG - {Typed(fg)})) of {days.Count} readings, at SG {Typed(target)}") with
        {
            Caution = "A forecast, not a reading: bottle by readings that stay the same, never by the calendar.",
        });
    }

    private static void Dissolved(BenchSheet sheet)
    {
        double t = sheet["celsius"];
        sheet.Add(DissolvedGas.Weiss.Explain("co2GramsPerLitre", "CO2 held under one atmosphere of it", DissolvedGas.SaturatedGramsPerLitre(t), "g/L", 2, $"exp(-58.0931 + 90.5069 / {Typed((t + 273.15) / 100)} + 22.2940 ln {Typed((t + 273.15) / 100)}) x 44.0095") with
        {
            Caution = "An upper figure: wine holds 5 to 15 % less than water (from memory), and stirring or warming drives it out. Warm wine degasses sooner and foams.",
        });
        sheet.Add(DissolvedGas.Weiss.Explain("gramsPerLitreBar", "Solubility", DissolvedGas.GramsPerLitreBar(t), "g/L per bar", 3, $"at {Typed(t)} °C, over 1.01325"));
    }
}
