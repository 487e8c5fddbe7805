using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>One vessel racked into another: drawn, received, lees; any two tell the third.</summary>
public sealed class RackModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => Here is { } here ? (Sentence)$"Rack {here.Lot} from {here.Vessel}" : "Rack";

    /// <inheritdoc/>
    public override Sentence? Lead => "Give two of drawn, received and lees; the third follows.";

    /// <inheritdoc/>
    public override string? Third => "sources[0].litres targets[0].litres losses[0].litres";

    /// <inheritdoc/>
    protected override string Kind => "transfer";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        var from = Here?.Vessel;
        var drawn = Ask.Volume("sources[0].litres", "Drawn", VolumeUnit);
        if (Here is { } here && Corrects is null) drawn = drawn with { Proposed = Desk.Show.Input(here.Volume), ProposedExactly = here.Volume.Litres, Hint = "All that is there is filled in." };
        yield return Ask.Group("", PlaceField("sources[0]", "From", Cellar.Places), drawn,
            Ask.Volume("targets[0].litres", "Received", VolumeUnit), Ask.Volume("losses[0].litres", "Lees", VolumeUnit) with { IsOptional = true }, Ask.Along("losses[0].kind", "lees"),
            Ask.Vessel("targets[0].vessel", "To", [.. Cellar.Vessels.Where(vessel => vessel.Value != from)]));
        if (Here is null or { IsMust: true }) yield return Parts.FermentationOver(Here is { } must && Corrects is null ? Desk.Book.Read(book => StrengthProposal.For(book, must.Lot, must.Vessel, Desk.Show)) : null);
        yield return Parts.Losses("Other losses", "losses", 1, Rows("losses", 1), VolumeUnit, "spill", "filter", "solids", "sample");
        yield return Ask.Folded("Another lot, or another strength", Ask.Text("targets[0].lot", "Lot it becomes") with { Choices = Cellar.Lots, IsOptional = true, GoesAlong = true, Hint = "Left out: the same lot." }, Ask.Strength("targets[0].abv", "Strength stated") with { IsOptional = true, GoesAlong = true }, Ask.Product("product"));
    }

    /// <inheritdoc/>
    protected override void Complete(Slip slip)
    {
        Parts.Declare(slip);
        var (drawn, received, lees) = (slip.Litres("sources[0].litres"), slip.Litres("targets[0].litres"), slip.Litres("losses[0].litres"));
        var other = slip.Lines("losses").Where(i => i > 0).Select(i => slip.Litres($"losses[{i}].litres")).Aggregate(Core.Quantities.Volume.None, (sum, litres) => sum + (litres ?? Core.Quantities.Volume.None));
        if (drawn is { } all && received is { } got && lees is null && all - got - other is { IsPositive: true } rest) slip.Put("losses[0].litres", rest);
        else if (drawn is { } whole && received is null && lees is { } left && whole - left - other is { IsPositive: true } clear) slip.Put("targets[0].litres", clear);
        else if (drawn is null && received is { } put && lees is { } lost) slip.Put("sources[0].litres", put + lost + other);
        Parts.NameTargets(slip);
    }
}
