namespace Cellarbook.Core.Chemistry;

/// <summary>One value of a choice.</summary>
/// <param name="Code">What is sent.</param>
/// <param name="Label">What is read.</param>
public sealed record BenchChoice(string Code, Sentence Label);

/// <summary>One input of a calculator. There are no defaults: what is needed is asked for.</summary>
public sealed record BenchInput
{
    private BenchInput(string name, Sentence label, string unit, ValidRange range, IReadOnlyList<BenchChoice> choices, bool optional, Sentence? note) =>
        (Name, Label, Unit, Range, Choices, Optional, Note) = (name, label, unit, range, choices, optional, note);

    /// <summary>Name with the unit in it, such as <c>celsius</c>; also the name in JSON and in the form.</summary>
    public string Name { get; }

    /// <summary>What a person reads.</summary>
    public Sentence Label { get; }

    /// <summary>Unit in words; empty for a choice or a pure number.</summary>
    public string Unit { get; }

    /// <summary>Least and greatest value taken.</summary>
    public ValidRange Range { get; }

    /// <summary>The choices; empty for a number.</summary>
    public IReadOnlyList<BenchChoice> Choices { get; }

    /// <summary>May be left out.</summary>
    public bool Optional { get; }

    /// <summary>What to know when filling it in.</summary>
    public Sentence? Note { get; }

    /// <summary>True for a choice, false for a number.</summary>
    public bool IsChoice => Choices.Count > 0;

    /// <summary>Name of the further input that takes the standard uncertainty of this number, in its unit.</summary>
    public string UncertaintyName => Name + "Uncertainty";

    /// <summary>A number that is needed.</summary>
    public static BenchInput Number(string name, Sentence label, string unit, double low, double high, Sentence? note = null) =>
        new(name, label, unit, new ValidRange(low, high, unit), [], false, note);

    /// <summary>A number that may be left out.</summary>
    public static BenchInput OptionalNumber(string name, Sentence label, string unit, double low, double high, Sentence? note = null) =>
        new(name, label, unit, new ValidRange(low, high, unit), [], true, note);

    /// <summary>A choice that is needed.</summary>
    public static BenchInput Choice(string name, Sentence label, params BenchChoice[] choices) => new(name, label, "", default, choices, false, null);

    /// <summary>A choice that may be left out.</summary>
    public static BenchInput OptionalChoice(string name, Sentence label, params BenchChoice[] choices) => new(name, label, "", default, choices, true, null);
}
