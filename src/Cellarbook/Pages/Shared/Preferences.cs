using System.Text.Json;
using System.Text.Json.Serialization;
using Cellarbook.Recording;

namespace Cellarbook.Pages.Shared;

/// <summary>The unit volumes are read in.</summary>
public enum VolumeUnit
{
    /// <summary>Litres.</summary>
    Litre,
    /// <summary>Hectolitres.</summary>
    Hectolitre,
    /// <summary>US gallons of 3.785411784 L.</summary>
    UsGallon,
    /// <summary>Imperial gallons of 4.54609 L.</summary>
    ImperialGallon,
}

/// <summary>The scale temperatures are read in.</summary>
public enum TemperatureScale
{
    /// <summary>Degrees Celsius.</summary>
    Celsius,
    /// <summary>Degrees Fahrenheit.</summary>
    Fahrenheit,
}

/// <summary>How figures are shown and typed. A matter of taste, so it lies beside the book and never in it.</summary>
public sealed record Preferences
{
    /// <summary>Unit of volumes.</summary>
    public VolumeUnit Volume { get; init; } = VolumeUnit.Litre;

    /// <summary>Scale of temperatures.</summary>
    public TemperatureScale Temperature { get; init; } = TemperatureScale.Celsius;

    /// <summary>True for a decimal comma, false for a point.</summary>
    public bool DecimalComma { get; init; }

    /// <summary>Where a phone finds this program, such as http://cellar.local:5080; printed on labels of vessels. Null until said.</summary>
    public string? Address { get; init; }

    /// <summary>Code of the language that pages are read in: "en", "de".</summary>
    public string Language { get; init; } = "en";
}

/// <summary>The preferences file, preferences.json in the data folder. One that can't be read counts as none: the usual ones hold.</summary>
public sealed class PreferencesFile(OpenBook book)
{
    private static readonly JsonSerializerOptions Form = new() { WriteIndented = true, PropertyNamingPolicy = JsonNamingPolicy.CamelCase, Converters = { new JsonStringEnumConverter(JsonNamingPolicy.CamelCase) } };

    private readonly Lock gate = new();
    private Preferences? now;

    /// <summary>The preferences that hold now.</summary>
    public Preferences Now
    {
        get
        {
            lock (gate) return now ??= Load();
        }
    }

    private string File => Path.Combine(book.Folder, "preferences.json");

    /// <summary>Writes new ones: whole or not at all.</summary>
    public void Save(Preferences preferences)
    {
        lock (gate)
        {
            var aside = File + ".new";
            System.IO.File.WriteAllText(aside, JsonSerializer.Serialize(preferences, Form));
            System.IO.File.Move(aside, File, overwrite: true);
            now = preferences;
        }
    }

    private Preferences Load()
    {
        try
        {
            return JsonSerializer.Deserialize<Preferences>(System.IO.File.ReadAllText(File), Form) ?? new();
        }
        catch (Exception fault) when (fault is IOException or JsonException or UnauthorizedAccessException)
        {
            return new();
        }
    }
}
