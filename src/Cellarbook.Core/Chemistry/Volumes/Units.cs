namespace Cellarbook.Core.Chemistry;

/// <summary>What a unit measures.</summary>
public enum UnitKind
{
    /// <summary>Volume, base unit litre.</summary>
    Volume,

    /// <summary>Mass, base unit kilogram.</summary>
    Mass,
}

/// <summary>A unit with its exact factor.</summary>
/// <param name="Code">Code of the choice.</param>
/// <param name="Label">Name.</param>
/// <param name="Kind">What it measures.</param>
/// <param name="Factor">Litres or kilograms in one, exact by definition.</param>
public sealed record Unit(string Code, Sentence Label, UnitKind Kind, decimal Factor);

/// <summary>Exact conversions of volume and mass.</summary>
public static class Units
{
    /// <summary>231 cubic inches of 25.4 mm.</summary>
    public const double LitresPerUsGallon = 3.785411784;

    /// <summary>Imperial gallon.</summary>
    public const double LitresPerImperialGallon = 4.54609;

    /// <summary>Avoirdupois pound.</summary>
    public const double KilogramsPerPound = 0.45359237;

    /// <summary>The method of this class.</summary>
    public static readonly Formula Definition = new("Exact conversion", "exact definitions: inch 25.4 mm, US gallon 231 in3, imperial gallon 4.54609 L, pound 0.45359237 kg, case 9 L", SourceCheck.Derived, "units of one kind");

    /// <summary>All units.</summary>
    public static IReadOnlyList<Unit> All { get; } =
    [
        new("L", "litre", UnitKind.Volume, 1m), new("hL", "hectolitre", UnitKind.Volume, 100m), new("mL", "millilitre", UnitKind.Volume, 0.001m), new("m3", "cubic metre", UnitKind.Volume, 1000m),
        new("us_gal", "US gallon", UnitKind.Volume, 3.785411784m), new("imp_gal", "imperial gallon", UnitKind.Volume, 4.54609m),
        new("us_fl_oz", "US fluid ounce", UnitKind.Volume, 3.785411784m / 128m), new("case_9l", "case of 9 L", UnitKind.Volume, 9m), new("in3", "cubic inch", UnitKind.Volume, 0.016387064m),
        new("kg", "kilogram", UnitKind.Mass, 1m), new("g", "gram", UnitKind.Mass, 0.001m), new("lb", "pound", UnitKind.Mass, 0.45359237m), new("oz", "ounce", UnitKind.Mass, 0.028349523125m),
    ];

    /// <summary>The unit of that code, or null.</summary>
    public static Unit? Find(string code)
    {
        foreach (Unit unit in All)
        {
            if (string.Equals(unit.Code, code, StringComparison.Ordinal))
            {
                return unit;
            }
        }

        return null;
    }

    /// <summary>Converts; NaN between units of different kinds.</summary>
    public static double Convert(double value, Unit from, Unit to) => from.Kind == to.Kind ? value * (double)from.Factor / (double)to.Factor : double.NaN;

    /// <summary>Converts in decimal arithmetic, exact where the result has no more than 28 digits; null between units of different kinds.</summary>
    public static decimal? ConvertExactly(decimal value, Unit from, Unit to) => from.Kind == to.Kind ? value * from.Factor / to.Factor : null;
}
