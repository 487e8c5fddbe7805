using System.Globalization;
using System.Numerics;

namespace Cellarbook.Core.Quantities;

/// <summary>
/// Reads and writes decimal numbers as whole numbers of a smallest unit, exactly: "22.4" litres are 22 400 000 µL and nothing else.
/// Only the invariant point form is understood here; commas, signs of grouping and units are the border's business.
/// </summary>
public static class ExactNumber
{
    /// <summary>Why a text is no quantity.</summary>
    public enum Fault
    {
        /// <summary>It is one.</summary>
        None,
        /// <summary>Not a decimal number.</summary>
        NotANumber,
        /// <summary>More decimals than the smallest unit has: refused, never rounded.</summary>
        TooFine,
        /// <summary>More than a 64-bit count of the smallest unit holds.</summary>
        TooLarge,
    }

    /// <summary>Reads <paramref name="text"/> as a multiple of 10^-<paramref name="decimals"/>.</summary>
    /// <param name="text">A decimal number such as "-0.75" or "1e3"; surrounding blanks are not allowed.</param>
    /// <param name="decimals">How many decimals the smallest unit is worth: 6 for litres held in µL.</param>
    /// <param name="units">The count of smallest units.</param>
    public static Fault Read(ReadOnlySpan<char> text, int decimals, out long units)
    {
        units = 0;
        var i = 0;
        var negative = false;
        if (i < text.Length && text[i] is '-' or '+') negative = text[i++] == '-';
        BigInteger digits = 0;
        int count = 0, after = 0;
        var point = false;
        for (; i < text.Length; i++)
        {
            var c = text[i];
            if (c is >= '0' and <= '9')
            {
                digits = digits * 10 + (c - '0');
                count++;
                if (point) after++;
                if (count > 400) return Fault.TooLarge;
            }
            else if (c == '.' && !point) point = true;
            else break;
        }
        if (count == 0) return Fault.NotANumber;
        if (i < text.Length)
        {
            if (text[i] is not ('e' or 'E')) return Fault.NotANumber;
            if (!int.TryParse(text[(i + 1)..], NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var exponent)) return Fault.NotANumber;
            if (Math.Abs((long)exponent) > 400) return digits.IsZero ? Fault.None : exponent > 0 ? Fault.TooLarge : Fault.TooFine;
            after -= exponent;
        }
        var shift = decimals - after;
        if (shift >= 0) digits *= BigInteger.Pow(10, shift);
        else
        {
            digits = BigInteger.DivRem(digits, BigInteger.Pow(10, -shift), out var rest);
            if (!rest.IsZero) return Fault.TooFine;
        }
        if (negative) digits = -digits;
        if (digits < long.MinValue || digits > long.MaxValue) return Fault.TooLarge;
        units = (long)digits;
        return Fault.None;
    }

    /// <summary>Writes <paramref name="units"/> as a decimal number without needless zeros: 22 400 000 with six decimals is "22.4".</summary>
    public static string Write(long units, int decimals)
    {
        var whole = WriteFixed(units, decimals);
        return decimals == 0 ? whole : whole.TrimEnd('0').TrimEnd('.');
    }

    /// <summary>Writes <paramref name="units"/> with every decimal of the smallest unit.</summary>
    public static string WriteFixed(long units, int decimals)
    {
        var digits = units.ToString(CultureInfo.InvariantCulture).TrimStart('-');
        if (decimals > 0)
        {
            digits = digits.PadLeft(decimals + 1, '0');
            digits = string.Concat(digits.AsSpan(0, digits.Length - decimals), ".", digits.AsSpan(digits.Length - decimals));
        }
        return units < 0 ? "-" + digits : digits;
    }
}
