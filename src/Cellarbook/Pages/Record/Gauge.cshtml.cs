using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>One vessel measured again.</summary>
public sealed class GaugeModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Measure a vessel again";

    /// <inheritdoc/>
    public override Sentence? Lead => "The difference to the book is written either way; nothing is adjusted away.";

    /// <inheritdoc/>
    protected override string Kind => "gauge";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", PlaceField("", "Which", Cellar.Places), Ask.Volume("litres", "Measured", VolumeUnit),
            Ask.Tick("nowEmpty", "It is empty now"),
            Ask.Word("as", "What is missing is", Ask.Losses("lees", "evaporation", "spill", "filter", "solids", "casualty")) with { IsOptional = true, Hint = "Left out: a difference of the gauge." }),
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip)
    {
        var empty = slip.IsTicked("nowEmpty");
        slip.Drop("nowEmpty");
        if (empty && !slip.Has("litres")) slip.Put("litres", Core.Quantities.Volume.None);
    }
}
