using Cellarbook.Core.Limits;
using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>What limits ask of a wine and no volume tells.</summary>
public sealed class DescribeModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => Here is { } here ? (Sentence)$"Say what {here.Lot} is" : "Say what a wine is";

    /// <inheritdoc/>
    public override Sentence? Lead => "Colour, scheme and zone decide which limits it is held against. They hold from that day on and follow the wine.";

    /// <inheritdoc/>
    protected override string Kind => "describe";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", PlaceField("", "Which", Cellar.Places),
            Ask.Word("colour", "Colour", [new("white", "white"), new("rosé", "rosé"), new("red", "red")]) with { IsOptional = true },
            Ask.Word("type", "Type", [.. LimitWords.Products.Keys.Append(LimitWords.NotOfGrapes).Select(word => new Choice(word, LimitWords.Said(word)))]) with { IsOptional = true },
            Ask.Text("schemes[0]", "Scheme") with { IsOptional = true, Choices = Known(row => row.Scheme) },
            Ask.Word("zone", "Wine-growing zone", LimitWords.Zones.Select(zone => new Choice(zone, Sentence.Verbatim(zone)))) with { IsOptional = true },
            Ask.Strength("naturalAbv", "Natural strength of the must") with { IsOptional = true, Hint = "From its must weight, before any sugar: enrichment is counted from it." },
            Ask.Reading("fixedAcidGramsPerLitre", "Fixed acid of the juice", "g/L") with { Hint = "Before fermentation, as tartaric acid: what water it may take is counted from it." },
            Ask.Text("cases[0]", "Case that a limit speaks of") with { IsOptional = true, Choices = Known(row => row.Case) }),
    ];

    private static IReadOnlyList<Choice> Known(Func<LimitRow, string> of) =>
        [.. LawSets.All.SelectMany(set => set.Rows).Select(of).Where(word => word.Length > 0).Distinct().Order(StringComparer.Ordinal).Select(word => new Choice(word, LimitWords.Said(word)))];
}
