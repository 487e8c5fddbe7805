using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Wines blended, the result measured anew.</summary>
public sealed class BlendAnewModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Blend and measure anew";

    /// <inheritdoc/>
    public override Sentence? Lead => "A blend across classes: every part counts as used, and the result is measured with its strength.";

    /// <inheritdoc/>
    protected override string Kind => "blend";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Wine put in", "sources", Rows("sources", 1), path => Parts.Source(path, Cellar.Wine, VolumeUnit) is var asked && path == "sources[0]" && Here is { IsMust: false } ? [PlaceField(path, "From", Cellar.Wine), asked[1]] : asked),
        Ask.List("Measured out", "targets", Rows("targets", 1), path => Parts.Result(path, Cellar, VolumeUnit, follows: true)),
        Ask.Folded("Kind of wine", Ask.Product("product")),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.NameTargets(slip);
}
