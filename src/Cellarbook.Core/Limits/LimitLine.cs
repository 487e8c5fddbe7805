namespace Cellarbook.Core.Limits;

/// <summary>A row of a limit set as written, column by column; what is left out is empty.</summary>
public sealed record LimitLine
{
    /// <summary>Substances, apart by blanks.</summary>
    public string? Substances { get; init; }
    /// <summary>added_dose, residual or total_measured.</summary>
    public string? Basis { get; init; }
    /// <summary>max, min, increment, prohibited, no_cap or rule.</summary>
    public string? Kind { get; init; }
    /// <summary>Figure.</summary>
    public string? Value { get; init; }
    /// <summary>Unit of the figure.</summary>
    public string? Unit { get; init; }
    /// <summary>"treatment" where it holds for one treatment.</summary>
    public string? Per { get; init; }
    /// <summary>Colours, apart by blanks.</summary>
    public string? Colour { get; init; }
    /// <summary>Band of residual sugar, g/L.</summary>
    public string? Sugar { get; init; }
    /// <summary>Band of strength, % vol.</summary>
    public string? Strength { get; init; }
    /// <summary>Products, apart by blanks.</summary>
    public string? Product { get; init; }
    /// <summary>must, wine or both.</summary>
    public string? Stage { get; init; }
    /// <summary>Scheme.</summary>
    public string? Scheme { get; init; }
    /// <summary>Case.</summary>
    public string? Case { get; init; }
    /// <summary>Wine-growing zones.</summary>
    public string? Zone { get; init; }
    /// <summary>Harvest years.</summary>
    public string? Harvest { get; init; }
    /// <summary>First day of production.</summary>
    public string? From { get; init; }
    /// <summary>Last day of production.</summary>
    public string? To { get; init; }
    /// <summary>Another substance without which it doesn't hold.</summary>
    public string? With { get; init; }
    /// <summary>For an increment: the base limit it adds to is below this, mg/L.</summary>
    public string? BaseBelow { get; init; }
    /// <summary>Where it is written.</summary>
    public string? Source { get; init; }
    /// <summary>text or memory.</summary>
    public string? Seen { get; init; }
    /// <summary>Where the text was seen.</summary>
    public string? SeenAt { get; init; }
    /// <summary>What else to know.</summary>
    public string? Note { get; init; }

    /// <summary>The cells by column.</summary>
    internal Dictionary<string, string> Cells => LimitSetReader.Columns.ToDictionary(column => column, column => Cell(column)?.Trim() ?? "", StringComparer.Ordinal);

    /// <summary>A line of such cells.</summary>
    internal static LimitLine Of(IReadOnlyDictionary<string, string> cells)
    {
        string? Get(string column) => cells.TryGetValue(column, out var cell) && cell.Length > 0 ? cell : null;
        return new()
        {
            Substances = Get("substances"), Basis = Get("basis"), Kind = Get("kind"), Value = Get("value"), Unit = Get("unit"), Per = Get("per"), Colour = Get("colour"), Sugar = Get("sugar"),
            Strength = Get("strength"), Product = Get("product"), Stage = Get("stage"), Scheme = Get("scheme"), Case = Get("case"), Zone = Get("zone"), Harvest = Get("harvest"), From = Get("from"),
            To = Get("to"), With = Get("with"), BaseBelow = Get("base_below"), Source = Get("source"), Seen = Get("seen"), SeenAt = Get("seen_at"), Note = Get("note"),
        };
    }

    /// <summary>A row as it would be written.</summary>
    public static LimitLine Of(LimitRow row) => new()
    {
        Substances = string.Join(' ', row.Substances.Select(substance => substance.Code)), Basis = LimitWords.Word(row.Basis), Kind = LimitWords.Word(row.Kind),
        Value = row.Value?.Text.Split(' ', 2)[0], Unit = row.Value?.Text.Split(' ', 2)[1], Per = row.PerTreatment ? "treatment" : null,
        Colour = row.Colours == WineColours.All ? null : string.Join(' ', LimitWords.Colours.Where(pair => row.Colours.HasFlag(pair.Value)).Select(pair => pair.Key)),
        Sugar = row.Sugar?.Text, Strength = row.Strength?.Text, Product = row.Products == WineProducts.All ? null : string.Join(' ', LimitWords.Products.Where(pair => row.Products.HasFlag(pair.Value)).Select(pair => pair.Key)),
        Stage = row.Stages == WineStages.All ? null : row.Stages == WineStages.Must ? "must" : "wine", Scheme = Or(row.Scheme), Case = Or(row.Case), Zone = Or(string.Join(' ', row.Zones)),
        Harvest = row.HarvestFrom is null && row.HarvestTo is null ? null : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{row.HarvestFrom}-{row.HarvestTo}"),
        From = row.From?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture), To = row.To?.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
        With = row.With?.Code, BaseBelow = row.BaseBelow is { } below ? new Quantities.Dose(below).MilligramsPerLitre : null, Source = row.Source, Seen = row.Seen ? "text" : "memory", SeenAt = Or(row.SeenAt), Note = Or(row.Note),
    };

    private static string? Or(string text) => text.Length > 0 ? text : null;

    private string? Cell(string column) => column switch
    {
        "substances" => Substances, "basis" => Basis, "kind" => Kind, "value" => Value, "unit" => Unit, "per" => Per, "colour" => Colour, "sugar" => Sugar, "strength" => Strength,
        "product" => Product, "stage" => Stage, "scheme" => Scheme, "case" => Case, "zone" => Zone, "harvest" => Harvest, "from" => From, "to" => To, "with" => With,
        "base_below" => BaseBelow, "source" => Source, "seen" => Seen, "seen_at" => SeenAt, _ => Note,
    };
}
