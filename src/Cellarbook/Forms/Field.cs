namespace Cellarbook.Forms;

/// <summary>What a field of a form takes.</summary>
public enum FieldKind
{
    /// <summary>A short text.</summary>
    Text,
    /// <summary>A longer text.</summary>
    LongText,
    /// <summary>One of some words.</summary>
    Word,
    /// <summary>Yes, or not said.</summary>
    Tick,
    /// <summary>A day.</summary>
    Day,
    /// <summary>A time.</summary>
    Time,
    /// <summary>A figure, with a unit beside it.</summary>
    Figure,
    /// <summary>A lot in a vessel: fills "lot" and "vessel".</summary>
    Place,
    /// <summary>A bottling on a shelf: fills "bottling" and "shelf".</summary>
    Shelf,
    /// <summary>Nothing to type: a value the form gives.</summary>
    Fixed,
}

/// <summary>A word that may be chosen. Of ten thousand vessels few are read, so a text may be put together when it is.</summary>
public sealed class Choice
{
    private readonly Func<Sentence>? make;
    private Sentence? text;

    /// <summary>A word with its text.</summary>
    public Choice(string value, Sentence text) => (Value, this.text) = (value, text);

    /// <summary>A word whose text is put together when it is read.</summary>
    public Choice(string value, Func<Sentence> text) => (Value, make) = (value, text);

    /// <summary>As it stands in the operation.</summary>
    public string Value { get; }

    /// <summary>As it is read.</summary>
    public Sentence Text => text ??= make!();
}

/// <summary>One field of a form, named by its place in the operation, so that what the book refuses finds its way back to it.</summary>
/// <param name="Kind">What it takes.</param>
/// <param name="Name">Its name in the form: the path in the operation, such as "sources[0].litres".</param>
/// <param name="Label">What it asks.</param>
public sealed record Field(FieldKind Kind, string Name, Sentence Label)
{
    /// <summary>The object in the operation that a place, a shelf or an amount fills; for the others not used.</summary>
    public string Path { get; init; } = "";

    /// <summary>A word of explanation below it.</summary>
    public Sentence? Hint { get; init; }

    /// <summary>What may be chosen; for a text, what is proposed while typing.</summary>
    public IReadOnlyList<Choice> Choices { get; init; } = [];

    /// <summary>Units it may be given in; one alone is shown as text.</summary>
    public IReadOnlyList<Unit> Units { get; init; } = [];

    /// <summary>The unit proposed; left out: the first.</summary>
    public string? Unit { get; init; }

    /// <summary>What the form proposes, as it stands in the field.</summary>
    public string? Proposed { get; init; }

    /// <summary>What the proposal is exactly, in the field's own unit, where <see cref="Proposed"/> shows it shortened.</summary>
    public string? ProposedExactly { get; init; }

    /// <summary>True when it doesn't by itself make a line count as filled in.</summary>
    public bool GoesAlong { get; init; }

    /// <summary>True where thousands can't be meant.</summary>
    public bool IsSmall { get; init; }

    /// <summary>True where the operation keeps the figure as text, as files do.</summary>
    public bool IsKeptAsText { get; init; }

    /// <summary>True for whole numbers.</summary>
    public bool IsWhole { get; init; }

    /// <summary>True where nobody minds when it stays empty.</summary>
    public bool IsOptional { get; init; }

    /// <summary>True when it is the same from day to day, so that what was last said is filled in.</summary>
    public bool IsRemembered { get; init; }

    /// <summary>True when the unit is another for each thing, so that the one last chosen isn't filled in: grams of a powder after pieces of a tablet.</summary>
    public bool UnitIsOfTheThing { get; init; }

    /// <summary>True when a word is "true" or "false" in the operation, without quotes.</summary>
    public bool IsYesNo { get; init; }

    /// <summary>What stands instead of the field where the page was opened for one thing; it is then sent along unasked.</summary>
    public Sentence? Settled { get; init; }

    /// <summary>True when a path of the operation is filled by this field.</summary>
    public bool Fills(string path) => path.Length > 0 && (Kind switch
    {
        FieldKind.Place => path == Join(Path, "lot") || path == Join(Path, "vessel") || path == Path,
        FieldKind.Shelf => path == Join(Path, "bottling") || path == Join(Path, "shelf") || path == Path,
        FieldKind.Figure => path == Name || Units.Any(unit => unit.Leaf is { } leaf && path == Join(Path, leaf)),
        _ => path == Name,
    });

    /// <summary>A field below a path.</summary>
    public static string Join(string path, string leaf) => path.Length == 0 ? leaf : path + "." + leaf;

    /// <summary>An id for the page.</summary>
    public string Id => "f-" + Name.Replace('[', '-').Replace("]", "", StringComparison.Ordinal).Replace('.', '-');

    /// <summary>The name of the unit's own input.</summary>
    public string UnitName => Name + ":unit";
}

/// <summary>Fields that stand together in a line of a form.</summary>
/// <param name="Fields">The fields.</param>
public sealed record Line(IReadOnlyList<Field> Fields)
{
    /// <summary>What the line is about, where it has a name.</summary>
    public Sentence? Caption { get; init; }
}

/// <summary>A part of a form.</summary>
/// <param name="Heading">Its heading; empty for the first fields, which need none.</param>
/// <param name="Lines">Its lines.</param>
public sealed record Group(Sentence Heading, IReadOnlyList<Line> Lines)
{
    /// <summary>True when it is folded away until wanted.</summary>
    public bool IsFolded { get; init; }

    /// <summary>True when its lines stand side by side where there is room: many short ones of one kind.</summary>
    public bool IsGrid { get; init; }

    /// <summary>Below the heading.</summary>
    public Sentence? Lead { get; init; }

    /// <summary>The list in the operation that can take one more line.</summary>
    public string? More { get; init; }

    /// <summary>What the button for one more line says.</summary>
    public Sentence MoreText { get; init; } = "One more line";
}
