using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>
/// Strength of a wine from what happened to it. Between additions the linear rule turns each fall of gravity into alcohol; what goes in meets by mass;
/// beside it the OIV account of sugar, when residual sugar was measured. What can't be reckoned gives "cannot say".
/// A measured strength holds until the wine changes and is then carried forward, and said so.
/// </summary>
public static class StrengthHistory
{
    /// <summary>Rise of gravity without addition that two honest readings may show.</summary>
    private const double ReadingTolerance = 0.002;

    /// <summary>Measured.</summary>
    public static readonly Formula Measured = new("Measured strength", "the reading itself, as measured", SourceCheck.Derived, "holds until the wine changes");

    /// <summary>Carried forward.</summary>
    public static readonly Formula CarriedForward = new("Measured strength carried forward", "mass balance of what went in since the measurement (OIML R 22, OIV-MA-AS2-03B)", SourceCheck.Derived,
        "additions of known volume and strength since the measurement");

    /// <summary>Estimate.</summary>
    public static readonly Formula Estimated = new("Linear rule on each fall of gravity, additions by mass", "131.25 x fall, common practice, no source; additions by mass balance (OIML R 22, OIV-MA-AS2-03B)",
        SourceCheck.Derived, "first gravity before fermentation, all additions known, a gravity read after them");

    /// <summary>OIV account.</summary>
    public static readonly Formula SugarAccount = new("OIV potential of all sugar less residual sugar, additions by mass", "OIV-MA-AS2-02 Table II, divided by the factor of the chosen rules; alcohol of wine and spirit added",
        SourceCheck.Derived, "each must within SG 20/20 1.0410 to 1.1307, residual sugar measured after the last addition");

    /// <summary>Works out the strength now. Results: <c>abv</c>, and <c>abvBySugar</c> where residual sugar is known; else a refusal.</summary>
    /// <param name="steps">What happened, in order; begins with a first gravity or a first wine.</param>
    /// <param name="gramsPerLitrePerAbv">Factor of the chosen rules for the sugar account.</param>
    public static BenchAnswer Now(IReadOnlyList<StrengthStep> steps, double gramsPerLitrePerAbv)
    {
        var account = new Account(gramsPerLitrePerAbv);
        foreach (StrengthStep step in steps)
        {
            if (account.Take(step) is { } refusal)
            {
                return new BenchAnswer([], [refusal]);
            }
        }

        return account.Close();
    }

    private sealed class Account(double factor)
    {
        private readonly List<string> lines = [];
        private WineBody body;
        private double abvFermented;
        private double sugarGrams;
        private double alcoholAdded;
        private double? residual;
        private bool begun, measured, changed, sugarSince, gravityKnown = true, gravitySince, readInVain;
        private double measuredAbv;
        private string? unknown, gravityUnknown;

        public BenchRefusal? Take(StrengthStep step)
        {
            switch (step)
            {
                case StrengthStep.FirstGravity s:
                    if (begun || !(s.Litres > 0) || !BrixScale.ApparentGravity.Contains(s.Gravity))
                    {
                        return Cannot("firstGravity", begun ? "There are two first gravities; one wine has one." : "The first gravity needs a volume and an SG between 0.980 and 1.179.");
                    }

                    begun = true;
                    body = WineBody.Of(s.Litres, s.Gravity, 0);
                    sugarGrams = s.Litres * MustTable.SugarGramsPerLitreFromGravity(s.Gravity);
                    lines.Add($"{Typed(s.Litres)} L at SG {Typed(s.Gravity)}");
                    return null;
                case StrengthStep.FirstWine s:
                    return BeginWithWine(s);
                case StrengthStep.UnknownAdded s:
                    unknown = s.What;
                    changed = true;
                    return null;
                case var _ when !begun:
                    return Cannot("firstGravity", "Cannot say: the first gravity and its volume are not known.");
                case StrengthStep.SugarAdded s:
                    sugarSince = true;
                    return Add(WineBody.OfSugar(s.Kilograms), s.Kilograms, s.Kilograms * 1000 / Enrichment.SucrosePerHexose, 0, true, $"+ {Typed(s.Kilograms)} kg sugar");
                case StrengthStep.JuiceAdded s:
                    sugarSince = true;
                    return Add(WineBody.Of(s.Litres, s.Gravity, 0), s.Litres, s.Litres * MustTable.SugarGramsPerLitreFromGravity(s.Gravity), 0, true, $"+ {Typed(s.Litres)} L juice at SG {Typed(s.Gravity)}");
                case StrengthStep.WaterAdded s:
                    return Add(WineBody.OfSpirit(s.Litres, 0), s.Litres, 0, 0, false, $"+ {Typed(s.Litres)} L water");
                case StrengthStep.SpiritAdded s:
                    return Add(WineBody.OfSpirit(s.Litres, s.Abv), s.Litres, 0, s.Litres * s.Abv / 100, false, $"+ {Typed(s.Litres)} L spirit at {Typed(s.Abv)} % vol");
                case StrengthStep.WineAdded s:
                    return AddWine(s);
                case StrengthStep.Taken s:
                    return Draw(s.Litres);
                case StrengthStep.GravityRead s:
                    return Read(s.Gravity);
                case StrengthStep.StrengthMeasured s:
                    return Measure(s.Abv);
                case StrengthStep.ResidualSugarMeasured s:
                    residual = s.GramsPerLitre;
                    lines.Add($"residual sugar {Typed(s.GramsPerLitre)} g/L");
                    return s.GramsPerLitre is >= 0 and <= 400 ? null : Cannot("residualSugarGramsPerLitre", "Residual sugar must lie between 0 and 400 g/L.");
                default:
                    return Cannot("step", "An unknown kind of step.");
            }
        }

        public BenchAnswer Close()
        {
            if (unknown is not null)
            {
                return new BenchAnswer([], [Cannot("abv", "Cannot say: " + unknown + " went in since; measure the strength.")]);
            }

            if (!begun)
            {
                return new BenchAnswer([], [Cannot("firstGravity", "Cannot say: the first gravity and its volume are not known.")]);
            }

            var results = new List<Explained>();
            var refusals = new List<BenchRefusal>();
            string worked = string.Join("; ", lines);
            if (measured && !changed)
            {
                results.Add(Measured.Explain("abv", "Strength, measured", measuredAbv, "% vol", 2, "as measured") with { EntryField = "abv" });
            }
            else if (measured || (gravitySince && !readInVain))
            {
                Formula formula = measured && abvFermented == 0 ? CarriedForward : Estimated;
                string label = !measured ? "Strength, estimated from gravities" : abvFermented == 0 ? "Strength, carried forward from a measurement" : "Strength, measured and then estimated";
                results.Add(formula.Explain("abv", label, body.Abv(), "% vol", 1, worked) with
                {
                    EntryField = "abv",
                    Uncertainty = formula == Estimated ? GravityStrength.CustomaryUncertaintyAbv : null,
                    UncertaintyBasis = formula == Estimated ? "assumed: customary for an estimate from gravities (common practice, no source)" : null,
                    Caution = sugarSince && !gravitySince ? "Sugar went in and no gravity was read since: once it ferments the strength is higher." : "An estimate: the strength that counts is the measured one.",
                });
            }
            else
            {
                refusals.Add(Cannot("abv", gravityUnknown is null
                    ? "Cannot say: no gravity was read after the first one or after the last addition."
                    : "Cannot say: " + gravityUnknown));
            }

            AddSugarAccount(results, refusals, worked);
            return new BenchAnswer(results, refusals);
        }

        private void AddSugarAccount(List<Explained> results, List<BenchRefusal> refusals, string worked)
        {
            if (residual is not double left || (measured && !changed))
            {
                return;
            }

            double litres = body.Litres();
            double abv = (((sugarGrams / litres) - left) / factor) + (100 * alcoholAdded / litres);
            if (!(abv >= 0))
            {
                refusals.Add(new BenchRefusal(RefusalCodes.OutsideValidity, "abvBySugar", "By the sugar account: cannot say, a must is outside the OIV table or more sugar is left than went in.", SugarAccount.Validity, SugarAccount.Source));
                return;
            }

            results.Add(SugarAccount.Explain("abvBySugar", "Strength by the sugar account", abv, "% vol", 1,
                $"({Number(sugarGrams, 0)} g / {Number(litres, 2)} L - {Typed(left)}) / {Typed(factor)} + {Number(100 * alcoholAdded / litres, 2)} % vol added, from {worked}") with
            {
                EntryField = "abv",
                Uncertainty = GravityStrength.CustomaryUncertaintyAbv,
                UncertaintyBasis = "assumed: customary for an estimate from gravities (common practice, no source)",
            });
        }

        private BenchRefusal? AddWine(StrengthStep.WineAdded wine)
        {
            if (wine.Abv is not double abv)
            {
                unknown = Typed(wine.Litres) + " L of wine of unknown strength";
                return null;
            }

            if (wine.Gravity is null)
            {
                gravityKnown = false;
                gravityUnknown = "the gravity of the wine that went in is not known, so a fall of gravity can't be reckoned.";
            }

            // Without its gravity the wine counts as ethanol and water, which is near enough to carry a measured strength on.
            WineBody added = wine.Gravity is double gravity ? WineBody.Of(wine.Litres, gravity, abv) : WineBody.OfSpirit(wine.Litres, abv);
            double sugar = wine.Litres * (wine.ResidualSugarGramsPerLitre ?? double.NaN);
            return Add(added, wine.Litres, sugar, wine.Litres * abv / 100, false, $"+ {Typed(wine.Litres)} L wine at {Typed(abv)} % vol");
        }

        private BenchRefusal? Add(WineBody added, double amount, double sugar, double alcohol, bool ferments, string line)
        {
            if (!(amount >= 0) || !double.IsFinite(added.MassKilograms + added.ExtractKilograms + added.PureAlcoholLitres))
            {
                return Cannot("addition", "Cannot say: an addition (" + line + ") is outside what can be reckoned.");
            }

            body += added;
            if (!double.IsFinite(body.Gravity()))
            {
                return Cannot("addition", "Cannot say: with this addition (" + line + ") the wine is outside what can be reckoned.");
            }

            sugarGrams += sugar;
            alcoholAdded += alcohol;
            changed = true;
            gravitySince &= !ferments;
            residual = null;
            lines.Add(line);
            return null;
        }

        private BenchRefusal? Draw(double litres)
        {
            double before = body.Litres();
            if (!(litres >= 0 && litres < before))
            {
                return Cannot("litres", $"Cannot say: {Typed(litres)} L were taken of {Number(before, 3)} L.");
            }

            double share = 1 - (litres / before);
            body = body.Left(share);
            sugarGrams *= share;
            alcoholAdded *= share;
            lines.Add($"- {Typed(litres)} L");
            return null;
        }

        private BenchRefusal? Read(double gravity)
        {
            if (!BrixScale.ApparentGravity.Contains(gravity))
            {
                return Cannot("gravity", "A gravity must lie between 0.980 and 1.179.");
            }

            if (!gravityKnown)
            {
                // A gravity read on an unchanged wine belongs to the strength measured; after an unknown wine it says nothing.
                readInVain |= changed || !measured;
                if (!readInVain)
                {
                    body = WineBody.Of(body.Litres(), gravity, measuredAbv);
                    (gravityKnown, gravitySince, gravityUnknown) = (true, true, null);
                }

                return null;
            }

            double litres = body.Litres(), before = body.Gravity(), fall = before - gravity;
            if (fall < -ReadingTolerance)
            {
                return new BenchRefusal(RefusalCodes.Impossible, "gravity", $"Cannot say: gravity rose from {Number(before, 4)} to {Typed(gravity)} with nothing added; a reading is wrong or an addition is missing.", "gravity falls", Estimated.Source);
            }

            gravitySince = true;
            if (fall <= 0 || (measured && fall < ReadingTolerance))
            {
                return null;
            }

            double made = GravityStrength.LinearFactor * fall;
            abvFermented += made;
            changed = true;
            body = WineBody.Of(litres, gravity, body.Abv() + made);
            if (!double.IsFinite(body.Gravity()))
            {
                return Cannot("gravity", "Cannot say: by this fall of gravity the wine would be outside what can be reckoned.");
            }

            lines.Add($"SG {Number(before, 4)} to {Typed(gravity)}: + {Typed(GravityStrength.LinearFactor)} x {Number(fall, 4)} = {Number(made, 2)} % vol");
            return null;
        }

        private BenchRefusal? BeginWithWine(StrengthStep.FirstWine wine)
        {
            if (begun || !(wine.Litres > 0))
            {
                return Cannot("firstWine", "One wine has one beginning, with a volume above nothing.");
            }

            begun = true;
            body = wine.Gravity is double gravity ? WineBody.Of(wine.Litres, gravity, wine.Abv) : WineBody.OfSpirit(wine.Litres, wine.Abv);
            gravitySince = wine.Gravity is not null;
            return double.IsFinite(body.MassKilograms + body.ExtractKilograms) ? Measure(wine.Abv) : Cannot("firstWine", "Cannot say: the first wine is outside what can be reckoned.");
        }

        private BenchRefusal? Measure(double abv)
        {
            if (!(abv is >= 0 and <= 100))
            {
                return Cannot("abv", "A measured strength must lie between 0 and 100 % vol.");
            }

            double litres = body.Litres(), gravity = gravitySince && gravityKnown ? body.Gravity() : double.NaN;
            gravityKnown = double.IsFinite(gravity);
            gravityUnknown = gravityKnown ? null : "the gravity at the time of the measurement is not known, so a later fall can't be reckoned.";
            body = gravityKnown ? WineBody.Of(litres, gravity, abv) : WineBody.OfSpirit(litres, abv);
            (measured, changed, sugarSince, readInVain, unknown, abvFermented, measuredAbv) = (true, false, false, false, null, 0, abv);

            // Sugar from before is settled by the measurement, and what is left of it is not known.
            sugarGrams = double.NaN;
            alcoholAdded = 0;
            residual = null;
            lines.Clear();
            lines.Add($"{Number(litres, 2)} L measured at {Typed(abv)} % vol");
            return null;
        }

        private static BenchRefusal Cannot(string path, string sentence) => new(RefusalCodes.CannotSay, path, sentence, Estimated.Validity, Estimated.Source);
    }
}
