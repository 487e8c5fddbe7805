using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Water, or water and sugar, added to wine.</summary>
public sealed class AmeliorateModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Water into wine";

    /// <inheritdoc/>
    public override Sentence? Lead => "Water, or water and sugar, added to wine. Not everywhere allowed: your local rules decide.";

    /// <inheritdoc/>
    protected override string Kind => "ameliorate";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Wine put in", "sources", Rows("sources", 1), path => Parts.Source(path, Cellar.Wine, VolumeUnit) is var asked && path == "sources[0]" && Here is { IsMust: false } ? [PlaceField(path, "From", Cellar.Wine), asked[1]] : asked),
        Ask.Group("Added", Ask.Volume("waterLitres", "How much", VolumeUnit)) with { Lead = StillAllowed.Lead(Desk, Here) },
        Ask.List("Measured out", "targets", Rows("targets", 1), path => Parts.Result(path, Cellar, VolumeUnit, follows: true)),
        Ask.Folded("Kind of wine", Ask.Product("product")),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.NameTargets(slip);
}
