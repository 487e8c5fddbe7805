using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;

namespace Cellarbook.Pages.Shared;

/// <summary>The fields that say whose book it is and how figures are read; asked at the start and changed in Settings.</summary>
public sealed class PremisesForm
{
    /// <summary>household or licensed.</summary>
    public string? For { get; set; }

    /// <summary>Licences and schemes of a licensed maker.</summary>
    public List<string> Regimes { get; set; } = [];

    /// <summary>Name of the household or premises.</summary>
    public string? Name { get; set; }

    /// <summary>Who writes in the book.</summary>
    public string? Owner { get; set; }

    /// <summary>IANA name of the time zone.</summary>
    public string? TimeZone { get; set; }

    /// <summary>Currency of the book, three letters.</summary>
    public string? Currency { get; set; }

    /// <summary>movingAverage or receipt.</summary>
    public string? MaterialCost { get; set; }

    /// <summary>Unit of volumes.</summary>
    public VolumeUnit Volume { get; set; }

    /// <summary>Scale of temperatures.</summary>
    public TemperatureScale Temperature { get; set; }

    /// <summary>True for a decimal comma.</summary>
    public bool DecimalComma { get; set; }

    /// <summary>Code of the language that pages are read in; one that there is none of leaves it as it is.</summary>
    public string? Language { get; set; }

    /// <summary>Makes a form sent twice count once.</summary>
    public string Key { get; set; } = Guid.NewGuid().ToString("N");

    /// <summary>What is wrong, by field.</summary>
    public Dictionary<string, Sentence> Wrong { get; } = new(StringComparer.Ordinal);

    /// <summary>The licences and schemes there are, with what pages call them.</summary>
    public static IReadOnlyList<(string Code, Sentence Name, Sentence What)> Schemes { get; } =
    [
        ("us", "United States", "federal report of wine premises operations"),
        ("eu", "European Union", "inward and outward registers"),
        ("uk", "United Kingdom", "records of a wine producer"),
        ("organic-eu", "EU organic", "a scheme besides a licence"),
    ];

    /// <summary>The form filled with what holds now.</summary>
    public static PremisesForm Of(Premises? premises, Preferences preferences) => new()
    {
        For = premises is null ? null : premises.Regimes is ["household"] ? "household" : "licensed",
        Regimes = [.. (premises?.Regimes ?? []).Where(regime => regime != "household")],
        Name = premises?.Name,
        Owner = premises?.Owner,
        TimeZone = premises?.TimeZone ?? MachineZone,
        Currency = premises?.Currency,
        MaterialCost = premises?.MaterialCost,
        Volume = preferences.Volume,
        Temperature = preferences.Temperature,
        DecimalComma = preferences.DecimalComma,
        Language = preferences.Language,
    };

    /// <summary>The machine's own time zone, by its IANA name.</summary>
    public static string MachineZone =>
        TimeZoneInfo.Local.HasIanaId ? TimeZoneInfo.Local.Id : TimeZoneInfo.TryConvertWindowsIdToIanaId(TimeZoneInfo.Local.Id, out var name) ? name : "Etc/UTC";

    /// <summary>The operation these fields make.</summary>
    public Premises Operation(DateOnly today) => new()
    {
        Day = today,
        Name = Name.OrNull(),
        Owner = Owner.OrNull(),
        TimeZone = TimeZone.OrNull(),
        Currency = Currency.OrNull()?.ToUpperInvariant(),
        MaterialCost = MaterialCost.OrNull(),
        Regimes = For switch { "household" => ["household"], "licensed" => Regimes, _ => null },
    };

    /// <summary>The preferences with what these fields say; what they don't ask for stays.</summary>
    public Preferences Over(Preferences before) => before with
    {
        Volume = Volume,
        Temperature = Temperature,
        DecimalComma = DecimalComma,
        Language = Texts.Texts.Languages.FirstOrDefault(language => language.Code == Language)?.Code ?? before.Language,
    };

    /// <summary>Puts refusals to their fields.</summary>
    public void Take(IEnumerable<Refusal> refusals)
    {
        foreach (var refusal in refusals)
        {
            var field = refusal.Path.Split('[')[0] switch { "timeZone" => nameof(TimeZone), "currency" => nameof(Currency), "regimes" => nameof(Regimes), "name" => nameof(Name), "owner" => nameof(Owner), _ => "" };
            var sentence = field == nameof(Regimes) && refusal.Code == RefusalCode.Missing ? For == "licensed" ? Sentence.Of("Choose at least one licence.") : "Say which it is." : refusal.Sentence;
            Wrong.TryAdd(field, sentence);
        }
    }
}
