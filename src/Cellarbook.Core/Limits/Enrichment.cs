using Cellarbook.Core.Facts;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>How far a must may be enriched in the EU: by zone, and not beyond a total strength.</summary>
/// <param name="Total">The highest total strength after it.</param>
/// <param name="Increase">The highest increase.</param>
/// <param name="SucroseGramsPerLitre">Sucrose for that increase at 16.83 g/L for 1 % vol, g/L.</param>
/// <param name="Arithmetic">In words.</param>
/// <param name="Source">Where it is written.</param>
public sealed record Enrichment(Strength Total, Strength Increase, decimal SucroseGramsPerLitre, string Arithmetic, string Source)
{
    /// <summary>Sugar that gives 1 % vol, g/L (OIV tables, from memory).</summary>
    public const decimal SugarOfOnePercent = 16.83m;

    /// <summary>What is allowed; null for an unknown zone.</summary>
    /// <param name="zone">A, B, CI, CII or CIII.</param>
    /// <param name="natural">Natural strength of the must.</param>
    /// <param name="redByDerogation">True for red wine where the Member State uses the higher cap.</param>
    /// <param name="exceptionalYear">True in a year for which the increase was raised.</param>
    public static Enrichment? InEu(string zone, Strength natural, bool redByDerogation = false, bool exceptionalYear = false)
    {
        if (Seed.Rows("seed/limits/enrichment.csv").FirstOrDefault(row => row["zone"] == zone) is not { } row) return null;
        var most = Hundredths(row["increase_vol"]) + (exceptionalYear ? Hundredths(row["exceptional_year_vol"]) : 0);
        var cap = Hundredths(redByDerogation && row["red_derogation_cap_vol"].Length > 0 ? row["red_derogation_cap_vol"] : row["cap_vol"]);
        Strength by = new(natural.Hundredths + most), total = new(Math.Max(natural.Hundredths, Math.Min(by.Hundredths, cap))), increase = new(total.Hundredths - natural.Hundredths);
        return new(total, increase, increase.Hundredths / 100m * SugarOfOnePercent,
            $"the lower of {natural.Percent} + {ExactNumber.Write(most, 2)} = {by.Percent} and the cap {ExactNumber.Write(cap, 2)} % vol: {total.Percent} % vol, so + {increase.Percent} % vol", row["source"]);
    }

    private static int Hundredths(string text) => ExactNumber.Read(text, 2, out var units) == ExactNumber.Fault.None ? (int)units : throw new FormatException(text);
}

/// <summary>How much water, sugar or both may go into high-acid juice in the US.</summary>
/// <param name="Most">The most that may be added.</param>
/// <param name="ByAcid">What the acid allows.</param>
/// <param name="ByShare">What the share of the whole allows.</param>
/// <param name="Arithmetic">In words.</param>
/// <param name="Source">Where it is written.</param>
public sealed record Amelioration(Volume Most, Volume ByAcid, Volume ByShare, string Arithmetic, string Source)
{
    /// <summary>What is allowed for a juice of a fixed acid; cut down to the whole µL.</summary>
    public static Amelioration InUs(Volume juice, Dose fixedAcid)
    {
        var row = Seed.Rows("seed/limits/amelioration.csv")[0];
        if (Dose.ReadGramsPerLitre(row["fixed_acid_floor_g_per_l"], out var floor) != ExactNumber.Fault.None || Percent.Read(row["most_percent"], out var share) != ExactNumber.Fault.None) throw new FormatException(row["source"]);
        if (fixedAcid.NanogramsPerLitre <= floor.NanogramsPerLitre)
            return new(Volume.None, Volume.None, Volume.None, $"The fixed acid must be more than {floor.GramsPerLitre} g/L; it is {fixedAcid.GramsPerLitre} g/L", row["source"]);
        Volume byAcid = new((long)((Int128)juice.Microlitres * (fixedAcid.NanogramsPerLitre - floor.NanogramsPerLitre) / floor.NanogramsPerLitre));
        Volume byShare = new((long)((Int128)juice.Microlitres * share.Thousandths / (Percent.Whole.Thousandths - share.Thousandths)));
        var most = byAcid < byShare ? byAcid : byShare;
        return new(most, byAcid, byShare,
            $"by acid {juice.Litres} x ({fixedAcid.GramsPerLitre} / {floor.GramsPerLitre} - 1) = {byAcid.Litres} L; by share {juice.Litres} x {share.Text} / (100 - {share.Text}) = {byShare.Litres} L; the lower is {most.Litres} L", row["source"]);
    }
}
