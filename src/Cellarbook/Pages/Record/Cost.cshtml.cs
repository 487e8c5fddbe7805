using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A cost of one's own put on a lot or a bottling.</summary>
public sealed class CostModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "A cost of your own";

    /// <inheritdoc/>
    public override Sentence? Lead => "Work, energy, rent: by the litre or bottle that is there, by the hour, or as one amount. Give one of them.";

    /// <inheritdoc/>
    protected override string Kind => "cost";

    private string? Currency => Desk.Book.Read(book => book.Premises?.Currency);

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        var currency = Currency;
        Field Money(string name, Sentence label) => new(FieldKind.Figure, name, label) { Units = [new(currency ?? "", null)], IsOptional = true };
        yield return Ask.Group("", Ask.Text("what", "What for"),
            Ask.Place("", "Lot, in its vessel", Cellar.Places) with { Proposed = Query("lot") is { } lot ? $"{lot}{(Query("vessel") is { } vessel ? FieldReading.At + vessel : "")}" : null, IsOptional = true },
            Ask.Text("bottling", "Bottling, instead of a lot") with { Proposed = Query("bottling"), IsOptional = true });
        yield return Ask.Group("How much", Money("perLitre", "For each litre"), Money("perBottle", "For each bottle"), Money("perHour", "For an hour"), Ask.Reading("hours", "Hours", "") with { IsSmall = false }, Money("amount", "One amount"));
        if (currency is null) yield return Ask.Group("", Ask.Text("currency", "Currency") with { Hint = "Three letters, such as EUR." });
    }
}
