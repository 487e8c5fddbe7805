using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Something was lost.</summary>
public sealed class LoseModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Lost";

    /// <inheritdoc/>
    protected override string Kind => "lose";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Word("as", "How", Ask.Losses("evaporation", "spill", "breakage", "lees", "solids", "filter", "casualty", "bottling", "transit", "marc", "shrinkage")) with { Proposed = Query("as") ?? (Query("bottling") is null ? null : "breakage") }),
        Ask.Group("Must or wine", PlaceField("", "From", Cellar.Places) with { IsOptional = true }, Ask.Volume("litres", "How much", VolumeUnit) with { IsOptional = true }) with { IsFolded = Query("bottling") is not null },
        Ask.Folded("Or bottles", Ask.Shelf("", "Bottles", Cellar.Shelves) with { IsOptional = true, Proposed = Cellar.Bottled.FirstOrDefault(shelf => shelf.Bottling == Query("bottling"))?.Value }, Ask.Bottles("bottles", "How many") with { IsOptional = true }) with { IsFolded = Query("bottling") is null },
        Ask.Folded("Or fruit", Ask.Word("parcel", "Parcel", Cellar.Fruit) with { IsOptional = true }, Ask.Weight("kilograms", "Weight") with { IsOptional = true }),
    ];
}
