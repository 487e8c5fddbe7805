using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>
/// A material of the maker's own: what the packet says. An entry like any other, but it holds for every day of the book; what is said once isn't
/// changed, because doses of earlier days rest on it. What differs gets another code.
/// </summary>
public sealed record DescribeMaterial : Operation
{
    /// <summary>Its code.</summary>
    public string? Code { get; init; }

    /// <summary>What it is called.</summary>
    public string? Name { get; init; }

    /// <summary>sulphite, fining, acid, yeast, nutrient … as in the catalogue.</summary>
    public string? What { get; init; }

    /// <summary>What it is counted in: grams, millilitres or pieces.</summary>
    public string? CountedIn { get; init; }

    /// <summary>What it brings into wine.</summary>
    public IReadOnlyList<Content>? Contents { get; init; }

    /// <summary>The most of it that the packet allows, in what it is counted in; goes with the volume that is for.</summary>
    public Reading? AtMost { get; init; }

    /// <summary>The volume that the most is for, such as 23 L.</summary>
    public Volume? AtMostInLitres { get; init; }

    /// <summary>What else the packet allows, as rows of a limit set; source and whether it was seen may be left out: the packet, read.</summary>
    public IReadOnlyList<LimitLine>? Limits { get; init; }

    /// <summary>The allergen it is or holds.</summary>
    public string? Allergen { get; init; }

    /// <summary>E number.</summary>
    public string? ENumber { get; init; }

    /// <summary>additive, processing-aid, sugar, packaging, cleaning.</summary>
    public string? Role { get; init; }

    /// <summary>What its box holds, where it is a kit.</summary>
    public Box? Kit { get; init; }

    /// <summary>A kit's box: the bag, the mark it is made up to, and its sachets.</summary>
    public sealed record Box
    {
        /// <summary>Concentrate in the bag.</summary>
        public Volume? ConcentrateLitres { get; init; }

        /// <summary>Volume it makes.</summary>
        public Volume? MarkLitres { get; init; }

        /// <summary>Its sachets.</summary>
        public IReadOnlyList<Sachets>? Parts { get; init; }
    }

    /// <summary>Sachets of one kind in a box.</summary>
    public sealed record Sachets
    {
        /// <summary>The material, by its code; it is counted in pieces.</summary>
        public string? Material { get; init; }

        /// <summary>How many.</summary>
        public Reading? Pieces { get; init; }
    }

    /// <summary>Cautions of the catalogue that belong to it.</summary>
    public IReadOnlyList<string>? Cautions { get; init; }

    /// <summary>A substance in it.</summary>
    public sealed record Content
    {
        /// <summary>Its code, such as "so2".</summary>
        public string? Substance { get; init; }

        /// <summary>Milligrams of it in one gram, millilitre or piece; left out: the packet doesn't state it.</summary>
        public Reading? MgInOne { get; init; }
    }

    /// <inheritdoc/>
    public override bool IsAboutTheBook => true;

    internal override void Decide(Deciding deciding)
    {
        if (!deciding.NameOk(Code, "code", "material")) return;
        if (deciding.Materials.Find(Code!) is not null) deciding.Refuse(RefusalCode.MaterialExists, "code", $"There is a material {Code} already. What differs from it gets another code.");
        if (string.IsNullOrWhiteSpace(Name)) deciding.Refuse(RefusalCode.Missing, "name", "Say what it is called.");
        if (CountedIn is not ("grams" or "millilitres" or "pieces")) deciding.Refuse(CountedIn is null ? RefusalCode.Missing : RefusalCode.UnknownWord, "countedIn", "Say what it is counted in: grams, millilitres or pieces.");
        foreach (var (content, i) in (Contents ?? []).Select((content, i) => (content, i)))
        {
            if (content.Substance is null) deciding.Refuse(RefusalCode.Missing, $"contents[{i}].substance", "Name the substance.");
            else if (Substances.Find(content.Substance) is null) deciding.Refuse(RefusalCode.UnknownWord, $"contents[{i}].substance", $"“{Operations.Names.Shown(content.Substance)}” is no substance known here. Use a code of the list of substances, such as so2.");
            if (content.MgInOne is { Value: < 0 }) deciding.Refuse(RefusalCode.NotPositive, $"contents[{i}].mgInOne", "A content can't be below nil.");
            else if (content.MgInOne is { Value: > 1_000_000 }) deciding.Refuse(RefusalCode.TooLargeNumber, $"contents[{i}].mgInOne", "That is more than a kilogram in one. Check the figure.");
        }
        CheckPacket(deciding);
        if (Kit is { } box) CheckBox(deciding, box);
    }

    private void CheckBox(Deciding deciding, Box box)
    {
        if (CountedIn != "pieces") deciding.Refuse(RefusalCode.WrongUnit, "countedIn", "A kit is counted in pieces: boxes.");
        deciding.Positive(box.ConcentrateLitres, "kit.concentrateLitres", "volume of the bag");
        if (deciding.Positive(box.MarkLitres, "kit.markLitres", "volume it makes") && box.MarkLitres < box.ConcentrateLitres) deciding.Refuse(RefusalCode.DoesNotAddUp, "kit.markLitres", "It makes less than the bag holds. Check the figures.");
        foreach (var (part, i) in (box.Parts ?? []).Select((part, i) => (part, i)))
        {
            if (deciding.Materials.Find(part.Material ?? "") is not { } material) deciding.Refuse(RefusalCode.UnknownMaterial, $"kit.parts[{i}].material", $"There is no material {Operations.Names.Shown(part.Material ?? "")}. Name a sachet by its code; describe one of your own first where it differs.");
            else if (material.Unit != MaterialUnit.Pieces) deciding.Refuse(RefusalCode.WrongUnit, $"kit.parts[{i}].material", $"{material.Name} isn't counted in pieces. Describe the sachet as a material of its own.");
            if (Whole(part.Pieces) is null) deciding.Refuse(RefusalCode.NotPositive, $"kit.parts[{i}].pieces", "Give the number of sachets.");
        }
    }

    private static MaterialAmount? Whole(Reading? pieces) => pieces is { } figure && ExactNumber.Read(figure.Text, 0, out var units) == ExactNumber.Fault.None && units is > 0 and < 10_000 ? new(units) : null;

    private void CheckPacket(Deciding deciding)
    {
        if (AtMost is { } most)
        {
            if (AtMostInLitres is null) deciding.Refuse(RefusalCode.Missing, "atMostInLitres", "Say in how much wine: the packet allows so much in so many litres.");
            if (most.Value <= 0) deciding.Refuse(RefusalCode.NotPositive, "atMost", "The most must be above nil. What must not go in at all is said by a row of kind “prohibited”.");
            else if (Most is null) deciding.Refuse(CountedIn == "pieces" ? RefusalCode.TooFine : RefusalCode.TooLargeNumber, "atMost", CountedIn == "pieces" ? "Give whole pieces, and so much more wine that they are for." : "Give it to at most three decimals, and at most a thousand tonnes.");
        }
        else if (AtMostInLitres is not null) deciding.Refuse(RefusalCode.Missing, "atMost", "Say how much of it the packet allows in that volume.");
        if (AtMostInLitres is not null) deciding.Positive(AtMostInLitres, "atMostInLitres");
        if (Limits is not { Count: > 0 }) return;
        foreach (var fault in LimitSetReader.Read(Lines, PacketLimits.About(Code!, Name ?? "")).Faults)
            deciding.Refuse(RefusalCode.LimitsUnreadable, fault.Column.Length > 0 ? $"limits[{fault.Row - 1}].{fault.Column}" : $"limits[{fault.Row - 1}]", Sentence.Verbatim(fault.ToString()), fault.Row);
    }

    private MaterialAmount? Most => AtMost is { } most && ExactNumber.Read(most.Text, CountedIn == "pieces" ? 0 : 3, out var units) == ExactNumber.Fault.None && units > 0 && units <= MaterialAmount.Most.Units ? new(units) : null;

    private IReadOnlyList<LimitLine> Lines => [.. (Limits ?? []).Select(line => line with { Source = string.IsNullOrWhiteSpace(line.Source) ? ThePacket : line.Source, Seen = string.IsNullOrWhiteSpace(line.Seen) ? "text" : line.Seen })];

    private const string ThePacket = "the packet, as entered";

    /// <summary>The material as this describes it.</summary>
    internal Material Material
    {
        get
        {
            var unit = CountedIn switch { "grams" => MaterialUnit.Milligrams, "millilitres" => MaterialUnit.Microlitres, _ => MaterialUnit.Pieces };
            return new Material
            {
                Code = Code!,
                Name = Name!,
                Kind = What ?? "own",
                Unit = unit,
                Allergen = Allergen ?? "",
                ENumber = ENumber ?? "",
                Role = Kit is null ? Role ?? "" : "kit",
                Kit = Kit is { } box ? new(box.ConcentrateLitres!.Value, box.MarkLitres!.Value, [.. (box.Parts ?? []).Select(part => new KitPart(part.Material!, Whole(part.Pieces)!.Value))]) : null,
                Cautions = Cautions ?? [],
                Note = Note ?? "",
                IsOwn = true,
                Contents = [.. (Contents ?? []).Where(content => content.MgInOne is not null).Select(content => new MaterialContent(Substances.Find(content.Substance!)!, InOne(content.MgInOne!.Value, unit), $"{content.MgInOne.Value.Text} mg in one", ThePacket, "definition"))],
                Unstated = [.. (Contents ?? []).Where(content => content.MgInOne is null).Select(content => Substances.Find(content.Substance!)!)],
            }.Stating(Most, AtMostInLitres ?? Volume.None, Lines, ThePacket);
        }
    }

    /// <summary>In a gram or millilitre there are a thousand units: whole nanograms in a unit, half up.</summary>
    private static SubstanceAmount InOne(Reading mg, MaterialUnit unit)
    {
        ExactNumber.Read(mg.Text, 9, out var billionths);
        return new SubstanceAmount(billionths).Times(1, unit == MaterialUnit.Pieces ? 1_000 : 1_000_000);
    }
}
