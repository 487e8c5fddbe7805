using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace Cellarbook.Core;

/// <summary>
/// Something said to a person: English, kept as a pattern with what was put into it, so that it can be said in another language.
/// <c>$"There is no lot {lot}."</c> becomes one by itself wherever a sentence is asked for; the pattern, <c>There is no lot {0}.</c>, is its key.
/// </summary>
[InterpolatedStringHandler]
public sealed class Sentence : IEquatable<Sentence>
{
    private readonly StringBuilder pattern;
    private List<Part>? parts;

    /// <summary>Begins one; the compiler calls this for an interpolated string.</summary>
    public Sentence(int literalLength, int formattedCount)
    {
        pattern = new(literalLength + 3 * formattedCount);
        if (formattedCount > 0) parts = new(formattedCount);
    }

    private Sentence(string text) => pattern = new(text);

    /// <summary>Nothing said.</summary>
    public static Sentence Empty { get; } = new("");

    /// <summary>The English pattern with {0}, {1} … where something is put in: the key of its translations.</summary>
    public string Pattern => pattern.ToString();

    /// <summary>What is put into the pattern, in order.</summary>
    public IReadOnlyList<Part> Parts => parts ?? (IReadOnlyList<Part>)[];

    /// <summary>True when nothing is said.</summary>
    public bool IsEmpty => pattern.Length == 0;

    /// <summary>A text of the program's own, such as "Fermentation is over".</summary>
    [return: System.Diagnostics.CodeAnalysis.NotNullIfNotNull(nameof(english))]
    public static implicit operator Sentence?(string? english) => english is null ? null : english.Length == 0 ? Empty : new(english.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));

    /// <summary>A text to be said as it stands, in any language: a code, a name, a figure, what somebody wrote.</summary>
    public static Sentence Verbatim(string text) => text.Length == 0 ? Empty : $"{text}";

    /// <summary>A figure with its unit, by a decimal point; it is read with the reader's own mark.</summary>
    public static Sentence Figure(string invariant) => $"{invariant:figure}";

    /// <summary>A text of a seed file; its translation stands beside the others.</summary>
    public static Sentence Seed(string english) => english;

    /// <summary>Takes one as it is; for an interpolated string where the compiler would else make a text of it.</summary>
    public static Sentence Of(Sentence sentence) => sentence;

    /// <summary>Several, one after the other.</summary>
    public static Sentence Join(string between, IEnumerable<Sentence> sentences)
    {
        var joined = new Sentence(0, 4);
        var first = true;
        foreach (var sentence in sentences)
        {
            if (sentence.IsEmpty) continue;
            if (!first) joined.AppendLiteral(between);
            joined.AppendFormatted(sentence);
            first = false;
        }
        return joined;
    }

    /// <summary>"a", "a and b", "a, b and c".</summary>
    public static Sentence List(IReadOnlyList<Sentence> sentences) =>
        sentences.Count == 0 ? Empty : sentences.Count == 1 ? sentences[0] : $"{Join(", ", sentences.Take(sentences.Count - 1))} and {sentences[^1]}";

    /// <summary>The compiler calls this for the words of an interpolated string.</summary>
    public void AppendLiteral(string text) => pattern.Append(text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));

    /// <summary>The compiler calls this for what is put in.</summary>
    public void AppendFormatted<T>(T value, string? format = null)
    {
        parts ??= [];
        pattern.Append('{').Append(parts.Count.ToString(CultureInfo.InvariantCulture)).Append('}');
        parts.Add(new(value, format));
    }

    /// <summary>In English, figures with a decimal point.</summary>
    public override string ToString() => parts is null ? Filled(Pattern, []) : Filled(Pattern, [.. parts.Select(part => part.ToString())]);

    /// <summary>A pattern with texts put in. Places that the pattern doesn't have are left out, and one that isn't a pattern stands as it is.</summary>
    public static string Filled(string pattern, string[] texts)
    {
        if (texts.Length == 0 && !pattern.AsSpan().ContainsAny('{', '}')) return pattern;
        return string.Format(CultureInfo.InvariantCulture, pattern, texts);
    }

    /// <inheritdoc/>
    public bool Equals(Sentence? other) => other is not null && string.Equals(ToString(), other.ToString(), StringComparison.Ordinal);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Sentence);

    /// <inheritdoc/>
    public override int GetHashCode() => ToString().GetHashCode(StringComparison.Ordinal);

    /// <summary>Something put into a sentence.</summary>
    /// <param name="Value">A text, a number, a day, or another sentence.</param>
    /// <param name="Format">How a number or day is to be written; null: as it comes.</param>
    public readonly record struct Part(object? Value, string? Format)
    {
        /// <summary>As a format, has an English sentence begin with a small letter where it stands inside another: <c>{what:small}</c>.</summary>
        public const string Lower = "small";

        /// <summary>As a format, marks a text as a figure by a decimal point: <c>{text:figure}</c>.</summary>
        public const string Figure = "figure";

        /// <summary>A text with its first letter small.</summary>
        public static string Lowered(string text) => text.Length == 0 ? text : char.ToLowerInvariant(text[0]) + text[1..];

        /// <summary>In English, figures with a decimal point.</summary>
        public override string ToString() => Value is Sentence inner ? Format == Lower ? Lowered(inner.ToString()) : inner.ToString() : Value is IFormattable figure ? figure.ToString(Format, CultureInfo.InvariantCulture) : Value?.ToString() ?? "";
    }
}
