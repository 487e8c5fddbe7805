using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Wine into bottles: sizes and counts; line breakages, a short last bottle and what hoses hold are losses. Count × nominal size leaves the
/// vessel; the rest of what was drawn are losses by kind.
/// </summary>
public sealed record Bottle : Operation
{
    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel; left out: the lot's one place.</summary>
    public string? Vessel { get; init; }

    /// <summary>What was filled.</summary>
    public IReadOnlyList<Fill>? Fills { get; init; }

    /// <summary>Losses on the line.</summary>
    public IReadOnlyList<Loss>? Losses { get; init; }

    /// <summary>True when the vessel is empty afterwards: the rest is posted as a bottling loss.</summary>
    public bool? Empties { get; init; }

    /// <summary>"Fermentation is over": must here is declared wine first, whole, less the shrinkage given.</summary>
    public Transfer.Declared? Declare { get; init; }

    /// <summary>Packaging used, as free text: corks, labels, capsules.</summary>
    public string? Packaging { get; init; }

    /// <summary>Packaging and other materials used, out of the stores.</summary>
    public IReadOnlyList<MaterialUse>? Materials { get; init; }

    /// <summary>One bottling: bottles of one size.</summary>
    public sealed record Fill
    {
        /// <summary>Code of the bottling.</summary>
        public string? Bottling { get; init; }

        /// <summary>Full bottles.</summary>
        public BottleCount? Bottles { get; init; }

        /// <summary>Nominal size.</summary>
        public Millilitres? BottleMl { get; init; }

        /// <summary>The shelf they went to.</summary>
        public string? Shelf { get; init; }

        /// <summary>Strength stated for the bottling; left out: the tank's.</summary>
        public Strength? Abv { get; init; }

        /// <summary>Lot mark on the bottle.</summary>
        public string? LotMark { get; init; }

        /// <summary>Name on the label.</summary>
        public string? LabelName { get; init; }

        /// <summary>Strength on the label.</summary>
        public Strength? LabelAbv { get; init; }
    }

    internal override void Decide(Deciding deciding)
    {
        if (Fills is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "fills", "Say what was filled.");
        if (deciding.PlaceOf(Lot, Vessel, "") is not { } place) return;
        var account = place.Account;
        if (account.Section == Section.Must)
        {
            if (Declare is null)
            {
                deciding.Refuse(RefusalCode.MustIntoWine, "lot", $"{Lot} in {account.Place} is must. Declare it wine before bottling; only do so when the gravity has stopped falling: bottles filled too early burst.");
                return;
            }
            var wine = Account.Bulk(account.Name, account.Place);
            // What shrank never became wine; all else did.
            var shrinkage = (Losses ?? []).Where(loss => loss.Kind == "shrinkage").Aggregate(Volume.None, (sum, loss) => sum + (loss.Litres ?? Volume.None));
            deciding.At("losses").Post("FERMENT_VOLUME_CHANGE", account, Account.Shrinkage, shrinkage);
            deciding.At("declare", "vessel").Post("PRODUCED", account, wine, place.Volume - shrinkage, Declare.Abv, Declare.Product ?? ProductKind.Still);
            account = wine;
        }
        else if (Declare is not null) deciding.Refuse(RefusalCode.WrongAccount, "declare", $"{Lot} in {account.Place} is wine already.");
        var filled = Volume.None;
        foreach (var (fill, i) in (Fills ?? []).Select((fill, i) => (fill, i)))
        {
            var path = $"fills[{i}]";
            if (!deciding.NameOk(fill.Bottling, path + ".bottling", "bottling")) continue;
            if (fill.Shelf is not null && !deciding.NameOk(fill.Shelf, path + ".shelf", "shelf")) continue;
            if (fill.Bottles is not { IsPositive: true } bottles)
            {
                deciding.Refuse(fill.Bottles is null ? RefusalCode.Missing : RefusalCode.NotPositive, path + ".bottles", "Give the number of full bottles.");
                continue;
            }
            if (SizeOk(deciding, fill.Bottling!, fill.BottleMl, path + ".bottleMl") is not { } size) continue;
            filled += bottles * size;
            deciding.At(path + ".bottles", path + ".bottling").PostBottles("BOTTLED", account, Account.Bottled(fill.Bottling!, fill.Shelf ?? Account.Unplaced), bottles, size, fill.Abv);
        }
        var lost = Volume.None;
        foreach (var (loss, i) in (Losses ?? []).Select((loss, i) => (loss, i)))
        {
            if (!deciding.Positive(loss.Litres, $"losses[{i}].litres")) continue;
            lost += loss.Litres!.Value;
            if (Declare is null || loss.Kind != "shrinkage") WaysOut.Post(deciding.At($"losses[{i}].litres"), loss.Kind, account, loss.Litres!.Value, $"losses[{i}].kind");
        }
        var bottlings = (Fills ?? []).Where(fill => fill.Bottles is { IsPositive: true }).Select(fill => (Account.UsedIn(Account.Bottled(fill.Bottling!, fill.Shelf ?? Account.Unplaced)), fill.Bottles!.Value.Bottles)).ToArray();
        foreach (var (use, i) in (Materials ?? []).Select((use, i) => (use, i)))
            if (!deciding.Refused && use.Find(deciding, $"materials[{i}]") is { } found) TakenFromStores.Post(deciding, found.Material, use.Delivery, found.Amount, bottlings, $"materials[{i}]", found.At);
        if (Empties == true && place.Volume - filled - lost is { IsPositive: true } rest) WaysOut.Post(deciding, "bottling", account, rest, "empties");
    }

    internal override IEnumerable<string> SaidWords => (Losses ?? []).Select(loss => loss.Kind).OfType<string>();

    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed)
    {
        if (deed.Postings.FirstOrDefault(posting => posting.Category.Code == "PRODUCED") is { } declared) yield return (declared.From, Volume.None);
        if (Empties == true && deed.Postings.FirstOrDefault(posting => posting.Category.Code == "BOTTLED") is { } bottled) yield return (bottled.From, Volume.None);
    }

    /// <summary>The size of a bottling, refused when missing, out of range or other than before.</summary>
    internal static Volume? SizeOk(Deciding deciding, string bottling, Millilitres? size, string path)
    {
        if (deciding.Cellar.Bottling(bottling) is { } known)
        {
            if (size is null || size.Value.Volume == known.Size) return known.Size;
            deciding.Refuse(RefusalCode.OtherBottleSize, path, $"Bottling {bottling} is of {ExactNumber.Write(known.Size.Microlitres, 3)} mL. A bottling has one size; give the other size a code of its own.");
            return null;
        }
        if (size is null) deciding.Refuse(RefusalCode.Missing, path, "Give the size of the bottle.");
        else if (!size.Value.Volume.IsPositive) deciding.Refuse(RefusalCode.NotPositive, path, "The size must be above nil.");
        else if (size.Value.Volume > Volume.OfLitres(60)) deciding.Refuse(RefusalCode.TooLargeNumber, path, "A bottle holds 60 L at most; larger is a vessel.");
        else return size.Value.Volume;
        return null;
    }
}

/// <summary>Bottles opened and put back to a vessel.</summary>
public sealed record Unbottle : Operation
{
    /// <summary>The bottling.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf.</summary>
    public string? Shelf { get; init; }

    /// <summary>How many.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>The lot it goes to.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel.</summary>
    public string? Vessel { get; init; }

    /// <summary>Spilt or left in the bottles.</summary>
    public IReadOnlyList<Loss>? Losses { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (deciding.ShelfOf(Bottling, Shelf, "") is not { } shelf) return;
        if (Bottles is not { IsPositive: true }) deciding.Refuse(Bottles is null ? RefusalCode.Missing : RefusalCode.NotPositive, "bottles", "Give the number of bottles.");
        if (deciding.Destination(Section.Bulk, Lot, Vessel, "") is not { } bulk || deciding.Refused) return;
        deciding.At("bottles", "vessel").PostBottles("UNBOTTLED", shelf.Account, bulk, Bottles!.Value, shelf.BottleSize);
        foreach (var (loss, i) in (Losses ?? []).Select((loss, i) => (loss, i)))
            if (deciding.Positive(loss.Litres, $"losses[{i}].litres")) WaysOut.Post(deciding.At($"losses[{i}].litres"), loss.Kind, bulk, loss.Litres!.Value, $"losses[{i}].kind");
    }
}

/// <summary>Bottles moved to a shelf, cased, or labelled anew; no volume moves.</summary>
public sealed record Shelve : Operation
{
    /// <summary>The bottling.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf they lie on; left out: their one shelf.</summary>
    public string? Shelf { get; init; }

    /// <summary>The shelf they go to; left out: they stay.</summary>
    public string? ToShelf { get; init; }

    /// <summary>How many; left out: all of them.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>Cases they make.</summary>
    public BottleCount? Cases { get; init; }

    /// <summary>Lot mark from now on.</summary>
    public string? LotMark { get; init; }

    /// <summary>Name on the label from now on.</summary>
    public string? LabelName { get; init; }

    /// <summary>Strength on the label from now on.</summary>
    public Strength? LabelAbv { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (deciding.ShelfOf(Bottling, Shelf, "") is not { } shelf) return;
        if (ToShelf is not null && !deciding.NameOk(ToShelf, "toShelf", "shelf")) return;
        var bottles = Bottles ?? shelf.Bottles;
        if (!bottles.IsPositive) deciding.Refuse(RefusalCode.NotPositive, "bottles", "There are no bottles to move.");
        else deciding.At("bottles", "toShelf").PostBottles("CASED", shelf.Account, Account.Bottled(Bottling!, ToShelf ?? shelf.Account.Place), bottles, shelf.BottleSize);
    }
}
