using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Yeast or malolactic bacteria pitched.</summary>
public sealed class PitchModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => Here is { } here ? (Sentence)$"Pitch {here.Lot}" : "Pitch";

    /// <inheritdoc/>
    protected override string Kind => "pitch";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", PlaceField("", "Into", Cellar.Places)),
        Ask.List("Culture", "cultures", Rows("cultures", 1), path =>
        [
            Ask.Text(path + ".name", "Name on the packet"), Ask.Word(path + ".what", "What", [new("yeast", "yeast"), new("malolactic", "malolactic bacteria")]) with { GoesAlong = true, Proposed = "yeast" },
            Ask.Amount(path, "Amount", Unit.Cultures) with { IsOptional = true }, Ask.Text(path + ".batch", "Batch") with { IsOptional = true },
        ]),
        Ask.Folded("Temperature and malolactic state",
            Ask.Temperature("mustCelsius", "Temperature of the must", Desk.Show.TemperatureUnit) with { IsOptional = true },
            Ask.Word("malolactic", "Malolactic ferment", Bottlings.MalolacticStates) with { IsOptional = true }),
    ];
}
