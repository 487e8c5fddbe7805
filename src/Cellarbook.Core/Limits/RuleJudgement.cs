using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>
/// Rules that a comparison of two figures alone doesn't settle: how far sugar may raise the strength of a must, by zone and natural strength, and
/// how much water and sugar high-acid juice may take. A missing fact is named; what is over on any reading is over.
/// </summary>
public static class RuleJudgement
{
    // 1 % vol is 16.83 g/L of sugar, so a hundredth is 0.1683 g/L.
    private const long NanogramsOfHundredth = (long)(Enrichment.SugarOfOnePercent * 10_000_000m);

    private static readonly Sentence SugarUnknown = "how much sugar went in, by weight or by the packet";

    /// <summary>A wine against these rules of a set.</summary>
    /// <param name="set">The set.</param>
    /// <param name="wine">The wine.</param>
    /// <param name="asked">True to say how much is allowed even where none went in yet.</param>
    public static IEnumerable<Verdict> Of(LimitSet set, WineRecord wine, bool asked = false)
    {
        if (!wine.IsOfGrapes) yield break;
        if (OfSugar(set, wine, asked) is { } sugar) yield return sugar;
        if (OfWater(set, wine, asked) is { } water) yield return water;
    }

    /// <summary>True for a row that is judged here, and so isn't shown as a rule in words.</summary>
    internal static bool Judges(LimitSet set, LimitRow row) => row is { Kind: LimitKind.Max, Value.Unit: LimitUnit.Strength } && row.Substances.Contains(Substances.Enrichment) && Enrichment.Zones(set.Code, false).Count > 0;

    private static Verdict? OfSugar(LimitSet set, WineRecord wine, bool asked)
    {
        var carried = wine.Substances.GetValueOrDefault(Substances.Enrichment);
        if (!asked && carried is not { AddedInMust.IsPositive: true } and not { HasUnstated: true }) return null;
        var year = wine.Cases.Contains("exceptional-year");
        var zones = Enrichment.Zones(set.Code, year);
        if (zones.Count == 0) return null;
        var dose = (carried?.AddedInMust ?? SubstanceAmount.None).PerLitre(wine.Volume);
        var highest = carried is not null && carried.Highest > dose ? carried.Highest : dose;
        Sentence said = $"{Grams(dose):figure} g/L of sugar in must / {ExactNumber.Write(NanogramsOfHundredth, 7):figure} = + {Hundredths((dose.NanogramsPerLitre + NanogramsOfHundredth / 2) / NanogramsOfHundredth):figure} % vol";
        if (highest > dose) said = $"{said} (a part had {Grams(highest):figure} g/L)";
        var zone = zones.FirstOrDefault(one => one.Zone == wine.Zone);
        var missing = new List<Sentence>();
        if (wine.Zone is null) missing.Add("wine-growing zone");
        else if (zone.Zone is null) missing.Add($"a rule for zone {wine.Zone}");
        if (wine.Natural is null) missing.Add("natural strength of the must");
        var verdict = new Verdict
        {
            Set = set, Row = set.BySubstance[Substances.Enrichment].FirstOrDefault(row => row.Basis == LimitBasis.AddedDose && Judges(set, row) && (wine.Zone is null || row.Zones.Contains(wine.Zone))),
            Substance = Substances.Enrichment, Basis = LimitBasis.AddedDose, Kind = VerdictKind.CannotSay, Missing = missing, Cited = (zones[0].Source, zones[0].Seen),
            Arithmetic = wine.Zone is null ? $"{said}; at most {Sentence.Join(", ", zones.Select(one => (Sentence)$"+ {Hundredths(one.Most):figure} in zone {one.Zone}"))} % vol, and not beyond a cap that depends on the natural strength."
                : zone.Zone is null ? (Sentence)$"{said}; this set has no rule for zone {wine.Zone}." : (Sentence)$"{said}; at most + {Hundredths(zone.Most):figure} % vol in zone {zone.Zone}, and not beyond a cap that depends on the natural strength.",
        };
        // The increase alone is broken whatever the natural strength, or the zone.
        var most = wine.Zone is null ? zones.Max(one => one.Most) : zone.Zone is null ? int.MaxValue : zone.Most;
        if (missing.Count > 0)
            return highest.NanogramsPerLitre > most * NanogramsOfHundredth ? verdict with { Kind = VerdictKind.Over, Missing = [], Stays = true, Excess = new(highest.NanogramsPerLitre - most * NanogramsOfHundredth) }
                : carried?.HasUnstated == true ? verdict with { Missing = [.. missing, SugarUnknown] } : verdict;
        var allowed = Enrichment.In(set.Code, wine.Zone!, wine.Natural!.Value, wine.Colour == WineColours.Red && wine.Cases.Contains("red-derogation"), year)!;
        var limit = allowed.Increase.Hundredths * NanogramsOfHundredth;
        var (over, near) = (highest.NanogramsPerLitre > limit, dose.NanogramsPerLitre * 100 >= limit * set.NearPercent);
        var left = Math.Max(0, limit - dose.NanogramsPerLitre);
        verdict = verdict with
        {
            Kind = over ? VerdictKind.Over : near && dose.IsPositive ? VerdictKind.Near : VerdictKind.Within, Stays = over, Value = dose, Limit = new(limit), Excess = over ? new(highest.NanogramsPerLitre - limit) : null, Room = over ? SubstanceAmount.None : SubstanceAmount.In(new(left), wine.Volume),
            Arithmetic = over ? $"{said}; zone {wine.Zone}, natural strength {wine.Natural.Value.Percent:figure} % vol ({wine.NaturalFrom}): {allowed.Arithmetic}: over by {Grams(new(highest.NanogramsPerLitre - limit)):figure} g/L of sugar."
                : (Sentence)$"{said}; zone {wine.Zone}, natural strength {wine.Natural.Value.Percent:figure} % vol ({wine.NaturalFrom}): {allowed.Arithmetic}: {Grams(new(left)):figure} g/L of sugar left.",
        };
        return carried?.HasUnstated == true && !over ? verdict with { Kind = VerdictKind.CannotSay, Missing = [SugarUnknown], Arithmetic = $"{verdict.Arithmetic} Something went in of which the book doesn't know how much sugar it held." } : verdict;
    }

    private static Verdict? OfWater(LimitSet set, WineRecord wine, bool asked)
    {
        var carried = wine.Substances.GetValueOrDefault(Substances.Amelioration);
        var added = new Volume(carried is null ? 0 : (carried.AddedInMust + carried.AddedInWine).Nanograms);
        if ((!asked && !added.IsPositive) || Amelioration.Rule(set.Code) is not { } rule) return null;
        var juice = wine.Volume - added;
        Sentence said = $"{added.Litres:figure} L of water and sugar in {wine.Volume.Litres:figure} L";
        var verdict = new Verdict { Set = set, Substance = Substances.Amelioration, Basis = LimitBasis.AddedDose, Kind = VerdictKind.CannotSay, Arithmetic = Sentence.Empty, Cited = (rule.Source, rule.Seen) };
        if (!juice.IsPositive || (Int128)added.Microlitres * Percent.Whole.Thousandths > (Int128)wine.Volume.Microlitres * rule.Most.Thousandths)
            return verdict with { Kind = VerdictKind.Over, Stays = true, Arithmetic = $"{said}; at most {rule.Most.Text:figure} % of the whole." };
        if (wine.FixedAcid is not { } acid)
            return verdict with { Missing = ["fixed acid of the juice"], Arithmetic = $"{said}; at most {rule.Most.Text:figure} % of the whole, and less where the juice had little fixed acid: more than {rule.Floor.GramsPerLitre:figure} g/L, and not thinned below that." };
        var allowed = Amelioration.InUs(juice, acid);
        var over = added > allowed.Most;
        return verdict with
        {
            Kind = over ? VerdictKind.Over : added.IsPositive && (Int128)added.Microlitres * 100 >= (Int128)allowed.Most.Microlitres * set.NearPercent ? VerdictKind.Near : VerdictKind.Within, Stays = over,
            Arithmetic = over ? $"{said}; fixed acid {acid.GramsPerLitre:figure} g/L ({wine.FixedAcidFrom}): {allowed.Arithmetic}: over by {(added - allowed.Most).Litres:figure} L."
                : (Sentence)$"{said}; fixed acid {acid.GramsPerLitre:figure} g/L ({wine.FixedAcidFrom}): {allowed.Arithmetic}: {(allowed.Most - added).Litres:figure} L left.",
        };
    }

    private static string Grams(Dose dose) => ExactNumber.Write((dose.NanogramsPerLitre + 500_000) / 1_000_000, 3);

    private static string Hundredths(long hundredths) => ExactNumber.Write(hundredths, 2);
}
