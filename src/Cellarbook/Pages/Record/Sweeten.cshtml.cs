using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Wine sweetened.</summary>
public sealed class SweetenModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Sweeten";

    /// <inheritdoc/>
    public override Sentence? Lead => "The wine put in and the result measured out; what is less is contraction and is written so.";

    /// <inheritdoc/>
    protected override string Kind => "sweeten";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Wine put in", "sources", Rows("sources", 1), path => Parts.Source(path, Cellar.Wine, VolumeUnit) is var asked && path == "sources[0]" && Here is { IsMust: false } ? [PlaceField(path, "From", Cellar.Wine), asked[1]] : asked),
        Ask.Group("Sweetener", Ask.Volume("sweetenerLitres", "Volume it took up", VolumeUnit), Ask.Text("material", "What") with { IsOptional = true }, Ask.Mass("grams", "Weight") with { IsOptional = true }, Ask.Text("batch", "Batch") with { IsOptional = true }),
        Ask.List("Measured out", "targets", Rows("targets", 1), path => Parts.Result(path, Cellar, VolumeUnit)),
        Ask.Folded("Or own must", Ask.Place("must", "Must", Cellar.Must) with { IsOptional = true }, Ask.Volume("must.litres", "How much", VolumeUnit) with { IsOptional = true, Hint = "Left out: all of it." }),
        Ask.Folded("Kind of wine", Ask.Product("product")),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.NameTargets(slip);
}
