namespace Cellarbook.Core.Chemistry;

/// <summary>Why a number is not given: a stable code, a sentence saying what to do, the valid range and the source of that range.</summary>
/// <param name="Code">One of <see cref="RefusalCodes"/>.</param>
/// <param name="Path">Name of the input or result concerned.</param>
/// <param name="Sentence">What is wrong and what would help.</param>
/// <param name="Valid">The valid range in words.</param>
/// <param name="Source">Who says so.</param>
public sealed record BenchRefusal(string Code, string Path, Sentence Sentence, Sentence Valid, Sentence Source);

/// <summary>The codes of bench refusals, in the order in which they are looked for.</summary>
public static class RefusalCodes
{
    /// <summary>An input this calculator does not have.</summary>
    public const string UnknownInput = "unknown-input";

    /// <summary>An input that is needed was not given.</summary>
    public const string MissingInput = "missing-input";

    /// <summary>An input is no finite number.</summary>
    public const string NotANumber = "not-a-number";

    /// <summary>A choice that does not exist.</summary>
    public const string UnknownChoice = "unknown-choice";

    /// <summary>An input outside its range.</summary>
    public const string OutOfRange = "out-of-range";

    /// <summary>Inputs that cannot be true together.</summary>
    public const string Impossible = "impossible";

    /// <summary>The formula does not hold for these inputs.</summary>
    public const string OutsideValidity = "outside-validity";

    /// <summary>What would be needed is not known.</summary>
    public const string CannotSay = "cannot-say";
}
