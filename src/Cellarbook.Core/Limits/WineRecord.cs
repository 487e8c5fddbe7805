using System.Collections.Immutable;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>One substance in a wine, as far as additions and analyses tell.</summary>
public sealed record SubstanceRecord(Substance Substance)
{
    /// <summary>Added to must and still in this wine by volume.</summary>
    public SubstanceAmount AddedInMust { get; init; }

    /// <summary>Added to wine.</summary>
    public SubstanceAmount AddedInWine { get; init; }

    /// <summary>The highest dose any part of it had.</summary>
    public Dose Highest { get; init; }

    /// <summary>The largest single dose any part of it got while it was must.</summary>
    public Dose LargestInMust { get; init; }

    /// <summary>The largest single dose any part of it got since it is wine.</summary>
    public Dose LargestInWine { get; init; }

    /// <summary>What it stands at: found by the last analysis, with later additions on top; without one, what was added.</summary>
    public SubstanceAmount Standing { get; init; }

    /// <summary>How far the standing was found by analysis.</summary>
    public Analysed Analysed { get; init; }

    /// <summary>Entries of the analyses it rests on.</summary>
    public IReadOnlyList<long> Analyses { get; init; } = [];

    /// <summary>True when something was added whose packet doesn't state how much it holds.</summary>
    public bool HasUnstated { get; init; }
}

/// <summary>A level found by analysis, for what isn't carried by additions.</summary>
/// <param name="Amount">Whole ng per litre, or per kilogram.</param>
/// <param name="PerKilogram">True when it counts per kilogram.</param>
/// <param name="Entry">The entry of the analysis; nil when there is none.</param>
public readonly record struct Level(long Amount, bool PerKilogram, long Entry = 0)
{
    /// <summary>A level in ng per litre.</summary>
    public static Level PerLitre(Dose dose) => new(dose.NanogramsPerLitre, false);
}

/// <summary>
/// All that a judgement against limits looks at: a wine as it lies in one place. Facts that aren't known are null, and a verdict that needs one
/// says so.
/// </summary>
public sealed record WineRecord
{
    /// <summary>Its volume, above nil.</summary>
    public required Volume Volume { get; init; }

    /// <summary>Must or wine.</summary>
    public WineStages Stage { get; init; } = WineStages.Wine;

    /// <summary>Colour.</summary>
    public WineColours? Colour { get; init; }

    /// <summary>Product.</summary>
    public WineProducts? Product { get; init; }

    /// <summary>False for wine of other fruit, flowers or honey: sets on wine of grapes alone then say nothing of it.</summary>
    public bool IsOfGrapes { get; init; } = true;

    /// <summary>Strength.</summary>
    public Strength? Strength { get; init; }

    /// <summary>Residual sugar.</summary>
    public Dose? Sugar { get; init; }

    /// <summary>Schemes it is made under, such as "organic".</summary>
    public ImmutableHashSet<string> Schemes { get; init; } = [];

    /// <summary>Cases stated of it, such as "list-300" or "exceptional-year".</summary>
    public ImmutableHashSet<string> Cases { get; init; } = [];

    /// <summary>Wine-growing zone.</summary>
    public string? Zone { get; init; }

    /// <summary>Natural strength of the must it was, before any sugar; null when nobody stated it and nothing was read.</summary>
    public Strength? Natural { get; init; }

    /// <summary>Where the natural strength comes from, in words.</summary>
    public Sentence NaturalFrom { get; init; } = Sentence.Empty;

    /// <summary>Fixed acid of the juice before fermentation; null when not known.</summary>
    public Dose? FixedAcid { get; init; }

    /// <summary>Where the fixed acid comes from, in words.</summary>
    public Sentence FixedAcidFrom { get; init; } = Sentence.Empty;

    /// <summary>What packets and boxes allow of which something is in it: held against it besides the sets that are in force.</summary>
    public IReadOnlyList<LimitSet> Packets { get; init; } = [];

    /// <summary>First harvest year in it.</summary>
    public int? HarvestFrom { get; init; }

    /// <summary>Last harvest year in it.</summary>
    public int? HarvestTo { get; init; }

    /// <summary>The day it counts as produced: limits of that day hold.</summary>
    public required DateOnly ProductionDay { get; init; }

    /// <summary>Density; null when not known and not to be assumed.</summary>
    public Density? Density { get; init; }

    /// <summary>Substances added or analysed.</summary>
    public ImmutableDictionary<Substance, SubstanceRecord> Substances { get; init; } = ImmutableDictionary<Substance, SubstanceRecord>.Empty;

    /// <summary>Levels found of what isn't added, such as volatile acidity.</summary>
    public ImmutableDictionary<Substance, Level> Levels { get; init; } = ImmutableDictionary<Substance, Level>.Empty;

    /// <summary>The wine after an addition: the product, and all it counts towards.</summary>
    /// <param name="product">What is added.</param>
    /// <param name="amount">How much, above nil.</param>
    /// <param name="stage">Must or wine.</param>
    public WineRecord Adding(Substance product, SubstanceAmount amount, WineStages stage)
    {
        var all = Substances;
        foreach (var (substance, counted) in Limits.Substances.Counted(product, amount))
        {
            var before = all.GetValueOrDefault(substance) ?? new SubstanceRecord(substance);
            var dose = counted.PerLitre(Volume);
            var after = before with
            {
                AddedInMust = stage == WineStages.Must ? before.AddedInMust + counted : before.AddedInMust,
                AddedInWine = stage == WineStages.Must ? before.AddedInWine : before.AddedInWine + counted,
                Standing = before.Standing + counted,
                LargestInMust = stage == WineStages.Must && dose > before.LargestInMust ? dose : before.LargestInMust,
                LargestInWine = stage != WineStages.Must && dose > before.LargestInWine ? dose : before.LargestInWine,
            };
            var total = (after.AddedInMust + after.AddedInWine).PerLitre(Volume);
            all = all.SetItem(substance, after with { Highest = total > before.Highest ? total : before.Highest });
        }
        return this with { Substances = all };
    }

    /// <summary>The wine after an addition at a dose.</summary>
    public WineRecord Adding(Substance product, Dose dose, WineStages stage) => Adding(product, SubstanceAmount.In(dose, Volume), stage);
}
