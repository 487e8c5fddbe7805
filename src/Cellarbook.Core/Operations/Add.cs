using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Materials added, several at once, to one place or to every place of a lot. Volume effect nil, except the rise that sugar or water gives to
/// must. A material of the catalogue comes out of the stores and its dose travels with the wine; free text is kept as written.
/// </summary>
public sealed record Add : NoteOperation
{
    /// <summary>What was added.</summary>
    public IReadOnlyList<Item>? Items { get; init; }

    /// <summary>True to share each amount over all places of the lot, by volume.</summary>
    public bool? EveryPlace { get; init; }

    /// <summary>One material: an amount or a rate.</summary>
    public sealed record Item
    {
        /// <summary>What it is: a code or name of the catalogue, or free text.</summary>
        public string? Material { get; init; }

        /// <summary>The delivery it came from; left out: the oldest in store; "unknown" for none in the book.</summary>
        public string? Delivery { get; init; }

        /// <summary>Weight.</summary>
        public Mass? Grams { get; init; }

        /// <summary>Volume.</summary>
        public Millilitres? Millilitres { get; init; }

        /// <summary>Pieces, tablets, sachets.</summary>
        public Reading? Pieces { get; init; }

        /// <summary>Rate, as dosed: g/hL.</summary>
        public Reading? GramsPerHectolitre { get; init; }

        /// <summary>Rate, as dosed: mg/L.</summary>
        public Reading? MgPerLitre { get; init; }

        /// <summary>Rate, as recipes have it: mL in 23 L.</summary>
        public Reading? MlPer23Litres { get; init; }

        /// <summary>Teaspoons: a guess, so only in an operation that says it is estimated.</summary>
        public Reading? Teaspoons { get; init; }

        /// <summary>What a teaspoon of it was taken to weigh.</summary>
        public Mass? GramsPerTeaspoon { get; init; }

        /// <summary>Supplier's batch, where it isn't kept in the stores.</summary>
        public string? Batch { get; init; }

        /// <summary>Volume by which it raised the must (sugar or water only).</summary>
        public Volume? RiseLitres { get; init; }

        /// <summary>What raised it: sugar or water.</summary>
        public string? RiseBy { get; init; }

        internal SaidAmount Said => new(Grams ?? Heaped, Millilitres, Pieces, GramsPerHectolitre, MgPerLitre, MlPer23Litres);

        private Mass? Heaped => Teaspoons is { } spoons && GramsPerTeaspoon is { } each && ExactNumber.Read(spoons.Text, 3, out var thousandths) == ExactNumber.Fault.None
            ? new((long)(((Int128)thousandths * each.Milligrams + 500) / 1_000)) : null;
    }

    internal override void Decide(Deciding deciding)
    {
        IReadOnlyList<Place> places = EveryPlace == true && Lot is not null && Vessel is null ? deciding.Cellar.PlacesOfLot(Lot) : [];
        if (places.Count == 0) places = deciding.PlaceOf(Lot, Vessel, "") is { } one ? [one] : [];
        if (Items is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "items", "Say what was added.");
        foreach (var (item, i) in (Items ?? []).Select((item, i) => (item, i)))
        {
            var path = $"items[{i}]";
            if (string.IsNullOrWhiteSpace(item.Material)) deciding.Refuse(RefusalCode.Missing, path + ".material", "Name the material.");
            CheckAmount(deciding, item, path);
            if (item.RiseLitres is not null && places.Count == 1) Rise(deciding, item, places[0], path);
            else if (item.RiseLitres is not null && places.Count > 1) deciding.Refuse(RefusalCode.SeveralPlaces, path + ".riseLitres", "A rise is of one vessel. Record each vessel on its own.");
            if (!deciding.Refused) Use(deciding, item, places, path);
        }
    }

    internal override IEnumerable<string> MaterialsNamed => (Items ?? []).Select(item => item.Material ?? "");

    internal override WineNotes NotesAfter(WineNotes notes, Deed deed) => notes with { Additions = notes.Additions.Add(deed.Entry) };

    private void CheckAmount(Deciding deciding, Item item, string path)
    {
        if (item.Teaspoons is not null && (Estimated != true || item.GramsPerTeaspoon is null))
            deciding.Refuse(RefusalCode.Missing, path + ".gramsPerTeaspoon", "A teaspoon is a guess: say that the entry is estimated, and what a teaspoon of it weighs. Better weigh it.");
        else if (!item.Said.Says) deciding.Refuse(RefusalCode.Missing, path + ".grams", "Say how much: grams, millilitres, pieces or a rate.");
        if (item.Grams is { Milligrams: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, path + ".grams", "The weight must be above nil.");
        if (item.Millilitres is { Volume.IsPositive: false }) deciding.Refuse(RefusalCode.NotPositive, path + ".millilitres", "The volume must be above nil.");
        foreach (var (name, reading) in new[] { ("pieces", item.Pieces), ("gramsPerHectolitre", item.GramsPerHectolitre), ("mgPerLitre", item.MgPerLitre), ("mlPer23Litres", item.MlPer23Litres), ("teaspoons", item.Teaspoons) })
            if (reading is { Value: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, $"{path}.{name}", "The amount must be above nil.");
    }

    private static void Use(Deciding deciding, Item item, IReadOnlyList<Place> places, string path)
    {
        if (places.Count == 0) return;
        var volume = places.Aggregate(Volume.None, (sum, place) => sum + place.Volume);
        if (!volume.IsPositive)
        {
            deciding.Refuse(RefusalCode.NothingThere, "vessel", $"Nothing lies in {places[0].Account.Place} of {places[0].Account.Name} on {deciding.Operation.Day:yyyy-MM-dd} that {item.Material} could go into. Check the vessel, or the day.");
            return;
        }
        UsedMaterial.Use(deciding, new(item.Material!, item.Delivery, item.Said) { Batch = item.Batch }, [.. places.Select(place => (place.Account, place.Volume))], path);
    }

    private static void Rise(Deciding deciding, Item item, Place place, string path)
    {
        if (!deciding.Positive(item.RiseLitres, path + ".riseLitres", "rise")) return;
        if (place.Account.Section != Section.Must) deciding.Refuse(RefusalCode.WrongAccount, path + ".riseLitres", "What raises the volume of wine is a process: sweeten, ameliorate or fortify it.");
        else if (item.RiseBy == "sugar") deciding.At(path + ".riseLitres").Post("SUGAR_VOLUME_MUST", Account.Sugar, place.Account, item.RiseLitres!.Value);
        else if (item.RiseBy == "water") deciding.At(path + ".riseLitres").Post("WATER_ADDED_MUST", Account.Water, place.Account, item.RiseLitres!.Value);
        else deciding.Refuse(RefusalCode.UnknownWord, path + ".riseBy", "Say what raised the volume: sugar or water.");
    }
}
