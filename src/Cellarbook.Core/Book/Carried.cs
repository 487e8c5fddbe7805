using System.Collections.Immutable;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>What stays behind in a place when a part of its volume goes. A cost would join here: on a normal loss it stays in what remains.</summary>
[Flags]
public enum Stays
{
    /// <summary>All goes along by volume.</summary>
    Nothing = 0,
    /// <summary>What was dosed stays: water, alcohol or gas goes, or two liquids take up less room together.</summary>
    Doses = 1,
}

/// <summary>
/// What was put into the wine of a place and travels with it. Never changed, like the place itself; null in a place where nothing is carried, so
/// that a book of volumes alone pays nothing for it. Another thing that travels with wine (cost) gets a part of its own beside <see cref="Doses"/>
/// and follows the same four moves: meet, part, part as it was brought, put in.
/// </summary>
public sealed class Carried
{
    private readonly ImmutableArray<CarriedDose> doses;

    private Carried(ImmutableArray<CarriedDose> doses) => this.doses = doses;

    /// <summary>By substance, in the order of their codes.</summary>
    public ImmutableArray<CarriedDose> Doses => doses;

    /// <summary>What is carried of a substance; null when nothing.</summary>
    public CarriedDose? Of(Substance substance)
    {
        foreach (var dose in doses)
            if (ReferenceEquals(dose.Substance, substance)) return dose;
        return null;
    }

    /// <summary>What two wines that meet carry together.</summary>
    /// <param name="one">Of the first.</param>
    /// <param name="unknownOfOne">Its volume; where it carries nothing of a substance, so much of the mix no analysis speaks of.</param>
    /// <param name="other">Of the second.</param>
    /// <param name="unknownOfOther">Its volume; nil for water, sugar and surpluses, which bring nothing to analyse.</param>
    internal static Carried? Meet(Carried? one, Volume unknownOfOne, Carried? other, Volume unknownOfOther)
    {
        if (one is null && other is null) return null;
        var met = ImmutableArray.CreateBuilder<CarriedDose>();
        var (mine, theirs) = (one?.doses ?? [], other?.doses ?? []);
        for (int i = 0, j = 0; i < mine.Length || j < theirs.Length;)
        {
            var order = i >= mine.Length ? 1 : j >= theirs.Length ? -1 : string.CompareOrdinal(mine[i].Substance.Code, theirs[j].Substance.Code);
            if (order == 0) met.Add(mine[i++].Meet(theirs[j++]));
            else if (order < 0) met.Add(Beside(mine[i++], unknownOfOther));
            else met.Add(Beside(theirs[j++], unknownOfOne));
        }
        return Of(met);
    }

    /// <summary>What goes with a part of the volume, and what remains; the part first where a unit is over.</summary>
    internal (Carried? Goes, Carried? Remains) Part(Volume leaving, Volume whole, Stays stays)
    {
        var doseStays = stays.HasFlag(Stays.Doses) && leaving < whole;
        var (goes, remains) = (ImmutableArray.CreateBuilder<CarriedDose>(doses.Length), ImmutableArray.CreateBuilder<CarriedDose>(doses.Length));
        foreach (var dose in doses)
        {
            var (part, rest) = dose.Part(leaving, whole, doseStays);
            if (!doseStays) goes.Add(part);
            remains.Add(rest);
        }
        return (Of(goes), leaving >= whole ? null : Of(remains));
    }

    /// <summary>What goes back when a move is taken back, and what remains: what it brought, as far as it is still here.</summary>
    internal (Carried? Goes, Carried? Remains) PartAs(Carried? brought, Volume leaving, Volume whole)
    {
        if (leaving >= whole) return (this, null);
        var (goes, remains) = (ImmutableArray.CreateBuilder<CarriedDose>(doses.Length), ImmutableArray.CreateBuilder<CarriedDose>(doses.Length));
        foreach (var dose in doses)
        {
            // What it didn't bring stays where it is.
            var (part, rest) = dose.PartAs(brought?.Of(dose.Substance) ?? new CarriedDose(dose.Substance) { Analyses = dose.Analyses }, leaving, whole);
            if (brought?.Of(dose.Substance) is not null) goes.Add(part);
            remains.Add(rest);
        }
        return (Of(goes), Of(remains));
    }

    /// <summary>With an addition put in, which raises the highest dose too.</summary>
    /// <param name="carried">What was carried before; null for nothing.</param>
    /// <param name="substance">The substance.</param>
    /// <param name="amount">How much, above nil.</param>
    /// <param name="volume">The volume it went into, above nil.</param>
    /// <param name="inMust">True while it is must.</param>
    /// <param name="ofEntry">All of the substance that the entry put in so far, this included: one dose, also out of several deliveries.</param>
    internal static Carried? With(Carried? carried, Substance substance, SubstanceAmount amount, Volume volume, bool inMust, SubstanceAmount ofEntry)
    {
        var single = ofEntry.PerLitre(volume);
        var before = carried?.Of(substance) ?? new CarriedDose(substance) { Unanalysed = volume };
        return Set(carried, before with
        {
            AddedInMust = inMust ? before.AddedInMust + amount : before.AddedInMust,
            AddedInWine = inMust ? before.AddedInWine : before.AddedInWine + amount,
            // A place is weighed as a whole: after a blend the dose of the mix counts on, and what a part had before is kept beside it.
            Highest = CarriedDose.Larger(before.Highest, (before.Added + amount).PerLitre(volume)),
            LargestInMust = inMust ? CarriedDose.Larger(before.LargestInMust, single) : before.LargestInMust,
            LargestInWine = inMust ? before.LargestInWine : CarriedDose.Larger(before.LargestInWine, single),
            Standing = before.Standing + amount,
        });
    }

    /// <summary>The same as it comes along with a volume of its own: no dose of any wine yet, and nothing to analyse.</summary>
    internal Carried Undosed => new([.. doses.Select(dose => dose with { Highest = Dose.None, LargestInMust = Dose.None, LargestInWine = Dose.None, Unanalysed = Volume.None })]);

    /// <summary>With an addition whose packet doesn't state how much of the substance it holds.</summary>
    internal static Carried? WithUnstated(Carried? carried, Substance substance, Volume volume) =>
        Set(carried, (carried?.Of(substance) ?? new CarriedDose(substance) { Unanalysed = volume }) with { HasUnstated = true });

    /// <summary>With another dose in place of the one of its substance.</summary>
    internal Carried? Having(CarriedDose dose) => Set(this, dose);

    /// <summary>With no higher doses than had something never gone in; the same object when none is.</summary>
    internal Carried? NoHigherThan(Carried? never)
    {
        var lowered = doses.ToBuilder();
        for (var i = 0; i < lowered.Count; i++) lowered[i] = lowered[i].NoHigherThan(never?.Of(lowered[i].Substance));
        return doses.SequenceEqual(lowered) ? this : Of(lowered);
    }

    /// <summary>With what an analysis of the whole place found in place of all that was known before it.</summary>
    internal static Carried? Found(Carried? carried, Substance substance, SubstanceAmount found, long entry) =>
        Set(carried, (carried?.Of(substance) ?? new CarriedDose(substance)) with { Standing = found, HasUnstated = false, Unanalysed = Volume.None, Analyses = [new(entry)] });

    private static CarriedDose Beside(CarriedDose dose, Volume unknown) => unknown.IsNil ? dose : dose with { Unanalysed = dose.Unanalysed + unknown };

    private static Carried? Set(Carried? carried, CarriedDose dose)
    {
        var all = (carried?.doses ?? []).ToBuilder();
        var at = 0;
        while (at < all.Count && string.CompareOrdinal(all[at].Substance.Code, dose.Substance.Code) < 0) at++;
        if (at < all.Count && ReferenceEquals(all[at].Substance, dose.Substance)) all[at] = dose;
        else all.Insert(at, dose);
        return Of(all);
    }

    private static Carried? Of(ImmutableArray<CarriedDose>.Builder all)
    {
        for (var i = all.Count - 1; i >= 0; i--)
            if (all[i].IsNothing) all.RemoveAt(i);
        return all.Count == 0 ? null : new(all.DrainToImmutable());
    }
}
