using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A material of the maker's own.</summary>
public sealed class MaterialModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "A material of your own";

    /// <inheritdoc/>
    public override Sentence? Lead => "What the packet says. It holds for the whole book and isn't changed; what differs gets another code.";

    /// <inheritdoc/>
    protected override string Kind => "material";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Text("code", "Code") with { Hint = "Short, such as tabs-2." }, Ask.Text("name", "Name"),
            Ask.Word("countedIn", "Counted in", [new("grams", "grams"), new("millilitres", "millilitres"), new("pieces", "pieces")])),
        Ask.List("What is in it", "contents", Rows("contents", 1), path =>
        [
            Ask.Word(path + ".substance", "Substance", Substances) with { IsOptional = true },
            Ask.Reading(path + ".mgInOne", "Milligrams in one gram, millilitre or piece", "mg") with { IsSmall = false, GoesAlong = true, Hint = "Left out: the packet doesn't state it." },
        ]),
        Ask.Group("What the packet allows", Ask.Reading("atMost", "At most", "g, mL or pieces") with { IsSmall = false, Hint = "Left out: the packet states no most. Wine that something of it is in is held to it by itself." }, Ask.Volume("atMostInLitres", "In", VolumeUnit) with { IsOptional = true }),
        new("Or of a substance in the wine", [.. Enumerable.Range(0, Rows("limits", 1)).Select(i => new Line(
            [
                Ask.Word($"limits[{i}].substances", "Substance", Substances) with { IsOptional = true }, Ask.Reading($"limits[{i}].value", "At most", "") with { IsSmall = false, IsKeptAsText = true },
                Ask.Word($"limits[{i}].unit", "Unit", [Weighed("mg/L"), Weighed("g/L"), Weighed("g/hL")]) with { GoesAlong = true, Proposed = "mg/L" },
                Ask.Word($"limits[{i}].basis", "Counted", [new("added_dose", "as added"), new("total_measured", "in all, as measured"), new("residual", "as left in the wine")]) with { GoesAlong = true, Proposed = "added_dose" }, Ask.Along($"limits[{i}].kind", "max"),
            ]))]) { IsFolded = true, More = "limits" },
        new("It is a kit", [new([Ask.Volume("kit.concentrateLitres", "Concentrate in the bag", VolumeUnit) with { IsOptional = true }, Ask.Volume("kit.markLitres", "Makes", VolumeUnit) with { IsOptional = true }]),
            .. Enumerable.Range(0, Rows("kit.parts", 2)).Select(i => new Line([Ask.Word($"kit.parts[{i}].material", "Sachet", Desk.Pieces) with { IsOptional = true }, Ask.Reading($"kit.parts[{i}].pieces", "How many", "pieces") with { IsWhole = true, IsSmall = false }]))])
            { IsFolded = true, More = "kit.parts", MoreText = "One more sachet", Lead = "Counted in pieces: a piece is a box. Started, it leaves its sachets in store." },
        Ask.Group("", Ask.Text("allergen", "Allergen") with { IsOptional = true }, Ask.Text("eNumber", "E number") with { IsOptional = true },
            Ask.Word("role", "What it is", [new("additive", "additive"), new("processing-aid", "processing aid"), new("sugar", "sugar"), new("packaging", "packaging"), new("cleaning", "for cleaning")]) with { IsOptional = true }),
    ];

    private static Choice Weighed(string unit) => new(unit, Sentence.Verbatim(unit));

    private static Choice[] Substances => [.. Core.Limits.Substances.All.Where(substance => substance.Role is not ("measure" or "practice")).Select(substance => new Choice(substance.Code, Sentence.Seed(substance.Name)))];
}
