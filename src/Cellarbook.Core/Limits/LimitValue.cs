using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>What a limit is counted in.</summary>
public enum LimitUnit
{
    /// <summary>Whole ng per litre.</summary>
    PerLitre,
    /// <summary>Whole ng per kilogram.</summary>
    PerKilogram,
    /// <summary>Whole hundredths of a % vol.</summary>
    Strength,
    /// <summary>A unit this program doesn't compare; the row is shown as a note.</summary>
    Words,
}

/// <summary>The figure of a limit: whole units for comparing, and the text it was written as.</summary>
/// <param name="Unit">What it is counted in.</param>
/// <param name="Amount">Whole units; nil where the unit is words.</param>
/// <param name="Text">As written, such as "18 meq/L".</param>
public sealed record LimitValue(LimitUnit Unit, long Amount, string Text)
{
    /// <summary>The figure with its unit, as pages say it.</summary>
    public Sentence Said => Words ?? (Text.IndexOf(' ', StringComparison.Ordinal) is > 0 and var end ? $"{Text[..end]:figure} {Sentence.Seed(Text[(end + 1)..])}" : Sentence.Verbatim(Text));

    /// <summary>Its words, where the text isn't a figure and its unit.</summary>
    public Sentence? Words { get; init; }

    // 1 lb = 453.59237 g, 1 US gallon = 3.785411784 L, both exact by definition.
    private const long NanogramsOfPound = 453_592_370_000, MicrolitresOfThousandGallons = 3_785_411_784;

    // Ten kilograms per litre: nothing is denser, and products of it with volumes stay within 128 bits.
    private const long MostUnits = 10_000_000_000_000;

    /// <summary>Units a row may write.</summary>
    public static IReadOnlyList<string> Units { get; } =
        ["mg/L", "g/L", "g/hL", "mg/kg", "meq/L", "lb/1000 gal", "% vol", "% of volume", "% of weight", "% of alcohol", "Brix"];

    /// <summary>Micrograms in a milliequivalent: 60.052 mg of acetic acid, 75.043 mg of tartaric acid.</summary>
    private static readonly Dictionary<string, long> MicrogramsOfMilliequivalent = new(StringComparer.Ordinal)
    {
        ["volatile-acidity"] = 60_052, ["total-acidity"] = 75_043, ["fixed-acid"] = 75_043, ["acidification-tartaric"] = 75_043, ["deacidification-tartaric"] = 75_043,
    };

    /// <summary>Reads a figure with its unit for a substance; null with a sentence when it can't be.</summary>
    public static LimitValue? Read(string value, string unit, Substance substance, out string fault)
    {
        fault = "";
        var text = $"{value} {unit}";
        if (!Units.Contains(unit)) { fault = $"“{unit}” is no unit of a limit. Use {string.Join(", ", Units)}."; return null; }
        int decimals = unit switch { "g/L" => 9, "g/hL" => 7, "% vol" => 2, "meq/L" => 3, "lb/1000 gal" => 6, _ => 6 };
        if (ExactNumber.Read(value, decimals, out var units) != ExactNumber.Fault.None || units < 0)
        {
            fault = $"“{value}” is no figure in {unit}. Write a decimal number of at most {decimals} decimals, not below nil.";
            return null;
        }
        if (units > MostUnits) { fault = $"“{value} {unit}” is more than there can be of anything in wine."; return null; }
        switch (unit)
        {
            case "mg/L" or "g/L" or "g/hL": return new(LimitUnit.PerLitre, units, text);
            case "mg/kg": return new(LimitUnit.PerKilogram, units, text);
            case "% vol": return new(LimitUnit.Strength, units, text);
            case "meq/L":
                if (MicrogramsOfMilliequivalent.TryGetValue(substance.Code, out var micrograms)) return new(LimitUnit.PerLitre, checked(units * micrograms), text);
                fault = $"meq/L is not counted for {substance.Name} here. Write mg/L.";
                return null;
            case "lb/1000 gal":
                // Cut down to the whole ng/L, which is the stricter side.
                return new(LimitUnit.PerLitre, (long)((Int128)units * NanogramsOfPound / MicrolitresOfThousandGallons), text);
            default: return new(LimitUnit.Words, 0, text);
        }
    }
}
