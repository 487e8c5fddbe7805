using Cellarbook.Core.Limits;
using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Readings.</summary>
public sealed class MeasureModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => Here is { } here ? (Sentence)$"Read {here.Lot}" : "Read";

    /// <inheritdoc/>
    protected override string Kind => "measure";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", PlaceField("", "Of", Cellar.Places),
            new(FieldKind.Figure, "gravity", "Gravity or sugar") { Units = Unit.Sugars, IsSmall = true },
            Ask.Temperature("celsius", "Temperature", Desk.Show.TemperatureUnit)),
        Ask.Folded("More readings",
            Ask.Reading("ph", "pH", ""), Ask.Reading("taGramsPerLitre", "Titratable acidity, as tartaric", "g/L"), Ask.Reading("freeSo2MgPerLitre", "Free sulphur dioxide", "mg/L"),
            Ask.Reading("totalSo2MgPerLitre", "Total sulphur dioxide", "mg/L"), Ask.Reading("vaGramsPerLitre", "Volatile acidity, as acetic", "g/L"), Ask.Reading("sugarGramsPerLitre", "Residual sugar", "g/L"),
            Ask.Reading("abvFound", "Alcohol found", "% vol"), Ask.Reading("malicGramsPerLitre", "Malic acid", "g/L"),
            Ask.Word("malolactic", "Malolactic ferment, by the test", Bottlings.MalolacticStates) with { IsOptional = true },
            Ask.Temperature("calibrationCelsius", "The hydrometer is made for", Desk.Show.TemperatureUnit) with { IsOptional = true },
            Ask.Volume("sampleLitres", "Sample drawn and not returned", VolumeUnit) with { IsOptional = true, Unit = "mL" }),
        Ask.List("Found by a laboratory", "contents", Rows("contents", 1), path =>
            [Ask.Word(path + ".substance", "Substance", Found) with { IsOptional = true }, Ask.Reading(path + ".mgPerLitre", "Content", "mg/L") with { IsSmall = false }]) with { IsFolded = true },
    ];

    // What has a reading of its own stands above.
    private static IReadOnlyList<Choice> Found { get; } =
        [.. Substances.All.Where(substance => substance is { Reading.Length: 0, Role: not "practice" }).OrderBy(substance => substance.Name, StringComparer.Ordinal).Select(substance => new Choice(substance.Code, Sentence.Seed(substance.Name)))];
}
