using Cellarbook.Forms;
using Cellarbook.Storage;

namespace Cellarbook.Pages.Record;

/// <summary>A name in the book blanked, for good.</summary>
public sealed class BlankContactModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Blank a name";

    /// <inheritdoc/>
    public override Sentence? Lead => "The name goes from every entry that holds it, and can't be brought back. The entries stay, and so does their seal. Backups made before still hold the name, and so do notes and documents that spell it out.";

    /// <inheritdoc/>
    protected override Sentence DayLabel => "Blanked on";

    /// <inheritdoc/>
    protected override string Kind => "blankContact";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", new Field(FieldKind.Figure, "contact", "Name") { Units = [new("number", null)], IsWhole = true, Proposed = Query("contact") }, Ask.Text("reason", "Why") with { IsOptional = true }),
    ];

    /// <summary>Names in the book, by number.</summary>
    public IReadOnlyList<Contact> Contacts => Desk.Book.Store.Contacts;
}
