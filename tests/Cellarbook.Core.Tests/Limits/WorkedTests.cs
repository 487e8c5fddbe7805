using Cellarbook.Core.Labels;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;
using Xunit;
using static Cellarbook.Core.Limits.LimitBasis;
using static Cellarbook.Core.Limits.WineColours;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>
/// Worked examples of limits and of label rules, 1 to 25, as published texts and their arithmetic give them. Equality passes. The source of each
/// limit stands in its row of seed/limits or seed/labels; the ones named here are the texts the example is about.
/// </summary>
public class WorkedTests
{
    [Fact] // Reg (EU) 2019/934 Annex I Part B A.1(a)
    public void Worked_1_dry_red_with_151_of_sulphur_dioxide_is_over_by_1()
    {
        Wines.Still(Red, "2").Found("so2", "151").Against("eu", "so2", TotalMeasured).IsOverBy("1");
        Wines.Still(Red, "2").Found("so2", "150").Against("eu", "so2", TotalMeasured).Passes();
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part B A.1(b), A.2(b)
    public void Worked_2_the_boundary_of_5_g_sugar_belongs_to_the_higher_limit()
    {
        var below = Wines.Still(White, "4.9").Found("so2", "230").Against("eu", "so2", TotalMeasured);
        below.IsOverBy("30");
        Assert.Equal(Wines.Mg("200"), below.Limit);
        var at = Wines.Still(White, "5.0").Found("so2", "230").Against("eu", "so2", TotalMeasured);
        at.Passes();
        Assert.Equal(Wines.Mg("250"), at.Limit);
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part B A.1(b) and Part C
    public void Worked_3_rose_shares_the_limits_of_white()
    {
        Wines.Still(Rose, "2").Found("so2", "180").Against("eu", "so2", TotalMeasured).Passes();
        // 19 meq/L x 60.052 mg/meq = 1140.988 mg/L; 1 meq over is 60.052 mg.
        Wines.Still(Rose, "2").Level("volatile-acidity", Level.PerLitre(Wines.Mg("1140.988"))).Against("eu", "volatile-acidity", TotalMeasured).IsOverBy("60.052");
    }

    [Theory] // Reg (EU) 2021/1165 Annex V Part D
    [InlineData("1.9", "100", "10")]
    [InlineData("2.0", "120", null)]
    [InlineData("5.0", "170", null)]
    public void Worked_4_organic_red_has_steps_at_2_and_5_g_sugar(string sugar, string limit, string? over)
    {
        var wine = Wines.Still(Red, sugar).Found("so2", "110") with { Schemes = ["organic"] };
        var verdict = wine.Against("eu-organic", "so2", TotalMeasured);
        Assert.Equal(Wines.Mg(limit), verdict.Limit);
        if (over is null) verdict.Passes();
        else verdict.IsOverBy(over);
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part A Table 2 (potassium sorbate); 27 CFR 24.246 (from memory)
    public void Worked_5_sorbate_is_limited_as_sorbic_acid_and_268_of_the_salt_is_over()
    {
        var over = Wines.Still(White, "2").Added("potassium-sorbate", "268").Against("eu", "sorbic-acid", Residual);
        Assert.Equal(VerdictKind.Over, over.Kind);
        Assert.Equal(200.04m, decimal.Round(over.Value!.Value.NanogramsPerLitre / 1e6m, 2));
        Assert.Equal(0.04m, decimal.Round(over.Excess!.Value.NanogramsPerLitre / 1e6m, 2));
        var within = Wines.Still(White, "2").Added("potassium-sorbate", "267.9").Against("eu", "sorbic-acid", Residual);
        within.Passes();
        Assert.Equal(199.97m, decimal.Round(within.Value!.Value.NanogramsPerLitre / 1e6m, 2));
        Wines.Still(White, "2").Added("potassium-sorbate", "401.9").Against("us", "sorbic-acid", Residual).Passes();
        Assert.Equal(VerdictKind.Over, Wines.Still(White, "2").Added("potassium-sorbate", "402").Against("us", "sorbic-acid", Residual).Kind);
    }

    [Fact] // IUPAC atomic weights, computed
    public void Worked_6_metabisulphite_at_10_g_hL_gives_57_63_mg_L_of_sulphur_dioxide()
    {
        var wine = Wines.Still(White, "2").Added("potassium-metabisulphite", "100");
        Assert.Equal(57.63m, decimal.Round(wine.Substances[Wines.Of("so2")].Standing.PerLitre(wine.Volume).NanogramsPerLitre / 1e6m, 2));
        // + 30 mg/L in 1000 L: 30 g of sulphur dioxide is 52.06 g of the salt.
        var salt = Room.OfProduct(Wines.Of("potassium-metabisulphite"), Wines.Of("so2"), SubstanceAmount.In(Wines.Mg("30"), Volume.OfLitres(1000)));
        Assert.Equal(52.06m, decimal.Round(salt.Nanograms / 1e9m, 2));
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part A Table 2; 27 CFR 24.246 (from memory)
    public void Worked_7_a_lawful_dose_of_copper_sulphate_breaks_the_limit_of_copper_left()
    {
        var wine = Wines.Still(White, "2").Added("copper-sulphate-pentahydrate", "10");
        wine.Against("eu", "copper-sulphate-pentahydrate", AddedDose).Passes();
        var copper = wine.Against("eu", "copper", Residual);
        Assert.Equal(VerdictKind.Over, copper.Kind);
        Assert.Equal(2.545m, decimal.Round(copper.Value!.Value.NanogramsPerLitre / 1e6m, 3));
        Assert.True(copper.ByAdditions);
        Assert.False(copper.Stays);
        wine.Found("copper", "0.4").Against("eu", "copper", Residual).Passes();
        // 6 mg/L of copper is 23.57 mg/L of the salt.
        var salt = Room.OfProduct(Wines.Of("copper-sulphate-pentahydrate"), Wines.Of("copper"), SubstanceAmount.In(Wines.Mg("6"), Volume.OfLitres(1)));
        Assert.Equal(23.57m, decimal.Round(salt.Nanograms / 1e6m, 2));
        Wines.Still(White, "2").Added("copper-sulphate-pentahydrate", "23.57").Against("us", "copper", AddedDose).Passes();
        Assert.Equal(VerdictKind.Over, Wines.Still(White, "2").Added("copper-sulphate-pentahydrate", "23.58").Against("us", "copper", AddedDose).Kind);
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part A Table 2 -> OIV 2.2.6, 3.4.12; weighting by volume is a choice of modelling
    public void Worked_8_lysozyme_is_weighted_by_volume_and_the_highest_part_is_kept()
    {
        var lysozyme = Wines.Of("lysozyme");
        var first = Blend(600, "300", 400, "0");
        Assert.Equal((Wines.Mg("180"), SubstanceAmount.In(Wines.Mg("320"), first.Volume)), (first.Against("eu", "lysozyme", AddedDose).Value, first.Against("eu", "lysozyme", AddedDose).Room));
        var second = Blend(600, "300", 400, "500");
        var verdict = second.Against("eu", "lysozyme", AddedDose);
        Assert.Equal((Wines.Mg("380"), SubstanceAmount.In(Wines.Mg("120"), second.Volume)), (verdict.Value, verdict.Room));
        Assert.Equal(Wines.Mg("500"), second.Substances[lysozyme].Highest);
        // What a part had too much of, a blend doesn't undo.
        var third = Blend(600, "0", 400, "510").Against("eu", "lysozyme", AddedDose);
        Assert.Equal((VerdictKind.Over, true, Wines.Mg("204")), (third.Kind, third.Stays, third.Value));

        WineRecord Blend(int litres, string dose, int otherLitres, string other)
        {
            var amount = SubstanceAmount.In(Wines.Mg(dose), Volume.OfLitres(litres)) + SubstanceAmount.In(Wines.Mg(other), Volume.OfLitres(otherLitres));
            var highest = Wines.Mg(dose) > Wines.Mg(other) ? Wines.Mg(dose) : Wines.Mg(other);
            var wine = Wines.Still(White, "2", litres + otherLitres);
            return wine with { Substances = wine.Substances.SetItem(lysozyme, new(lysozyme) { AddedInWine = amount, Standing = amount, Highest = highest }) };
        }
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part A Table 2 before and after Reg (EU) 2024/3085
    public void Worked_9_the_limit_of_the_production_day_holds_for_ascorbic_acid()
    {
        Wines.Still(White, "2", day: "2024-12-28").Found("ascorbic-acid", "280").Against("eu", "ascorbic-acid", Residual).IsOverBy("30");
        Wines.Still(White, "2", day: "2024-12-29").Found("ascorbic-acid", "280").Against("eu", "ascorbic-acid", Residual).Passes();
        Wines.Still(White, "2", day: "2024-12-28").Added("ascorbic-acid", "260").Against("eu", "ascorbic-acid", AddedDose).IsOverBy("10");
        Wines.Still(White, "2", day: "2024-12-29").Added("ascorbic-acid", "260").Against("eu", "ascorbic-acid", AddedDose).IsOverBy("10");
    }

    [Fact] // Reg (EU) 1308/2013 Annex VIII Part I C as replaced by Reg (EU) 2021/2117
    public void Worked_10_acid_is_summed_over_must_and_wine_as_tartaric_and_excludes_enrichment()
    {
        Acid("1500", "2500").Passes();
        Acid("1500", "2600").IsOverBy("100");
        // 3.6 g/L of malic acid x 1.1193 = 4.03 g/L as tartaric acid.
        var malic = Wines.Still(White, "2").Added("malic-acid", "3600").Against("eu", "acidification-tartaric", AddedDose);
        Assert.Equal(VerdictKind.Over, malic.Kind);
        Assert.Equal(0.03m, decimal.Round(malic.Excess!.Value.NanogramsPerLitre / 1e9m, 2));
        var enriched = Wines.Still(White, "2").Added("tartaric-acid", "100").Added("enrichment", "1000", WineStages.Must);
        Assert.Equal(VerdictKind.Over, enriched.Against("eu", "acidification-tartaric", AddedDose, verdict => verdict.Row?.With?.Code == "enrichment").Kind);

        static Verdict Acid(string must, string wine) =>
            Wines.Still(White, "2").Added("tartaric-acid", must, WineStages.Must).Added("tartaric-acid", wine).Against("eu", "acidification-tartaric", AddedDose);
    }

    [Fact] // Reg (EU) 1308/2013 Annex VIII Part I C; IUPAC atomic weights
    public void Worked_11_taking_1_2_g_L_of_acidity_away_is_over_by_0_2()
    {
        var chalk = Room.OfProduct(Wines.Of("calcium-carbonate"), Wines.Of("deacidification-tartaric"), SubstanceAmount.In(Wines.Grams("1"), Volume.OfLitres(1000)));
        Assert.Equal(0.6669m, decimal.Round(chalk.Nanograms / 1e12m, 4));
        var wine = Wines.Still(White, "2");
        var deacidified = wine.Adding(Wines.Of("calcium-carbonate"), new SubstanceAmount(chalk.Nanograms * 12 / 10), WineStages.Wine).Against("eu", "deacidification-tartaric", AddedDose);
        Assert.Equal(VerdictKind.Over, deacidified.Kind);
        Assert.Equal(0.2m, decimal.Round(deacidified.Excess!.Value.NanogramsPerLitre / 1e9m, 4));
        wine.Adding(Wines.Of("deacidification-tartaric"), Wines.Grams("1.2"), WineStages.Wine).Against("eu", "deacidification-tartaric", AddedDose).IsOverBy("200");
    }

    [Theory] // Reg (EU) 1308/2013 Annex VIII Part I A.2-3, B.6-7
    [InlineData(900, false, 1150, 250, "42.1")]
    [InlineData(800, false, 1100, 300, "50.5")]
    [InlineData(900, true, 1200, 300, "50.5")]
    public void Worked_12_zone_A_is_enriched_by_3_and_not_beyond_the_cap(int natural, bool redByDerogation, int total, int increase, string sucrose)
    {
        var enrichment = Enrichment.InEu("A", new(natural), redByDerogation)!;
        Assert.Equal((new Strength(total), new Strength(increase)), (enrichment.Total, enrichment.Increase));
        Assert.Equal(sucrose, decimal.Round(enrichment.SucroseGramsPerLitre, 1, MidpointRounding.AwayFromZero).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture));
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part C; 27 CFR 4.21(a)(1)(iv)
    public void Worked_13_volatile_acidity_counts_in_milliequivalents_in_the_EU()
    {
        var over = Va("1100").Against("eu", "volatile-acidity", TotalMeasured);
        Assert.Equal(VerdictKind.Over, over.Kind);
        Assert.Equal(0.32m, decimal.Round(over.Excess!.Value.NanogramsPerLitre / 60_052_000m, 2));
        Va("1100").Against("us", "volatile-acidity", TotalMeasured).Passes();
        Va("1080").Against("eu", "volatile-acidity", TotalMeasured).Passes();
        Assert.Equal(VerdictKind.Over, Va("1081").Against("eu", "volatile-acidity", TotalMeasured).Kind);

        static WineRecord Va(string mg) => Wines.Still(White, "2").Level("volatile-acidity", Level.PerLitre(Wines.Mg(mg)));
    }

    [Theory] // Reg (EU) 2019/33 Annex III Part B as replaced by Reg (EU) 2023/1606
    [InlineData("8.0", "6.0", "dry")]
    [InlineData("9.0", "6.9", "medium dry")]
    [InlineData("9.0", "7.0", "dry")]
    [InlineData("15", "5.0", "medium dry")]
    [InlineData("15", "4.9", "medium")]
    [InlineData("4", null, "dry")]
    [InlineData("45", null, "sweet")]
    public void Worked_14_terms_of_still_wine_depend_on_acidity(string sugar, string? acidity, string term) =>
        Assert.Equal(term, SugarTerm.Still(Wines.Grams(sugar), acidity is null ? null : Wines.Grams(acidity)));

    [Fact] // Reg (EU) 2019/33 Annex III Part A and Art. 47
    public void Worked_15_brut_ends_below_12_and_the_tolerance_is_read_in_two_ways()
    {
        Assert.Equal(["brut"], SugarTerm.Sparkling(Wines.Grams("11.9"), dosed: true));
        Assert.Equal(["extra dry"], SugarTerm.Sparkling(Wines.Grams("12.0"), dosed: true));
        Assert.Equal(["extra brut", "brut"], SugarTerm.Sparkling(Wines.Grams("2"), dosed: true));
        Assert.Equal(["brut nature", "extra brut", "brut"], SugarTerm.Sparkling(Wines.Grams("2"), dosed: false));
        Assert.False(SugarTerm.SparklingMayCarry("brut", Wines.Grams("14.0"), lenient: false));
        Assert.True(SugarTerm.SparklingMayCarry("brut", Wines.Grams("14.0"), lenient: true));
        Assert.False(SugarTerm.SparklingMayCarry("brut", Wines.Grams("15.1"), lenient: true));
    }

    [Fact] // Reg (EU) 2019/33 Art. 44; 27 CFR 4.36
    public void Worked_16_a_label_shows_half_units_within_half_a_per_cent()
    {
        Assert.Equal([new Strength(1250), new Strength(1300)], AlcoholStatement.EuLabels(new(1274)));
        Assert.DoesNotContain(new Strength(1200), AlcoholStatement.EuLabels(new(1274)));
        Assert.False(AlcoholStatement.UsMayCarry(new(1400), new(1420)));
        Assert.True(AlcoholStatement.UsMayCarry(new(1450), new(1420)));
    }

    [Theory] // Guidance stating the table of Dir 76/211/EEC
    [InlineData(750, 735, Fill.Passes, "15")]
    [InlineData(750, 734, Fill.Defective, "15")]
    [InlineData(750, 719, Fill.NotSaleable, "15")]
    [InlineData(187, 187, Fill.Passes, "8.5")]
    [InlineData(375, 375, Fill.Passes, "11.3")]
    public void Worked_17_a_bottle_may_be_short_by_the_tolerable_error(int nominal, int found, Fill fill, string error)
    {
        Assert.Equal(fill, FillTolerance.Judge(Volume.OfMillilitres(nominal), Volume.OfMillilitres(found)));
        Assert.Equal(error, new Millilitres(FillTolerance.TolerableError(Volume.OfMillilitres(nominal))!.Value).Text);
    }

    [Fact] // Reg (EU) 1169/2011 Annex XIV
    public void Worked_18_energy_is_summed_at_full_precision_and_rounded_once()
    {
        var energy = EnergyStatement.Of(new(1300), Wines.Grams("3"), Wines.Grams("7"), Wines.Grams("5.5"));
        Assert.Equal((317, 76), (energy.Kilojoules, energy.Kilocalories));
        Assert.Equal((316.8m, 76.35m), (decimal.Round(energy.ExactKilojoules, 1), decimal.Round(energy.ExactKilocalories, 2)));
    }

    [Theory] // 26 USC 5383(b)
    [InlineData("8", "390", "350", "350")]
    [InlineData("7", "260", "350", "260")]
    [InlineData("5.0", "0", "0", "0")]
    public void Worked_19_amelioration_is_held_by_acid_and_by_share(string acid, string byAcid, string byShare, string most)
    {
        var allowed = Amelioration.InUs(Volume.OfLitres(650), Wines.Grams(acid));
        Assert.Equal((byAcid, byShare, most), (allowed.ByAcid.Litres, allowed.ByShare.Litres, allowed.Most.Litres));
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part A Table 2; 27 CFR 24.246 (from memory)
    public void Worked_20_ammonium_salts_share_one_limit()
    {
        var wine = Wines.Still(White).Added("dap", "700", WineStages.Must).Added("ammonium-sulphate", "400", WineStages.Must);
        wine.Against("eu", "ammonium-salts", AddedDose).IsOverBy("100");
        var dap = Wines.Still(White).Added("dap", "700", WineStages.Must);
        Assert.Equal(148.5m, decimal.Round(dap.Substances[Wines.Of("yan")].Standing.PerLitre(dap.Volume).NanogramsPerLitre / 1e6m, 1));
        var us = dap.Against("us", "dap", AddedDose);
        us.Passes();
        Assert.Equal(0.9586m, decimal.Round(us.Limit!.Value.NanogramsPerLitre / 1e9m, 4));
    }

    [Fact] // Reg (EU) 2023/915 Annex I
    public void Worked_21_the_limit_of_lead_follows_the_harvest_year()
    {
        Lead(2021).Passes();
        var over = Lead(2022);
        Assert.Equal(VerdictKind.Over, over.Kind);
        Assert.Contains("over by 0.02 mg/kg", over.Arithmetic.ToString(), StringComparison.Ordinal);

        static Verdict Lead(int year) => (Wines.Still(Red, "2") with { HarvestFrom = year, HarvestTo = year }).Level("lead", new(120_000, PerKilogram: true)).Against("eu", "lead", TotalMeasured);
    }

    [Fact] // Reg (EU) 2019/934 Annex I Part A Table 2 -> OIV 3.3.14
    public void Worked_22_cellulose_gum_is_barred_in_still_red_and_passes_in_rose()
    {
        var red = Judgement.Of(LawSets.Find("eu")!, Wines.Still(Red, "2").Added("cmc", "100")).Verdicts.Single(verdict => verdict.Substance.Code == "cmc");
        Assert.Equal((VerdictKind.Over, true), (red.Kind, red.Stays));
        Wines.Still(Rose, "2").Added("cmc", "100").Against("eu", "cmc", AddedDose).Passes();
    }

    [Fact] // OIV Compendium, Annex C (methanol); technical literature (what dimethyl dicarbonate gives)
    public void Worked_23_dimethyl_dicarbonate_brings_methanol()
    {
        var wine = Wines.Still(White, "2").Found("methanol", "170").Added("dmdc", "200");
        var methanol = wine.Against("oiv", "methanol", TotalMeasured);
        Assert.Equal(VerdictKind.Over, methanol.Kind);
        Assert.Equal((265.6m, 15.6m), (decimal.Round(methanol.Value!.Value.NanogramsPerLitre / 1e6m, 1), decimal.Round(methanol.Excess!.Value.NanogramsPerLitre / 1e6m, 1)));
    }

    [Theory] // Codex GSFA category 14.2.3 (CXS 192)
    [InlineData(992_000, "347.2")]
    [InlineData(1_050_000, "367.5")]
    public void Worked_24_a_limit_per_kilogram_is_multiplied_by_density(long density, string limit)
    {
        var wine = Wines.Still(White, "2") with { Density = new(density, false, "test") };
        wine.Found("so2", limit).Against("codex", "so2", Residual).Passes();
        Assert.Equal(Wines.Mg(limit), wine.Found("so2", limit).Against("codex", "so2", Residual).Limit);
        wine.Found("so2", (decimal.Parse(limit, System.Globalization.CultureInfo.InvariantCulture) + 0.1m).ToString(System.Globalization.CultureInfo.InvariantCulture)).Against("codex", "so2", Residual).IsOverBy("0.1");
        Assert.Equal(["density (gravity)"], (wine with { Density = null }).Found("so2", limit).Against("codex", "so2", Residual).Missing);
        Assert.Contains("(assumed)", (wine with { Density = LawSets.AssumedDensity }).Found("so2", "300").Against("codex", "so2", Residual).Arithmetic.ToString(), StringComparison.Ordinal);
    }

    [Fact] // Reg (EU) 1169/2011 Annex II points 4 and 12; 27 CFR 4.32(e) (from memory)
    public void Worked_25_sulphites_are_stated_above_10_in_the_EU_and_from_10_in_the_US()
    {
        Assert.False(AllergenStatement.Sulphites("EU", Wines.Mg("10")).Needed);
        Assert.False(AllergenStatement.Sulphites("UK", Wines.Mg("10")).Needed);
        Assert.True(AllergenStatement.Sulphites("US", Wines.Mg("10")).Needed);
        Assert.True(AllergenStatement.Sulphites("EU", Wines.Mg("10.1")).Needed);
        Assert.False(AllergenStatement.Fining(Wines.Of("isinglass"))!.Needed);
        Assert.Null(AllergenStatement.Fining(Wines.Of("egg-albumin"))!.Needed);
        Assert.Null(AllergenStatement.Fining(Wines.Of("bentonite")));
    }
}
