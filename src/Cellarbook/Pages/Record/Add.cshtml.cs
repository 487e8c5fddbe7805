using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Materials added.</summary>
public sealed class AddModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => Here is { } here ? (Sentence)$"Add to {here.Lot}" : "Add";

    /// <inheritdoc/>
    protected override string Kind => "add";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        yield return Ask.Group("", PlaceField("", "To", Cellar.Places));
        yield return Ask.List("Material", "items", Rows("items", 1), path =>
            [
                Ask.Text(path + ".material", "What") with { Choices = Desk.MaterialsForWine }, Ask.Amount(path, "Amount or rate", Unit.Amounts),
                Ask.Text(path + ".delivery", "Delivery") with { IsOptional = true, Hint = "Left out: the oldest in store." }, Ask.Text(path + ".batch", "Batch, where it isn't in store") with { IsOptional = true },
            ]) with { Lead = StillAllowed.Room(Desk, Here) };
        if (Here is not { IsMust: false })
            yield return new("Sugar or water that raised the must", [.. Enumerable.Range(0, Rows("items", 1)).Select(i => new Line(
                [Ask.Volume($"items[{i}].riseLitres", "Raised it by", VolumeUnit) with { IsOptional = true, GoesAlong = true }, Ask.Word($"items[{i}].riseBy", "By", [new("sugar", "sugar"), new("water", "water")]) with { IsOptional = true, GoesAlong = true }])
                { Caption = Rows("items", 1) > 1 ? (Sentence)$"Material {i + 1}" : null })]) { IsFolded = true, Lead = StillAllowed.Lead(Desk, Here) };
    }
}
