using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>An entry taken back, with its reason.</summary>
public sealed class CorrectModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Correct an entry";

    /// <inheritdoc/>
    public override Sentence? Lead => "The entry is taken back whole; it stays in the book, struck and linked. Nothing is removed.";

    /// <inheritdoc/>
    protected override Sentence DayLabel => "Taken back on";

    /// <inheritdoc/>
    protected override string Kind => "correct";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", new Field(FieldKind.Figure, "takesBack", "Entry") { Units = [new("number", null)], IsWhole = true, Proposed = Query("entry") }, Ask.Text("reason", "Why")),
    ];

    /// <summary>The entry, in words; empty where there is none.</summary>
    public IReadOnlyList<Sentence> Moves => Entry is { } entry ? Desk.Book.Read<Sentence[]>(book => [.. (book.Find(entry)?.Deeds ?? []).SelectMany(deed => deed.Postings).Select(posting => PostingWords.Say(posting, Desk.Show))]) : [];

    /// <summary>The entry asked for; null where there is none.</summary>
    public long? Entry => long.TryParse(Query("entry"), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var number) && number > 0 && number <= Cellar.LastNumber ? number : null;

    /// <summary>Where the entry can be written again, filled in; null where no form writes its like.</summary>
    public string? WriteAgain => Entry is { } entry && Desk.Book.Read(book => book.Find(entry)?.Operation) is { } operation ? FormIndex.FormFor(operation is Core.Operations.Correct { Write: [var one] } ? one : operation) is { } form ? $"/record/{form.Slug}?corrects={entry}" : null : null;
}
