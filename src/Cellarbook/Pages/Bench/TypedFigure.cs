using System.Globalization;
using Cellarbook.Core.Chemistry;

namespace Cellarbook.Pages.Bench;

/// <summary>
/// A figure as typed at the bench, with decimal comma or point. One that can be read in two ways, both of which the field would take, is refused;
/// grouping is never guessed at.
/// </summary>
public static class TypedFigure
{
    private const int Longest = 30;

    /// <summary>Reads a figure.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="range">What the field takes.</param>
    /// <param name="comma">True where the maker's own decimal mark is the comma.</param>
    /// <param name="figure">The figure read.</param>
    /// <returns>What is the matter, as a sentence; null when nothing is.</returns>
    public static Sentence? Read(string typed, ValidRange range, bool comma, out double figure)
    {
        figure = double.NaN;
        var text = typed.Trim().Replace('−', '-');
        var shown = Core.Operations.Names.Shown(text);
        if (text.Length > Longest) return $"A figure has at most {Longest} characters.";
        var digits = text.StartsWith('-') || text.StartsWith('+') ? text[1..] : text;
        if (digits.Any(c => !char.IsAsciiDigit(c) && c is not ('.' or ','))) return $"“{shown}” is not a number. Write digits with one decimal {(comma ? Sentence.Of("comma") : "point")}; the unit stands beside the field.";
        var marks = digits.Count(c => c is '.' or ',');
        if (marks > 1) return $"“{shown}” has signs between its digits that can be read in two ways. Write it without grouping.";
        if (digits.Length == marks || !char.IsAsciiDigit(digits[^1]) || !char.IsAsciiDigit(digits[0])) return $"“{shown}” is not a whole figure. Write it such as {(comma ? "0,5" : "0.5")}.";
        figure = Number(text.Replace(',', '.'));
        var at = digits.IndexOfAny(['.', ',']);
        if (at is < 1 or > 3 || digits[0] == '0' || digits.Length - at - 1 != 3 || digits[at] == (comma ? ',' : '.')) return null;
        // One to three digits, the other mark, three digits: perhaps thousands. Where the field takes only one of the two, there is no doubt.
        var thousands = Number(text.Remove(text.IndexOf(digits[at], StringComparison.Ordinal), 1));
        if (!range.Contains(thousands) || !range.Contains(figure))
        {
            if (range.Contains(thousands)) figure = thousands;
            return null;
        }
        return $"“{shown}” can be read as {Shown(figure, comma)} or as {Shown(thousands, comma)}. Write it with your decimal {(comma ? Sentence.Of("comma") : "point")}, or without any sign.";
    }

    private static string Shown(double figure, bool comma) => comma ? Core.Chemistry.Show.Typed(figure).Replace('.', ',') : Core.Chemistry.Show.Typed(figure);

    private static double Number(string text) => double.Parse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
}
