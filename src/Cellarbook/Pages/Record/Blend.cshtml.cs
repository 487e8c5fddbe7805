using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Several vessels into several: blended or split.</summary>
public sealed class BlendModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Blend or split";

    /// <inheritdoc/>
    public override Sentence? Lead => "What was drawn is what was put plus what was lost. Each target is drawn from all sources in proportion.";

    /// <inheritdoc/>
    protected override string Kind => "transfer";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Drawn", "sources", Rows("sources", 2), path => Parts.Source(path, Cellar.Places, VolumeUnit) is var asked && path == "sources[0]" && Here is { } here ? [asked[0] with { Proposed = here.Value }, asked[1]] : asked),
        Ask.List("Put", "targets", Rows("targets", 2), path => [.. Parts.Target(path, "How much", Cellar, VolumeUnit), Ask.Strength(path + ".abv", "Strength stated") with { IsOptional = true, GoesAlong = true }]),
        Parts.Losses("Losses", "losses", 0, Rows("losses", 1), VolumeUnit, "lees", "spill", "filter", "solids", "sample"),
        Parts.FermentationOver(null),
        Ask.Folded("Where wines of different kinds meet", Ask.Product("product")),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip)
    {
        Parts.Declare(slip);
        Parts.NameTargets(slip);
    }
}
