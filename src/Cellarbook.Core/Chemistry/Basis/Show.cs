using System.Globalization;

namespace Cellarbook.Core.Chemistry;

/// <summary>Numbers as text in worked lines: always with a point, never by the machine's culture.</summary>
public static class Show
{
    /// <summary>A result with a fixed count of decimals. Only the text is rounded, half away from zero as IEEE formatting does; the value stays whole.</summary>
    public static string Number(double value, int decimals)
    {
        string text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        return text.StartsWith('-') && text.AsSpan(1).IndexOfAnyExcept('0', '.') < 0 ? text[1..] : text;
    }

    /// <summary>An input or constant in the shortest form that reads back to the same number.</summary>
    public static string Typed(double value)
    {
        double size = Math.Abs(value);
        return size is not 0 and < 1e-9 or >= 1e12
            ? value.ToString("R", CultureInfo.InvariantCulture)
            : value.ToString("0.####################", CultureInfo.InvariantCulture);
    }
}
