using static Cellarbook.Core.Chemistry.Show;

namespace Cellarbook.Core.Chemistry;

/// <summary>The running account behind <see cref="StrengthHistory"/>: takes one step after the other, and can be copied where a wine is divided.</summary>
/// <param name="factor">Grams of sugar per litre for one % vol, by the chosen rules.</param>
internal sealed class StrengthAccount(double factor)
{
    private List<string> lines = [];
    private WineBody body;
    private double sg;
    private double abvFermented;
    private double sugarGrams;
    private double alcoholAdded;
    private double? residual;
    private bool begun, measured, stated, changed, fell, drawn, sugarSince, gravityKnown = true, gravitySince, readInVain;
    private double measuredAbv;
    private Sentence? unknown, gravityUnknown;
    private BenchRefusal? failed;

    /// <summary>True once there was a first gravity or a first wine, and nothing broke the account since.</summary>
    public bool IsRunning => begun && failed is null;

    /// <summary>True once there was a first gravity or a first wine, whatever came of it.</summary>
    public bool HasBegun => begun;

    /// <summary>True when a measurement or a statement of strength lies behind it.</summary>
    public bool RestsOnStrength => measured && failed is null;

    /// <summary>True when that strength still holds, because nothing changed the wine since.</summary>
    public bool StrengthHolds => RestsOnStrength && !changed && unknown is null;

    /// <summary>True when gravity fell since the beginning.</summary>
    public bool HasFermented => fell;

    /// <summary>Gravity 20/20 by this account, NaN where it isn't known.</summary>
    public double GravityNow => IsRunning && gravityKnown && unknown is null ? sg : double.NaN;

    /// <summary>Strength by this account, % vol; NaN where it can't say.</summary>
    public double AbvNow => IsRunning && unknown is null && (measured || (gravitySince && !readInVain)) ? Abv : double.NaN;

    /// <summary>True for must in which nothing has fermented yet as far as was read, of known gravity and without alcohol.</summary>
    public bool IsJuice => IsRunning && unknown is null && !measured && !fell && body.PureAlcoholLitres == 0;

    /// <summary>A copy that goes its own way.</summary>
    public StrengthAccount Copy()
    {
        var copy = (StrengthAccount)MemberwiseClone();
        copy.lines = [.. lines];
        return copy;
    }

    /// <summary>Takes the next step. After one that can't be reckoned the account says so for good.</summary>
    public void Take(StrengthStep step) => failed ??= Reckon(step);

    /// <summary>Strength that all sugar so far would give with the alcohol that went in, NaN outside the must table.</summary>
    public Explained Potential(string name)
    {
        double litres = Litres, abv = (sugarGrams / litres / factor) + (100 * alcoholAdded / litres);
        bool says = IsRunning && unknown is null && !measured;
        Formula formula = double.IsNaN(sugarGrams) ? MustTable.Oiv : PotentialAlcohol.Method;
        return formula.Explain(name, "Potential strength, when all sugar ferments", says ? abv : double.NaN, "% vol", 1,
            $"{Number(sugarGrams, 0)} g / {Number(litres, 2)} L / {Typed(factor)}" + (alcoholAdded > 0 ? $" + {Number(100 * alcoholAdded / litres, 2)} % vol added" : "") + $", from {string.Join("; ", lines)}");
    }

    // The gravity of the body is kept beside it: finding it anew from the masses takes many steps.
    private double Litres => body.MassKilograms / (sg * WaterDensity.Oiv20KgPerLitre);

    private double Abv => 100 * body.PureAlcoholLitres / Litres;

    private static string Sg(double gravity) => Typed(Math.Round(gravity, 5));

    private void Become(double litres, double gravity, double abv)
    {
        body = WineBody.Of(litres, gravity, abv);
        sg = double.IsFinite(body.ExtractKilograms) ? gravity : double.NaN;
    }

    private BenchRefusal? Reckon(StrengthStep step)
    {
        switch (step)
        {
            case StrengthStep.FirstGravity s:
                if (begun || !(s.Litres > 0) || !BrixScale.ApparentGravity.Contains(s.Gravity))
                {
                    return Cannot("firstGravity", begun ? "There are two first gravities; one wine has one." : "The first gravity needs a volume and an SG between 0.980 and 1.179.");
                }

                begun = true;
                Become(s.Litres, s.Gravity, 0);
                sugarGrams = s.Litres * MustTable.SugarGramsPerLitreFromGravity(s.Gravity);
                lines.Add($"{Typed(s.Litres)} L at SG {Sg(s.Gravity)}");
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
                return Add(WineBody.Of(s.Litres, s.Gravity, 0), s.Litres, s.Litres * MustTable.SugarGramsPerLitreFromGravity(s.Gravity), 0, true, $"+ {Typed(s.Litres)} L juice at SG {Sg(s.Gravity)}");
            case StrengthStep.WaterAdded s:
                return Add(WineBody.OfSpirit(s.Litres, 0), s.Litres, 0, 0, false, $"+ {Typed(s.Litres)} L water");
            case StrengthStep.SpiritAdded s:
                return Add(WineBody.OfSpirit(s.Litres, s.Abv), s.Litres, 0, s.Litres * s.Abv / 100, false, $"+ {Typed(s.Litres)} L spirit at {Typed(s.Abv)} % vol");
            case StrengthStep.WineAdded s:
                return AddWine(s);
            case StrengthStep.Taken s:
                return Draw(s.Litres);
            case StrengthStep.Kept s:
                return s.Share > 0 && double.IsFinite(s.Share) ? Keep(s.Share) : Cannot("share", "Cannot say: nothing of it is left.");
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
        if (failed is not null)
        {
            return new BenchAnswer([], [failed]);
        }

        if (unknown is not null)
        {
            return new BenchAnswer([], [Cannot("abv", $"Cannot say: {unknown} went in since; measure the strength.")]);
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
            results.Add((stated ? StrengthHistory.Stated : StrengthHistory.Measured).Explain("abv", stated ? "Strength, as stated" : "Strength, measured", measuredAbv, "% vol", 2, stated ? "as stated" : "as measured") with { EntryField = "abv" });
        }
        else if (measured || (gravitySince && !readInVain))
        {
            Formula formula = measured && abvFermented == 0 ? StrengthHistory.CarriedForward : StrengthHistory.Estimated;
            Sentence label = !measured ? "Strength, estimated from gravities"
                : abvFermented == 0 ? (stated ? "Strength, carried forward from what was stated" : "Strength, carried forward from a measurement")
                : stated ? "Strength, stated and then estimated" : "Strength, measured and then estimated";
            results.Add(formula.Explain("abv", label, Abv, "% vol", 1, worked) with
            {
                EntryField = "abv",
                Uncertainty = formula == StrengthHistory.Estimated ? GravityStrength.CustomaryUncertaintyAbv : null,
                UncertaintyBasis = formula == StrengthHistory.Estimated ? "assumed: customary for an estimate from gravities (common practice, no source)" : null,
                Caution = sugarSince && !gravitySince ? "Sugar went in and no gravity was read since: once it ferments the strength is higher." : "An estimate: the strength that counts is the measured one.",
            });
        }
        else
        {
            refusals.Add(Cannot("abv", gravityUnknown is null
                ? "Cannot say: no gravity was read after the first one or after the last addition."
                : (Sentence)$"Cannot say: {gravityUnknown}"));
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

        double litres = Litres;
        double abv = (((sugarGrams / litres) - left) / factor) + (100 * alcoholAdded / litres);
        if (!(abv >= 0))
        {
            refusals.Add(new BenchRefusal(RefusalCodes.OutsideValidity, "abvBySugar", "By the sugar account: cannot say, a must is outside the OIV table or more sugar is left than went in.", StrengthHistory.SugarAccount.Validity, StrengthHistory.SugarAccount.Source));
            return;
        }

        results.Add(StrengthHistory.SugarAccount.Explain("abvBySugar", "Strength by the sugar account", abv, "% vol", 1,
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
            unknown = $"{Typed(wine.Litres)} L of wine of unknown strength";
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
            return Cannot("addition", $"Cannot say: an addition ({line}) is outside what can be reckoned.");
        }

        if (drawn)
        {
            lines.Add($"{Number(Litres, 2)} L of it left");
            drawn = false;
        }

        body += added;
        sg = body.Gravity();
        if (!double.IsFinite(sg))
        {
            return Cannot("addition", $"Cannot say: with this addition ({line}) the wine is outside what can be reckoned.");
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
        double before = Litres;
        if (!(litres >= 0 && litres < before))
        {
            return Cannot("litres", $"Cannot say: {Typed(litres)} L were taken of {Number(before, 3)} L.");
        }

        lines.Add($"- {Typed(litres)} L");
        Scale(1 - (litres / before));
        return null;
    }

    /// <summary>Draws and losses change no strength, so that a line is written only when something meets what is left.</summary>
    private BenchRefusal? Keep(double share)
    {
        Scale(share);
        drawn = true;
        return null;
    }

    private void Scale(double share)
    {
        body = body.Left(share);
        sugarGrams *= share;
        alcoholAdded *= share;
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
                Become(Litres, gravity, measuredAbv);
                (gravityKnown, gravitySince, gravityUnknown) = (true, true, null);
            }

            return null;
        }

        double litres = Litres, before = sg, fall = before - gravity;
        if (fall < -StrengthHistory.ReadingTolerance)
        {
            return new BenchRefusal(RefusalCodes.Impossible, "gravity", $"Cannot say: gravity rose from {Number(before, 4)} to {Sg(gravity)} with nothing added; a reading is wrong or an addition is missing.", "gravity falls", StrengthHistory.Estimated.Source);
        }

        gravitySince = true;
        fell |= fall >= StrengthHistory.ReadingTolerance;
        if (fall <= 0 || (measured && fall < StrengthHistory.ReadingTolerance))
        {
            return null;
        }

        double made = GravityStrength.LinearFactor * fall;
        abvFermented += made;
        changed = true;
        Become(litres, gravity, Abv + made);
        if (!double.IsFinite(sg))
        {
            return Cannot("gravity", "Cannot say: by this fall of gravity the wine would be outside what can be reckoned.");
        }

        lines.Add($"SG {Number(before, 4)} to {Sg(gravity)}: + {Typed(GravityStrength.LinearFactor)} x {Number(fall, 4)} = {Number(made, 2)} % vol");
        return null;
    }

    private BenchRefusal? BeginWithWine(StrengthStep.FirstWine wine)
    {
        if (begun || !(wine.Litres > 0))
        {
            return Cannot("firstWine", "One wine has one beginning, with a volume above nothing.");
        }

        begun = true;
        stated = wine.Stated;
        Become(wine.Litres, wine.Gravity ?? DryExtract.AlcoholGravity(wine.Abv), wine.Abv);
        gravitySince = wine.Gravity is not null;
        return double.IsFinite(body.MassKilograms + body.ExtractKilograms) ? Settle(wine.Abv) : Cannot("firstWine", "Cannot say: the first wine is outside what can be reckoned.");
    }

    private BenchRefusal? Measure(double abv)
    {
        stated = false;
        return Settle(abv);
    }

    private BenchRefusal? Settle(double abv)
    {
        if (!(abv is >= 0 and <= 100))
        {
            return Cannot("abv", "A measured strength must lie between 0 and 100 % vol.");
        }

        double litres = Litres, gravity = gravitySince && gravityKnown ? sg : double.NaN;
        gravityKnown = double.IsFinite(gravity);
        gravityUnknown = gravityKnown ? null : "the gravity at the time of the measurement is not known, so a later fall can't be reckoned.";
        Become(litres, gravityKnown ? gravity : DryExtract.AlcoholGravity(abv), abv);
        (measured, changed, sugarSince, readInVain, unknown, abvFermented, measuredAbv) = (true, false, false, false, null, 0, abv);

        // Sugar from before is settled by the measurement, and what is left of it is not known.
        sugarGrams = double.NaN;
        alcoholAdded = 0;
        residual = null;
        lines.Clear();
        drawn = false;
        lines.Add($"{Number(litres, 2)} L {(stated ? "stated" : "measured")} at {Typed(abv)} % vol");
        return null;
    }

    private static BenchRefusal Cannot(string path, Sentence sentence) => new(RefusalCodes.CannotSay, path, sentence, StrengthHistory.Estimated.Validity, StrengthHistory.Estimated.Source);
}
