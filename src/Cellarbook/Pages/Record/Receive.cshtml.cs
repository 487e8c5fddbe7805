using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Something comes in from outside.</summary>
public sealed class ReceiveModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => What is null ? "What came in?" : (Sentence)$"Receive {Kinds.First(kind => kind.Value == What).Text}";

    /// <inheritdoc/>
    protected override string Kind => "receive";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        var into = Ask.Vessel("vessel", "Into", Cellar.Vessels) with { Proposed = Query("vessel"), IsOptional = true };
        Field[] always = What switch
        {
            "fruit" => [Ask.Text("lot", "Name of the parcel") with { Hint = "Such as the variety and the day." }, Ask.Weight("kilograms", "Weight")],
            "bottledWine" => [Ask.Text("bottling", "Code for these bottles"), Ask.Bottles("bottles", "Bottles"), Ask.Size("bottleMl", "Size of a bottle") with { Choices = Bottlings.Sizes }, Ask.Text("shelf", "Shelf") with { Choices = Cellar.ShelfNames, IsOptional = true }, Ask.Strength("abv", "Strength") with { IsOptional = true }],
            "bulkWine" => [Ask.Text("lot", "Lot it becomes, or joins") with { Choices = Cellar.Lots }, Ask.Volume("litres", "How much", VolumeUnit), into, Ask.Strength("abv", "Strength") with { IsOptional = true }],
            "spirit" => [Ask.Volume("litres", "How much", VolumeUnit), Ask.Strength("abv", "Strength")],
            _ => [Ask.Text("lot", "Lot it becomes, or joins") with { Choices = Cellar.Lots }, Ask.Volume("litres", "How much", VolumeUnit), into],
        };
        if (What is null) yield break;
        yield return Ask.Group("", [Ask.Along("what", What), .. always, Ask.Text("supplier", "From whom") with { IsOptional = true }]);
        if (What is not ("spirit" or "bottledWine")) yield return Parts.Origins("origin", Rows("origin", 1));
        var more = new List<Field>();
        if (What is "must" or "juice" or "concentrate") more.Add(Ask.Reading("brix", "Sugar on the paper", "°Bx"));
        if (What is "must" or "juice" or "concentrate" or "bulkWine") more.Add(Ask.Volume("arrivedLitres", "Arrived, when less", VolumeUnit) with { IsOptional = true, Hint = "The amount above is that of the paper; what is short is written as lost on the way." });
        if (What is "bulkWine" or "bottledWine") more.Add(Ask.Product("product"));
        if (What is ("bulkWine" or "bottledWine") && Desk.IsLicensed) more.Add(Ask.Word("taxPaid", "Tax on it", [new("false", "not paid yet, under bond"), new("true", "paid before")]) with { IsYesNo = true, IsOptional = true });
        var currency = Desk.Book.Read(book => book.Premises?.Currency);
        more.Add(new(FieldKind.Figure, "price", "Paid for all of it") { Units = [new(currency ?? "", null)], IsOptional = true });
        if (currency is null) more.Add(Ask.Text("currency", "Currency") with { IsOptional = true, Hint = "Three letters, such as EUR." });
        if (What is "bottledWine") more.Add(Ask.Text("lotMark", "Lot mark on the bottle") with { IsOptional = true });
        if (more.Count > 0) yield return Ask.Folded("From the paper that came with it", [.. more]);
    }

    /// <summary>What comes in: must, juice, concentrate, fruit, bulkWine, bottledWine or spirit; null until chosen.</summary>
    public string? What => Corrects?.Value(Ask.Text("what", ""), Desk.Show) ?? (Kinds.Any(kind => kind.Value == Query("what")) ? Query("what") : null);

    /// <summary>The vessel the page was opened for, carried on.</summary>
    public string Carry => Query("vessel") is { } vessel ? "&vessel=" + Uri.EscapeDataString(vessel) : "";

    /// <summary>What may come in, in words.</summary>
    public static IReadOnlyList<Choice> Kinds { get; } = [new("must", "must"), new("juice", "juice"), new("concentrate", "concentrate"), new("fruit", "fruit"), new("bulkWine", "wine in bulk"), new("bottledWine", "wine in bottles"), new("spirit", "spirit")];

    /// <inheritdoc/>
    protected override void Complete(Slip slip)
    {
        // What a household buys was taxed before: the book's own word for it, which no household is asked for.
        if (!Desk.IsLicensed && What is ("bulkWine" or "bottledWine") && !slip.Has("taxPaid")) slip.Put("taxPaid", true);
    }
}
