using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A period closed.</summary>
public sealed class CloseModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Close a period";

    /// <inheritdoc/>
    public override Sentence? Lead => "No entry can be dated on or before its last day from then on. Check the statement first.";

    /// <inheritdoc/>
    protected override Sentence DayLabel => "Closed on";

    /// <inheritdoc/>
    protected override string Kind => "close";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Day("through", "Last day of the period")),
    ];
}
