using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>One row held against a wine; its limit is raised by what increments add, ng/L.</summary>
internal sealed class RowJudgement(LimitSet set, Substance substance, LimitBasis basis, LimitRow row, WineRecord wine, long raised, bool forRelease)
{
    private const long Million = 1_000_000;

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
        var where = row.Stages switch { WineStages.Must => " to must", WineStages.Wine => " to wine", _ => "" };
        if (row.Kind == LimitKind.NoCap) return New(VerdictKind.Within, $"{Milligrams(amount.PerLitre(wine.Volume))} added{where}; allowed, no number.") with { Value = amount.PerLitre(wine.Volume) };
        if (row.Kind == LimitKind.Prohibited)
        {
            var together = row.With is { } with ? $" together with {with.Name}" : "";
            return amount.IsPositive || carried.HasUnstated || (all && carried.Highest.IsPositive)
                ? New(VerdictKind.Over, $"{substance.Name} was added; it is barred{together} at any dose.") with { Value = amount.PerLitre(wine.Volume), Stays = true }
                : New(VerdictKind.Within, $"None added; it is barred{together} at any dose.") with { Room = SubstanceAmount.None };
        }
        // A limit for one treatment looks at the largest; where single treatments aren't known, all of them together within it are enough.
        if (row.PerTreatment && carried.HighestTreatment is { } single)
            return Compare(SubstanceAmount.In(single, wine.Volume), $"{Milligrams(single)} in the largest treatment{where}", stays: true) with { Room = SubstanceAmount.In(new(Limit()), wine.Volume) };
        var verdict = Compare(amount, $"{Grams(amount)} added{where} / {wine.Volume.Litres} L = {Milligrams(amount.PerLitre(wine.Volume))}", stays: true);
        if (row.PerTreatment && verdict.Kind == VerdictKind.Over)
            return verdict with { Kind = VerdictKind.CannotSay, Excess = null, Stays = false, Missing = ["the doses of the single treatments"], Arithmetic = verdict.Arithmetic + " The limit is for one treatment." };
        if (verdict.Kind != VerdictKind.Over && all && OverLimit(carried.Highest))
            return verdict with { Kind = VerdictKind.Over, Stays = true, Room = SubstanceAmount.None, Excess = carried.Highest - new Dose(Limit()), Arithmetic = $"{verdict.Arithmetic} But a part of it had {Milligrams(carried.Highest)}, more than {LimitText()}; a blend doesn't undo that." };
        return carried.HasUnstated && verdict.Kind != VerdictKind.Over
            ? verdict with { Kind = VerdictKind.CannotSay, Missing = ["what the packet holds"], Arithmetic = $"{verdict.Arithmetic} Something was added whose packet doesn't state how much {substance.Name} it holds." }
            : verdict;
    }

    private Verdict OfLevel()
    {
        if (wine.Levels.TryGetValue(substance, out var level))
        {
            var found = level.PerKilogram ? $"{Figure(level.Amount)} mg/kg measured" : $"{Milligrams(new(level.Amount))} measured";
            return CompareLevel((Int128)level.Amount * wine.Volume.Microlitres, level.PerKilogram, found) with { Analyses = level.Entry > 0 ? [level.Entry] : [] };
        }
        var known = wine.Substances.ContainsKey(substance);
        if (!known || (forRelease && carried.Analysed != Analysed.All))
            return New(VerdictKind.CannotSay, $"{substance.Name} was not measured{(known && carried.Analysed == Analysed.Part ? " in all of this wine" : "")}; {LimitText()}. Measure it.") with
            { Missing = [Measurement()], ByAdditions = known && carried.Analysed == Analysed.None };
        var value = carried.Standing.PerLitre(wine.Volume);
        var said = carried.Analysed switch
        {
            Analysed.All => $"{Milligrams(value)} measured",
            Analysed.Part => $"{Milligrams(value)}, measured in part and by additions for the rest",
            _ => $"{Grams(carried.Standing)} added / {wine.Volume.Litres} L = {Milligrams(value)} by additions, not measured",
        };
        var verdict = CompareLevel((Int128)carried.Standing.Nanograms * Million, false, said) with { ByAdditions = carried.Analysed == Analysed.None, Analyses = carried.Analyses };
        // A floor can't be met by additions alone.
        if (row.Kind == LimitKind.Min && carried.Analysed != Analysed.All) return verdict with { Kind = VerdictKind.CannotSay, Missing = [Measurement()] };
        return carried.HasUnstated && verdict.Kind != VerdictKind.Over
            ? verdict with { Kind = VerdictKind.CannotSay, Missing = ["what the packet holds, or a measurement"], Arithmetic = $"{verdict.Arithmetic} Something was added whose packet doesn't state how much {substance.Name} it holds." }
            : verdict;
    }

    private Verdict OfStrength()
    {
        if (wine.Strength is not { } strength) return New(VerdictKind.CannotSay, $"The strength is not stated; {LimitText()}.") with { Missing = ["strength"] };
        var off = row.Kind == LimitKind.Min ? row.Value!.Amount - strength.Hundredths : strength.Hundredths - row.Value!.Amount;
        return New(off > 0 ? VerdictKind.Over : VerdictKind.Within, $"{strength} stated; {LimitText()}{(off > 0 ? $": {(row.Kind == LimitKind.Min ? "below" : "over")} by {ExactNumber.Write(off, 2)} % vol" : "")}.");
    }

    private Verdict Compare(SubstanceAmount amount, string said, bool stays)
    {
        var verdict = CompareLevel((Int128)amount.Nanograms * Million, false, said);
        return verdict with { Stays = stays && verdict.Kind == VerdictKind.Over };
    }

    /// <summary>Compares an amount × 10⁶ (in ng, per kilogram when so measured) with the limit × volume, all whole.</summary>
    private Verdict CompareLevel(Int128 parts, bool valuePerKilogram, string said)
    {
        if (row.Kind == LimitKind.Prohibited) return parts > 0 ? New(VerdictKind.Over, $"{said}; it is barred.") with { Stays = true } : New(VerdictKind.Within, $"{said}; it is barred.");
        if (row.Kind == LimitKind.NoCap) return New(VerdictKind.Within, $"{said}; no number.");
        var limitPerKilogram = row.Value!.Unit == LimitUnit.PerKilogram;
        Int128 volume = wine.Volume.Microlitres, limit = (Int128)Limit() * volume;
        var density = "";
        if (limitPerKilogram != valuePerKilogram)
        {
            if (wine.Density is not { } kilograms) return New(VerdictKind.CannotSay, $"{said}; {LimitText()}, and the density isn't known. Measure the gravity.") with { Missing = ["density (gravity)"] };
            var perLitre = limitPerKilogram ? (Int128)Limit() * kilograms.Millionths / Million : Limit();
            if (limitPerKilogram) { limit *= kilograms.Millionths; parts *= Million; }
            else { parts *= kilograms.Millionths; limit *= Million; }
            density = limitPerKilogram
                ? $" x {kilograms.KilogramsPerLitre} kg/L{(kilograms.IsAssumed ? " (assumed)" : $" ({kilograms.From})")} = {Milligrams(new((long)perLitre))}"
                : $" (value x {kilograms.KilogramsPerLitre} kg/L{(kilograms.IsAssumed ? ", assumed" : "")})";
        }
        var scale = limitPerKilogram != valuePerKilogram ? Million : 1;
        var valuePer = (long)((2 * parts + volume * scale) / (2 * volume * scale));
        var limitPer = (long)(limit / (volume * scale));
        var unit = valuePerKilogram && limitPerKilogram ? "mg/kg" : "mg/L";
        var difference = row.Kind == LimitKind.Min ? limit - parts : parts - limit;
        var over = difference > 0;
        var near = !over && row.Kind == LimitKind.Max && parts * 100 >= limit * set.NearPercent && limit > 0;
        var by = (long)((Int128.Abs(difference) + volume * scale - 1) / (volume * scale));
        var end = over ? $": {(row.Kind == LimitKind.Min ? "below" : "over")} by {Figure((long)(Int128.Abs(difference) / (volume * scale)))} {unit}" : row.Kind == LimitKind.Max ? $": {Figure((long)(Int128.Abs(difference) / (volume * scale)))} {unit} left" : "";
        return New(over ? VerdictKind.Over : near ? VerdictKind.Near : VerdictKind.Within, $"{said}; {LimitText()}{density}{end}.") with
        {
            Value = unit == "mg/L" ? new Dose(valuePer) : null, Limit = unit == "mg/L" ? new Dose(limitPer) : null, Excess = over ? new Dose(by) : null,
            Room = row.Kind == LimitKind.Max && unit == "mg/L" ? new SubstanceAmount(over ? 0 : (long)Int128.Min(-difference / (Million * scale), long.MaxValue)) : null,
        };
    }

    private bool OverLimit(Dose dose) => row.Kind == LimitKind.Max && row.Value!.Unit == LimitUnit.PerKilogram
        ? wine.Density is { } density && (Int128)dose.NanogramsPerLitre * Million > (Int128)Limit() * density.Millionths
        : dose.NanogramsPerLitre > Limit();

    private long Limit() => row.Value!.Amount + raised;

    private string LimitText() => row.Kind switch
    {
        LimitKind.Min => $"at least {row.Value!.Text}",
        LimitKind.Max => raised > 0 ? $"limit {row.Value!.Text} + {Milligrams(new(raised))} (stated case) = {Milligrams(new(Limit()))}" : $"limit {row.Value!.Text}{(Equivalent() is { } same ? $" = {same}" : "")}",
        _ => row.Value?.Text ?? "a bar",
    };

    private string? Equivalent() => row.Value is { Unit: LimitUnit.PerLitre } value && !value.Text.EndsWith(" mg/L", StringComparison.Ordinal) ? Milligrams(new(value.Amount)) : null;

    private string Measurement() => substance.Reading.Length > 0 ? $"{substance.Name} ({substance.Reading})" : substance.Name;

    private Verdict New(VerdictKind kind, string arithmetic) => new() { Set = set, Row = row, Substance = substance, Basis = basis, Kind = kind, Arithmetic = arithmetic };

    private static string Grams(SubstanceAmount amount) => Figure(amount.Nanograms / 1000) + " g";

    private static string Milligrams(Dose dose) => Figure(dose.NanogramsPerLitre) + " mg/L";

    // Three decimals are enough for the eye; a figure that would vanish in them is written whole.
    private static string Figure(long nanograms)
    {
        var rounded = (Math.Abs(nanograms) + 500) / 1000;
        return rounded < 10 ? ExactNumber.Write(nanograms, 6) : ExactNumber.Write(nanograms < 0 ? -rounded : rounded, 3);
    }
}
