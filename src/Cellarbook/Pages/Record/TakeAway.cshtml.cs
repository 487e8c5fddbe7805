using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Lees or marc leave the premises.</summary>
public sealed class TakeAwayModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Take lees or marc away";

    /// <inheritdoc/>
    protected override string Kind => "takeAway";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Word("what", "What", [new("lees", "lees"), new("marc", "marc")]), Ask.Volume("litres", "How much", VolumeUnit), Ask.Weight("kilograms", "Weight, where weighed") with { IsOptional = true }, Ask.Text("destination", "Where it went") with { IsOptional = true }),
    ];
}
