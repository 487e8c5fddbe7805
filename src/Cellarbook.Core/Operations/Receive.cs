using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>Something comes in from outside: must, juice, concentrate, fruit by weight, bulk wine, bottled wine, spirit.</summary>
public sealed record Receive : Operation
{
    /// <summary>must, juice, concentrate, fruit, bulkWine, bottledWine or spirit.</summary>
    public string? What { get; init; }

    /// <summary>The lot it becomes, or joins; for fruit the parcel.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel it goes into.</summary>
    public string? Vessel { get; init; }

    /// <summary>How much, by the consignor's document.</summary>
    public Volume? Litres { get; init; }

    /// <summary>How much arrived, when less: the rest is a transit loss.</summary>
    public Volume? ArrivedLitres { get; init; }

    /// <summary>Weight of fruit.</summary>
    public FruitWeight? Kilograms { get; init; }

    /// <summary>Strength of wine or spirit.</summary>
    public Strength? Abv { get; init; }

    /// <summary>Product kind of wine.</summary>
    public ProductKind? Product { get; init; }

    /// <summary>True when tax was paid on the wine before; a household's purchase always is.</summary>
    public bool? TaxPaid { get; init; }

    /// <summary>The bottling, for bottled wine.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf.</summary>
    public string? Shelf { get; init; }

    /// <summary>How many bottles.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>Their nominal size.</summary>
    public Millilitres? BottleMl { get; init; }

    /// <summary>Lot mark on bottles received.</summary>
    public string? LotMark { get; init; }

    /// <summary>Sugar reading of must, as on the paper: °Brix.</summary>
    public Reading? Brix { get; init; }

    /// <summary>What was paid for all of it, in the book's currency; what was short on arrival included.</summary>
    public Money? Price { get; init; }

    /// <summary>Currency of the price, as three letters; left out: the book's.</summary>
    public string? Currency { get; init; }

    /// <summary>Origins.</summary>
    public IReadOnlyList<OriginStated>? Origin { get; init; }

    internal override string? PriceCurrency => Currency;

    internal override bool HasPrice => Price is not null;

    internal override Money? PriceOf(Posting posting, Deed deed) => posting.From.Name.StartsWith("EXT:", StringComparison.Ordinal) ? Price : null;

    internal override IEnumerable<string> SaidWords => What is null ? [] : [What];

    internal override void Decide(Deciding deciding)
    {
        OriginStated.Check(deciding, Origin);
        if (Price is { Millionths: < 0 }) deciding.Refuse(RefusalCode.NotPositive, "price", "A price can't be below nil.");
        if (Price > Money.Most) deciding.Refuse(RefusalCode.TooLargeNumber, "price", "That is more than the book can count. Check the price.");
        switch (What)
        {
            case "must" or "juice" or "concentrate":
                if (deciding.Destination(Section.Must, Lot, Vessel, "") is { } must && deciding.Positive(Litres, "litres"))
                {
                    deciding.At("litres", "vessel").Post("MUST_RECEIVED", Account.Counter("EXT:SUPPLIER"), must, Litres!.Value);
                    Shortage(deciding, must);
                }
                break;
            case "fruit":
                if (!deciding.NameOk(Lot, "lot", "parcel of fruit")) break;
                if (Kilograms is not { Grams: > 0 }) deciding.Refuse(RefusalCode.NotPositive, "kilograms", "Give the weight.");
                else deciding.PostFruit("FRUIT_RECEIVED", Account.Counter("EXT:GROWER"), Account.Fruit(Lot!), Kilograms.Value);
                break;
            case "bulkWine":
                if (deciding.Destination(Section.Bulk, Lot, Vessel, "") is { } bulk && deciding.Positive(Litres, "litres"))
                {
                    var category = Category.Of(TaxPaid == true ? "WINE_BOUGHT_BULK" : "RECEIVED_BULK");
                    deciding.At("litres", "vessel").Post(category.Code, Account.Counter(category.From.Counters[0]), bulk, Litres!.Value, Abv, Product);
                    Shortage(deciding, bulk);
                }
                break;
            case "bottledWine":
                if (!deciding.NameOk(Bottling, "bottling", "bottling") || (Shelf is not null && !deciding.NameOk(Shelf, "shelf", "shelf"))) break;
                if (Bottles is not { IsPositive: true }) deciding.Refuse(RefusalCode.NotPositive, "bottles", "Give the number of bottles.");
                else if (Bottle.SizeOk(deciding, Bottling!, BottleMl, "bottleMl") is { } size)
                {
                    var category = Category.Of(TaxPaid == true ? "WINE_BOUGHT" : "RECEIVED_BOTTLED");
                    deciding.At("bottles", "bottling").PostBottles(category.Code, Account.Counter(category.From.Counters[0]), Account.Bottled(Bottling!, Shelf ?? Account.Unplaced), Bottles.Value, size, Abv, Product);
                }
                break;
            case "spirit":
                if (deciding.Positive(Litres, "litres")) deciding.Post("SPIRIT_RECEIVED", Account.Counter("EXT:SUPPLIER"), Account.Spirit, Litres!.Value, Abv);
                break;
            default:
                deciding.Refuse(What is null ? RefusalCode.Missing : RefusalCode.UnknownWord, "what", "Say what came in: must, juice, concentrate, fruit, bulkWine, bottledWine or spirit.");
                break;
        }
    }

    internal override bool BringsConcentrate(Posting posting) => What == "concentrate" && posting.Category.Code == "MUST_RECEIVED";

    internal override OriginMix? OriginBrought(Posting posting) => OriginStated.Mix(Origin);

    private void Shortage(Deciding deciding, Account account)
    {
        if (ArrivedLitres is not { } arrived) return;
        if (arrived > Litres!.Value) deciding.Refuse(RefusalCode.DoesNotAddUp, "arrivedLitres", "More arrived than the document says. Enter the document's quantity as it is and gauge the vessel for the rest.");
        else if (arrived < Volume.None) deciding.Refuse(RefusalCode.NotPositive, "arrivedLitres", "What arrived can't be below nil.");
        else WaysOut.Post(deciding.At("arrivedLitres"), "transit", account, Litres.Value - arrived, "arrivedLitres");
    }
}
