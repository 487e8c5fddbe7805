using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>Calculators of what is in a vessel, by its measures.</summary>
internal static class VesselBench
{
    private const string Group = "Vessels";
    private const int DipRows = 6;

    private static readonly BenchInput Depth = BenchInput.OptionalNumber("depthMetres", "Depth of the wine", "m", 0, 20);
    private static readonly BenchInput Litres = BenchInput.OptionalNumber("litres", "or volume, for its depth", "L", 0, 1e7);

    public static IEnumerable<BenchCalculator> All =>
    [
        new("upright-cylinder", Group, "Upright cylinder", "Volume from the depth, or depth from the volume, and the ullage above it.",
            [
                BenchInput.Number("diameterMetres", "Inner diameter", "m", 0.01, 20), BenchInput.Number("heightMetres", "Inner height of the cylinder", "m", 0.01, 20),
                BenchInput.OptionalNumber("coneMetres", "Height of a cone below it", "m", 0, 10), Depth, Litres,
            ], Upright),
        new("lying-cylinder", Group, "Lying cylinder", "Volume from the depth, or depth from the volume, and the ullage; flat ends.",
            [BenchInput.Number("diameterMetres", "Inner diameter", "m", 0.01, 20), BenchInput.Number("lengthMetres", "Inner length", "m", 0.01, 50), Depth, Litres], Lying),
        new("cask", Group, "Cask", "Full volume of a cask, and what is in it lying bung up at a depth.",
            [
                BenchInput.Number("bilgeMetres", "Inner bilge diameter", "m", 0.05, 10), BenchInput.Number("headMetres", "Inner head diameter", "m", 0.05, 10), BenchInput.Number("lengthMetres", "Length between the heads", "m", 0.05, 20),
                Depth, Litres, BenchInput.OptionalNumber("rodMetres", "Bung to far chime, for a check", "m", 0.05, 10),
            ], Casks),
        new("dip-table", Group, "Dip table", "Volume at a dip by the vessel's own calibration.",
            [.. Enumerable.Range(1, DipRows).SelectMany(DipRow), BenchInput.Number("dipMetres", "Dip", "m", 0, 50)], Dip),
        new("headspace", Group, "Headspace", "How much air is over the wine, and what tops it up?",
            [BenchInput.Number("capacityLitres", "Capacity", "L", 0.001, 1e7), BenchInput.Number("litres", "Wine in it", "L", 0, 1e7)], Headspace),
    ];

    private static BenchInput[] DipRow(int row) => row <= 2
        ? [BenchInput.Number("dip" + row + "Metres", $"Dip {row}", "m", 0, 50), BenchInput.Number("dip" + row + "Litres", $"Volume at dip {row}", "L", 0, 1e7)]
        : [BenchInput.OptionalNumber("dip" + row + "Metres", $"Dip {row}", "m", 0, 50), BenchInput.OptionalNumber("dip" + row + "Litres", $"Volume at dip {row}", "L", 0, 1e7)];

    private static void Fill(BenchSheet sheet, Formula formula, double full, double height, Func<double, double> litresAt, Func<double, double> depthOf, string measures)
    {
        if (sheet.OneOf("depthMetres", "litres") is not { } given)
        {
            return;
        }

        double most = given == "litres" ? full : height;
        if (sheet[given] > most)
        {
            sheet.Refuse(RefusalCodes.Impossible, given, $"The vessel ends at {Number(most, 3)}: more does not fit.", $"0 to {Number(most, 3)} {(given == "litres" ? "L" : "m")}", formula.Source);
            return;
        }

        double depth = given == "litres" ? depthOf(sheet["litres"]) : sheet["depthMetres"], litres = given == "litres" ? sheet["litres"] : litresAt(depth);
        sheet.Add(given == "litres"
            ? formula.Explain("depthMetres", "Depth", depth, "m", 3, $"depth at which {measures} holds {Typed(litres)} L")
            : formula.Explain("litres", "Wine in it", litres, "L", 2, $"{measures}, wet to {Typed(depth)} m") with { EntryField = "litres" });
        sheet.Add(formula.Explain("fullLitres", "Full volume", full, "L", 2, measures));
        sheet.Add(formula.Explain("ullageLitres", "Ullage", full - litres, "L", 2, $"{Number(full, 3)} - {Number(litres, 3)}"));
        sheet.Add(formula.Explain("ullageMetres", "Height of the ullage", height - depth, "m", 3, $"{Number(height, 4)} - {Number(depth, 4)}"));
    }

    private static void Upright(BenchSheet sheet)
    {
        double d = sheet["diameterMetres"], h = sheet["heightMetres"], cone = sheet.Maybe("coneMetres") ?? 0, inCone = Tank.ConeLitres(d, cone);

        // In the cone the wet diameter grows with the depth, hence the cube.
        double LitresAt(double depth) => depth >= cone ? inCone + Tank.UprightLitres(d, depth - cone) : inCone * Math.Pow(depth / cone, 3);
        double DepthOf(double litres) => litres >= inCone ? cone + Tank.UprightDepthMetres(d, litres - inCone) : cone * Math.Cbrt(litres / inCone);
        string measures = cone > 0 ? $"1000 π x {Typed(d)}² (depth above the cone / 4 + {Typed(cone)} / 12)" : $"1000 π x {Typed(d)}² / 4 x depth";
        Fill(sheet, Tank.Geometry, inCone + Tank.UprightLitres(d, h), cone + h, LitresAt, DepthOf, measures);
    }

    private static void Lying(BenchSheet sheet)
    {
        double d = sheet["diameterMetres"], l = sheet["lengthMetres"];
        Fill(sheet, Tank.Geometry, Tank.LyingLitres(l, d, d), d, depth => Tank.LyingLitres(l, d, depth), litres => Tank.LyingDepthMetres(l, d, litres), $"segment of a circle of {Typed(d)} m x {Typed(l)} m x 1000");
    }

    private static void Casks(BenchSheet sheet)
    {
        if (!sheet.Ordered("headMetres", "bilgeMetres", "The head of a cask is not wider than its bilge."))
        {
            return;
        }

        double big = sheet["bilgeMetres"], head = sheet["headMetres"], l = sheet["lengthMetres"], full = Cask.ParabolicLitres(big, head, l);
        sheet.Add(Cask.Parabolic.Explain("parabolicLitres", "Full, parabolic staves", full, "L", 1, $"1000 π x {Typed(l)} / 60 x (8 x {Typed(big)}² + 4 x {Typed(big)} x {Typed(head)} + 3 x {Typed(head)}²)"));
        sheet.Add(Cask.Elliptic.Explain("ellipticLitres", "Full, elliptic staves", Cask.EllipticLitres(big, head, l), "L", 1, $"1000 π x {Typed(l)} / 12 x (2 x {Typed(big)}² + {Typed(head)}²)"));
        if (sheet.Maybe("rodMetres") is double rod)
        {
            sheet.Add(Cask.Rod.Explain("rodLitres", "Full, by the rod", Cask.RodLitres(rod), "L", 0, $"625 x {Typed(rod)}³"));
        }

        if (sheet.Has("depthMetres") || sheet.Has("litres"))
        {
            Fill(sheet, Cask.Lying, full, big, depth => Cask.LyingLitres(big, head, l, depth), litres => Cask.LyingDepthMetres(big, head, l, litres), $"cask {Typed(big)} x {Typed(head)} x {Typed(l)} m");
        }
    }

    private static void Dip(BenchSheet sheet)
    {
        var dips = new List<double>();
        var litres = new List<double>();
        for (int row = 1; row <= DipRows; row++)
        {
            string dip = "dip" + row + "Metres", volume = "dip" + row + "Litres";
            if (sheet.Has(dip) != sheet.Has(volume))
            {
                sheet.Refuse(RefusalCodes.MissingInput, sheet.Has(dip) ? volume : dip, $"Row {row} of the dip table is half filled in.", "both or none", Tank.DipTable.Source);
                return;
            }

            if (sheet.Has(dip))
            {
                dips.Add(sheet[dip]);
                litres.Add(sheet[volume]);
            }
        }

        for (int row = 1; row < dips.Count; row++)
        {
            if (!(dips[row] > dips[row - 1] && litres[row] >= litres[row - 1]))
            {
                sheet.Refuse(RefusalCodes.Impossible, "dip" + (row + 1) + "Metres", "The dip table must rise from row to row.", "rising dips and volumes", Tank.DipTable.Source);
                return;
            }
        }

        double at = sheet["dipMetres"];
        sheet.Add(Tank.DipTable.Explain("litres", "Wine in it", Tank.DipTableLitres(dips.ToArray(), litres.ToArray(), at), "L", 2, $"table from {Typed(dips[0])} to {Typed(dips[^1])} m, at {Typed(at)} m") with { EntryField = "litres" });
    }

    private static void Headspace(BenchSheet sheet)
    {
        if (!sheet.Ordered("litres", "capacityLitres", "There can't be more wine than the vessel holds."))
        {
            return;
        }

        double capacity = sheet["capacityLitres"], litres = sheet["litres"];
        sheet.Add(Tank.Geometry.Explain("headspaceLitres", "Headspace, and wine to top up", capacity - litres, "L", 3, $"{Typed(capacity)} - {Typed(litres)}") with { EntryField = "litres" });
        sheet.Add(Tank.Geometry.Explain("headspacePercent", "Share of the capacity", 100 * (capacity - litres) / capacity, "%", 2, $"100 x ({Typed(capacity)} - {Typed(litres)}) / {Typed(capacity)}"));
    }
}
