using Cellarbook.Forms;

namespace Cellarbook.Pages.Record;

/// <summary>A stock-take.</summary>
public sealed class CountModel(Desk desk) : FormPage(desk)
{
    /// <inheritdoc/>
    public override Sentence Title => Query("bottling") is { } bottling ? (Sentence)$"Count {bottling}" : "Count everything";

    /// <inheritdoc/>
    public override Sentence? Lead => "Write what you find, place by place. What is left out isn't counted. A difference to the book is written with the count sheet, never adjusted away.";

    /// <inheritdoc/>
    public override (string Address, Sentence Text)? Aside => ShowsBook ? (At(Skip, beside: false), "Hide the book's figures") : (At(Skip, beside: true), "Show the book's figures beside");

    /// <summary>The address of this count from some place on.</summary>
    public string At(int skip, bool beside) => "/record/count" + QueryString.Create(new KeyValuePair<string, string?>[] { new("lot", Query("lot")), new("vessel", Query("vessel")), new("bottling", Query("bottling")), new("skip", skip == 0 ? null : skip.ToString(System.Globalization.CultureInfo.InvariantCulture)), new("beside", beside ? "yes" : null) }.Where(pair => pair.Value is not null));

    /// <inheritdoc/>
    protected override string Kind => "count";

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        yield return Ask.Group("", Ask.Text("document", "Count sheet") with { Hint = "Its name or number." });
        var filled = Filled.Skip(Skip).Take(AtOnce).ToArray();
        var bottled = Bottled.Skip(Math.Max(0, Skip - Filled.Count())).Take(AtOnce - filled.Length).ToArray();
        var line = 0;
        if (filled.Length > 0) yield return new("Vessels", [.. filled.Select(place => Line($"lines[{line++}]", place))]);
        if (bottled.Length > 0) yield return new("Bottles", [.. bottled.Select(shelf => Line($"lines[{line++}]", shelf))]);
    }

    /// <summary>Places asked for on one page.</summary>
    public const int AtOnce = 100;

    /// <summary>Places asked for on pages before.</summary>
    public int Skip => int.TryParse(Query("skip"), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var skip) ? skip : 0;

    /// <summary>True when the book's figures stand beside the fields, else they are hidden, so that nobody counts towards them.</summary>
    public bool ShowsBook => Query("beside") is not null;

    /// <summary>How many places there are in all.</summary>
    public int InAll => Filled.Count() + Bottled.Count();

    // Opened for one vessel or one bottling, it asks for that alone.
    private IEnumerable<FilledPlace> Filled => Query("bottling") is not null ? [] : Cellar.Filled.Where(place => place.Vessel == (Query("vessel") ?? place.Vessel) && place.Lot == (Query("lot") ?? place.Lot));

    private IEnumerable<FilledShelf> Bottled => Query("vessel") is not null || Query("lot") is not null ? [] : Cellar.Bottled.Where(shelf => shelf.Bottling == (Query("bottling") ?? shelf.Bottling));

    private Line Line(string path, FilledPlace place) => new([Ask.Along(path + ".lot", place.Lot), Ask.Along(path + ".vessel", place.Vessel),
        Ask.Volume(path + ".litres", $"{place.Lot} {CellarChoices.In(place.Vessel)}", VolumeUnit) with { Hint = ShowsBook ? (Sentence)$"In the book: {Desk.Show.Volume(place.Volume)}" : null }]);

    private Line Line(string path, FilledShelf shelf) => new([Ask.Along(path + ".bottling", shelf.Bottling), Ask.Along(path + ".shelf", shelf.Shelf),
        Ask.Bottles(path + ".bottles", $"{shelf.Bottling} of {Desk.Show.BottleSize(shelf.Size)} {CellarChoices.On(shelf.Shelf)}") with { Hint = ShowsBook ? (Sentence)$"In the book: {Desk.Show.Bottles(shelf.Bottles)}" : null }]);
}
