using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A solution or a mix made up from the stores.</summary>
public sealed class MixModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Make up a solution or mix";

    /// <inheritdoc/>
    public override Sentence? Lead => "It lies in the stores as a delivery of its own; what went in goes with it.";

    /// <inheritdoc/>
    protected override string Kind => "mix";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Text("material", "Short name of what is made") with { Hint = "Such as kmbs-10. A new one becomes a material of your own." }, Ask.Text("name", "What it is called") with { IsOptional = true },
            Ask.Text("delivery", "Call this making of it") with { Hint = "Such as S1." }, Ask.Amount("", "How much was made", Unit.Stores), Ask.Day("bestBefore", "Best before") with { IsOptional = true, Proposed = "" }),
        Ask.List("What went in", "items", Rows("items", 1), path => [Ask.Word(path + ".material", "What", Desk.Materials), Ask.Amount(path, "How much", Unit.Stores), Ask.Text(path + ".delivery", "Delivery") with { IsOptional = true, Hint = "Left out: the oldest in store." }]),
    ];
}
