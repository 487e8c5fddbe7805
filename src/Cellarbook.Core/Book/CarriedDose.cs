using System.Collections.Immutable;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>How much of a wine was analysed for a substance.</summary>
public enum Analysed
{
    /// <summary>None of it: what is known are additions.</summary>
    None,
    /// <summary>A part; the rest is known by additions.</summary>
    Part,
    /// <summary>All of it.</summary>
    All,
}

/// <summary>
/// One substance in the wine of a place: what was added, the highest dose that any part of it had, and what it stands at. All travel with the
/// wine by volume; whole nanograms, every split by largest remainder, so that the parts always add up (law 7).
/// </summary>
public sealed record CarriedDose(Substance Substance)
{
    /// <summary>Added while it was must.</summary>
    public SubstanceAmount AddedInMust { get; init; }

    /// <summary>Added since it is wine.</summary>
    public SubstanceAmount AddedInWine { get; init; }

    /// <summary>The highest dose that any part of this wine ever had by additions, at the volume it was added to. Not lowered by blending.</summary>
    public Dose Highest { get; init; }

    /// <summary>The largest single dose of one entry that any part of this wine got while it was must, at the volume it went into.</summary>
    public Dose LargestInMust { get; init; }

    /// <summary>The largest single dose of one entry that any part of this wine got since it is wine.</summary>
    public Dose LargestInWine { get; init; }

    /// <summary>
    /// What it stands at: an analysis replaces all additions before it by what it found, later additions come on top. Where nothing was analysed,
    /// what was added.
    /// </summary>
    public SubstanceAmount Standing { get; init; }

    /// <summary>How much of the wine here no analysis speaks of. Water, sugar and surpluses that came in later don't count.</summary>
    public Volume Unanalysed { get; init; }

    /// <summary>True when something was added, and not analysed since, whose packet doesn't state how much of the substance it holds.</summary>
    public bool HasUnstated { get; init; }

    /// <summary>Entries of the analyses that the standing rests on, in order; empty when there was none.</summary>
    public ImmutableArray<EntryNumber> Analyses { get; init; } = [];

    /// <summary>Added in must and wine together.</summary>
    public SubstanceAmount Added => AddedInMust + AddedInWine;

    /// <summary>How much of the wine here was ever analysed for it.</summary>
    public Analysed HowMuchAnalysed => Analyses.IsEmpty ? Analysed.None : Unanalysed.IsPositive ? Analysed.Part : Analysed.All;

    /// <summary>True when it says nothing any more.</summary>
    internal bool IsNothing => Added.IsNil && Standing.IsNil && Analyses.IsEmpty && !HasUnstated;

    /// <summary>The same substance of two wines that meet.</summary>
    internal CarriedDose Meet(CarriedDose other) => this with
    {
        AddedInMust = AddedInMust + other.AddedInMust,
        AddedInWine = AddedInWine + other.AddedInWine,
        Highest = Larger(Highest, other.Highest),
        LargestInMust = Larger(LargestInMust, other.LargestInMust),
        LargestInWine = Larger(LargestInWine, other.LargestInWine),
        Standing = Standing + other.Standing,
        HasUnstated = HasUnstated || other.HasUnstated,
        Unanalysed = Unanalysed + other.Unanalysed,
        Analyses = Analyses.IsEmpty || Analyses.AsSpan().SequenceEqual(other.Analyses.AsSpan()) ? other.Analyses : other.Analyses.IsEmpty ? Analyses : [.. Analyses.Union(other.Analyses).OrderBy(entry => entry.Number)],
    };

    /// <summary>
    /// What goes with a part of the volume and what remains, the part first. When doses stay (water or gas goes, nothing dissolved), only the
    /// volume that was not analysed is shared.
    /// </summary>
    internal (CarriedDose Goes, CarriedDose Remains) Part(Volume leaving, Volume whole, bool doseStays)
    {
        var (goesMust, keptMust) = doseStays ? (SubstanceAmount.None, AddedInMust) : Split(AddedInMust, leaving, whole);
        var (goesWine, keptWine) = doseStays ? (SubstanceAmount.None, AddedInWine) : Split(AddedInWine, leaving, whole);
        var (goesStanding, keptStanding) = doseStays ? (SubstanceAmount.None, Standing) : Split(Standing, leaving, whole);
        // No more of it than goes: the whole may be told less than lies there, when some will shrink away.
        var goesUnanalysed = Math.Min(Split(new(Unanalysed.Microlitres), leaving, whole).Goes.Nanograms, leaving.Microlitres);
        return (
            this with { AddedInMust = goesMust, AddedInWine = goesWine, Standing = goesStanding, Unanalysed = new(goesUnanalysed) },
            this with { AddedInMust = keptMust, AddedInWine = keptWine, Standing = keptStanding, Unanalysed = Unanalysed - new Volume(goesUnanalysed) });
    }

    /// <summary>
    /// What goes back when a move is taken back: exactly what it brought, as far as that is still here. A standing that an analysis has replaced
    /// since can't be told apart any more and goes by volume.
    /// </summary>
    internal (CarriedDose Goes, CarriedDose Remains) PartAs(CarriedDose brought, Volume leaving, Volume whole)
    {
        var (byVolume, rest) = Part(leaving, whole, doseStays: false);
        var sameAnalyses = Analyses.AsSpan().SequenceEqual(brought.Analyses.AsSpan());
        var unanalysed = sameAnalyses ? Within(brought.Unanalysed.Microlitres, Unanalysed.Microlitres - (whole - leaving).Microlitres, Unanalysed.Microlitres) : byVolume.Unanalysed.Microlitres;
        var goes = byVolume with
        {
            AddedInMust = Least(brought.AddedInMust, AddedInMust),
            AddedInWine = Least(brought.AddedInWine, AddedInWine),
            Standing = sameAnalyses ? Least(brought.Standing, Standing) : byVolume.Standing,
            Unanalysed = new(unanalysed),
            Highest = brought.Highest,
            LargestInMust = brought.LargestInMust,
            LargestInWine = brought.LargestInWine,
            HasUnstated = brought.HasUnstated,
        };
        return (goes, rest with { AddedInMust = AddedInMust - goes.AddedInMust, AddedInWine = AddedInWine - goes.AddedInWine, Standing = Standing - goes.Standing, Unanalysed = Unanalysed - goes.Unanalysed });
    }

    /// <summary>With so much of it taken out again. What an analysis found stays as it would be had that never gone in, which is told beside.</summary>
    internal CarriedDose Without(SubstanceAmount fromMust, SubstanceAmount fromWine, CarriedDose? never) => this with
    {
        AddedInMust = AddedInMust - fromMust,
        AddedInWine = AddedInWine - fromWine,
        Standing = Analyses.IsEmpty ? Added - fromMust - fromWine : never?.Standing ?? Standing,
    };

    /// <summary>With no higher doses than had something never gone in, and nothing left open that only its packet left open.</summary>
    internal CarriedDose NoHigherThan(CarriedDose? never) => this with
    {
        Highest = Smaller(Highest, never?.Highest ?? Dose.None),
        LargestInMust = Smaller(LargestInMust, never?.LargestInMust ?? Dose.None),
        LargestInWine = Smaller(LargestInWine, never?.LargestInWine ?? Dose.None),
        HasUnstated = HasUnstated && never?.HasUnstated == true,
    };

    private static Dose Smaller(Dose a, Dose b) => a > b ? b : a;

    internal static Dose Larger(Dose a, Dose b) => a > b ? a : b;

    internal static SubstanceAmount Least(SubstanceAmount a, SubstanceAmount b) => a.CompareTo(b) < 0 ? a : b;

    private static long Within(long value, long least, long most) => Math.Max(Math.Max(0, least), Math.Min(value, most));

    private static (SubstanceAmount Goes, SubstanceAmount Remains) Split(SubstanceAmount amount, Volume leaving, Volume whole)
    {
        if (amount.IsNil || leaving >= whole) return (amount, default);
        var parts = LargestRemainder.Split(amount.Nanograms, [leaving.Microlitres, (whole - leaving).Microlitres]);
        return (new(parts[0]), new(parts[1]));
    }
}
