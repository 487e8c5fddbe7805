using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;
using CsCheck;
using Xunit;
using static Cellarbook.Core.Limits.LimitBasis;
using static Cellarbook.Core.Limits.WineColours;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>What a verdict says, what it needs, and that it never flatters.</summary>
public class JudgementTests
{
    [Fact]
    public void What_is_known_by_additions_alone_is_called_so_and_cannot_go_to_market_so()
    {
        var wine = Wines.Still(Red, "2").Added("potassium-metabisulphite", "100");
        var cellar = wine.Against("eu", "so2", TotalMeasured);
        Assert.True(cellar.ByAdditions);
        Assert.Contains("by additions, not measured", cellar.Arithmetic.ToString(), StringComparison.Ordinal);
        var release = Judgement.Of(LawSets.Find("eu")!, wine, forRelease: true).Verdicts.Single(verdict => verdict.Substance.Code == "so2");
        Assert.Equal((VerdictKind.CannotSay, "sulphur dioxide (totalSo2MgPerLitre)"), (release.Kind, Assert.Single(release.Missing)));
    }

    [Fact]
    public void A_limit_that_needs_the_colour_says_so_unless_the_wine_passes_on_every_reading()
    {
        Assert.Equal(VerdictKind.Within, Wines.Still(null, null).Found("so2", "80").Against("eu", "so2", TotalMeasured).Kind);
        var open = Wines.Still(null, null).Found("so2", "180").Against("eu", "so2", TotalMeasured);
        Assert.Equal(VerdictKind.CannotSay, open.Kind);
        Assert.Contains("colour", open.Missing);
        Assert.Contains("residual sugar", open.Missing);
        Assert.Equal(VerdictKind.Over, Wines.Still(null, null).Found("so2", "260").Against("eu", "so2", TotalMeasured).Kind);
    }

    [Fact]
    public void Near_begins_at_the_part_that_the_set_states()
    {
        Assert.Equal(VerdictKind.Within, Wines.Still(Red, "2").Found("so2", "134.999").Against("eu", "so2", TotalMeasured).Kind);
        Assert.Equal(VerdictKind.Near, Wines.Still(Red, "2").Found("so2", "135").Against("eu", "so2", TotalMeasured).Kind);
        Assert.Equal(VerdictKind.Near, Wines.Still(Red, "2").Found("so2", "150").Against("eu", "so2", TotalMeasured).Kind);
    }

    [Fact]
    public void A_stated_case_gives_its_own_limit_or_raises_it()
    {
        var sweet = Wines.Still(White, "60").Found("so2", "290");
        Assert.Equal(VerdictKind.Over, sweet.Against("eu", "so2", TotalMeasured).Kind);
        (sweet with { Cases = ["list-300"] }).Against("eu", "so2", TotalMeasured).Passes();
        (sweet with { Cases = ["exceptional-year"] }).Against("eu", "so2", TotalMeasured).Passes();
        // The increment adds to limits below 300 only.
        Assert.Equal(VerdictKind.Over, (sweet.Found("so2", "310") with { Cases = ["list-300", "exceptional-year"] }).Against("eu", "so2", TotalMeasured).Kind);
    }

    [Fact]
    public void The_purpose_decides_the_ceiling_of_chitosan()
    {
        Assert.Equal(VerdictKind.Within, Wines.Still(White).Added("chitosan", "80").Against("eu", "chitosan", AddedDose).Kind);
        var open = Wines.Still(White).Added("chitosan", "400").Against("eu", "chitosan", AddedDose);
        Assert.Equal(VerdictKind.CannotSay, open.Kind);
        Assert.Contains("against microbes", Assert.Single(open.Missing).ToString(), StringComparison.Ordinal);
        Assert.Equal(VerdictKind.Over, (Wines.Still(White).Added("chitosan", "400") with { Cases = ["for-microbes"] }).Against("eu", "chitosan", AddedDose).Kind);
        Assert.Equal(VerdictKind.Over, Wines.Still(White).Added("chitosan", "5001").Against("eu", "chitosan", AddedDose).Kind);
    }

    [Fact]
    public void What_is_barred_is_over_at_any_dose_and_stays_so()
    {
        var wine = Wines.Still(White, "2").Added("lysozyme", "0.000001") with { Schemes = ["organic"] };
        var verdict = Judgement.Of(LawSets.Find("eu-organic")!, wine).Verdicts.Single(one => one.Substance.Code == "lysozyme");
        Assert.Equal((VerdictKind.Over, true), (verdict.Kind, verdict.Stays));
    }

    [Fact]
    public void A_packet_that_states_no_content_leaves_the_verdict_open()
    {
        var wine = Wines.Still(Red, "2");
        wine = wine with { Substances = wine.Substances.SetItem(Wines.Of("so2"), new(Wines.Of("so2")) { HasUnstated = true }) };
        var verdict = wine.Against("eu", "so2", TotalMeasured);
        Assert.Equal(VerdictKind.CannotSay, verdict.Kind);
        Assert.Contains("packet doesn't state", verdict.Arithmetic.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_law_does_not_name_is_not_passed_over()
    {
        var verdict = Judgement.Of(LawSets.Find("eu")!, Wines.Still(White, "2").Added("benzoic-acid", "10")).Verdicts.Single(one => one.Substance.Code == "benzoic-acid");
        Assert.Equal(VerdictKind.CannotSay, verdict.Kind);
        Assert.Contains("closed", verdict.Arithmetic.ToString(), StringComparison.Ordinal);
        var inMust = Judgement.Of(LawSets.Find("eu")!, Wines.Still(White).Added("metatartaric-acid", "50", WineStages.Must)).Verdicts.Where(one => one.Substance.Code == "metatartaric-acid");
        Assert.Contains(inMust, one => one.Kind == VerdictKind.CannotSay);
    }

    [Fact]
    public void Rules_in_words_are_shown_as_notes()
    {
        var judged = Judgement.Of(LawSets.Find("eu")!, Wines.Still(White, "2").Added("potassium-ferrocyanide", "10"));
        Assert.Contains(judged.Notes, row => row.Note.Contains("assay", StringComparison.Ordinal));
        Assert.Contains(judged.NotMeasured, substance => substance.Code == "lead");
    }

    [Fact]
    public void A_floor_is_not_met_without_a_measurement()
    {
        Assert.Equal(VerdictKind.CannotSay, Wines.Still(White, "2").Against("eu", "total-acidity", TotalMeasured).Kind);
        Wines.Still(White, "2").Level("total-acidity", Level.PerLitre(Wines.Grams("3.4"))).Against("eu", "total-acidity", TotalMeasured).IsOverBy("100");
        Wines.Still(White, "2").Level("total-acidity", Level.PerLitre(Wines.Grams("3.5"))).Against("eu", "total-acidity", TotalMeasured).Passes();
    }

    [Fact]
    public void More_never_makes_a_verdict_better() =>
        Gen.Select(Gen.OneOf<LimitSet>([.. LawSets.All]), AnyProduct, Gen.Long[1, 20_000_000_000], Gen.Long[1, 20_000_000_000], Gen.OneOf(WineStages.Must, WineStages.Wine), AnyWine).Sample((set, product, dose, more, stage, wine) =>
        {
            var first = Judgement.Of(set, wine.Adding(product, new Dose(dose), stage));
            var second = Judgement.Of(set, wine.Adding(product, new Dose(dose), stage).Adding(product, new Dose(more), stage));
            foreach (var before in first.Verdicts.Where(verdict => verdict.Kind == VerdictKind.Over && verdict.Row?.Kind != LimitKind.Min && verdict.Row?.PerTreatment != true))
                Assert.Contains(second.Verdicts, after => after.Substance == before.Substance && after.Basis == before.Basis && after.Kind == VerdictKind.Over);
            foreach (var after in second.Verdicts.Where(verdict => verdict.Kind == VerdictKind.Within && verdict.Row?.Kind == LimitKind.Max))
                Assert.DoesNotContain(first.Verdicts, before => before.Substance == after.Substance && before.Basis == after.Basis && before.Row == after.Row && before.Kind is VerdictKind.Over or VerdictKind.Near);
        }, iter: 3_000);

    [Fact]
    public void Room_and_what_is_there_make_the_limit() =>
        Gen.Select(Gen.Long[0, 20_000], Gen.Int[1, 5_000], AnyProduct).Sample((mg, litres, product) =>
        {
            var wine = Wines.Still(White, "2", litres).Adding(product, new Dose(mg * 1_000_000), WineStages.Wine);
            foreach (var verdict in LawSets.All.SelectMany(set => Judgement.Of(set, wine).Verdicts).Where(verdict => verdict.Row is { Kind: LimitKind.Max, Value.Unit: LimitUnit.PerLitre, PerTreatment: false } && verdict.Kind is VerdictKind.Within or VerdictKind.Near && verdict.Substance == product))
                Assert.Equal(SubstanceAmount.In(verdict.Limit!.Value, wine.Volume), verdict.Room!.Value + SubstanceAmount.In(verdict.Value!.Value, wine.Volume));
        }, iter: 500);

    [Fact]
    public void What_the_room_allows_passes_and_one_unit_more_does_not() =>
        Gen.Select(Gen.OneOf<LimitSet>([.. LawSets.All]), Gen.OneOf("potassium-metabisulphite", "potassium-sorbate", "tartaric-acid", "malic-acid", "lysozyme", "dap", "copper-sulphate-pentahydrate", "metatartaric-acid"), Gen.Long[0, 100_000_000], Gen.Int[1, 5_000]).Sample((set, code, dose, litres) =>
        {
            var product = Wines.Of(code);
            var stage = code == "dap" ? WineStages.Must : WineStages.Wine;
            var wine = Wines.Still(White, "2", litres) with { Schemes = ["organic"], Stage = stage };
            if (dose > 0) wine = wine.Adding(product, new Dose(dose), stage);
            var room = Room.Of([set], wine, product);
            if (room.Most is not { IsPositive: true } most) return;
            Assert.DoesNotContain(Judgement.Of(set, wine.Adding(product, most, stage)).Verdicts, verdict => verdict.Kind == VerdictKind.Over && (verdict.Substance == product || product.Towards.Any(one => one.Other == verdict.Substance)));
            // A unit of the product may round to nothing of what it counts towards: ten are more than any rounding.
            Assert.Contains(Judgement.Of(set, wine.Adding(product, most + new SubstanceAmount(10), stage)).Verdicts, verdict => verdict.Kind == VerdictKind.Over);
        }, iter: 2_000);

    [Fact]
    public void The_order_of_rows_does_not_matter() =>
        Gen.Select(Gen.OneOf<LimitSet>([.. LawSets.All]), AnyProduct, Gen.Long[0, 10_000_000_000], AnyWine, Gen.Int).Sample((set, product, dose, wine, seed) =>
        {
            var shuffled = set.Rows.ToArray();
            new Random(seed).Shuffle(shuffled);
            var dosed = dose == 0 ? wine : wine.Adding(product, new Dose(dose), WineStages.Wine);
            Assert.Equal(Told(Judgement.Of(set, dosed)), Told(Judgement.Of(set with { Rows = shuffled }, dosed)));

            static string[] Told(SetVerdict judged) => [.. judged.Verdicts.Select(verdict => $"{verdict.Substance.Code} {verdict.Basis} {verdict.Kind} {verdict.Room} {verdict.Excess} {verdict.Row?.Number}").Order(StringComparer.Ordinal)];
        }, iter: 1_000);

    private static readonly Gen<Substance> AnyProduct = Gen.OneOf<Substance>([.. Substances.All.Where(substance => substance.Role is "additive" or "processing-aid" or "both")]);

    private static readonly Gen<WineRecord> AnyWine = Gen.Select(Gen.OneOf(Red, White, Rose, WineColours.None), Gen.Int[-1, 60], Gen.Int[1, 3_000], Gen.Int[2015, 2026]).Select((colour, sugar, litres, year) =>
        Wines.Still(colour == WineColours.None ? null : colour, sugar < 0 ? null : sugar.ToString(System.Globalization.CultureInfo.InvariantCulture), litres, $"{year}-06-01"));

    [Fact]
    public void What_a_verdict_works_out_can_be_worked_out_again_by_hand() => Gen.Select(Gen.Int[1, 5_000_000], Gen.Int[1, 400_000], Gen.Bool).Sample((millilitres, thousandths, measured) =>
    {
        var dose = (thousandths / 1000m).ToString(System.Globalization.CultureInfo.InvariantCulture);
        var wine = Wines.Still(Red, "2") with { Volume = Volume.OfMillilitres(millilitres) };
        var verdict = (measured ? wine.Found("so2", dose) : wine.Added("so2", dose)).Against("eu", "so2", TotalMeasured);
        var said = System.Text.RegularExpressions.Regex.Match(verdict.Arithmetic.ToString(), "^((?<grams>[0-9.]+) g added / (?<litres>[0-9.]+) L = )?(?<value>[0-9.]+) mg/L (by additions, not )?measured; limit 150 mg/L: (?<over>over by )?(?<off>[0-9.]+) mg/L( left)?\\.$");
        Assert.True(said.Success, verdict.Arithmetic.ToString());
        var (value, off) = (Decimal("value"), Decimal("off"));
        Assert.Equal(said.Groups["over"].Success ? value - 150 : 150 - value, off);
        Assert.Equal(verdict.Kind == VerdictKind.Over, said.Groups["over"].Success);
        // To the last tenth shown: half of it was rounded away, and a little of the grams.
        if (said.Groups["grams"].Success) Assert.InRange(Decimal("grams") / Decimal("litres") * 1000 - value, -0.06m, 0.06m);

        decimal Decimal(string group) => decimal.Parse(said.Groups[group].Value, System.Globalization.CultureInfo.InvariantCulture);
    });
}
