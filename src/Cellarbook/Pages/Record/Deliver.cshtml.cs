using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Materials into the stores.</summary>
public sealed class DeliverModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Delivery";

    /// <inheritdoc/>
    public override Sentence? Lead => "What came, by the supplier's batch. What is used later is taken from here, the oldest first.";

    /// <inheritdoc/>
    protected override string Kind => "deliver";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Material", "items", Rows("items", 1), path =>
        [
            Ask.Word(path + ".material", "What", Desk.Materials) with { Proposed = path == "items[0]" ? Query("material") : null },
            Ask.Amount(path, "How much", Unit.Stores) with { Unit = path == "items[0]" ? Desk.UnitOf(Query("material")) : null }, Ask.Text(path + ".delivery", "Call it") with { Hint = "A short name for this delivery, such as D7." },
            Ask.Text(path + ".batch", "Supplier's batch") with { IsOptional = true }, Ask.Day(path + ".bestBefore", "Best before") with { IsOptional = true, Proposed = "" },
            Ask.Reading(path + ".price", "Paid for all of it", "") with { IsSmall = false },
        ]),
        Ask.Group("", Ask.Text("currency", "Currency of the prices") with { IsOptional = true, Hint = "Three letters, such as EUR." }, Ask.Text("supplier", "Supplier") with { IsOptional = true }, Ask.Text("document", "Invoice or delivery note") with { IsOptional = true }),
    ];
}
