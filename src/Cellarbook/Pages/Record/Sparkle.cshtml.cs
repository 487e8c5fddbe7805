using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Still wine made sparkling.</summary>
public sealed class SparkleModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Make sparkling";

    /// <inheritdoc/>
    public override Sentence? Lead => "Still wine goes in, sparkling wine comes out.";

    /// <inheritdoc/>
    protected override string Kind => "makeSparkling";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Wine put in", "sources", Rows("sources", 1), path => Parts.Source(path, Cellar.Wine, VolumeUnit) is var asked && path == "sources[0]" && Here is { IsMust: false } ? [PlaceField(path, "From", Cellar.Wine), asked[1]] : asked),
        Ask.Group("Dosage", Ask.Volume("dosageLitres", "Tirage or dosage that went in", VolumeUnit) with { IsOptional = true }),
        Ask.List("Measured out", "targets", Rows("targets", 1), path => Parts.Result(path, Cellar, VolumeUnit)),
        Ask.Folded("Kind of wine", Ask.Product("product")),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.NameTargets(slip);
}
