using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Materials used for cleaning, spoilt or given away.</summary>
public sealed class TakeFromStoresModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Taken from the stores";

    /// <inheritdoc/>
    protected override string Kind => "takeFromStores";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Word("as", "Where it went", [new("cleaning", "used for cleaning"), new("spoilt", "spoilt, thrown away"), new("gift", "given away")]) with { Proposed = Query("as") }),
        Ask.List("Material", "items", Rows("items", 1), path =>
        [
            Ask.Word(path + ".material", "What", Desk.Materials) with { Proposed = First(path, "material") }, Ask.Amount(path, "How much", Unit.Stores) with { Unit = Desk.UnitOf(First(path, "material")) },
            Ask.Text(path + ".delivery", "Delivery") with { IsOptional = true, Hint = "Left out: the oldest in store.", Proposed = First(path, "delivery") },
        ]),
        Ask.Group("", Ask.Text("reason", "Why") with { IsOptional = true }),
    ];

    private string? First(string path, string name) => path == "items[0]" ? Query(name) : null;
}
