using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Fruit or must on skins pressed.</summary>
public sealed class PressModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Press";

    /// <inheritdoc/>
    public override Sentence? Lead => "Must on skins, or fruit at once. Free run and press wine may go to lots of their own; of must on skins, the rest is held in the marc.";

    /// <inheritdoc/>
    protected override string Kind => "press";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Must on skins", "sources", Rows("sources", 1), path => Parts.Source(path, Cellar.Must, VolumeUnit) is var asked && path == "sources[0]" && Here is { IsMust: true } ? [PlaceField(path, "From", Cellar.Must), asked[1]] : asked),
        Ask.List("Must that came of it", "targets", Rows("targets", 2), path =>
            [Ask.Text(path + ".lot", "Lot") with { Choices = Cellar.Lots }, Ask.Volume(path + ".litres", "How much", VolumeUnit), Ask.Vessel(path + ".vessel", "Into", Cellar.Vessels)]),
        Ask.List("Fruit", "fruit", Rows("fruit", 1), path =>
            [Ask.Word(path + ".parcel", "Parcel", Cellar.Fruit) with { IsOptional = true }, Ask.Weight(path + ".kilograms", "Weight used") with { IsOptional = true, Hint = "Left out: all of it." }]) with { IsFolded = true },
        Ask.Folded("Marc",
            Ask.Volume("marcLitres", "Liquid held in it", VolumeUnit) with { IsOptional = true, Hint = "Left out: the rest of the must pressed." }, Ask.Weight("marcKilograms", "Weight") with { IsOptional = true }),
        Parts.Losses("Other losses", "losses", 0, Rows("losses", 1), VolumeUnit, "spill", "solids", "sample"),
    ];
}
