using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Wine into bottles.</summary>
public sealed class BottleModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => Here is { } here ? (Sentence)$"Bottle {here.Lot}" : "Bottle";

    /// <inheritdoc/>
    protected override string Kind => "bottle";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        yield return Ask.Group("", PlaceField("", "From", Cellar.Places));
        yield return Ask.List("Filled", "fills", Rows("fills", 1), path =>
        [
            Ask.Text(path + ".bottling", "Code of the bottling"), Ask.Bottles(path + ".bottles", "Full bottles"), Ask.Size(path + ".bottleMl", "Size of a bottle") with { GoesAlong = true, Choices = Bottlings.Sizes, Proposed = "750" },
            Ask.Text(path + ".shelf", "Shelf") with { Choices = Cellar.ShelfNames, IsOptional = true },
        ]);
        if (Here is null or { IsMust: true }) yield return Parts.FermentationOver(Here is { } must && Corrects is null ? Desk.Book.Read(book => StrengthProposal.For(book, must.Lot, must.Vessel, Desk.Show)) : null) with { IsFolded = Here is null };
        yield return Ask.Group("Left over", Ask.Volume("losses[0].litres", "Lost on the line", VolumeUnit) with { IsOptional = true, Hint = "Hoses, a short last bottle, bottles broken while filling." }, Ask.Along("losses[0].kind", "bottling"), Ask.Tick("empties", "The vessel is empty now; what is left counts as lost"));
        yield return new("Labels", [.. Enumerable.Range(0, Rows("fills", 1)).Select(i => $"fills[{i}]").Select((path, i) => new Line(
            [Along(Ask.Text(path + ".lotMark", "Lot mark")), Along(Ask.Text(path + ".labelName", "Name on the label")), Along(Ask.Strength(path + ".labelAbv", "Strength on the label")), Along(Ask.Strength(path + ".abv", "Strength found, when other than the vessel's"))])
            { Caption = Rows("fills", 1) > 1 ? (Sentence)$"Filled {i + 1}" : null })]) { IsFolded = true };
        yield return Ask.Folded("Corks, labels, capsules", Ask.Text("packaging", "Used") with { IsOptional = true });
        yield return Ask.List("Out of the stores", "materials", Rows("materials", 1), path =>
        [
            Ask.Word(path + ".material", "What", Desk.Materials) with { IsOptional = true }, Ask.Amount(path, "How much", Unit.Stores) with { IsOptional = true, GoesAlong = true },
            Ask.Text(path + ".delivery", "Delivery") with { IsOptional = true, GoesAlong = true, Hint = "Left out: the oldest in store." },
        ]) with { IsFolded = true };
        yield return Parts.Losses("Other losses", "losses", 1, Rows("losses", 1), VolumeUnit, "filter", "spill", "lees", "sample");
    }

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.Declare(slip);

    private static Field Along(Field field) => field with { GoesAlong = true, IsOptional = true };
}
