using System.Globalization;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;
using ClosedXML.Excel;
using CsvHelper;

namespace Cellarbook.Exports;

/// <summary>The additions register as CSV and as a workbook: the same columns in the same order.</summary>
public static class AdditionsFile
{
    /// <summary>First row below the head in the workbook.</summary>
    private const int FirstRow = 5;

    /// <summary>The most rows a workbook takes; more are in the CSV.</summary>
    public const int MostRows = 20_000;

    private static readonly CsvWriterOptions Options = CsvWriterOptions.Default with { Injection = CsvInjection.Escape, FormatProvider = CultureInfo.InvariantCulture };
    private static readonly Lock OneAtATime = new();

    private static readonly (string Name, double Width, Func<AdditionRow, object?> Of)[] Table =
    [
        ("entry", 8, row => (decimal)row.Entry), ("day", 12, row => row.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)), ("time", 8, row => row.Time?.ToString("HH:mm", CultureInfo.InvariantCulture)), ("done_by", 16, row => row.DoneBy),
        ("lot", 14, row => row.Lot), ("vessel", 10, row => row.Vessel), ("stage", 8, row => row.IsMust ? "must" : "wine"), ("wine", 22, row => row.Wine), ("litres_treated", 14, row => Figures.Litres(row.Treated)), ("litres_after", 14, row => Figures.Litres(row.After)),
        ("material", 30, row => row.Material), ("code", 14, row => row.Code), ("e_number", 10, row => row.ENumber), ("role", 14, row => row.Role), ("allergen", 14, row => row.Allergen), ("amount", 14, row => row.Amount),
        ("supplier", 20, row => row.Supplier), ("delivery", 12, row => row.Delivery), ("batch", 14, row => row.Batch), ("batch_assumed", 10, row => row.IsAssumed ? "yes" : ""), ("delivery_document", 16, row => row.DeliveryDocument),
        ("substance", 24, row => row.Substance), ("dose_mg_per_l", 14, row => Milligrams(row.Dose)), ("total_so_far_mg_per_l", 16, row => Milligrams(row.TotalSoFar)),
        ("limit", 40, row => row.Limit.ToString()), ("verdict", 12, row => row.Verdict), ("how_it_is_found", 60, row => row.Arithmetic.ToString()), ("source", 40, row => row.Source),
        ("acidity_before_g_per_l", 12, row => Figure(row.AcidityBefore)), ("acidity_after_g_per_l", 12, row => Figure(row.AcidityAfter)), ("reason", 30, row => row.Reason), ("document", 16, row => row.Document), ("note", 30, row => row.Note),
    ];

    /// <summary>The columns, in order.</summary>
    public static IReadOnlyList<string> Columns { get; } = [.. Table.Select(column => column.Name)];

    /// <summary>Writes CSV: UTF-8, CRLF, a head, decimal points; text that a spreadsheet would take for a formula gets an apostrophe.</summary>
    public static async Task CsvAsync(IEnumerable<AdditionRow> rows, Stream stream, CancellationToken cancel = default)
    {
        await using var csv = CsvWriter.Create(stream, Options, leaveOpen: true);
        foreach (var column in Table) csv.WriteField(column.Name);
        await csv.EndRecordAsync(cancel);
        foreach (var row in rows)
        {
            foreach (var column in Table)
                if (column.Of(row) is decimal number) csv.WriteField(number, default);
                else csv.WriteField(column.Of(row) as string ?? "");
            await csv.EndRecordAsync(cancel);
        }
        await csv.FlushAsync(cancel);
    }

    /// <summary>Writes a workbook of one sheet and one about it.</summary>
    public static void Xlsx(IReadOnlyList<AdditionRow> rows, AboutFacts about, string title, Stream stream)
    {
        using var whole = new MemoryStream();
        lock (OneAtATime)
        {
            using var book = new XLWorkbook();
            book.Properties.Title = title;
            var sheet = new Sheet(book, "Additions", about, title);
            sheet.Head(FirstRow - 1, [.. Table.Select(column => (column.Name, column.Width))]);
            for (var i = 0; i < rows.Count && i < MostRows; i++)
                for (var column = 0; column < Table.Length; column++)
                    if (Table[column].Of(rows[i]) is decimal number) sheet.Number(FirstRow + i, column + 1, number, column == 0 ? Sheet.WholeFormat : Sheet.LitresFormat);
                    else sheet.Text(FirstRow + i, column + 1, Table[column].Of(rows[i]) as string);
            if (rows.Count > MostRows) sheet.Text(FirstRow + MostRows, 1, $"{rows.Count - MostRows} more rows are in the CSV.");
            About(book, about, title);
            book.SaveAs(whole, new SaveOptions { ValidatePackage = false });
        }
        whole.Position = 0;
        whole.CopyTo(stream);
    }

    private static void About(XLWorkbook book, AboutFacts about, string title)
    {
        var sheet = new Sheet(book, "About", about, "About this register");
        sheet.Head(FirstRow - 1, ("what", 22), ("says", 110));
        (string What, string Says)[] facts =
        [
            ("premises", about.Premises), ("what", title), ("last entry", about.LastEntry.ToString(CultureInfo.InvariantCulture)), ("hash of that entry", about.Hash),
            ("made at", about.MadeAt.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture)), ("days are those of", about.TimeZone),
            ("doses", "Of the active substance, over the volume it went into; the total is all that was added so far, weighted by volume where wines met."),
            ("limits", "As the sets in this program have them; sources marked “from memory” were not read. " + LimitSpeech.Standing),
        ];
        for (var i = 0; i < facts.Length; i++)
        {
            sheet.Text(FirstRow + i, 1, facts[i].What);
            sheet.Text(FirstRow + i, 2, facts[i].Says);
        }
    }

    private static object? Milligrams(Dose? dose) => dose is { } known ? known.NanogramsPerLitre / 1_000_000m : null;

    private static object? Figure(string text) => decimal.TryParse(text, NumberStyles.Number, CultureInfo.InvariantCulture, out var number) ? number : text;
}
