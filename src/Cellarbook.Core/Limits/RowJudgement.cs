using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>One row held against a wine; its limit is raised by what increments add, ng/L.</summary>
internal sealed class RowJudgement(LimitSet set, Substance substance, LimitBasis basis, LimitRow row, WineRecord wine, long raised, bool forRelease)
{
    private const long Million = 1_000_000;

    // How many decimals of a mg/L the sentences show: all of one verdict alike, so that they add up as they are read.
    private int decimals = row.Value is { } value ? Decimals(value.Amount + raised) : 1;

    private readonly SubstanceRecord carried = wine.Substances.GetValueOrDefault(substance) ?? new SubstanceRecord(substance);

    public Verdict Verdict()
    {
        if (row.Value?.Unit == LimitUnit.Strength) return OfStrength();
        return basis == LimitBasis.AddedDose ? OfDose() : OfLevel();
    }

    private Verdict OfDose()
    {
        var amount = SubstanceAmount.None;
        if (row.Stages.HasFlag(WineStages.Must)) amount += carried.AddedInMust;
        if (row.Stages.HasFlag(WineStages.Wine)) amount += carried.AddedInWine;
        var all = amount == carried.AddedInMust + carried.AddedInWine;
        if (row.Kind == LimitKind.NoCap) return New(VerdictKind.Within, $"{Added(Milligrams(amount.PerLitre(wine.Volume)))}; allowed, no number.") with { Value = amount.PerLitre(wine.Volume) };
        if (row.Kind == LimitKind.Prohibited)
        {
            Sentence barred = row.With is { } with ? (Sentence)$"it is barred together with {with.Said} at any dose" : "it is barred at any dose";
            return amount.IsPositive || carried.HasUnstated || (all && carried.Highest.IsPositive)
                ? New(VerdictKind.Over, $"{substance.Said} was added; {barred}.") with { Value = amount.PerLitre(wine.Volume), Stays = true }
                : New(VerdictKind.Within, $"None added; {barred}.") with { Room = SubstanceAmount.None };
        }
        if (row.PerTreatment) return OfTreatment();
        var verdict = Compare(amount, () => $"{Added(Grams(amount))} / {wine.Volume} = {Milligrams(amount.PerLitre(wine.Volume))}", stays: true);
        if (verdict.Kind != VerdictKind.Over && all && OverLimit(carried.Highest))
            return verdict with { Kind = VerdictKind.Over, Stays = true, Room = SubstanceAmount.None, Excess = carried.Highest - new Dose(Limit()), Arithmetic = $"{verdict.Arithmetic} But a part of it had {Highest()}, more than {LimitText()}; a blend doesn't undo that." };
        return Stated(verdict);
    }

    /// <summary>A limit for one treatment: each dose by itself, the largest that any part of the wine got counts. A further one may be as large as the limit.</summary>
    private Verdict OfTreatment()
    {
        var single = row.Stages switch { WineStages.Must => carried.LargestInMust, WineStages.Wine => carried.LargestInWine, _ => CarriedDose.Larger(carried.LargestInMust, carried.LargestInWine) };
        Sentence Said() => row.Stages switch { WineStages.Must => (Sentence)$"{Milligrams(single)} in the largest treatment of must", WineStages.Wine => (Sentence)$"{Milligrams(single)} in the largest treatment of wine", _ => (Sentence)$"{Milligrams(single)} in the largest treatment" };
        return Stated(Compare(SubstanceAmount.In(single, wine.Volume), Said, stays: true) with { Room = SubstanceAmount.In(new(Limit()), wine.Volume) });
    }

    private Verdict Stated(Verdict verdict) => carried.HasUnstated && verdict.Kind != VerdictKind.Over
        ? verdict with { Kind = VerdictKind.CannotSay, Missing = ["what the packet holds"], Arithmetic = $"{verdict.Arithmetic} Something was added whose packet doesn't state how much {substance.Said} it holds." }
        : verdict;

    private Verdict OfLevel()
    {
        if (wine.Levels.TryGetValue(substance, out var level))
        {
            return CompareLevel((Int128)level.Amount * wine.Volume.Microlitres, level.PerKilogram, () => $"{(level.PerKilogram ? Sentence.Figure(Figure(level.Amount) + " mg/kg") : Milligrams(new(level.Amount)))} measured") with { Analyses = level.Entry > 0 ? [level.Entry] : [] };
        }
        var known = wine.Substances.ContainsKey(substance);
        if (!known || (forRelease && carried.Analysed != Analysed.All))
            return New(VerdictKind.CannotSay, known && carried.Analysed == Analysed.Part ? (Sentence)$"{substance.Said} was not measured in all of this wine; {LimitText()}. Measure it." : (Sentence)$"{substance.Said} was not measured; {LimitText()}. Measure it.") with
            { Missing = [Measurement()], ByAdditions = known && carried.Analysed == Analysed.None };
        var value = carried.Standing.PerLitre(wine.Volume);
        Sentence Said() => carried.Analysed switch
        {
            Analysed.All => (Sentence)$"{Milligrams(value)} measured",
            Analysed.Part => (Sentence)$"{Milligrams(value)}, measured in part and by additions for the rest",
            _ => (Sentence)$"{Grams(carried.Standing)} added / {wine.Volume} = {Milligrams(value)} by additions, not measured",
        };
        var verdict = CompareLevel((Int128)carried.Standing.Nanograms * Million, false, Said) with { ByAdditions = carried.Analysed == Analysed.None, Analyses = carried.Analyses };
        // A floor can't be met by additions alone.
        if (row.Kind == LimitKind.Min && carried.Analysed != Analysed.All) return verdict with { Kind = VerdictKind.CannotSay, Missing = [Measurement()] };
        return carried.HasUnstated && verdict.Kind != VerdictKind.Over
            ? verdict with { Kind = VerdictKind.CannotSay, Missing = ["what the packet holds, or a measurement"], Arithmetic = $"{verdict.Arithmetic} Something was added whose packet doesn't state how much {substance.Said} it holds." }
            : verdict;
    }

    private Verdict OfStrength()
    {
        if (wine.Strength is not { } strength) return New(VerdictKind.CannotSay, $"The strength is not stated; {LimitText()}.") with { Missing = ["strength"] };
        var off = row.Kind == LimitKind.Min ? row.Value!.Amount - strength.Hundredths : strength.Hundredths - row.Value!.Amount;
        return New(off > 0 ? VerdictKind.Over : VerdictKind.Within, off > 0 ? $"{strength} stated; {LimitText()}: {Off(ExactNumber.Write(off, 2) + " % vol")}." : (Sentence)$"{strength} stated; {LimitText()}.");
    }

    private Verdict Compare(SubstanceAmount amount, Func<Sentence> said, bool stays)
    {
        var verdict = CompareLevel((Int128)amount.Nanograms * Million, false, said);
        return verdict with { Stays = stays && verdict.Kind == VerdictKind.Over };
    }

    /// <summary>Compares an amount × 10⁶ (in ng, per kilogram when so measured) with the limit × volume, all whole.</summary>
    private Verdict CompareLevel(Int128 parts, bool valuePerKilogram, Func<Sentence> said)
    {
        if (row.Kind == LimitKind.Prohibited) return parts > 0 ? New(VerdictKind.Over, $"{said()}; it is barred.") with { Stays = true } : New(VerdictKind.Within, $"{said()}; it is barred.");
        if (row.Kind == LimitKind.NoCap) return New(VerdictKind.Within, $"{said()}; no number.");
        var limitPerKilogram = row.Value!.Unit == LimitUnit.PerKilogram;
        Int128 volume = wine.Volume.Microlitres, limit = (Int128)Limit() * volume;
        if (limitPerKilogram != valuePerKilogram)
        {
            if (wine.Density is not { } kilograms) return New(VerdictKind.CannotSay, $"{said()}; {LimitText()}, and the density isn't known. Measure the gravity.") with { Missing = ["density (gravity)"] };
            if (limitPerKilogram) { limit *= kilograms.Millionths; parts *= Million; }
            else { parts *= kilograms.Millionths; limit *= Million; }
        }
        var scale = limitPerKilogram != valuePerKilogram ? Million : 1;
        var valuePer = (long)((2 * parts + volume * scale) / (2 * volume * scale));
        var limitPer = (long)(limit / (volume * scale));
        var isPerLitre = !(valuePerKilogram && limitPerKilogram);
        var unit = isPerLitre ? PerLitre : " mg/kg";
        var difference = row.Kind == LimitKind.Min ? limit - parts : parts - limit;
        var over = difference > 0;
        var near = !over && row.Kind == LimitKind.Max && parts * 100 >= limit * set.NearPercent && limit > 0;
        var by = (long)((Int128.Abs(difference) + volume * scale - 1) / (volume * scale));
        // A last unit, rounded off from a limit of so many pieces in so much, is none.
        Settle(valuePer, limitPer, over ? row.Kind == LimitKind.Min ? -1 : 1 : Math.Abs(valuePer - limitPer) <= 1 ? 0 : valuePer.CompareTo(limitPer));
        var off = $"{Figure(Math.Abs(Rounded(valuePer) - Rounded(limitPer)))}{unit}";
        Sentence end = over ? $": {Off(off)}" : row.Kind == LimitKind.Max ? $": {off:figure} left" : Sentence.Empty;
        return New(over ? VerdictKind.Over : near ? VerdictKind.Near : VerdictKind.Within, $"{said()}; {LimitText()}{(limitPerKilogram == valuePerKilogram ? Sentence.Empty : ByDensity(wine.Density!, limitPerKilogram))}{end}.") with
        {
            Value = isPerLitre ? new Dose(valuePer) : null, Limit = isPerLitre ? new Dose(limitPer) : null, Excess = over ? new Dose(by) : null,
            Room = row.Kind == LimitKind.Max && isPerLitre ? new SubstanceAmount(over ? 0 : (long)Int128.Min(-difference / (Million * scale), long.MaxValue)) : null,
        };
    }

    /// <summary>What a density made of the limit, or of the value.</summary>
    private Sentence ByDensity(Density density, bool ofLimit)
    {
        var heavy = Sentence.Figure(density.KilogramsPerLitre + " kg/L");
        return ofLimit
            ? $" x {heavy} ({(density.IsAssumed ? "assumed" : density.From)}) = {Milligrams(new((long)((Int128)Limit() * density.Millionths / Million)))}"
            : density.IsAssumed ? $" (value x {heavy}, assumed)" : (Sentence)$" (value x {heavy})";
    }

    private bool OverLimit(Dose dose) => row.Kind == LimitKind.Max && row.Value!.Unit == LimitUnit.PerKilogram
        ? wine.Density is { } density && (Int128)dose.NanogramsPerLitre * Million > (Int128)Limit() * density.Millionths
        : dose.NanogramsPerLitre > Limit();

    private long Limit() => row.Value!.Amount + raised;

    private Sentence LimitText() => row.Kind switch
    {
        LimitKind.Min => $"at least {row.Value!.Said}",
        LimitKind.Max when raised > 0 => $"limit {row.Value!.Said} + {Milligrams(new(raised))} (stated case) = {Milligrams(new(Limit()))}",
        LimitKind.Max => Equivalent() is { } same ? $"limit {row.Value!.Said} = {same}" : (Sentence)$"limit {row.Value!.Said}",
        _ => row.Value?.Said ?? "a bar",
    };

    private Sentence Off(string by) => row.Kind == LimitKind.Min ? (Sentence)$"below by {by:figure}" : (Sentence)$"over by {by:figure}";

    private Sentence Added(Sentence amount) => row.Stages switch { WineStages.Must => (Sentence)$"{amount} added to must", WineStages.Wine => (Sentence)$"{amount} added to wine", _ => (Sentence)$"{amount} added" };

    private Sentence? Equivalent() => row.Value is { Unit: LimitUnit.PerLitre } value && !value.Text.EndsWith(" mg/L", StringComparison.Ordinal) ? Milligrams(new(value.Amount)) : null;

    private Sentence Measurement() => substance.Reading.Length > 0 ? $"{substance.Said} ({substance.Reading})" : substance.Said;

    private Verdict New(VerdictKind kind, Sentence arithmetic) => new() { Set = set, Row = row, Substance = substance, Basis = basis, Kind = kind, Arithmetic = arithmetic };

    private Sentence Highest()
    {
        Settle(carried.Highest.NanogramsPerLitre, Limit(), 1);
        return Milligrams(carried.Highest);
    }

    /// <summary>An amount to as many decimals as it takes to come to the same dose again, worked out by hand.</summary>
    private Sentence Grams(SubstanceAmount amount)
    {
        var (places, litres) = (decimals + 4, wine.Volume.Microlitres / Million);
        for (; litres >= 10 && places > 0; litres /= 10) places--;
        var figure = ExactNumber.Write(Rounded(amount.Nanograms / 1000, Math.Min(places, 6)), 6);
        return substance.Unit switch
        {
            MaterialUnit.Milligrams => Sentence.Figure(figure + " g"),
            MaterialUnit.Microlitres => Sentence.Figure(figure + " mL"),
            _ => amount.Nanograms == Million ? "1 piece" : (Sentence)$"{Figure(amount.Nanograms):figure} pieces",
        };
    }

    private Sentence Milligrams(Dose dose) => Sentence.Figure(Figure(dose.NanogramsPerLitre) + PerLitre);

    private string PerLitre => substance.Unit switch { MaterialUnit.Milligrams => " mg/L", MaterialUnit.Microlitres => " µL/L", _ => "/L" };

    private string Figure(long units) => ExactNumber.Write(Rounded(units), 6);

    /// <summary>Shows as many decimals as it takes to see on which side of the limit the value is.</summary>
    private void Settle(long value, long limit, int side)
    {
        while (decimals < 6 && Rounded(value).CompareTo(Rounded(limit)) != side) decimals++;
    }

    private long Rounded(long units) => Rounded(units, decimals);

    // A figure that would vanish is written whole.
    private static long Rounded(long units, int decimals)
    {
        var step = 1L;
        for (var i = decimals; i < 6; i++) step *= 10;
        var rounded = (Math.Abs(units) + step / 2) / step * step;
        return rounded == 0 ? units : units < 0 ? -rounded : rounded;
    }

    // Of hundreds of mg/L a tenth is enough for the eye, of tens a hundredth, of less a thousandth.
    private static int Decimals(long limit) => limit >= 100 * Million ? 1 : limit >= 10 * Million ? 2 : 3;
}
