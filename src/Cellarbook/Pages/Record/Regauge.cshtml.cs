using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Strength or kind stated anew.</summary>
public sealed class RegaugeModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "State the strength anew";

    /// <inheritdoc/>
    public override Sentence? Lead => "Measured or stated again, of wine in a vessel or of bottles. A plain reading never changes it.";

    /// <inheritdoc/>
    protected override string Kind => "regauge";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Query("bottling") is null ? PlaceField("", "Wine", Cellar.Wine) with { IsOptional = true } : Ask.Place("", "Wine", Cellar.Wine) with { IsOptional = true },
            Ask.Shelf("", "Or bottles", Cellar.Shelves) with { IsOptional = true, Proposed = Cellar.Bottled.FirstOrDefault(shelf => shelf.Bottling == Query("bottling"))?.Value }, Ask.Strength("abv", "Strength"), Ask.Product("product")),
    ];
}
