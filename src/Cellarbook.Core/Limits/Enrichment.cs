using Cellarbook.Core.Facts;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>How far a must may be enriched in the EU: by zone, and not beyond a total strength.</summary>
/// <param name="Total">The highest total strength after it.</param>
/// <param name="Increase">The highest increase.</param>
/// <param name="SucroseGramsPerLitre">Sucrose for that increase at 16.83 g/L for 1 % vol, g/L.</param>
/// <param name="Arithmetic">In words.</param>
/// <param name="Source">Where it is written.</param>
public sealed record Enrichment(Strength Total, Strength Increase, decimal SucroseGramsPerLitre, Sentence Arithmetic, string Source)
{
    /// <summary>Sugar that gives 1 % vol, g/L (OIV tables, from memory).</summary>
    public const decimal SugarOfOnePercent = 16.83m;

    /// <summary>What is allowed; null for an unknown zone.</summary>
    /// <param name="zone">A, B, CI, CII or CIII.</param>
    /// <param name="natural">Natural strength of the must.</param>
    /// <param name="redByDerogation">True for red wine where the Member State uses the higher cap.</param>
    /// <param name="exceptionalYear">True in a year for which the increase was raised.</param>
    public static Enrichment? InEu(string zone, Strength natural, bool redByDerogation = false, bool exceptionalYear = false) => In("eu", zone, natural, redByDerogation, exceptionalYear);

    /// <summary>What a set of limits allows; null where it has no rule for the zone.</summary>
    public static Enrichment? In(string set, string zone, Strength natural, bool redByDerogation = false, bool exceptionalYear = false)
    {
        if (Rules(set).FirstOrDefault(row => row["zone"] == zone) is not { } row) return null;
        var most = MostIncrease(row, exceptionalYear);
        var cap = Hundredths(redByDerogation && row["red_derogation_cap_vol"].Length > 0 ? row["red_derogation_cap_vol"] : row["cap_vol"]);
        Strength by = new(natural.Hundredths + most), total = new(Math.Max(natural.Hundredths, Math.Min(by.Hundredths, cap))), increase = new(total.Hundredths - natural.Hundredths);
        return new(total, increase, increase.Hundredths / 100m * SugarOfOnePercent,
            $"the lower of {natural.Percent:figure} + {ExactNumber.Write(most, 2):figure} = {by.Percent:figure} and the cap {ExactNumber.Write(cap, 2):figure} % vol: {total.Percent:figure} % vol, so + {increase.Percent:figure} % vol", row["source"]);
    }

    /// <summary>The zones a set has a rule for, each with the highest increase there in hundredths of a % vol.</summary>
    public static IReadOnlyList<(string Zone, int Most, string Source, bool Seen)> Zones(string set, bool exceptionalYear) =>
        [.. Rules(set).Select(row => (row["zone"], MostIncrease(row, exceptionalYear), row["source"], row["seen"] == "text"))];

    private static IEnumerable<IReadOnlyDictionary<string, string>> Rules(string set) => All.Where(row => row["set"] == set);

    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> All = Seed.Rows("seed/limits/enrichment.csv");

    private static int MostIncrease(IReadOnlyDictionary<string, string> row, bool exceptionalYear) => Hundredths(row["increase_vol"]) + (exceptionalYear ? Hundredths(row["exceptional_year_vol"]) : 0);

    private static int Hundredths(string text) => ExactNumber.Read(text, 2, out var units) == ExactNumber.Fault.None ? (int)units : throw new FormatException(text);
}

/// <summary>How much water, sugar or both may go into high-acid juice in the US.</summary>
/// <param name="Most">The most that may be added.</param>
/// <param name="ByAcid">What the acid allows.</param>
/// <param name="ByShare">What the share of the whole allows.</param>
/// <param name="Arithmetic">In words.</param>
/// <param name="Source">Where it is written.</param>
public sealed record Amelioration(Volume Most, Volume ByAcid, Volume ByShare, Sentence Arithmetic, string Source)
{
    /// <summary>The rule that a set has; null where it has none.</summary>
    public static (Percent Most, Dose Floor, string Source, bool Seen)? Rule(string set)
    {
        if (All.FirstOrDefault(row => row["set"] == set) is not { } row) return null;
        if (Dose.ReadGramsPerLitre(row["fixed_acid_floor_g_per_l"], out var floor) != ExactNumber.Fault.None || Percent.Read(row["most_percent"], out var share) != ExactNumber.Fault.None) throw new FormatException(row["source"]);
        return (share, floor, row["source"], row["seen"] == "text");
    }

    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> All = Seed.Rows("seed/limits/amelioration.csv");

    /// <summary>What is allowed for a juice of a fixed acid; cut down to the whole µL.</summary>
    public static Amelioration InUs(Volume juice, Dose fixedAcid)
    {
        var row = All[0];
        if (Dose.ReadGramsPerLitre(row["fixed_acid_floor_g_per_l"], out var floor) != ExactNumber.Fault.None || Percent.Read(row["most_percent"], out var share) != ExactNumber.Fault.None) throw new FormatException(row["source"]);
        if (fixedAcid.NanogramsPerLitre <= floor.NanogramsPerLitre)
            return new(Volume.None, Volume.None, Volume.None, $"the fixed acid must be more than {floor.GramsPerLitre:figure} g/L", row["source"]);
        Volume byAcid = new((long)((Int128)juice.Microlitres * (fixedAcid.NanogramsPerLitre - floor.NanogramsPerLitre) / floor.NanogramsPerLitre));
        Volume byShare = new((long)((Int128)juice.Microlitres * share.Thousandths / (Percent.Whole.Thousandths - share.Thousandths)));
        var most = byAcid < byShare ? byAcid : byShare;
        return new(most, byAcid, byShare,
            $"by acid {juice.Litres:figure} x ({fixedAcid.GramsPerLitre:figure} / {floor.GramsPerLitre:figure} - 1) = {byAcid.Litres:figure} L; by share {juice.Litres:figure} x {share.Text:figure} / (100 - {share.Text:figure}) = {byShare.Litres:figure} L; the lower is {most.Litres:figure} L", row["source"]);
    }
}
