using System.Globalization;
using System.Numerics;

namespace Cellarbook.Forms;

/// <summary>
/// A unit that a figure may be typed in. One of it is <paramref name="Numerator"/> ÷ <paramref name="Denominator"/> of the unit the book's field
/// is in, after <paramref name="Offset"/> is taken off.
/// </summary>
/// <param name="Name">As shown and as kept beside what was posted: "US gal".</param>
/// <param name="Leaf">The field of the operation it fills, where the unit decides that; else null.</param>
/// <param name="Numerator">Above the line.</param>
/// <param name="Denominator">Below the line.</param>
/// <param name="Decimals">Decimals of the smallest unit the field counts in.</param>
/// <param name="Offset">Taken off first: 32 for °F.</param>
public sealed record Unit(string Name, string? Leaf, long Numerator = 1, long Denominator = 1, int Decimals = 0, int Offset = 0)
{
    /// <summary>Units of volume for a field in litres. US gallon: 231 cubic inches of 2.54³ cm³; imperial: 4.54609 L. Both exact by definition.</summary>
    public static IReadOnlyList<Unit> Volumes { get; } =
    [
        new("L", null), new("mL", null, 1, 1_000, 6), new("hL", null, 100, 1, 6),
        new("US gal", null, 3_785_411_784, 1_000_000_000, 6), new("imp gal", null, 454_609, 100_000, 6),
    ];

    /// <summary>Units of weight for a field in kilograms. Pound: 0.45359237 kg, exact by definition.</summary>
    public static IReadOnlyList<Unit> Weights { get; } = [new("kg", null), new("g", null, 1, 1_000, 3), new("lb", null, 45_359_237, 100_000_000, 3)];

    /// <summary>Units of mass for a field in grams. Ounce: a sixteenth of a pound.</summary>
    public static IReadOnlyList<Unit> Masses { get; } = [new("g", null), new("kg", null, 1_000, 1, 3), new("lb", null, 45_359_237, 100_000, 3), new("oz", null, 45_359_237, 1_600_000, 3)];

    /// <summary>How an amount of material may be said; the unit tells which field it is.</summary>
    public static IReadOnlyList<Unit> Amounts { get; } =
    [
        new("g", "grams"), new("kg", "grams", 1_000, 1, 3), new("lb", "grams", 45_359_237, 100_000, 3), new("oz", "grams", 45_359_237, 1_600_000, 3),
        new("mL", "millilitres"), new("L", "millilitres", 1_000, 1, 3), new("pieces", "pieces"), new("g/hL", "gramsPerHectolitre"), new("mg/L", "mgPerLitre"), new("mL/23 L", "mlPer23Litres"),
    ];

    /// <summary>How an amount of material that is kept in store may be said.</summary>
    public static IReadOnlyList<Unit> Stores { get; } = [.. Amounts.Where(unit => unit.Leaf is "grams" or "millilitres" or "pieces")];

    /// <summary>How an amount of a culture may be said.</summary>
    public static IReadOnlyList<Unit> Cultures { get; } = [new("g", "grams"), new("mL", "millilitres"), new("packets", "packets")];

    /// <summary>Scales of temperature for a field in °C.</summary>
    public static IReadOnlyList<Unit> Temperatures { get; } = [new("°C", null), new("°F", null, 5, 9, 1, 32)];

    /// <summary>Scales of a hydrometer or refractometer; each is a reading of its own.</summary>
    public static IReadOnlyList<Unit> Sugars { get; } = [new("SG", "gravity"), new("°Bx", "brix"), new("°Oe", "oechsle")];

    /// <summary>True when the field is in this unit itself, so that nothing is converted.</summary>
    public bool IsOwn => Numerator == Denominator && Offset == 0;

    /// <summary>
    /// The figure in the field's unit. A unit that is a power of ten of it converts exactly, whatever comes of it; any other takes the nearest
    /// smallest unit, half up. A temperature takes one decimal more than was typed.
    /// </summary>
    public string Convert(Figure figure)
    {
        if (IsOwn) return figure.Text;
        var above = (figure.Digits - Offset * BigInteger.Pow(10, figure.Decimals)) * Numerator;
        var below = Denominator * BigInteger.Pow(10, figure.Decimals);
        var decimals = Offset == 0 ? Decimals : figure.Decimals + 1;
        if (IsPowerOfTen(Numerator) && IsPowerOfTen(Denominator)) return new Figure(above * BigInteger.Pow(10, 12) / Denominator, figure.Decimals + 12).Text.TrimEnd('0').TrimEnd('.');
        // Half up: towards more, also below nil.
        var twice = 2 * above * BigInteger.Pow(10, decimals) + below;
        var whole = BigInteger.DivRem(twice, 2 * below, out var rest);
        if (rest.Sign < 0) whole--;
        var text = new Figure(whole, decimals).Text;
        return text.Contains('.', StringComparison.Ordinal) && Offset == 0 ? text.TrimEnd('0').TrimEnd('.') : text;
    }

    private static bool IsPowerOfTen(long number) => number.ToString(CultureInfo.InvariantCulture).TrimEnd('0') == "1";
}
