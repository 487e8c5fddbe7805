using Cellarbook.Core.Operations;

namespace Cellarbook.Forms;

/// <summary>The questions forms ask, each in one way.</summary>
public static class Ask
{
    /// <summary>A short text.</summary>
    public static Field Text(string name, Sentence label) => new(FieldKind.Text, name, label);

    /// <summary>A text of several lines.</summary>
    public static Field LongText(string name, Sentence label) => new(FieldKind.LongText, name, label) { IsOptional = true };

    /// <summary>One of some words.</summary>
    public static Field Word(string name, Sentence label, IEnumerable<Choice> choices) => new(FieldKind.Word, name, label) { Choices = [.. choices] };

    /// <summary>Yes, or not said.</summary>
    public static Field Tick(string name, Sentence label) => new(FieldKind.Tick, name, label) { IsOptional = true };

    /// <summary>A day.</summary>
    public static Field Day(string name, Sentence label) => new(FieldKind.Day, name, label);

    /// <summary>A volume; <paramref name="unit"/> is what the maker likes.</summary>
    public static Field Volume(string name, Sentence label, string unit) => new(FieldKind.Figure, name, label) { Units = Forms.Unit.Volumes, Unit = unit };

    /// <summary>A weight of fruit.</summary>
    public static Field Weight(string name, Sentence label) => new(FieldKind.Figure, name, label) { Units = Forms.Unit.Weights };

    /// <summary>A mass of material.</summary>
    public static Field Mass(string name, Sentence label) => new(FieldKind.Figure, name, label) { Units = Forms.Unit.Masses };

    /// <summary>An amount of material or culture, in whatever it is counted in.</summary>
    public static Field Amount(string path, Sentence label, IReadOnlyList<Unit> units) => new(FieldKind.Figure, path.Length == 0 ? "amount" : path + ".amount", label) { Path = path, Units = units, UnitIsOfTheThing = true };

    /// <summary>A temperature.</summary>
    public static Field Temperature(string name, Sentence label, string unit) => new(FieldKind.Figure, name, label) { Units = Forms.Unit.Temperatures, Unit = unit, IsSmall = true };

    /// <summary>A reading in one unit.</summary>
    public static Field Reading(string name, Sentence label, string unit) => new(FieldKind.Figure, name, label) { Units = [new(unit, null)], IsSmall = true, IsOptional = true };

    /// <summary>A strength.</summary>
    public static Field Strength(string name, Sentence label) => new(FieldKind.Figure, name, label) { Units = [new("% vol", null)], IsSmall = true };

    /// <summary>A number of bottles.</summary>
    public static Field Bottles(string name, Sentence label) => new(FieldKind.Figure, name, label) { Units = [new("bottles", null)], IsWhole = true };

    /// <summary>The size of a bottle.</summary>
    public static Field Size(string name, Sentence label) => new(FieldKind.Figure, name, label) { Units = [new("mL", null)], IsWhole = true };

    /// <summary>A lot in a vessel.</summary>
    public static Field Place(string path, Sentence label, IReadOnlyList<Choice> places) => new(FieldKind.Place, path.Length == 0 ? "place" : path, label) { Path = path, Choices = places };

    /// <summary>A bottling on a shelf.</summary>
    public static Field Shelf(string path, Sentence label, IReadOnlyList<Choice> shelves) => new(FieldKind.Shelf, path.Length == 0 ? "stock" : path, label) { Path = path, Choices = shelves };

    /// <summary>A value the form gives along with a line.</summary>
    public static Field Along(string name, string value) => new(FieldKind.Fixed, name, "") { Proposed = value, GoesAlong = true };

    /// <summary>A vessel to put something into.</summary>
    public static Field Vessel(string name, Sentence label, IReadOnlyList<Choice> vessels) => Word(name, label, vessels);

    /// <summary>Kinds of product.</summary>
    public static Field Product(string name) => Word(name, "Kind of wine", [new("still", "still"), new("carbonated", "carbonated"), new("sparkling", "sparkling"), new("cider", "cider")]) with { IsOptional = true };

    /// <summary>Ways a volume can be lost, in words.</summary>
    public static IEnumerable<Choice> Losses(params string[] words) => words.Select(word => new Choice(word, Sentence.Seed(WaysOut.Meaning(word))));

    /// <summary>A part of a form.</summary>
    public static Group Group(Sentence heading, params Field[] fields) => new(heading, [new(fields)]);

    /// <summary>A part of a form that is folded away until wanted.</summary>
    public static Group Folded(Sentence heading, params Field[] fields) => new(heading, [new(fields)]) { IsFolded = true };

    /// <summary>Lines of a list.</summary>
    /// <param name="heading">The heading.</param>
    /// <param name="list">The list in the operation.</param>
    /// <param name="count">How many lines.</param>
    /// <param name="fields">The fields of the line whose path is given.</param>
    public static Group List(Sentence heading, string list, int count, Func<string, IReadOnlyList<Field>> fields) =>
        new(heading, [.. Enumerable.Range(0, count).Select(i => new Line(fields($"{list}[{i}]")) { Caption = count > 1 ? (Sentence)$"{heading} {i + 1}" : null })]) { More = list };
}
