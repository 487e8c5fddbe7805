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
    public override (string Address, Sentence Text)? Aside => Here is null && Cellar.Wine.Count > 2 ? ("/record/top-up-many", "Top up many in one go") : null;

    /// <inheritdoc/>
    protected override string Kind => "topUp";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Topped", "casks", Rows("casks", 1), path => [path == "casks[0]" ? PlaceField(path, "Which", Cellar.Places) : Ask.Place(path, "Which", Cellar.Places), Ask.Volume(path + ".litres", "Went in", VolumeUnit)]),
        .. Parts.ToppedFrom(Cellar),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.KeepBought(slip);
}
