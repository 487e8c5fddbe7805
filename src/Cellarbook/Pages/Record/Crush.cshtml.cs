using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Fruit crushed.</summary>
public sealed class CrushModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Crush fruit";

    /// <inheritdoc/>
    protected override string Kind => "crush";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Fruit", "fruit", Rows("fruit", 1), path =>
            [Ask.Word(path + ".parcel", "Parcel", Cellar.Fruit), Ask.Weight(path + ".kilograms", "Weight used") with { IsOptional = true, Hint = "Left out: all of it." }]),
        Ask.List("Must that came of it", "targets", Rows("targets", 1), path =>
            [Ask.Text(path + ".lot", "Lot") with { Choices = Cellar.Lots }, Ask.Volume(path + ".litres", "How much", VolumeUnit) with { Hint = "An estimate will do; say so below." }, Ask.Vessel(path + ".vessel", "Into", Cellar.Vessels)]),
    ];
}
