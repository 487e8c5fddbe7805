using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>
/// A solution or a mix made up from the stores: it lies there as a delivery of its own, holds what went in by its share, and its parts' batches
/// go with it.
/// </summary>
public sealed record Mix : Operation
{
    /// <summary>What was made, by the code of a material; a new code becomes a material of one's own.</summary>
    public string? Material { get; init; }

    /// <summary>What a new material is called.</summary>
    public string? Name { get; init; }

    /// <summary>What this making of it is called in the book.</summary>
    public string? Delivery { get; init; }

    /// <summary>How much was made, by weight.</summary>
    public Mass? Grams { get; init; }

    /// <summary>How much was made, by volume.</summary>
    public Millilitres? Millilitres { get; init; }

    /// <summary>How much was made, in pieces.</summary>
    public Reading? Pieces { get; init; }

    /// <summary>Best before.</summary>
    public DateOnly? BestBefore { get; init; }

    /// <summary>What went in; water needs no line.</summary>
    public IReadOnlyList<MaterialUse>? Items { get; init; }

    internal override IEnumerable<string> MaterialsNamed => (Items ?? []).Select(item => item.Material ?? "");

    /// <summary>The material it makes, where the catalogue has none of that code.</summary>
    internal Material Made => new()
    {
        Code = Material!,
        Name = Name ?? Material!,
        Kind = "mix",
        Unit = Grams is not null ? MaterialUnit.Milligrams : Millilitres is not null ? MaterialUnit.Microlitres : MaterialUnit.Pieces,
        IsOwn = true,
    };

    internal override void Decide(Deciding deciding)
    {
        if (!deciding.NameOk(Material, "material", "material")) return;
        if (Items is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "items", "Say what went in.");
        var made = deciding.Materials.Find(Material!) ?? Made;
        var said = new SaidAmount(Grams, Millilitres, Pieces, null, null);
        if (!said.Says) deciding.Refuse(RefusalCode.Missing, "millilitres", "Say how much was made: grams, millilitres or pieces.");
        if (!deciding.NewDelivery(made, Delivery, "") || deciding.Refused) return;
        if (said.Of(deciding, made, Volume.None, "") is not { } amount) return;
        var mixing = Account.Counter("MIXED:" + made.Code);
        foreach (var (item, i) in Items!.Select((item, i) => (item, i)))
            if (item.Find(deciding, $"items[{i}]") is { } found) TakenFromStores.Post(deciding, found.Material, item.Delivery, found.Amount, mixing, "MATERIAL_TO_MIX", $"items[{i}]", found.At);
        deciding.PostMaterial("MATERIAL_MIXED", mixing, Account.Stores(made.Code, Delivery!), amount, made.Unit);
    }

    internal override DeliveryFacts? Brought(Posting posting, Deed deed) => new(new(deed.Entry), posting.Material)
    {
        BestBefore = BestBefore,
        MixedFrom = [.. deed.Postings.Where(part => part.Category.Code == "MATERIAL_TO_MIX").Select(part => new MixedPart(part.From, part.Material))],
    };
}
