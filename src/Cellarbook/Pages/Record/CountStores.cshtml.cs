using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A stock-take of the stores.</summary>
public sealed class CountStoresModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Count the stores";

    /// <inheritdoc/>
    public override Sentence? Lead => "What is there, by delivery. The difference to the book is written down, not adjusted away.";

    /// <inheritdoc/>
    protected override string Kind => "countStores";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Counted", "lines", Rows("lines", 1), path =>
            [Ask.Word(path + ".material", "What", Desk.Materials), Ask.Text(path + ".delivery", "Delivery"), Ask.Amount(path, "There is", Unit.Stores)]),
        Ask.Group("", Ask.Text("document", "Count sheet") with { IsOptional = true }, Ask.Text("doneBy", "Counted by") with { IsOptional = true }),
    ];
}
