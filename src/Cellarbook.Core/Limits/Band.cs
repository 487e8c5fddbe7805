using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>
/// A band of sugar or of strength, as a row writes it: "&lt;5", "&gt;=2 &lt;5", "&lt;=4". Held as whole units, lowest and highest both within.
/// </summary>
/// <param name="Lowest">Lowest unit within.</param>
/// <param name="Highest">Highest unit within.</param>
/// <param name="Text">As written.</param>
public sealed record Band(long Lowest, long Highest, string Text)
{
    /// <summary>Reads a band; null when the text is none.</summary>
    /// <param name="text">One or two bounds apart by a blank.</param>
    /// <param name="decimals">Decimals of the whole unit: 9 for g/L in ng/L, 2 for % vol in hundredths.</param>
    public static Band? Read(string text, int decimals)
    {
        long lowest = long.MinValue, highest = long.MaxValue;
        var parts = text.Split(' ');
        if (parts.Length is 0 or > 2) return null;
        foreach (var part in parts)
        {
            var sign = part.StartsWith(">=", StringComparison.Ordinal) || part.StartsWith("<=", StringComparison.Ordinal) ? part[..2] : part.Length > 0 ? part[..1] : "";
            if (sign is not (">" or "<" or ">=" or "<=")) return null;
            if (ExactNumber.Read(part.AsSpan(sign.Length), decimals, out var units) != ExactNumber.Fault.None || units < 0) return null;
            if (sign[0] == '>') { if (lowest != long.MinValue) return null; lowest = sign == ">" ? units + 1 : units; }
            else { if (highest != long.MaxValue) return null; highest = sign == "<" ? units - 1 : units; }
        }
        return lowest > highest ? null : new(lowest, highest, text);
    }

    /// <summary>True when the value lies within.</summary>
    public bool Holds(long value) => value >= Lowest && value <= Highest;

    /// <summary>True when they share a value; null is every value.</summary>
    public static bool Meet(Band? a, Band? b) => a is null || b is null || (a.Lowest <= b.Highest && b.Lowest <= a.Highest);
}
