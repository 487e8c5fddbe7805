using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A kit is opened and made up.</summary>
public sealed class StartKitModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Start a kit";

    /// <inheritdoc/>
    public override Sentence? Lead => "The box leaves the stores, bag and water become must, and the sachets lie in store until you use them.";

    /// <inheritdoc/>
    protected override string Kind => "startKit";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Word("kit", "Kit", Desk.Kits), Ask.Text("delivery", "Delivery") with { IsOptional = true, Hint = "Left out: the oldest in store." },
            Ask.Text("lot", "Name of the lot"), Ask.Vessel("vessel", "Vessel", Cellar.Vessels) with { IsOptional = true }),
        Ask.Group("Bag, water, mark", Ask.Volume("bagLitres", "Bag", VolumeUnit) with { IsOptional = true }, Ask.Volume("waterLitres", "Water", VolumeUnit) with { IsOptional = true },
            Ask.Volume("markLitres", "Up to the mark", VolumeUnit) with { IsOptional = true, Hint = "Any two tell the third; left out: as the box says." }),
    ];
}
