using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Something seen or done that moves nothing.</summary>
public sealed class ObserveModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Note something seen or done";

    /// <inheritdoc/>
    protected override string Kind => "observe";

    /// <inheritdoc/>
    protected override string? Word => Query("what");

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("",
            // A vessel without wine can be cleaned, too: its choice names the vessel alone.
            PlaceField("", "Where", [.. Cellar.Places, .. Cellar.Vessels.Where(vessel => Cellar.Find(null, vessel.Value) is null && vessel.Value != Core.Book.Account.Unplaced).Select(vessel => new Choice(FieldReading.At + vessel.Value, vessel.Text))])
                is var where && Here is null && Query("vessel") is { } vessel ? where with { Proposed = FieldReading.At + vessel } : where,
            Ask.Word("what", "What", [new("degassed", "degassed"), new("stirred", "stirred"), new("capPunched", "cap punched or pumped over"), new("clarity", "clarity"), new("taste", "taste"), new("cleaned", "vessel cleaned"), new("other", "something else")]) with { Proposed = Query("what") },
            Ask.LongText("finding", "What was found or done")),
    ];
}
