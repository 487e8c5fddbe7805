using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>Reads figures as people type them, in the preferred unit and with either decimal mark where that can't be taken two ways.</summary>
public static class Typed
{
    /// <summary>A volume in the preferred unit; null when left out. A converted one takes the nearest microlitre, half up.</summary>
    /// <returns>True when it could be read.</returns>
    public static bool Volume(string? text, Preferences preferences, out Volume? volume, out string? said)
    {
        volume = null;
        said = null;
        if (string.IsNullOrWhiteSpace(text)) return true;
        var number = text.Trim().Replace("\u00A0", "").Replace("\u202F", "").Replace(" ", "");
        if (number.Contains(',') && number.Contains('.') || number.Count(c => c is ',' or '.') > 1)
        {
            said = "Write the figure with one decimal mark and nothing between the thousands.";
            return false;
        }
        var other = preferences.DecimalComma ? '.' : ',';
        if (number.IndexOf(other, StringComparison.Ordinal) is var at && at > 0 && number.Length - at == 4)
        {
            said = $"“{text.Trim()}” can be read two ways. Write decimals with “{(preferences.DecimalComma ? ',' : '.')}” and nothing between the thousands.";
            return false;
        }
        number = number.Replace(',', '.');
        var fault = ExactNumber.Read(number, 6, out var millionths);
        if (fault == ExactNumber.Fault.None && Math.Abs(millionths) > 1_000_000_000_000_000) fault = ExactNumber.Fault.TooLarge;
        if (fault != ExactNumber.Fault.None)
        {
            said = fault switch { ExactNumber.Fault.TooFine => "That is finer than the book counts.", ExactNumber.Fault.TooLarge => "That is more than the book can count.", _ => "This is no number." };
            return false;
        }
        volume = preferences.Volume switch
        {
            VolumeUnit.Hectolitre => new(checked(millionths * 100)),
            VolumeUnit.UsGallon => new(Nearest((Int128)millionths * 3_785_411_784, 1_000_000_000)),
            VolumeUnit.ImperialGallon => new(Nearest((Int128)millionths * 4_546_090, 1_000_000)),
            _ => new(millionths),
        };
        return true;
    }

    private static long Nearest(Int128 value, Int128 unit) => (long)((2 * value + (value < 0 ? -unit : unit)) / (2 * unit));
}
