using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Casks topped up.</summary>
public sealed class TopUpModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Top up";

    /// <inheritdoc/>
    public override Sentence? Lead => "Say how much went into each. That is what had evaporated; it is written as evaporation first.";

    /// <inheritdoc/>
    protected override string Kind => "topUp";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Topped", "casks", Rows("casks", 1), path => [path == "casks[0]" ? PlaceField(path, "Which", Cellar.Places) : Ask.Place(path, "Which", Cellar.Places), Ask.Volume(path + ".litres", "Went in", VolumeUnit)]),
        Ask.Group("From own wine", Ask.Place("from", "Own wine", Cellar.Places) with { IsOptional = true }),
        Ask.Folded("Or from own bottles", Ask.Shelf("fromBottles", "Bottles opened", Cellar.Shelves) with { IsOptional = true }, Ask.Bottles("fromBottles.bottles", "How many") with { IsOptional = true }),
        Ask.Folded("Or from bought wine", Ask.Tick("fromBought", "It was bought wine"), Ask.Text("fromBought.what", "Which") with { IsOptional = true }, Ask.Strength("fromBought.abv", "Strength") with { IsOptional = true }),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip)
    {
        if (!slip.IsTicked("fromBought")) return;
        slip.Drop("fromBought", itself: true);
        slip.PutEmpty("fromBought");
    }
}
