using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Fermentation is over.</summary>
public sealed class DeclareModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Fermentation is over";

    /// <inheritdoc/>
    public override Sentence? Lead => "What was must is wine from now on. Say so only when the gravity has stopped falling; the difference to the must is lees, as you say, and shrinkage.";

    /// <inheritdoc/>
    protected override string Kind => "declareWine";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        var proposal = Here is { } here && Corrects is null ? Desk.Book.Read(book => StrengthProposal.For(book, here.Lot, here.Vessel, Desk.Show)) : null;
        var litres = Ask.Volume("litres", "Wine measured", VolumeUnit);
        yield return Ask.Group("", PlaceField("", "Of", Cellar.Must), Here is { IsMust: true } must && Corrects is null ? litres with { Proposed = Desk.Show.Input(must.Volume), ProposedExactly = must.Volume.Litres, Hint = "All that is there is filled in; write what you measured." } : litres,
            Ask.Strength("abv", "Strength") with { IsOptional = true, Proposed = proposal?.Typed, ProposedExactly = proposal?.Strength.Percent, Hint = proposal?.Sentence },
            Ask.Volume("losses[0].litres", "Lees", VolumeUnit) with { IsOptional = true }, Ask.Along("losses[0].kind", "lees"));
        yield return Ask.Folded("Day it ended, kind of wine", Ask.Day("endedOn", "Ended on, when earlier") with { IsOptional = true }, Ask.Product("product"));
        yield return Parts.Losses("Other losses", "losses", 1, Rows("losses", 1), VolumeUnit, "spill", "sample", "solids");
    }
}
