using System.Globalization;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Limits;

/// <summary>What is wrong with a limit set: the row (counted from 1 below the head, which is 0), the column where one is to blame, and what to do.</summary>
public sealed record LimitFault(int Row, string Column, string Sentence)
{
    /// <inheritdoc/>
    public override string ToString() => $"{(Row == 0 ? "Head" : string.Create(CultureInfo.InvariantCulture, $"Row {Row}"))}{(Column.Length > 0 ? ", " + Column : "")}: {Sentence}";
}

/// <summary>A set read, or the faults for which it is refused whole.</summary>
public sealed record LimitSetRead(LimitSet? Set, IReadOnlyList<LimitFault> Faults);

/// <summary>
/// Reads a limit set from CSV. It is refused whole when one row is broken, names what isn't known, gives no source, or when rows that should lie
/// side by side overlap or leave a gap: half a law is worse than the one before.
/// </summary>
public static class LimitSetReader
{
    /// <summary>The columns, in order.</summary>
    public static IReadOnlyList<string> Columns { get; } =
    [
        "substances", "basis", "kind", "value", "unit", "per", "colour", "sugar", "strength", "product", "stage", "scheme", "case", "zone", "harvest",
        "from", "to", "with", "base_below", "source", "seen", "seen_at", "note",
    ];

    /// <summary>Columns a file may leave out.</summary>
    private static readonly HashSet<string> Optional =
        ["per", "colour", "sugar", "strength", "product", "stage", "scheme", "case", "zone", "harvest", "from", "to", "with", "base_below", "seen_at", "note"];

    /// <summary>The most rows a set may have.</summary>
    public const int MostRows = 5_000;

    /// <summary>Reads the rows of a set.</summary>
    /// <param name="text">CSV with a head row.</param>
    /// <param name="about">Code, name, kind, who and expiry; its rows are replaced.</param>
    public static LimitSetRead Read(string text, LimitSet about)
    {
        var faults = new List<LimitFault>();
        var records = StrictCsv.Read(text, faults);
        if (faults.Count > 0) return new(null, faults);
        if (records.Count < 2) return new(null, [new(0, "", $"There are no rows. Write a head row ({string.Join(",", Columns)}) and a row for each limit.")]);
        if (records.Count > MostRows + 1) return new(null, [new(MostRows + 1, "", $"More than {MostRows} rows. Split the set.")]);
        var head = records[0].Fields;
        foreach (var column in head.Where(column => !Columns.Contains(column))) faults.Add(new(0, column, $"There is no column of that name. Use {string.Join(", ", Columns)}."));
        foreach (var column in head.GroupBy(column => column).Where(group => group.Count() > 1)) faults.Add(new(0, column.Key, "This column stands there twice."));
        foreach (var column in Columns.Where(column => !Optional.Contains(column) && !head.Contains(column))) faults.Add(new(0, column, "This column is missing."));
        if (faults.Count > 0) return new(null, faults);

        var cells = new List<(int Number, Dictionary<string, string> Cells)>(records.Count - 1);
        foreach (var record in records.Skip(1))
            if (record.Fields.Count != head.Count) faults.Add(new(record.Number, "", $"{record.Fields.Count} fields under a head of {head.Count}. Put fields with commas in quotation marks."));
            else cells.Add((record.Number, head.Zip(record.Fields).ToDictionary(pair => pair.First, pair => pair.Second.Trim(), StringComparer.Ordinal)));
        return Read(cells, about, faults);
    }

    /// <summary>Reads rows that came column by column; the first is row 1.</summary>
    public static LimitSetRead Read(IReadOnlyList<LimitLine> lines, LimitSet about) => Read([.. lines.Select((line, i) => (i + 1, line.Cells))], about, []);

    /// <summary>The lines of a CSV text, for sending them on; null with faults when the set would be refused.</summary>
    public static IReadOnlyList<LimitLine>? Lines(string text, out IReadOnlyList<LimitFault> faults)
    {
        var read = Read(text, new LimitSet { Code = "", Name = "", Kind = "house", Rows = [] });
        faults = read.Faults;
        if (read.Set is null) return null;
        var records = StrictCsv.Read(text, []);
        return [.. records.Skip(1).Select(record => LimitLine.Of(records[0].Fields.Zip(record.Fields).ToDictionary(pair => pair.First, pair => pair.Second.Trim(), StringComparer.Ordinal)))];
    }

    private static LimitSetRead Read(List<(int Number, Dictionary<string, string> Cells)> records, LimitSet about, List<LimitFault> faults)
    {
        var rows = new List<LimitRow>(records.Count);
        foreach (var (number, cells) in records)
            if (Row(new(number, cells, faults)) is { } row) rows.Add(row);
        if (faults.Count == 0) faults.AddRange(LimitTiling.Faults(rows));
        return faults.Count > 0 ? new(null, [.. faults.OrderBy(fault => fault.Row)]) : new(about with { Rows = rows }, []);
    }

    private static LimitRow? Row(LimitCells cells)
    {
        var before = cells.FaultCount;
        var substances = cells.Substances("substances", required: true);
        var basis = cells.One("basis", LimitWords.Bases);
        var kind = cells.One("kind", LimitWords.Kinds);
        string value = cells["value"], unit = cells["unit"], note = cells["note"];
        LimitValue? figure = null;
        if (value.Length > 0)
        {
            foreach (var substance in substances)
            {
                figure = LimitValue.Read(value, unit, substance, out var fault);
                if (figure is null) cells.Refuse(unit.Length == 0 || !LimitValue.Units.Contains(unit) ? "unit" : "value", fault);
            }
            if (kind is LimitKind.Prohibited or LimitKind.NoCap) cells.Refuse("value", "What is barred or has no cap carries no figure. Leave it empty.");
        }
        else
        {
            if (kind is LimitKind.Max or LimitKind.Min or LimitKind.Increment) cells.Refuse("value", $"A {cells["kind"]} needs a figure. A rule without one has kind “rule”.");
            if (unit.Length > 0) cells.Refuse("unit", "A unit without a figure. Leave both empty or write both.");
            if (kind == LimitKind.Rule && note.Length == 0) cells.Refuse("note", "A rule without a figure is shown in words. Write them here.");
        }
        if (cells["per"] is not ("" or "treatment")) cells.Refuse("per", "Write “treatment” or leave it empty.");
        long? baseBelow = null;
        if (cells["base_below"] is { Length: > 0 } below)
        {
            if (Dose.ReadMilligramsPerLitre(below, out var dose) != ExactNumber.Fault.None || !dose.IsPositive) cells.Refuse("base_below", "Write a figure in mg/L above nil.");
            else if (kind != LimitKind.Increment) cells.Refuse("base_below", "Only an increment has this.");
            else baseBelow = dose.NanogramsPerLitre;
        }
        if (kind == LimitKind.Increment && cells["case"].Length == 0) cells.Refuse("case", "Say in which case the increment holds.");
        var (harvestFrom, harvestTo) = cells.Years("harvest");
        var (from, to) = (cells.Day("from"), cells.Day("to"));
        if (from > to) cells.Refuse("to", "The last day lies before the first.");
        var with = cells.Substances("with", required: false);
        if (with.Count > 1) cells.Refuse("with", "One substance only.");
        if (cells["source"].Length == 0) cells.Refuse("source", "Say where this limit is written: a law, a packet, a letter, a house decision.");
        if (cells["seen"] is not ("text" or "memory")) cells.Refuse("seen", "Write “text” if the source was read, “memory” if not.");
        var row = new LimitRow
        {
            Number = cells.Row, Substances = substances, Basis = basis, Kind = kind, Value = figure, PerTreatment = cells["per"] == "treatment",
            Colours = cells.Flags("colour", LimitWords.Colours, WineColours.All, (a, b) => a | b), Products = cells.Flags("product", LimitWords.Products, WineProducts.All, (a, b) => a | b),
            Stages = cells.Flags("stage", LimitWords.Stages, WineStages.All, (a, b) => a | b), Sugar = cells.Band("sugar", 9), Strength = cells.Band("strength", 2),
            Scheme = cells.Word("scheme"), Case = cells.Word("case"), Zones = cells.Zones("zone"), HarvestFrom = harvestFrom, HarvestTo = harvestTo, From = from, To = to,
            With = with.Count > 0 ? with[0] : null, BaseBelow = baseBelow, Source = cells["source"], Seen = cells["seen"] == "text", SeenAt = cells["seen_at"], Note = note,
        };
        return cells.FaultCount == before ? row : null;
    }

    /// <summary>A day as ISO 8601 writes it, or null.</summary>
    internal static DateOnly? ReadDay(string text) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null;
}
