using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Noticing;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Cautions;

/// <summary>What makes a caution stand out: what is known of the wine it concerns, at that moment of book order.</summary>
public static class Circumstances
{
    /// <summary>Every word that seed/cautions may use, besides "always", "material" and "with:…".</summary>
    public static IReadOnlyList<string> Words { get; } =
        ["fermenting", "muchFermenting", "gravityFalling", "gravityUnknown", "sugarLeft", "malolacticPossible", "freeSulphurUnread", "underPressure", "breakage", "household"];

    internal static HashSet<string> Of(Operation? operation, IReadOnlyList<Place> places, IReadOnlyList<Posting> postings, IReadOnlyList<string> words, bool isHousehold)
    {
        var habits = Habits.Usual;
        // What a pure refill meets counts too; a place that is empty before says nothing, except that must will lie there.
        var wine = places.Where(place => place.Account.Section is Section.Must || (place.Account.Section.IsWine() && !place.IsEmpty)).ToArray();
        var found = new HashSet<string>(StringComparer.Ordinal);
        Add("fermenting", wine.Any(place => Ferments(place, habits)));
        Add("muchFermenting", wine.Where(place => Ferments(place, habits)).Aggregate(Volume.None, (sum, place) => sum + Larger(place.Volume, Brought(postings, place.Account))) >= Volume.OfLitres(habits.MuchMustLitres));
        Add("gravityFalling", wine.Any(place => Falls(place, habits)));
        Add("gravityUnknown", wine.Any(place => !place.IsEmpty && Gravity(place) is null && Sugar(place) is null));
        Add("sugarLeft", operation is Sweeten || wine.Any(place => SugarLeft(place, habits) && !IsStabilised(place)));
        Add("malolacticPossible", wine.Any(place => place.Notes.Malolactic is Malolactic.UnderWay or Malolactic.Done));
        Add("freeSulphurUnread", wine.Any(place => !place.Notes.Readings.ContainsKey("freeSo2MgPerLitre")));
        Add("underPressure", operation is MakeSparkling || wine.Any(place => place.Standing.Kind is ProductKind.Sparkling or ProductKind.Carbonated) || postings.Any(posting => posting.Kind is ProductKind.Sparkling or ProductKind.Carbonated));
        Add("breakage", words.Contains("breakage"));
        Add("household", isHousehold);
        return found;

        void Add(string word, bool holds)
        {
            if (holds) found.Add(word);
        }
    }

    private static bool Ferments(Place place, Habits habits) => place.Account.Section == Section.Must && (Gravity(place) is not { } gravity || gravity > habits.DryAt || Falls(place, habits));

    private static bool Falls(Place place, Habits habits) =>
        Gravity(place) is { } last && place.Notes.GravityBefore is { } before && Value(before) - last > habits.SteadyWithin + 1e-9;

    private static bool SugarLeft(Place place, Habits habits) => Sugar(place) is { } sugar ? sugar >= habits.SugarLeftAt : Gravity(place) > habits.DryAt;

    // Sorbate together with sulphite keeps yeast from starting again; either alone doesn't.
    private static bool IsStabilised(Place place) => Holds(place, "sorbic-acid") && Holds(place, "so2");

    private static bool Holds(Place place, string substance) => place.Carried?.Of(Substances.Find(substance)!) is { Standing.Nanograms: > 0 };

    private static double? Gravity(Place place) => Read(place, "gravity") ?? (Read(place, "oechsle") is { } oechsle ? 1 + oechsle / 1000 : null);

    private static double? Sugar(Place place) => Read(place, "sugarGramsPerLitre");

    private static double? Read(Place place, string name) => place.Notes.Readings.TryGetValue(name, out var reading) ? Value(reading) : null;

    private static double Value(NotedReading reading) => double.Parse(reading.Text, CultureInfo.InvariantCulture);

    private static Volume Brought(IReadOnlyList<Posting> postings, Account account) => postings.Where(posting => posting.To == account).Aggregate(Volume.None, (sum, posting) => sum + posting.Volume);

    private static Volume Larger(Volume a, Volume b) => a > b ? a : b;
}
