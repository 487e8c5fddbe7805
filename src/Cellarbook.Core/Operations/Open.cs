using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>Stock brought forward: what was there when the book begins. Only on the book's first day.</summary>
public sealed record Open : Operation
{
    /// <summary>What was there.</summary>
    public IReadOnlyList<Stock>? Stocks { get; init; }

    /// <summary>One stock brought forward: must or wine of a lot in a vessel, or bottles of a bottling on a shelf.</summary>
    public sealed record Stock
    {
        /// <summary>must, wine or bottled.</summary>
        public string? What { get; init; }

        /// <summary>The lot.</summary>
        public string? Lot { get; init; }

        /// <summary>The vessel.</summary>
        public string? Vessel { get; init; }

        /// <summary>How much, of must or wine.</summary>
        public Volume? Litres { get; init; }

        /// <summary>Stated strength.</summary>
        public Strength? Abv { get; init; }

        /// <summary>Product kind; still when left out.</summary>
        public ProductKind? Product { get; init; }

        /// <summary>The bottling.</summary>
        public string? Bottling { get; init; }

        /// <summary>The shelf.</summary>
        public string? Shelf { get; init; }

        /// <summary>How many bottles.</summary>
        public BottleCount? Bottles { get; init; }

        /// <summary>Their nominal size.</summary>
        public Millilitres? BottleMl { get; init; }

        /// <summary>Origins.</summary>
        public IReadOnlyList<OriginStated>? Origin { get; init; }
    }

    internal override void Decide(Deciding deciding)
    {
        if (Stocks is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "stocks", "Say what was there.");
        var equity = Account.Counter("EQUITY:OPENING");
        foreach (var (stock, i) in (Stocks ?? []).Select((stock, i) => (stock, i)))
        {
            var path = $"stocks[{i}]";
            OriginStated.Check(deciding, stock.Origin, path + ".origin");
            switch (stock.What)
            {
                case "must" or "wine":
                    var section = stock.What == "must" ? Section.Must : Section.Bulk;
                    if (deciding.Destination(section, stock.Lot, stock.Vessel, path) is { } account && deciding.Positive(stock.Litres, path + ".litres"))
                        deciding.At(path + ".litres", path + ".vessel").Post("OPENING", equity, account, stock.Litres!.Value, section == Section.Must ? null : stock.Abv, section == Section.Must ? null : stock.Product ?? ProductKind.Still);
                    break;
                case "bottled":
                    if (!deciding.NameOk(stock.Bottling, path + ".bottling", "bottling") || (stock.Shelf is not null && !deciding.NameOk(stock.Shelf, path + ".shelf", "shelf"))) break;
                    if (stock.Bottles is not { IsPositive: true }) deciding.Refuse(RefusalCode.NotPositive, path + ".bottles", "Give the number of bottles.");
                    else if (Bottle.SizeOk(deciding, stock.Bottling!, stock.BottleMl, path + ".bottleMl") is { } size)
                        deciding.At(path + ".bottles", path + ".bottling").PostBottles("OPENING", equity, Account.Bottled(stock.Bottling!, stock.Shelf ?? Account.Unplaced), stock.Bottles.Value, size, stock.Abv, stock.Product ?? ProductKind.Still);
                    break;
                default:
                    deciding.Refuse(stock.What is null ? RefusalCode.Missing : RefusalCode.UnknownWord, path + ".what", "Say what it was: must, wine or bottled.");
                    break;
            }
        }
    }

    internal override OriginMix? OriginBrought(Posting posting) =>
        OriginStated.Mix(Stocks?.FirstOrDefault(stock => posting.To.Section == Section.Bottled ? stock.Bottling == posting.To.Name : stock.Lot == posting.To.Name)?.Origin);
}
