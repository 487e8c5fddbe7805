namespace Cellarbook.Core.Limits;

/// <summary>
/// Holds rows of one substance and basis against each other. Two figures for the same wine, neither of which is for the narrower scope, contradict
/// each other; bands of sugar, strength, harvest years or days must lie side by side.
/// </summary>
internal static class LimitTiling
{
    public static IEnumerable<LimitFault> Faults(IReadOnlyList<LimitRow> rows)
    {
        var faults = new List<LimitFault>();
        var groups = rows.Where(row => row.Kind is LimitKind.Max or LimitKind.Min && row.IsCompared)
            .SelectMany(row => row.Substances.Select(substance => (Key: (substance.Code, row.Basis, row.Kind, row.PerTreatment, row.Stages, row.Scheme, row.Case, With: row.With?.Code), Row: row)))
            .GroupBy(pair => pair.Key, pair => pair.Row);
        foreach (var group in groups)
        {
            var all = group.ToArray();
            Overlaps(all, faults);
            Gaps(all, faults);
        }
        return faults;
    }

    private static void Overlaps(LimitRow[] rows, List<LimitFault> faults)
    {
        for (var i = 0; i < rows.Length; i++)
            for (var j = 0; j < i; j++)
            {
                LimitRow a = rows[j], b = rows[i];
                if ((a.Colours & b.Colours) == 0 || (a.Products & b.Products) == 0 || a.IsNarrowerThan(b) || b.IsNarrowerThan(a)) continue;
                if (!Band.Meet(a.Sugar, b.Sugar) || !Band.Meet(a.Strength, b.Strength) || !ZonesMeet(a, b)) continue;
                if ((a.HarvestFrom ?? int.MinValue) > (b.HarvestTo ?? int.MaxValue) || (b.HarvestFrom ?? int.MinValue) > (a.HarvestTo ?? int.MaxValue)) continue;
                if ((a.From ?? DateOnly.MinValue) > (b.To ?? DateOnly.MaxValue) || (b.From ?? DateOnly.MinValue) > (a.To ?? DateOnly.MaxValue)) continue;
                faults.Add(new(b.Number, "", $"It overlaps with row {a.Number}: both give a figure for the same wine. Tell them apart by colour, sugar, product, stage, case or days."));
            }
    }

    private static void Gaps(LimitRow[] rows, List<LimitFault> faults)
    {
        foreach (var colour in new[] { WineColours.Red, WineColours.White, WineColours.Rose })
            foreach (var product in LimitWords.Products.Values)
                foreach (var side in rows.Where(row => row.Colours.HasFlag(colour) && row.Products.HasFlag(product)).GroupBy(row => (row.From, row.To, row.HarvestFrom, row.HarvestTo, string.Join(' ', row.Zones))))
                {
                    Bands([.. side], row => row.Sugar, "sugar", faults);
                    if (side.All(row => row.Sugar is null) && side.Count() > 1) Bands([.. side], row => row.Strength, "strength", faults);
                }
        var dated = rows.Where(row => row.From is not null || row.To is not null).OrderBy(row => row.From ?? DateOnly.MinValue).ToArray();
        foreach (var (before, after) in dated.Zip(dated.Skip(1)))
            if (before.To is { } end && after.From is { } start && end.AddDays(1) < start && SameWine(before, after)) Add(faults, new(after.Number, "from", $"There is a gap after row {before.Number}, which ends on {end:yyyy-MM-dd}."));
        var harvests = rows.Where(row => row.HarvestFrom is not null || row.HarvestTo is not null).OrderBy(row => row.HarvestFrom ?? int.MinValue).ToArray();
        foreach (var (before, after) in harvests.Zip(harvests.Skip(1)))
            if (before.HarvestTo is { } last && after.HarvestFrom is { } first && last + 1 < first && SameWine(before, after)) Add(faults, new(after.Number, "harvest", $"There is a gap after row {before.Number}, which ends with {last}."));
    }

    private static void Bands(LimitRow[] rows, Func<LimitRow, Band?> of, string column, List<LimitFault> faults)
    {
        var banded = rows.Where(row => of(row) is not null).OrderBy(row => of(row)!.Lowest).ToArray();
        if (banded.Length < 2 || banded.Length < rows.Length) return;
        if (of(banded[0])!.Lowest > 0) Add(faults, new(banded[0].Number, column, "There is a gap below it: no row says what holds there."));
        var reached = banded[0];
        foreach (var row in banded.Skip(1))
        {
            if (of(reached)!.Highest != long.MaxValue && of(row)!.Lowest > of(reached)!.Highest + 1) Add(faults, new(row.Number, column, $"There is a gap between it and row {reached.Number}."));
            if (of(row)!.Highest > of(reached)!.Highest) reached = row;
        }
        if (of(reached)!.Highest != long.MaxValue) Add(faults, new(reached.Number, column, "There is a gap above it: no row says what holds there."));
    }

    private static void Add(List<LimitFault> faults, LimitFault fault) { if (!faults.Contains(fault)) faults.Add(fault); }

    private static bool SameWine(LimitRow a, LimitRow b) => a.Colours == b.Colours && a.Products == b.Products && ZonesMeet(a, b);

    private static bool ZonesMeet(LimitRow a, LimitRow b) => a.Zones.Count == 0 || b.Zones.Count == 0 || a.Zones.Intersect(b.Zones).Any();
}
