using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// One operation finding its postings at its moment of book order. It collects postings, refusals, and what was assumed; it changes nothing.
/// </summary>
public sealed class Deciding
{
    private readonly List<Posting> postings = [];
    private readonly List<Said> said = [];
    private Said at = Operations.Said.Nowhere;
    private readonly List<Refusal> refusals = [];
    private readonly List<Flag> flags = [];
    private readonly string prefix;

    internal Deciding(Cellar cellar, IReadOnlyDictionary<string, VesselFacts> vessels, Stores.Catalogue materials, Operation operation, string prefix = "")
    {
        Cellar = cellar;
        Vessels = vessels;
        Materials = materials;
        Operation = operation;
        this.prefix = prefix;
    }

    /// <summary>The state before the operation.</summary>
    public Cellar Cellar { get; }

    /// <summary>Every vessel made so far.</summary>
    public IReadOnlyDictionary<string, VesselFacts> Vessels { get; }

    /// <summary>Every material known so far.</summary>
    public Stores.Catalogue Materials { get; }

    /// <summary>What is being decided.</summary>
    public Operation Operation { get; }

    internal IReadOnlyList<Posting> Postings => postings;

    /// <summary>The fields that each posting comes from.</summary>
    internal IReadOnlyList<Said> Said => said;

    internal IReadOnlyList<Refusal> Refusals => refusals;

    internal IReadOnlyList<Flag> Flags => flags;

    internal bool Refused => refusals.Count > 0;

    /// <summary>
    /// Says which fields the next posting comes from, so that what only the fold can find wrong with it (more than is there, more than fits) stands
    /// at them: the one that says how much is drawn, and the one that says where it is put.
    /// </summary>
    internal Deciding At(string drawn, string? put = null)
    {
        at = new(prefix + drawn, prefix + (put ?? drawn));
        return this;
    }

    /// <summary>Moves a volume, if above nil.</summary>
    internal void Post(string category, Account from, Account to, Volume volume, Strength? strength = null, ProductKind? kind = null)
    {
        if (volume.IsPositive) Add(new(from, to, Category.Of(category)) { Volume = volume, Strength = strength, Kind = kind });
        at = Operations.Said.Nowhere;
    }

    /// <summary>Moves bottles, if above nil.</summary>
    internal void PostBottles(string category, Account from, Account to, BottleCount bottles, Volume size, Strength? strength = null, ProductKind? kind = null)
    {
        if (bottles * size > Volume.Most) Refuse(RefusalCode.TooLargeNumber, "bottles", "That is more wine than the book can count. Check the number and the size of the bottles.");
        else if (bottles.IsPositive) Add(new(from, to, Category.Of(category)) { Volume = bottles * size, Bottles = bottles, Strength = strength, Kind = kind });
        at = Operations.Said.Nowhere;
    }

    /// <summary>Moves fruit, if above nil.</summary>
    internal void PostFruit(string category, Account from, Account to, FruitWeight weight)
    {
        if (weight.Grams > 0) Add(new(from, to, Category.Of(category)) { Weight = weight });
        at = Operations.Said.Nowhere;
    }

    /// <summary>Moves material, if above nil.</summary>
    internal void PostMaterial(string category, Account from, Account to, MaterialAmount amount, MaterialUnit unit)
    {
        if (amount.IsPositive) Add(new(from, to, Category.Of(category)) { Material = amount, MaterialUnit = unit });
        at = Operations.Said.Nowhere;
    }

    private void Add(Posting posting)
    {
        postings.Add(posting);
        said.Add(at);
    }

    /// <summary>A delivery in store, less what this operation took of it already.</summary>
    internal Place Left(Account account)
    {
        var place = Cellar.At(account);
        foreach (var posting in postings)
            if (posting.Category.IsOfStores && posting.From == account) place = place with { Material = place.Material - posting.Material };
        return place;
    }

    /// <summary>The material of that code or name; refused when there is none.</summary>
    internal Stores.Material? MaterialOf(string? word, string path)
    {
        if (string.IsNullOrWhiteSpace(word)) Refuse(RefusalCode.Missing, Join(path, "material"), "Name the material.");
        else if (Materials.Meant(word) is { } material) return material;
        else Refuse(RefusalCode.UnknownMaterial, Join(path, "material"), $"There is no material {Names.Shown(word)}. Choose one of the catalogue, or describe one of your own first.");
        return null;
    }

    /// <summary>Refuses a delivery's name that can't be one, or that the material has already.</summary>
    internal bool NewDelivery(Stores.Material material, string? delivery, string path)
    {
        if (!NameOk(delivery, Join(path, "delivery"), "delivery")) return false;
        if (delivery == Stores.TakenFromStores.UnknownDelivery) Refuse(RefusalCode.BadName, Join(path, "delivery"), $"“{delivery}” is a reserved word for what came from no delivery in the book.");
        else if (Cellar.Knows(Account.Stores(material.Code, delivery!))) Refuse(RefusalCode.DeliveryExists, Join(path, "delivery"), $"There is a delivery {delivery} of {material.Code} already. Give this one another name.");
        else return true;
        return false;
    }

    /// <summary>Refuses, with the field it is about.</summary>
    internal void Refuse(RefusalCode code, string path, Sentence sentence, int? row = null) =>
        refusals.Add(new(code, prefix + path, sentence) { Row = row });

    /// <summary>Says something that doesn't stand in the way.</summary>
    internal void Raise(string code, Sentence sentence) => flags.Add(new(code, sentence));

    /// <summary>Says what was taken for the user (law 12).</summary>
    internal void Assume(Sentence sentence) => flags.Add(new("assumed", sentence));

    /// <summary>A vessel that must have been made; the reserved word "unplaced" always is.</summary>
    internal bool VesselKnown(string vessel, string path)
    {
        if (vessel == Account.Unplaced || Vessels.ContainsKey(vessel) || Cellar.KnowsVessel(vessel)) return true;
        var near = Vessels.Keys.FirstOrDefault(code => string.Equals(code, vessel, StringComparison.OrdinalIgnoreCase));
        Refuse(RefusalCode.UnknownVessel, path, near is null ? (Sentence)$"There is no vessel {Names.Shown(vessel)}. Make it first, or check the code." : (Sentence)$"There is no vessel {vessel}, but there is {near}. Codes are told apart by capitals.");
        return false;
    }

    /// <summary>Refuses a name that can't be a code; blank counts as missing.</summary>
    internal bool NameOk(string? name, string path, Sentence what)
    {
        if (string.IsNullOrWhiteSpace(name))
        {
            Refuse(RefusalCode.Missing, path, $"Name the {what}.");
            return false;
        }
        if (Names.IsGood(name)) return true;
        Refuse(RefusalCode.BadName, path, $"“{Names.Shown(name)}” can't be the code of a {what}: use up to 40 letters, digits, - _ . / + # and single blanks inside.");
        return false;
    }

    /// <summary>Refuses a volume that is missing, nil or below.</summary>
    internal bool Positive(Volume? volume, string path, Sentence? what = null)
    {
        if (volume is { IsPositive: true }) return true;
        var asked = what ?? "volume";
        if (volume is null) Refuse(RefusalCode.Missing, path, $"Give the {asked}.");
        else Refuse(RefusalCode.NotPositive, path, $"The {asked} must be above nil.");
        return false;
    }

    /// <summary>
    /// The one place of a lot that an operation means: the vessel named, else the lot's one place, refused when it lies in several.
    /// </summary>
    internal Place? PlaceOf(string? lot, string? vessel, string path)
    {
        if (!NameOk(lot, Join(path, "lot"), "lot")) return null;
        var accounts = Cellar.AccountsOfLot(lot!);
        if (accounts.IsEmpty)
        {
            var near = Cellar.Lots.FirstOrDefault(code => string.Equals(code, lot, StringComparison.OrdinalIgnoreCase));
            Refuse(RefusalCode.UnknownLot, Join(path, "lot"), near is null ? (Sentence)$"There is no lot {lot} on {Operation.Day:yyyy-MM-dd}. Check the code, or the day." : (Sentence)$"There is no lot {lot}, but there is {near}. Codes are told apart by capitals.");
            return null;
        }
        if (vessel is not null)
        {
            if (!VesselKnown(vessel, Join(path, "vessel"))) return null;
            var there = accounts.Where(account => account.Place == vessel).Select(Cellar.At).ToArray();
            if (there.FirstOrDefault(place => !place.IsEmpty) is { } filled) return filled;
            if (there.Length > 0) return there[^1];
            Refuse(RefusalCode.MoreThanIsThere, Join(path, "vessel"), $"Lot {lot} doesn't lie in {vessel} on {Operation.Day:yyyy-MM-dd}. {WhereItLies(lot!)}");
            return null;
        }
        var places = Cellar.PlacesOfLot(lot!);
        if (places.Count == 1) return places[0];
        if (places.Count > 1)
        {
            Refuse(RefusalCode.SeveralPlaces, Join(path, "vessel"), $"Lot {lot} lies in several places ({string.Join(", ", places.Select(place => place.Account.Place))}). Name the vessel.");
            return null;
        }
        return Cellar.At(accounts[^1]);
    }

    /// <summary>The bottling an operation means, on the shelf named, else on its one shelf.</summary>
    internal Place? ShelfOf(string? bottling, string? shelf, string path)
    {
        if (!NameOk(bottling, Join(path, "bottling"), "bottling")) return null;
        var shelves = Cellar.ShelvesOfBottling(bottling!);
        if (shelves.IsEmpty)
        {
            Refuse(RefusalCode.UnknownBottling, Join(path, "bottling"), $"There is no bottling {bottling} on {Operation.Day:yyyy-MM-dd}. Check the code, or the day.");
            return null;
        }
        if (shelf is not null)
        {
            var account = shelves.FirstOrDefault(account => account.Place == shelf);
            if (account is not null) return Cellar.At(account);
            Refuse(RefusalCode.MoreThanIsThere, Join(path, "shelf"), $"No bottles of {bottling} lie on {shelf}.");
            return null;
        }
        var filled = shelves.Select(Cellar.At).Where(place => !place.IsEmpty).ToArray();
        if (filled.Length == 1) return filled[0];
        if (filled.Length > 1)
        {
            Refuse(RefusalCode.SeveralPlaces, Join(path, "shelf"), $"Bottling {bottling} lies on several shelves ({string.Join(", ", filled.Select(place => place.Account.Place))}). Name the shelf.");
            return null;
        }
        return Cellar.At(shelves[^1]);
    }

    /// <summary>
    /// Where something new of a lot goes: the vessel named, else the lot's one place in that section, else "unplaced".
    /// </summary>
    internal Account? Destination(Section section, string? lot, string? vessel, string path)
    {
        if (!NameOk(lot, Join(path, "lot"), "lot")) return null;
        if (vessel is not null) return VesselKnown(vessel, Join(path, "vessel")) ? Account.Stock(section, lot!, vessel) : null;
        var places = Cellar.PlacesOfLot(lot!).Where(place => place.Account.Section == section).ToArray();
        if (places.Length == 1) return places[0].Account;
        if (places.Length == 0) return Account.Stock(section, lot!, Account.Unplaced);
        Refuse(RefusalCode.SeveralPlaces, Join(path, "vessel"), $"Lot {lot} lies in several places ({string.Join(", ", places.Select(place => place.Account.Place))}). Name the vessel.");
        return null;
    }

    internal static string Join(string path, string field) => path.Length == 0 ? field : path + "." + field;

    private Sentence WhereItLies(string lot)
    {
        var places = Cellar.PlacesOfLot(lot);
        return places.Count == 0 ? Sentence.Of("Nothing of it is left.") : $"It lies in {Sentence.List([.. places.Select(place => Sentence.Verbatim(place.Account.Place))])}.";
    }
}

/// <summary>The fields of an operation that a posting comes from.</summary>
/// <param name="Drawn">Says how much is drawn.</param>
/// <param name="Put">Says where it is put.</param>
internal sealed record Said(string Drawn, string Put)
{
    /// <summary>For what no field says by itself.</summary>
    public static Said Nowhere { get; } = new("", "");
}

/// <summary>Something worth knowing about an entry that doesn't stand in its way; worked out anew each time, never stored.</summary>
/// <param name="Code">Such as "assumed", "fact_missing", "capacity_unknown", "no_longer_agrees".</param>
/// <param name="Sentence">For the person.</param>
public sealed record Flag(string Code, Sentence Sentence);

/// <summary>A vessel as made.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Name">What it is called.</param>
/// <param name="Capacity">What it holds; null when not known.</param>
public sealed record VesselFacts(string Code, string Name, Volume? Capacity)
{
    /// <summary>Bucket, carboy, tank, cask …, as the maker says.</summary>
    public string? Sort { get; init; }

    /// <summary>Where it stands.</summary>
    public string? Location { get; init; }

    /// <summary>The entry that made or last changed it.</summary>
    public long Entry { get; init; }
}
