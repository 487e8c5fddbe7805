using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>Materials that came into the stores: each line is a delivery of its own, with the supplier's batch and best-before.</summary>
public sealed record Deliver : Operation
{
    /// <summary>What came.</summary>
    public IReadOnlyList<Item>? Items { get; init; }

    /// <summary>Currency of the prices, as three letters such as EUR.</summary>
    public string? Currency { get; init; }

    /// <summary>One material.</summary>
    public sealed record Item
    {
        /// <summary>The material, by its code or name.</summary>
        public string? Material { get; init; }

        /// <summary>What this delivery is called in the book, such as "D7".</summary>
        public string? Delivery { get; init; }

        /// <summary>Weight, of what is counted in grams.</summary>
        public Mass? Grams { get; init; }

        /// <summary>Volume, of what is counted in millilitres.</summary>
        public Millilitres? Millilitres { get; init; }

        /// <summary>Pieces, of what is counted so.</summary>
        public Reading? Pieces { get; init; }

        /// <summary>The supplier's batch.</summary>
        public string? Batch { get; init; }

        /// <summary>Best before.</summary>
        public DateOnly? BestBefore { get; init; }

        /// <summary>What was paid for all of it.</summary>
        public Money? Price { get; init; }
    }

    internal override IEnumerable<string> MaterialsNamed => (Items ?? []).Select(item => item.Material ?? "");

    internal override void Decide(Deciding deciding)
    {
        if (Items is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "items", "Say what came.");
        if (Currency is not null && (Currency.Length != 3 || !Currency.All(char.IsAsciiLetterUpper))) deciding.Refuse(RefusalCode.UnknownWord, "currency", "Give the currency as three letters, such as EUR.");
        var seen = new HashSet<Account>();
        foreach (var (item, i) in (Items ?? []).Select((item, i) => (item, i)))
        {
            var path = $"items[{i}]";
            if (deciding.MaterialOf(item.Material, path) is not { } material) continue;
            if (!deciding.NewDelivery(material, item.Delivery, path)) continue;
            var said = new SaidAmount(item.Grams, item.Millilitres, item.Pieces, null, null);
            if (!said.Says) deciding.Refuse(RefusalCode.Missing, $"{path}.{material.UnitWord}", "Say how much came.");
            if (item.Price is { Millionths: < 0 }) deciding.Refuse(RefusalCode.NotPositive, path + ".price", "A price can't be below nil.");
            var account = Account.Stores(material.Code, item.Delivery!);
            if (!seen.Add(account)) deciding.Refuse(RefusalCode.DeliveryExists, path + ".delivery", $"{item.Delivery} of {material.Code} stands twice here. Put both in one line, or give one another name.");
            else if (said.Of(deciding, material, Volume.None, path) is { } amount) deciding.PostMaterial("MATERIAL_DELIVERED", Account.Counter("EXT:SUPPLIER"), account, amount, material.Unit);
            if (item.BestBefore is { } until && until < Day) deciding.Raise("out_of_date", $"{material.Said}, delivery {item.Delivery}, was best before {until:yyyy-MM-dd}, when it came.");
        }
    }

    internal override string? PriceCurrency => Currency;

    internal override bool HasPrice => (Items ?? []).Any(item => item.Price is not null);

    internal override Money? PriceOf(Posting posting, Deed deed) => Brought(posting, deed)?.Price;

    internal override DeliveryFacts? Brought(Posting posting, Deed deed)
    {
        // Every line made one posting, in order.
        for (var i = 0; i < deed.Postings.Count; i++)
            if (ReferenceEquals(deed.Postings[i], posting) && Items?[i] is { } item)
                return new(new(deed.Entry), posting.Material) { Supplier = Supplier, Batch = item.Batch, BestBefore = item.BestBefore, Price = item.Price, Currency = item.Price is null ? null : Currency, Document = Document };
        return null;
    }
}
