namespace Cellarbook.Core.Chemistry;

/// <summary>The catalogue of the bench. One endpoint and one page serve all of it.</summary>
public static class BenchCalculators
{
    /// <summary>All calculators, in the order in which they are listed.</summary>
    public static IReadOnlyList<BenchCalculator> All { get; } =
    [
        .. StrengthBench.All, .. SugarBench.All, .. ReadingsBench.All, .. GravityBench.All, .. CellarBench.All,
        .. NutrientBench.All, .. VolumeBench.All, .. VesselBench.All, .. FermentBench.All, .. BottleBench.All,
    ];

    private static readonly Dictionary<string, BenchCalculator> ById = All.ToDictionary(c => c.Id, StringComparer.Ordinal);

    /// <summary>The calculator of that id, or null.</summary>
    public static BenchCalculator? Find(string id) => ById.GetValueOrDefault(id);
}
