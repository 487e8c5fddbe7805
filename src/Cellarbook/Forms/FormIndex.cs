using Cellarbook.Core.Operations;

namespace Cellarbook.Forms;

/// <summary>One of the things that can be written.</summary>
/// <param name="Slug">Its address below /record.</param>
/// <param name="Kind">The kind of operation it writes.</param>
/// <param name="Title">What it is called.</param>
/// <param name="Says">What it is for.</param>
/// <param name="Next">Forms that sensibly come after it.</param>
public sealed record FormEntry(string Slug, string Kind, Sentence Title, Sentence Says, params string[] Next)
{
    /// <summary>True for what only a maker who answers to an authority needs.</summary>
    public bool IsForLicensed { get; init; }
}

/// <summary>Everything that can be written, grouped as in a cellar diary.</summary>
public static class FormIndex
{
    /// <summary>The groups, in order.</summary>
    public static IReadOnlyList<(Sentence Heading, IReadOnlyList<FormEntry> Forms)> Groups { get; } =
    [
        ("Start", [
            new("open", "open", "Stock brought forward", "what was there when the book begins", "receive", "count"),
            new("receive", "receive", "Receive", "must, juice, concentrate, fruit, wine, spirit", "make-up", "pitch", "measure", "crush"),
            new("make-up", "makeUp", "Make up", "a concentrate with water and sugar", "measure", "pitch"),
            new("crush", "crush", "Crush", "fruit into must", "measure", "pitch", "press"),
            new("press", "press", "Press", "must on skins, or fruit at once", "measure", "pitch", "rack"),
            new("pitch", "pitch", "Pitch", "yeast or malolactic bacteria", "measure")]),
        ("Watch", [
            new("measure", "measure", "Read", "gravity, temperature and more", "measure", "add", "rack"),
            new("describe", "describe", "Say what it is", "colour, scheme, zone: for limits", "add"),
            new("observe", "observe", "Note", "degassed, stirred, tasted, cleaned", "measure")]),
        ("Work", [
            new("rack", "transfer", "Rack", "off the lees into another vessel", "add", "top-up", "observe", "measure"),
            new("add", "add", "Add", "sulphite, sugar, acid, nutrient, finings", "measure", "rack"),
            new("declare", "declareWine", "Fermentation is over", "must becomes wine", "rack", "add", "bottle"),
            new("top-up", "topUp", "Top up", "casks, and what had evaporated", "measure", "add"),
            new("top-up-many", "topUp", "Top up many", "a round of casks in one entry", "measure"),
            new("blend", "transfer", "Blend or split", "several vessels into several", "measure", "add"),
            new("blend-anew", "blend", "Blend and measure anew", "across classes, as a process", "measure") { IsForLicensed = true },
            new("sweeten", "sweeten", "Sweeten", "sugar, juice or own must into wine", "measure", "add", "bottle"),
            new("fortify", "fortify", "Fortify", "spirit into wine", "measure", "bottle"),
            new("ameliorate", "ameliorate", "Water into wine", "water, or water and sugar", "measure"),
            new("sparkle", "makeSparkling", "Make sparkling", "a second ferment, or carbonated", "measure", "bottle")]),
        ("Lose", [
            new("lose", "lose", "Lost", "evaporated, spilt, broken", "gauge"),
            new("take-away", "takeAway", "Lees or marc taken away", "with where they went")]),
        ("Bottle and send out", [
            new("bottle", "bottle", "Bottle", "a lot into bottles", "shelve", "observe", "remove"),
            new("shelve", "shelve", "Shelve, case or label", "no wine moves", "remove"),
            new("remove", "remove", "Send out, give away or drink", "bottles or bulk", "remove", "return"),
            new("return", "return", "Bottles come back", "from a buyer", "shelve"),
            new("unbottle", "unbottle", "Empty bottles back", "into a vessel", "gauge")]),
        ("Measure and count", [
            new("gauge", "gauge", "Measure a vessel again", "more or less than the book says", "rack"),
            new("regauge", "regauge", "State the strength anew", "of a vessel or of bottles"),
            new("count", "count", "Count everything", "a stock-take, with its sheet")]),
        ("Stores", [
            new("deliver", "deliver", "Delivery", "materials into the stores, by batch", "add", "deliver"),
            new("start-kit", "startKit", "Start a kit", "box, bag, water and sachets", "pitch", "measure"),
            new("mix", "mix", "Make up a solution", "or a mix, from the stores", "add"),
            new("take-from-stores", "takeFromStores", "Taken from the stores", "cleaning, spoilt, given away", "count-stores"),
            new("count-stores", "countStores", "Count the stores", "by delivery", "deliver"),
            new("material", "material", "A material of your own", "what the packet says", "deliver")]),
        ("The book itself", [
            new("correct", "correct", "Correct an entry", "take it back, or write it again"),
            new("cost", "cost", "Put a cost on wine", "work, energy, rent"),
            new("close", "close", "Close a period", "no entries in it any more"),
            new("blank-contact", "blankContact", "Blank a name", "of somebody in entries, for good")]),
    ];

    /// <summary>Every form.</summary>
    public static IEnumerable<FormEntry> All => Groups.SelectMany(group => group.Forms);

    /// <summary>The form of that address, or null.</summary>
    public static FormEntry? Find(string slug) => All.FirstOrDefault(form => form.Slug == slug);

    /// <summary>The form that writes an operation's like; null where none does.</summary>
    public static FormEntry? FormFor(Operation operation) => operation switch
    {
        { IsAboutTheBook: true } or Correct or Imported => null,
        Transfer { Sources: [_], Targets: [_] } => Find("rack"),
        _ => All.FirstOrDefault(form => form.Kind == OperationJson.KindOf(operation) && form.Slug != "rack"),
    };
}
