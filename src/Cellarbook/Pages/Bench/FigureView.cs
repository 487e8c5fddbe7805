using Cellarbook.Core.Chemistry;
using Cellarbook.Core.LotFigures;

namespace Cellarbook.Pages.Bench;

/// <summary>A figure as every page shows one: the value with its uncertainty, then how it was found, small below.</summary>
/// <param name="Figure">The figure.</param>
/// <param name="Marked">Puts the reader's decimal mark into a text.</param>
public sealed record FigureView(Explained Figure, Func<Sentence, string> Marked)
{
    /// <summary>Where the figure can go on; null: nowhere.</summary>
    public HandOver? HandOver { get; init; }

    /// <summary>The value with its uncertainty, without the unit.</summary>
    public string Value => Marked($"{Figure.Shown}{(Uncertainty is { } uncertain ? Sentence.Of($" ± {uncertain}") : "")}");

    private Sentence? Uncertainty => Figure.Uncertainty is not { } u ? null : u > 0 && Show.Number(u, Figure.Decimals).AsSpan().IndexOfAnyExcept('0', '.') < 0 ? $"less than {Show.Number(Math.Pow(10, -Figure.Decimals), Figure.Decimals)}" : Sentence.Verbatim(Show.Number(u, Figure.Decimals));

    /// <summary>The entries behind it, for a figure of a lot.</summary>
    public IReadOnlyList<FigureReading> Readings { get; init; } = [];

    /// <summary>False where the page has said the caution already, for several figures at once.</summary>
    public bool SaysCaution { get; init; } = true;

    /// <summary>How far the source was checked, in words; nothing where the source says so itself.</summary>
    public Sentence Checked => Figure.Formula.Check switch
    {
        _ when Figure.Source.ToString().Contains("no source", StringComparison.Ordinal) || Figure.Source.ToString().Contains("from memory", StringComparison.Ordinal) => "",
        SourceCheck.Read => " (read there)",
        SourceCheck.Derived => " (follows from it)",
        _ => " (from memory, not read again)",
    };
}
