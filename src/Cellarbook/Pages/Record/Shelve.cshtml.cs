using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Bottles moved to a shelf, cased or labelled.</summary>
public sealed class ShelveModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Shelve, case or label";

    /// <inheritdoc/>
    public override Sentence? Lead => "No wine moves. What is left out stays as it is.";

    /// <inheritdoc/>
    protected override string Kind => "shelve";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Shelf("", "Bottles", Cellar.Shelves) with { Proposed = Cellar.Bottled.FirstOrDefault(shelf => shelf.Bottling == Query("bottling"))?.Value }, Ask.Bottles("bottles", "How many") with { IsOptional = true, Hint = "Left out: all of them." }, Ask.Text("toShelf", "To the shelf") with { Choices = Cellar.ShelfNames, IsOptional = true }),
        Ask.Folded("Cases and labels", Ask.Bottles("cases", "Cases they make") with { Units = [new("cases", null)], IsOptional = true }, Ask.Text("lotMark", "Lot mark") with { IsOptional = true }, Ask.Text("labelName", "Name on the label") with { IsOptional = true }, Ask.Strength("labelAbv", "Strength on the label") with { IsOptional = true }),
    ];
}
