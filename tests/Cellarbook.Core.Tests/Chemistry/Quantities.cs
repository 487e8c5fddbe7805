using Cellarbook.Core.Chemistry;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Which formula of the core answers which quantity of the check rows.</summary>
internal static class Quantities
{
    private const double Glass = Alcoholmeter.SodaLimeGlassPerKelvin;
    private const double SixtyF = AlcoholicStrength.SixtyFahrenheitCelsius;

    public static readonly IReadOnlyDictionary<string, Func<CheckRow, double>> ByName = new Dictionary<string, Func<CheckRow, double>>
    {
        ["water_density"] = r => WaterDensity.KgPerCubicMetre(r["t_c"]),
        ["water_density_kell"] = r => WaterDensity.KellKgPerCubicMetre(r["t_c"]),
        ["water_density_r22"] = r => EthanolWater.KgPerCubicMetre(0, r["t_c"]),
        ["r22_density_mass"] = r => EthanolWater.KgPerCubicMetre(r["mass_pct"] / 100, r["t_c"]),
        ["r22_density_abv"] = r => AlcoholicStrength.KgPerCubicMetre(r["abv20"], r["t_c"]),
        ["mass_pct_from_abv20"] = r => 100 * AlcoholicStrength.MassFractionFromAbv(r["abv20"]),
        ["abv20_from_mass_pct"] = r => AlcoholicStrength.AbvFromMassFraction(r["mass_pct"] / 100),
        ["abv20_from_density"] = r => AlcoholicStrength.AbvFromDensity(r["rho_kg_m3"], r["t_c"]),
        ["mass_pct_from_abv60f"] = r => 100 * AlcoholicStrength.MassFractionFromAbv60Fahrenheit(r["abv60f"]),
        ["abv60f_from_abv20"] = r => AlcoholicStrength.Abv60FahrenheitFromAbv(r["abv20"]),
        ["sg_air_60f_from_abv60f"] = r => InAir(r["abv60f"], SixtyF),
        ["sg_air_25c_from_abv60f"] = r => InAir(r["abv60f"], 25),
        ["sg_60f_pure_ethanol"] = _ => EthanolWater.KgPerCubicMetre(1, SixtyF) / EthanolWater.KgPerCubicMetre(0, SixtyF),

        ["must_density_from_brix"] = r => MustTable.DensityKgPerLitre(r["brix"]),
        ["must_sugar_g_l_from_brix"] = r => MustTable.SugarGramsPerLitre(r["brix"]),
        ["must_sugar_g_kg_from_brix"] = r => MustTable.SugarGramsPerKilogram(r["brix"]),
        ["must_ri_from_brix"] = r => MustTable.RefractiveIndex(r["brix"]),
        ["potential_abv_from_brix"] = r => PotentialAlcohol.AbvFromSugar(MustTable.SugarGramsPerLitre(r["brix"]), r["g_l_per_pct"]),
        ["potential_abv_from_sugar"] = r => PotentialAlcohol.AbvFromSugar(r["sugar_g_l"], r["g_l_per_pct"]),
        ["potential_abv_from_sg2020"] = r => PotentialAlcohol.AbvFromGravity(r["sg"], r["g_l_per_pct"]),
        ["must_sugar_from_sg2020"] = r => MustTable.SugarGramsPerLitreFromGravity(r["sg"]),
        ["g_l_per_pct_from_yield"] = r => PotentialAlcohol.FactorFromYield(r["yield_g_g"]),
        ["yield_from_g_l_per_pct"] = r => PotentialAlcohol.YieldFromFactor(r["g_l_per_pct"]),
        ["brix_from_sg2020"] = r => BrixScale.FromGravity(r["sg"]),
        ["sg2020_from_brix"] = r => BrixScale.ToGravity(r["brix"]),
        ["plato_from_sg2020"] = r => BrixScale.PlatoFromGravity(r["sg"]),
        ["sucrose_density"] = r => SucroseDensity.KgPerCubicMetre(r["brix"] / 100, r["t_c"]),
        ["sucrose_sg"] = r => SucroseDensity.Gravity(r["brix"] / 100, r["t_c"]),
        ["oechsle_from_sg2020"] = r => MustScales.OechsleFromGravity(r["sg"]),
        ["natural_abv_de"] = r => GermanNaturalStrength.Abv(r["oechsle"]),
        ["oechsle_from_kmw"] = r => MustScales.OechsleFromKmw(r["kmw"]),
        ["kmw_from_oechsle"] = r => MustScales.KmwFromOechsle(r["oechsle"]),
        ["baume_from_sg"] = r => MustScales.BaumeFromGravity(r["sg"], r["modulus"]),
        ["sg_from_baume"] = r => MustScales.GravityFromBaume(r["baume"], r["modulus"]),
        ["density20_from_sg2020"] = r => MustTable.DensityFromGravity(r["sg"]),
        ["sg2020_from_density20"] = r => MustTable.GravityFromDensity(r["rho_kg_l"]),

        ["hydrometer_waterlike"] = r => Hydrometer.LikeWater(r["reading"], r["t_c"], r["t_cal_c"], Glass),
        ["hydrometer_must"] = r => Hydrometer.InMust(r["reading"], r["t_c"], r["t_cal_c"], Glass),
        ["temperature_sg_error"] = r => Hydrometer.InMust(r["reading"], r["t_c"], r["t_cal_c"], Glass) - r["reading"],
        ["alcoholometer"] = r => Alcoholmeter.TrueAbv(r["reading_abv"], r["t_c"], Glass),
        ["refractometer_correction"] = r => Refractometer.TemperatureCorrection(r["brix"], r["t_c"]),
        ["wine_density20"] = r => Hydrometer.WineDensityAt20(r["rho_g_ml"] * 1000, r["t_c"], r["abv20"]) / 1000,

        ["abv_linear"] = r => GravityStrength.Linear(r["og"], r["fg"], r["k"]),
        ["abv_divisor"] = r => GravityStrength.Divisor(r["og"], r["fg"], r["k"]),
        ["abv_hmrc"] = r => GravityStrength.Hmrc(r["og"], r["fg"]),
        ["abv_balling"] = r => GravityStrength.Balling(r["og"], r["fg"]),
        ["abv_hall"] = r => GravityStrength.Hall(r["og"], r["fg"]),
        ["abv_oiv_potential"] = r => PotentialAlcohol.AbvFromGravity(r["og"], PotentialAlcohol.Eu.GramsPerLitrePerAbv),
        ["abv_round_down"] = r => StrengthOnLabel.RoundedDownToTenth(r["abv"]),
        ["extract_sg"] = r => DryExtract.GravityWithoutAlcohol(r["sg"], r["abv20"]),
        ["extract_sg_from_density"] = r => DryExtract.GravityWithoutAlcoholFromDensities(r["rho_wine"], r["rho_alc"]),
        ["extract_g_l"] = r => DryExtract.GramsPerLitre(r["dr"]),

        ["so2_molecular"] = r => Sulphite.MolecularMgPerLitre(r["free_mg_l"], r["ph"], r["pka"]),
        ["so2_free_needed"] = r => Sulphite.FreeNeededMgPerLitre(r["molecular_mg_l"], r["ph"], r["pka"]),
        ["so2_molecular_pct"] = r => 100 * Sulphite.MolecularFraction(r["ph"], r["pka"]),
        ["so2_pkt"] = r => Sulphite.ThermodynamicPKa(r["abv20"], r["t_c"]),
        ["so2_pkm"] = r => Sulphite.MixedPKa(r["abv20"], r["t_c"]),
        ["so2_fraction_metabisulfite"] = r => 100 * (r.Text("salt") == "K" ? Sulphite.Potassium : Sulphite.Sodium).So2Fraction,
        ["kmbs_g"] = r => Sulphite.SaltGrams(r["volume_l"], r["raise_free_mg_l"], r["bound_fraction"], r["so2_in_salt"]),
        ["so2_titration_mg_l"] = r => Sulphite.TitrationMgPerLitre(r["titrant_ml"], r["normality"], r["sample_ml"]),

        ["acid_convert"] = r => Acid.Convert(r["value"], Scale(r.Text("from")), Scale(r.Text("to"))),
        ["acid_addition_g"] = r => Acid.AdditionGrams(r["volume_l"], r["raise_g_l"], Acid.Tartaric),
        ["deacid_g"] = r => Acid.DeacidificationGrams(r["volume_l"], r["drop_g_l"], Acid.Salts.Single(s => s.Code == r.Text("agent")), r.Text("kht") == "full"),
        ["titratable_acidity_g_l"] = r => Acid.TitratableTartaricGramsPerLitre(r["titrant_ml"], r["normality"], r["sample_ml"]),
        ["nitrogen_fraction"] = r => 100 * Nutrient.Sources.Single(s => s.Code == (r.Text("salt") == "DAP" ? "dap" : "ammoniumSulphate")).NitrogenFraction,
        ["dap_g"] = r => Nutrient.DoseGrams(r["volume_l"], r["raise_mg_n_l"], Nutrient.Sources[0].NitrogenFraction),
        ["formol_yan"] = r => Nutrient.FormolMgPerLitre(r["titrant_ml"], r["normality"], r["sample_ml"]),
        ["yan_total"] = r => Nutrient.TotalMgPerLitre(r["amino_mg_n_l"], r["ammonia_mg_nh3_l"]),
        ["yan_required"] = r => Nutrient.NeedMgPerLitre(r["brix"]),

        ["pearson_volume"] = r => Blending.PearsonLitres(r["v1_l"], r["q1"], r["q2"], r["target"]),
        ["blend_simple"] = r => Blending.VolumeWeighted(r["v1_l"], r["q1"], r["v2_l"], r["q2"]),
        ["mix_volume"] = r => Blending.ByMass(r["v1_l"], r["q1"], r["v2_l"], r["q2"]).Litres,
        ["mix_abv"] = r => Blending.ByMass(r["v1_l"], r["q1"], r["v2_l"], r["q2"]).Abv,
        ["fortify_volume"] = r => Blending.LitresForStrength(r["v1_l"], r["q1"], r["q2"], r["target"]),
        ["blend_ph_by_h"] = r => Blending.Ph(r["v1_l"], r["q1"], r["v2_l"], r["q2"]),
        ["chaptalise_g"] = r => Enrichment.HexoseGrams(r["v1_l"], r["sugar_g_l"], r["target"], r["g_l_per_pct"], r["ml_per_g"]),
        ["chaptalise_naive_g"] = r => Enrichment.NaiveGrams(r["v1_l"], r["sugar_g_l"], r["target"], r["g_l_per_pct"]),
        ["sugar_volume_ml_per_g"] = r => Enrichment.MillilitresPerGram(r["volume_us_gal"], r["mass_lb"]),

        ["expansion_coefficient"] = r => EthanolWater.ExpansionPerKelvin(AlcoholicStrength.MassFractionFromAbv(r["abv20"]), r["t_c"]),
        ["volume20"] = r => VolumeAt20.Litres(r["volume_l"], r["t_c"], r["abv20"], r["beta_vessel"]),
        ["volume60f"] = r => VolumeAt20.LitresAt60Fahrenheit(r["volume_l"], r["t_c"], r["abv20"]),
        ["horizontal_cylinder_l"] = r => Tank.LyingLitres(r["length_m"], r["diameter_m"], r["depth_m"]),
        ["vertical_cylinder_l"] = r => Tank.UprightLitres(r["diameter_m"], r["depth_m"]),
        ["cone_l"] = r => Tank.ConeLitres(r["diameter_m"], r["depth_m"]),
        ["spherical_cap_l"] = r => Tank.SphericalCapLitres(r["diameter_m"], r["depth_m"]),
        ["barrel_l"] = r => r.Text("shape") == "ellipse"
            ? Cask.EllipticLitres(r["diameter_m"], r["head_m"], r["length_m"])
            : Cask.ParabolicLitres(r["diameter_m"], r["head_m"], r["length_m"]),
        ["barrel_partial_l"] = r => Cask.LyingLitres(r["diameter_m"], r["head_m"], r["length_m"], r["depth_m"]),
        ["gauging_rod_l"] = r => Cask.RodLitres(r["rod_m"]),
        ["unit_convert"] = r => Units.Convert(r["value"], Units.Find(r.Text("from"))!, Units.Find(r.Text("to"))!),
        ["gal_per_lb_air_60f"] = r => AlcoholicStrength.GallonsPerPoundInAir(r["abv60f"]),

        ["ethanol_yield_theory"] = _ => FermentGas.EthanolPerHexose,
        ["co2_yield_theory"] = _ => FermentGas.Co2PerHexose,
        ["co2_g_l"] = r => FermentGas.Co2GramsPerLitre(r["sugar_g_l"]),
        ["co2_gas_l_per_l"] = r => FermentGas.GasLitresPerLitre(r["sugar_g_l"], r["t_c"]),
        ["co2_gas_from_sg"] = r => FermentGas.GasLitresPerLitre(MustTable.SugarGramsPerLitreFromGravity(r["sg"]), r["t_c"]),
        ["room_co2_pct"] = r => FermentGas.RoomPercent(r["gas_l"], r["room_l"]),
        ["heat_kj_l"] = r => FermentHeat.KilojoulesPerLitre(r["sugar_g_l"]),
        ["adiabatic_rise"] = r => FermentHeat.RiseKelvin(r["sugar_g_l"], r["rho_kg_l"], r["cp_kj_kg_k"]),
        ["logistic_sg"] = r => FermentCurve.Gravity(r["day"], r["sg0"], r["sgf"], r["k"], r["tm"]),
        ["logistic_day"] = r => FermentCurve.Day(r["target"], r["sg0"], r["sgf"], r["k"], r["tm"]),
        ["logistic_fit_day"] = Forecast,

        ["co2_solubility"] = r => DissolvedGas.GramsPerLitreBar(r["t_c"]),
        ["bottle_pressure_bar"] = r => DissolvedGas.BottleBar(r["sugar_g_l"], r["co2_initial_g_l"], r["t_c"], r["headspace_pct"]),
        ["energy_kj_100ml"] = r => Energy.KilojoulesPer100Millilitres(r["abv20"], r["sugar_g_l"], r["acid_g_l"], r["glycerol_g_l"]),
        ["energy_kcal_100ml"] = r => Energy.KilocaloriesPer100Millilitres(r["abv20"], r["sugar_g_l"], r["acid_g_l"], r["glycerol_g_l"]),
        ["tne_ml"] = r => BottleFill.TolerableNegativeErrorMillilitres(r["nominal_ml"]),
        ["u_abv_from_sg"] = r => Uncertainty.OfLinearStrengthAbv(r["k"], r["u_og"], r["u_fg"], r["u_model"]),
    };

    private static AcidScale Scale(string code) => Acid.Scales.Single(s => s.Code == code);

    private static double InAir(double abv60Fahrenheit, double celsius) => AlcoholicStrength.RelativeDensityInAir(
        EthanolWater.KgPerCubicMetre(AlcoholicStrength.MassFractionFromAbv60Fahrenheit(abv60Fahrenheit), celsius), EthanolWater.KgPerCubicMetre(0, celsius));

    private static double Forecast(CheckRow r)
    {
        string[][] readings = [.. r.Text("readings").Split(',').Select(p => p.Split(':'))];
        double[] days = [.. readings.Select(p => double.Parse(p[0], System.Globalization.CultureInfo.InvariantCulture))];
        double[] gravities = [.. readings.Select(p => double.Parse(p[1], System.Globalization.CultureInfo.InvariantCulture))];
        return FermentCurve.ForecastDay(days, gravities, r["target"], r["sg0"], r["sgf"]);
    }
}
