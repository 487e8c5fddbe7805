using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A concentrate made up with water and sugar.</summary>
public sealed class MakeUpModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Make up a concentrate";

    /// <inheritdoc/>
    public override Sentence? Lead => "Give two of bag, water and mark; the third follows.";

    /// <inheritdoc/>
    protected override string Kind => "makeUp";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("",
            Ask.Text("lot", "Lot") with { Choices = Cellar.Lots, Proposed = Query("lot") },
            Ask.Vessel("vessel", "Vessel", Cellar.Vessels) with { Proposed = Query("vessel"), IsOptional = true },
            Ask.Volume("bagLitres", "Concentrate poured in", VolumeUnit) with { IsOptional = true },
            Ask.Volume("waterLitres", "Water poured in", VolumeUnit) with { IsOptional = true },
            Ask.Volume("markLitres", "Volume reached, by the mark", VolumeUnit) with { IsOptional = true }),
        Ask.Folded("Sugar",
            Ask.Mass("sugarGrams", "Sugar dissolved"), Ask.Volume("sugarLitres", "Volume it took up", VolumeUnit) with { IsOptional = true },
            Ask.Reading("brixBefore", "Reading before", "°Bx"), Ask.Reading("brixAfter", "Reading after", "°Bx")),
        Parts.Origins("origin", Rows("origin", 1)),
    ];
}
