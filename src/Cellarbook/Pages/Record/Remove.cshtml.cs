using Cellarbook.Core.Operations;
using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>Something leaves on purpose.</summary>
public sealed class RemoveModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => "Send out, give away or drink";

    /// <inheritdoc/>
    protected override string Kind => "remove";

    /// <inheritdoc/>
    protected override string? Word => Query("as");

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions() =>
    [
        Ask.Group("", Ask.Word("as", "Where it went", Ways.Select(word => new Choice(word, Sentence.Seed(WaysOut.Meaning(word))))) with { Proposed = Query("as") }),
        Ask.List("Bottles", "lines", Rows("lines", 1), path => [Ask.Shelf(path, "Which", Cellar.Shelves) with { Proposed = path == "lines[0]" ? Cellar.Bottled.FirstOrDefault(shelf => shelf.Bottling == Query("bottling"))?.Value : null, GoesAlong = true }, Ask.Bottles(path + ".bottles", "How many")]),
        // Lines of bulk stand in the same list, numbered from a hundred on so that both can grow.
        new("Must or wine from a vessel", [.. Enumerable.Range(100, Rows("bulk", 1)).Select(i => new Line([i == 100 ? PlaceField($"lines[{i}]", "From", Cellar.Places) : Ask.Place($"lines[{i}]", "From", Cellar.Places), Ask.Volume($"lines[{i}].litres", "How much", VolumeUnit)]))]) { IsFolded = Here is null, More = "bulk" },
    ];

    /// <inheritdoc/>
    protected override void Complete(Slip slip)
    {
        // A place alone, settled by the address or chosen by default, is no line.
        foreach (var i in slip.Lines("lines").Where(i => !slip.Has($"lines[{i}].litres") && !slip.Has($"lines[{i}].bottles")).ToArray())
            if (i >= 100 && slip.Lines("lines").Count() > 1) slip.Drop($"lines[{i}]");
    }

    private IEnumerable<string> Ways => Desk.IsLicensed
        ? ["sold", "gift", "ownUse", "tasting", "analysis", "sample", "inBond", "export", "distilling", "vinegar", "destroyed"]
        : ["ownUse", "gift", "tasting", "sold", "analysis", "vinegar", "destroyed"];
}
