using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Spirit added to wine.</summary>
public sealed class FortifyModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Fortify";

    /// <inheritdoc/>
    public override Sentence? Lead => "The wine put in and the result measured out; what is less is contraction and is written so.";

    /// <inheritdoc/>
    protected override string Kind => "fortify";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Wine put in", "sources", Rows("sources", 1), path => Parts.Source(path, Cellar.Wine, VolumeUnit) is var asked && path == "sources[0]" && Here is { IsMust: false } ? [PlaceField(path, "From", Cellar.Wine), asked[1]] : asked),
        Ask.Group("Spirit", Ask.Volume("spiritLitres", "How much", VolumeUnit), Ask.Strength("spiritAbv", "Strength"), Ask.Text("batch", "Batch") with { IsOptional = true }),
        Ask.List("Measured out", "targets", Rows("targets", 1), path => Parts.Result(path, Cellar, VolumeUnit, follows: true)),
        Ask.Folded("Kind of wine", Ask.Product("product")),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.NameTargets(slip);
}
