using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Bottles opened and put back.</summary>
public sealed class UnbottleModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Empty bottles back";

    /// <inheritdoc/>
    protected override string Kind => "unbottle";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Shelf("", "Bottles", Cellar.Shelves) with { Proposed = Cellar.Bottled.FirstOrDefault(shelf => shelf.Bottling == Query("bottling"))?.Value }, Ask.Bottles("bottles", "How many"), Ask.Text("lot", "Into the lot") with { Choices = Cellar.Lots }, Ask.Vessel("vessel", "In", Cellar.Vessels)),
        Parts.Losses("Losses", "losses", 0, Rows("losses", 1), VolumeUnit, "spill", "lees"),
    ];
}
