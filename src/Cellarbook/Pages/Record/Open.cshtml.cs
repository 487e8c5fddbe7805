using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Stock brought forward.</summary>
public sealed class OpenModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Stock brought forward";

    /// <inheritdoc/>
    public override Sentence? Lead => "What was there on the day the book begins. Later it can only be received, counted or gauged.";

    /// <inheritdoc/>
    protected override string Kind => "open";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.List("Must or wine", "stocks", Rows("stocks", 2), path =>
        [
            Ask.Word(path + ".what", "What", [new("wine", "wine"), new("must", "must")]) with { GoesAlong = true },
            Ask.Text(path + ".lot", "Lot"), Ask.Volume(path + ".litres", "How much", VolumeUnit),
            Ask.Vessel(path + ".vessel", "In", Cellar.Vessels) with { IsOptional = true }, Ask.Strength(path + ".abv", "Strength, of wine") with { IsOptional = true },
        ]),
        // Bottles are lines of the same list, numbered from a hundred on so that both can grow.
        new("Bottles", [.. Enumerable.Range(100, Rows("bottles", 1)).Select(i => $"stocks[{i}]").Select(path => new Line(
        [
            Ask.Along(path + ".what", "bottled"),
            Ask.Text(path + ".bottling", "Bottling"), Ask.Bottles(path + ".bottles", "How many"), Ask.Size(path + ".bottleMl", "Size") with { GoesAlong = true, Choices = Bottlings.Sizes },
            Ask.Text(path + ".shelf", "Shelf") with { IsOptional = true }, Ask.Strength(path + ".abv", "Strength") with { IsOptional = true },
        ]))]) { More = "bottles", MoreText = "One more bottling" },
    ];
}
