using System.Collections.Immutable;
using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Chemistry;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>Reads a place of the book as a judgement needs it.</summary>
public static class WineOfPlace
{
    /// <summary>More than ten kilograms in a litre is no content.</summary>
    private const long MostPerLitre = 10_000_000_000_000;

    /// <summary>The wine in a place that holds some; null for an empty one, for fruit and for stores.</summary>
    public static WineRecord? Of(Place place)
    {
        if (!place.Volume.IsPositive || place.Account.Section is not (Section.Must or Section.Bulk or Section.Bottled)) return null;
        var notes = place.Notes;
        var isMust = place.Account.Section == Section.Must;
        var (first, last) = Harvest(place.Origin);
        var levels = ImmutableDictionary.CreateBuilder<Substance, Level>();
        foreach (var substance in Substances.All)
            if (substance is { Role: "measure", Reading.Length: > 0 } && substance.Code is not ("strength" or "sugar") && notes.Readings.GetValueOrDefault(substance.Reading) is { } reading && GramsPerLitre(reading.Text) is { } level)
                levels.Add(substance, new(level.NanogramsPerLitre, false, reading.Entry));
        var (natural, naturalFrom) = Natural(place);
        // What was titrated in the juice stands for its fixed acid; of wine it has to be stated.
        var acid = notes.Facts.FixedAcid ?? (isMust && levels.TryGetValue(TotalAcidity, out var titrated) ? new Dose(titrated.Amount) : null);
        return new WineRecord
        {
            Natural = natural,
            NaturalFrom = naturalFrom,
            FixedAcid = acid,
            FixedAcidFrom = notes.Facts.FixedAcid is null ? "as titrated" : "stated",
            Volume = place.Volume,
            Stage = isMust ? WineStages.Must : WineStages.Wine,
            Colour = LimitWords.ColourOf(notes.Colour),
            IsOfGrapes = notes.Facts.Type != LimitWords.NotOfGrapes,
            Product = notes.Facts.Type is { } type && type != LimitWords.NotOfGrapes ? LimitWords.Products.GetValueOrDefault(type) : place.Standing.Kind switch
            {
                ProductKind.Still => WineProducts.Still,
                ProductKind.Carbonated => WineProducts.Carbonated,
                ProductKind.Sparkling => WineProducts.Sparkling,
                _ => null,
            },
            Strength = place.Standing.Strength,
            Sugar = notes.Readings.GetValueOrDefault("sugarGramsPerLitre") is { } sugar ? GramsPerLitre(sugar.Text) : null,
            Schemes = [.. notes.Facts.Schemes],
            Cases = [.. notes.Facts.Cases],
            Zone = notes.Facts.Zone,
            Packets = notes.Packets,
            HarvestFrom = first,
            HarvestTo = last,
            // Must is judged by the day of what was last done to it; wine of several days by the last; wine that came in as such by the day it came.
            ProductionDay = place.Produced.IsKnown ? place.Produced.Last : isMust ? place.LastDay : place.FirstDay,
            Density = notes.Readings.GetValueOrDefault("gravity") is { } gravity ? Density.OfGravity(gravity.Text) ?? LawSets.AssumedDensity : LawSets.AssumedDensity,
            Substances = place.Carried is { } carried ? carried.Doses.ToImmutableDictionary(dose => dose.Substance, Record) : ImmutableDictionary<Substance, SubstanceRecord>.Empty,
            Levels = levels.ToImmutable(),
        };
    }

    private static readonly Substance TotalAcidity = Substances.Find("total-acidity")!;

    /// <summary>The natural strength: as stated, else by the reading before the first sugar, through the must table; half up to 0.01 % vol.</summary>
    private static (Strength?, Sentence) Natural(Place place)
    {
        var notes = place.Notes;
        if (notes.Facts.NaturalStrength is { } stated) return (stated, "stated");
        if ((notes.ReadBeforeSugar ?? (place.Account.Section == Section.Must && place.Carried?.Of(Substances.Enrichment) is null ? notes.ReadUnfermented : null)) is not var (name, reading) || !double.TryParse(reading.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out var figure)) return (null, Sentence.Empty);
        var gravity = name switch { "oechsle" => 1 + figure / 1000, "brix" => BrixScale.ToGravity(figure), _ => figure };
        var abv = PotentialAlcohol.AbvFromGravity(gravity, (double)Limits.Enrichment.SugarOfOnePercent);
        return double.IsFinite(abv) && abv is > 0 and < 30 ? (new Strength((int)Math.Floor(abv * 100 + 0.5)), name switch { "oechsle" => $"{reading.Text:figure} °Oe read before the sugar, entry {reading.Entry}", "brix" => $"{reading.Text:figure} °Bx read before the sugar, entry {reading.Entry}", _ => (Sentence)$"gravity {reading.Text:figure} read before the sugar, entry {reading.Entry}" }) : (null, Sentence.Empty);
    }

    private static SubstanceRecord Record(CarriedDose dose) => new(dose.Substance)
    {
        AddedInMust = dose.AddedInMust, AddedInWine = dose.AddedInWine, Highest = dose.Highest, LargestInMust = dose.LargestInMust, LargestInWine = dose.LargestInWine, Standing = dose.Standing, HasUnstated = dose.HasUnstated,
        Analysed = dose.HowMuchAnalysed, Analyses = [.. dose.Analyses.Select(entry => (long)entry.Number)],
    };

    private static Dose? GramsPerLitre(string text) =>
        Dose.ReadGramsPerLitre(text, out var dose) == ExactNumber.Fault.None && dose.NanogramsPerLitre is >= 0 and < MostPerLitre ? dose : null;

    // A share without a year leaves the years open.
    private static (int? First, int? Last) Harvest(OriginMix origin)
    {
        int? first = null, last = null;
        foreach (var share in origin.Shares)
        {
            if (!int.TryParse(share.Origin.Vintage, NumberStyles.None, CultureInfo.InvariantCulture, out var year) || year is < 1000 or > 9999) return (null, null);
            first = Math.Min(first ?? year, year);
            last = Math.Max(last ?? year, year);
        }
        return (first, last);
    }
}
