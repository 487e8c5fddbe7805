using Cellarbook.Core.Facts;
using System.Globalization;

namespace Cellarbook.Core.Limits;

/// <summary>A set of limits: a law, a recommendation, a packet's instruction, a buyer's specification or a house rule.</summary>
public sealed record LimitSet
{
    /// <summary>Its code, such as "eu".</summary>
    public required string Code { get; init; }

    /// <summary>In words.</summary>
    public required string Name { get; init; }

    /// <summary>law, recommendation, packet, buyer or house.</summary>
    public required string Kind { get; init; }

    /// <summary>Whose it is: the packet's maker, the buyer, the person who set the rule; empty for law.</summary>
    public string Who { get; init; } = "";

    /// <summary>Last day it is in force; null for no end.</summary>
    public DateOnly? Expires { get; init; }

    /// <summary>True when what it doesn't name is barred.</summary>
    public bool IsClosed { get; init; }

    /// <summary>True when it speaks of wine of grapes alone.</summary>
    public bool IsOfGrapesOnly { get; init; }

    /// <summary>Regimes of a book that it goes with.</summary>
    public IReadOnlyList<string> Regimes { get; init; } = [];

    /// <summary>From this part of a limit on, a value is near it.</summary>
    public int NearPercent { get; init; } = 90;

    /// <summary>Where it is from as a whole.</summary>
    public string Source { get; init; } = "";

    /// <summary>What to know of it as a whole.</summary>
    public string Note { get; init; } = "";

    /// <summary>Its rows in the order of the file.</summary>
    public required IReadOnlyList<LimitRow> Rows { get; init; }

    /// <summary>Rows by substance, for judging.</summary>
    internal ILookup<Substance, LimitRow> BySubstance => bySubstance ??= Rows.SelectMany(row => row.Substances.Select(substance => (substance, row))).ToLookup(pair => pair.substance, pair => pair.row);

    /// <summary>The same rows as they are judged: by substance, basis and scheme.</summary>
    internal IReadOnlyList<LimitGroup> Groups => groups ??= [.. BySubstance.SelectMany(rows => rows.GroupBy(row => row.Basis).Select(basis => new LimitGroup(rows.Key, basis.Key, [.. basis])))];

    private ILookup<Substance, LimitRow>? bySubstance;
    private IReadOnlyList<LimitGroup>? groups;
}

/// <summary>The rows of a set about one substance on one basis.</summary>
internal sealed record LimitGroup(Substance Substance, LimitBasis Basis, LimitRow[] Rows)
{
    /// <summary>The same, scheme by scheme.</summary>
    public LimitRow[][] ByScheme { get; } = [.. Rows.GroupBy(row => row.Scheme).Select(scheme => scheme.ToArray())];

    /// <summary>True when only a measurement could tell.</summary>
    public bool AsksMeasurement { get; } = Basis != LimitBasis.AddedDose && Rows.Any(row => row.IsCompared);
}

/// <summary>The limit sets that travel with the program, read from seed/limits once.</summary>
public static class LawSets
{
    /// <summary>All of them.</summary>
    public static IReadOnlyList<LimitSet> All { get; } = [.. Seed.Rows("seed/limits/sets.csv").Select(Load)];

    /// <summary>The density assumed where none was read: the low end for dry wine, which makes limits per kilogram stricter.</summary>
    public static Density AssumedDensity { get; } = new((long)(decimal.Parse(Seed.Rows("seed/limits/sets.csv")[0]["assumed_density_kg_per_l"], CultureInfo.InvariantCulture) * 1_000_000m), true, "");

    /// <summary>The set of that code, or null.</summary>
    public static LimitSet? Find(string code) => All.FirstOrDefault(set => set.Code == code);

    private static LimitSet Load(IReadOnlyDictionary<string, string> row)
    {
        var about = new LimitSet
        {
            Code = row["set"], Name = row["name"], Kind = row["kind"], IsClosed = row["closed"] == "yes", IsOfGrapesOnly = row["grapes_only"] == "yes", Source = row["source"], Note = row["note"], Rows = [],
            Regimes = row["regimes"].Split(' ', StringSplitOptions.RemoveEmptyEntries), NearPercent = int.Parse(row["near_percent"], NumberStyles.None, CultureInfo.InvariantCulture),
        };
        var read = LimitSetReader.Read(Seed.Text($"seed/limits/{about.Code}.csv"), about);
        return read.Set ?? throw new InvalidOperationException($"seed/limits/{about.Code}.csv: {string.Join(" ", read.Faults)}");
    }
}
