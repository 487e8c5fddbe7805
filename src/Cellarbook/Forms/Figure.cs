using System.Globalization;
using System.Numerics;

namespace Cellarbook.Forms;

/// <summary>A figure as somebody typed it: whole digits and how many of them stand behind the mark. Exact, and of any size.</summary>
/// <param name="Digits">All digits as one number, with the sign.</param>
/// <param name="Decimals">How many of them are decimals.</param>
public readonly record struct Figure(BigInteger Digits, int Decimals)
{
    /// <summary>The longest figure, in characters.</summary>
    public const int Longest = 40;

    /// <summary>The figure in the book's own form: a point, and the decimals as typed, so that 1.050 stays 1.050.</summary>
    public string Text
    {
        get
        {
            var digits = BigInteger.Abs(Digits).ToString(CultureInfo.InvariantCulture).PadLeft(Decimals + 1, '0');
            var text = Decimals == 0 ? digits : $"{digits[..^Decimals]}.{digits[^Decimals..]}";
            return Digits.Sign < 0 ? "-" + text : text;
        }
    }

    /// <summary>The nearest double, for chemistry.</summary>
    public double Number => double.Parse(Text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);

    /// <summary>
    /// Reads a figure with a decimal comma or point. Grouping is never guessed at: a figure that can be read in two ways is a fault.
    /// </summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="comma">True where the maker's own decimal mark is the comma: then 1,234 is one and a bit, and 1.234 is in doubt.</param>
    /// <param name="small">True for a field where thousands can't be meant, such as a gravity: there 1,050 is in no doubt.</param>
    /// <param name="figure">The figure read.</param>
    /// <returns>What is the matter, as a sentence; null when nothing is.</returns>
    // Thousands have no decimals; a field that takes none of them takes no such figure in a decimal one's place.
    public static Sentence? Read(string typed, bool comma, bool small, out Figure figure) => Read(typed, comma, read => !small || read.Decimals > 0, out figure);

    /// <summary>The same for a field that takes a range of figures: one that can be read in two ways is in no doubt where the field takes only one of them.</summary>
    /// <param name="typed">What was typed.</param>
    /// <param name="comma">True where the maker's own decimal mark is the comma.</param>
    /// <param name="takes">True for a figure that the field takes.</param>
    /// <param name="figure">The figure read.</param>
    /// <returns>What is the matter, as a sentence; null when nothing is.</returns>
    public static Sentence? Read(string typed, bool comma, Func<Figure, bool> takes, out Figure figure)
    {
        figure = default;
        var text = typed.Trim();
        var shown = Core.Operations.Names.Shown(text);
        if (text.Length > Longest) return $"A figure has at most {Longest} characters.";
        var sign = text.Length > 0 && text[0] is '-' or '−' or '+' ? 1 : 0;
        int marks = 0, at = -1, groups = 0;
        for (var i = sign; i < text.Length; i++)
        {
            if (char.IsAsciiDigit(text[i])) continue;
            if (text[i] is '.' or ',')
            {
                marks++;
                at = i;
            }
            else if (text[i] is ' ' or '\u00A0' or '\u202F' or '\'' or '’' && i > sign && i < text.Length - 1) groups++;
            else return $"“{shown}” is not a number. Write digits with one decimal {(comma ? Sentence.Of("comma") : "point")}, such as {Example(comma)}; the unit stands beside the field.";
        }
        if (text.Length == sign + marks + groups || at == text.Length - 1) return $"“{shown}” is not a whole figure. Write it such as {Example(comma)}.";
        if (marks > 1 || groups > 0) return $"“{shown}” has signs between its digits that can be read in two ways. Write it without grouping, such as {(comma ? "1234,5" : "1234.5")}.";
        var decimals = marks == 0 ? 0 : text.Length - at - 1;
        var whole = (marks == 0 ? text[sign..] : text[sign..at]).TrimStart('0');
        var digits = BigInteger.Parse((marks == 0 ? text[sign..] : string.Concat(text.AsSpan(sign, at - sign), text.AsSpan(at + 1))), NumberStyles.None, CultureInfo.InvariantCulture);
        if (text[0] is '-' or '−') digits = -digits;
        figure = new(digits, decimals);
        // One to three digits, the other mark, three digits: perhaps thousands.
        var thousands = new Figure(digits, 0);
        if (marks == 0 || decimals != 3 || whole.Length is < 1 or > 3 || text[sign] == '0' || text[at] == ',' == comma || !takes(thousands)) return null;
        if (takes(figure)) return $"“{shown}” can be read as {whole}{(comma ? ',' : '.')}{text[(at + 1)..]} or as {thousands.Text.TrimStart('-')}. Write it with your decimal {(comma ? Sentence.Of("comma") : "point")}, or without any sign.";
        figure = thousands;
        return null;
    }

    private static string Example(bool comma) => comma ? "22,4" : "22.4";
}
