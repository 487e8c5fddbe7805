using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>
/// A kit is opened: the box leaves the stores, concentrate and water become must (any two of bag, water and mark), and its sachets lie in store
/// under the box's delivery until they are used.
/// </summary>
public sealed record StartKit : Operation
{
    /// <summary>The kit, by its code or name.</summary>
    public string? Kit { get; init; }

    /// <summary>The box's delivery; left out: the oldest in store.</summary>
    public string? Delivery { get; init; }

    /// <summary>The lot it becomes.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel.</summary>
    public string? Vessel { get; init; }

    /// <summary>Concentrate poured in; left out with one of the others: what the box says, or what follows.</summary>
    public Volume? BagLitres { get; init; }

    /// <summary>Water poured in.</summary>
    public Volume? WaterLitres { get; init; }

    /// <summary>Volume in the vessel at the end, by its mark.</summary>
    public Volume? MarkLitres { get; init; }

    /// <summary>Origins of the concentrate.</summary>
    public IReadOnlyList<OriginStated>? Origin { get; init; }

    internal override bool MakesUpConcentrate => true;

    internal override IEnumerable<string> MaterialsNamed => [Kit ?? ""];

    internal override void Decide(Deciding deciding)
    {
        if (string.IsNullOrWhiteSpace(Kit)) deciding.Refuse(RefusalCode.Missing, "kit", "Name the kit.");
        else if (deciding.Materials.Meant(Kit) is not { } material) deciding.Refuse(RefusalCode.UnknownMaterial, "kit", $"There is no kit {Names.Shown(Kit)}. Choose one of the catalogue, or describe one of your own first.");
        else if (material.Kit is not { } contents) deciding.Refuse(RefusalCode.UnknownMaterial, "kit", $"{material.Said} is no kit. Choose one of the kits, or add it as a material.");
        else
        {
            var box = Delivery is null ? (TakenFromStores.InStore(deciding, material) is [var oldest, ..] ? oldest.Account : null) : Account.Stores(material.Code, Delivery);
            if (box is null || !deciding.Cellar.Knows(box)) deciding.Refuse(RefusalCode.UnknownDelivery, "delivery", $"No box of {material.Code} is in store{(Delivery is null ? "" : " as " + Names.Shown(Delivery))}. Enter its delivery first.");
            else Open(deciding, material, contents, box);
        }
    }

    private void Open(Deciding deciding, Material material, KitContents contents, Account box)
    {
        // Two of the three are needed; what isn't given is what the box says.
        var given = new[] { BagLitres, WaterLitres, MarkLitres }.Count(volume => volume is not null);
        var bag = BagLitres ?? (given < 2 ? contents.Concentrate : null);
        var mark = MarkLitres ?? (WaterLitres is null && given < 2 ? contents.Mark : null);
        if (bag is not null && BagLitres is null) deciding.Assume($"The bag was taken to hold {contents.Concentrate}, as the box says.");
        if (mark is not null && MarkLitres is null) deciding.Assume($"It was taken to be made up to {contents.Mark}, as the box says.");
        new MakeUp { Day = Day, Lot = Lot, Vessel = Vessel, BagLitres = bag, WaterLitres = WaterLitres, MarkLitres = mark, Origin = Origin }.Decide(deciding);
        if (deciding.Refused) return;
        var opened = Account.Counter("KITS:" + material.Code);
        TakenFromStores.Post(deciding, material, Delivery, new(1), opened, "KIT_OPENED", "", "kit");
        foreach (var part in contents.Parts) deciding.PostMaterial("MATERIAL_FROM_KIT", opened, Account.Stores(part.Material, box.Place), part.Pieces, MaterialUnit.Pieces);
    }

    internal override DeliveryFacts? Brought(Posting posting, Deed deed) => posting.Category.Code == "MATERIAL_FROM_KIT" && deed.Postings.FirstOrDefault(box => box.Category.Code == "KIT_OPENED") is { } box
        ? new(new(deed.Entry), posting.Material) { Kit = box.From.Name } : null;

    internal override OriginMix? OriginBrought(Posting posting) => posting.From.Name == "EXT:SUPPLIER" ? OriginStated.Mix(Origin) : null;

    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed) =>
        MarkLitres is { } mark && deed.Postings.FirstOrDefault(posting => posting.To.Section == Section.Must) is { } first ? [(first.To, mark)] : [];
}
