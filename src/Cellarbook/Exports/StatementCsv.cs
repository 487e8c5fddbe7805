using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using CsvHelper;

namespace Cellarbook.Exports;

/// <summary>
/// Statements and lists as CSV: UTF-8, CRLF, a head, decimal points. Text that a spreadsheet would take for a formula gets an apostrophe before it;
/// figures are written as figures, so that −2 stays −2.
/// </summary>
public static class StatementCsv
{
    private const int FlushEvery = 512;

    private static readonly CsvWriterOptions Options = CsvWriterOptions.Default with { Injection = CsvInjection.Escape, FormatProvider = CultureInfo.InvariantCulture };

    /// <summary>The statement of the document's form.</summary>
    public static Task WriteAsync(StatementDocument document, Stream stream, CancellationToken cancel = default) =>
        document.Us is { } us ? UsAsync(us, stream, cancel) : PlainAsync(document.Plain, stream, cancel);

    /// <summary>section, class, category, direction, litres, bottles.</summary>
    public static Task PlainAsync(PlainStatement statement, Stream stream, CancellationToken cancel = default) =>
        WriteAsync(stream, ["section", "class", "category", "direction", "litres", "bottles"], statement.Lines, (csv, line) =>
        {
            csv.WriteField(line.Section.Word());
            csv.WriteField(line.Class);
            csv.WriteField(line.Category?.Code);
            csv.WriteField(Word(line.Direction));
            Litres(csv, line.Volume);
            Bottles(csv, line.Section, line.Bottles);
        }, cancel);

    /// <summary>section, class, line, label, litres, wine_gallons (five decimals), wine_gallons_whole.</summary>
    public static Task UsAsync(UsStatement statement, Stream stream, CancellationToken cancel = default) =>
        WriteAsync(stream, ["section", "class", "line", "label", "litres", "wine_gallons", "wine_gallons_whole"], statement.Figures, (csv, figure) =>
        {
            csv.WriteField(figure.Section.Name);
            csv.WriteField(figure.Class);
            csv.WriteField(figure.Line.Line);
            csv.WriteField(figure.Line.Label);
            Litres(csv, figure.Volume);
            csv.WriteField(decimal.Parse(UsForm.Current.Gallons(figure.Volume), CultureInfo.InvariantCulture), default);
            csv.WriteField(figure.WholeGallons, default);
        }, cancel);

    /// <summary>section, class, lot, litres, bottles.</summary>
    public static Task LotsAsync(IEnumerable<LotLine> lots, Stream stream, CancellationToken cancel = default) =>
        WriteAsync(stream, ["section", "class", "lot", "litres", "bottles"], lots, (csv, lot) =>
        {
            csv.WriteField(lot.Section.Word());
            csv.WriteField(lot.Class);
            csv.WriteField(lot.Lot);
            Litres(csv, lot.Volume);
            Bottles(csv, lot.Section, lot.Bottles);
        }, cancel);

    /// <summary>kind, litres: opening, received, produced, gain, lost, and the allowance.</summary>
    public static Task LossesAsync(LossCheck check, Stream stream, CancellationToken cancel = default) =>
        WriteAsync(stream, ["kind", "litres"], check.Figures.Select(figure => (figure.Name, figure.Volume)).Append(("allowance", check.Allowance)), (csv, figure) =>
        {
            csv.WriteField(figure.Item1);
            Litres(csv, figure.Item2);
        }, cancel);

    /// <summary>Columns of the entries file, one row a posting.</summary>
    public static IReadOnlyList<string> EntryColumns { get; } =
        ["entry", "day", "time", "kind", "category", "from", "to", "litres", "bottles", "grams", "state", "recorded_at", "recorded_by", "document", "note"];

    /// <summary>Every posting of the period, however many.</summary>
    public static Task EntriesAsync(IEnumerable<EntryRow> entries, Stream stream, CancellationToken cancel = default) =>
        WriteAsync(stream, [.. EntryColumns], entries, (csv, row) =>
        {
            csv.WriteField(row.Entry, default);
            csv.WriteField(row.Day, "yyyy-MM-dd");
            csv.WriteField(row.Time, "HH:mm:ss");
            csv.WriteField(row.Kind);
            csv.WriteField(row.Posting.Category.Code);
            csv.WriteField(row.Posting.From.ToString());
            csv.WriteField(row.Posting.To.ToString());
            if (row.Posting.Volume.IsNil) csv.WriteField("");
            else Litres(csv, row.Posting.Volume);
            csv.WriteField(row.Posting.Bottles.Bottles == 0 ? (long?)null : row.Posting.Bottles.Bottles, default);
            csv.WriteField(row.Posting.Weight.Grams == 0 ? (long?)null : row.Posting.Weight.Grams, default);
            csv.WriteField(StateOf(row));
            csv.WriteField(row.Heading.RecordedAt?.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
            csv.WriteField(row.Heading.RecordedBy);
            csv.WriteField(row.Heading.Document);
            csv.WriteField(row.Heading.Note);
        }, cancel);

    /// <summary>Empty for a posting that counts as it stands; else what is special about it.</summary>
    internal static string StateOf(EntryRow row) =>
        row.LeftOutBy is { } by ? $"left out, taken back by entry {by.ToString(CultureInfo.InvariantCulture)}" : row.Posting.IsTakenBack ? "takes back" : "";

    /// <summary>"opening", "in", "out" or "closing".</summary>
    internal static string Word(Direction direction) => direction switch
    {
        Direction.Opening => "opening",
        Direction.In => "in",
        Direction.Out => "out",
        _ => "closing",
    };

    private static void Litres(CsvWriter csv, Volume volume) => csv.WriteField(Figures.Litres(volume), default);

    private static void Bottles(CsvWriter csv, Section section, BottleCount bottles) => csv.WriteField(section == Section.Bottled ? bottles.Bottles : (long?)null, default);

    private static async Task WriteAsync<T>(Stream stream, string[] head, IEnumerable<T> rows, Action<CsvWriter, T> write, CancellationToken cancel)
    {
        await using var csv = CsvWriter.Create(stream, Options, leaveOpen: true);
        foreach (var column in head) csv.WriteField(column);
        await csv.EndRecordAsync(cancel);
        var written = 0;
        foreach (var row in rows)
        {
            write(csv, row);
            await csv.EndRecordAsync(cancel);
            if (++written % FlushEvery == 0) await csv.FlushAsync(cancel);
        }
        await csv.FlushAsync(cancel);
    }
}
