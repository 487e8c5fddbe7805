using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Bottles come back.</summary>
public sealed class ReturnModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Bottles come back";

    /// <inheritdoc/>
    public override Sentence? Lead => "They are received again; the sale stays as it was written.";

    /// <inheritdoc/>
    protected override string Kind => "return";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Bottles", "lines", Rows("lines", 1), path => [Ask.Text(path + ".bottling", "Bottling") with { Choices = Bottlings, Proposed = path == "lines[0]" ? Query("bottling") : null, GoesAlong = true }, Ask.Bottles(path + ".bottles", "How many"), Ask.Text(path + ".shelf", "To the shelf") with { Choices = Cellar.ShelfNames, IsOptional = true, GoesAlong = true }]),
    ];

    private Choice[] Bottlings => Desk.Book.Read<Choice[]>(book => [.. book.Now.Bottlings.Select(bottling => bottling.Code).Order(StringComparer.Ordinal).Take(200).Select(code => new Choice(code, Sentence.Verbatim(code)))]);
}
