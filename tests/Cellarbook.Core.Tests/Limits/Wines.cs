using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>Wines to hold against limits, and short ways to say so.</summary>
internal static class Wines
{
    public static WineRecord Still(WineColours? colour, string? sugarGramsPerLitre = null, int litres = 1000, string day = "2026-05-01") => new()
    {
        Volume = Volume.OfLitres(litres), Colour = colour, Product = WineProducts.Still, ProductionDay = DateOnly.ParseExact(day, "yyyy-MM-dd", null),
        Sugar = sugarGramsPerLitre is null ? null : Grams(sugarGramsPerLitre), Density = LawSets.AssumedDensity,
    };

    public static Dose Mg(string text) { Assert.Equal(ExactNumber.Fault.None, Dose.ReadMilligramsPerLitre(text, out var dose)); return dose; }

    public static Dose Grams(string text) { Assert.Equal(ExactNumber.Fault.None, Dose.ReadGramsPerLitre(text, out var dose)); return dose; }

    public static Substance Of(string code) => Substances.Find(code) ?? throw new ArgumentException(code);

    /// <summary>With a content found by analysis of all of it.</summary>
    public static WineRecord Found(this WineRecord wine, string substance, string mgPerLitre) => wine with
    {
        Substances = wine.Substances.SetItem(Of(substance), (wine.Substances.GetValueOrDefault(Of(substance)) ?? new SubstanceRecord(Of(substance))) with
        {
            Standing = SubstanceAmount.In(Mg(mgPerLitre), wine.Volume), Analysed = Analysed.All, Analyses = [7],
        }),
    };

    public static WineRecord Level(this WineRecord wine, string substance, Level level) => wine with { Levels = wine.Levels.SetItem(Of(substance), level) };

    public static WineRecord Added(this WineRecord wine, string product, string mgPerLitre, WineStages stage = WineStages.Wine) => wine.Adding(Of(product), Mg(mgPerLitre), stage);

    public static Verdict Against(this WineRecord wine, string set, string substance, LimitBasis basis, Func<Verdict, bool>? which = null) =>
        Assert.Single(Judgement.Of(LawSets.Find(set)!, wine).Verdicts, verdict => verdict.Substance.Code == substance && verdict.Basis == basis && (which is null ? verdict.Row?.With is null : which(verdict)));

    /// <summary>What was last done raised this, whatever else it raised.</summary>
    public static Diary.Check Raised(this Diary.Check check, string code)
    {
        Assert.Contains(check.Last.Flags, flag => flag.Code == code);
        return check;
    }

    public static void Passes(this Verdict verdict) => Assert.True(verdict.Kind is VerdictKind.Within or VerdictKind.Near, verdict.Arithmetic.ToString());

    public static void IsOverBy(this Verdict verdict, string mgPerLitre)
    {
        Assert.True(verdict.Kind == VerdictKind.Over, verdict.Arithmetic.ToString());
        Assert.Equal(Mg(mgPerLitre), verdict.Excess);
    }
}
