using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using ClosedXML.Excel;

namespace Cellarbook.Exports;

/// <summary>
/// The statement as a workbook: sheets Statement, Lots, Bottles, Entries and About. Totals and balances are live formulas, so that whoever opens it
/// can follow them; what they should come to is the value the CSV and the page show.
/// </summary>
public static class StatementWorkbook
{
    /// <summary>The most rows of entries a workbook takes; the rest is in the CSV.</summary>
    public const int MostEntries = 20_000;

    /// <summary>First row below the head of every list.</summary>
    internal const int FirstRow = 5;

    // A workbook of 20,000 rows takes a quarter of a gigabyte while it is made; two at once would take twice that.
    private static readonly Lock OneAtATime = new();

    /// <summary>Writes it. The workbook is made whole before its first byte goes out.</summary>
    public static void Write(StatementDocument document, Stream stream)
    {
        using var whole = new MemoryStream();
        lock (OneAtATime) Make(document, whole);
        whole.Position = 0;
        whole.CopyTo(stream);
    }

    private static void Make(StatementDocument document, Stream whole)
    {
        using var book = new XLWorkbook();
        book.Properties.Title = Title(document);
        book.Properties.Author = document.About.Premises;
        // Sheets stand in the order of reading; formulas of the first look into the second.
        var lotsEnd = Math.Max(FirstRow, FirstRow + document.Lots.Count - 1);
        if (document.Us is { } us) UsSheet.Write(book, document, us, lotsEnd);
        else PlainSheet.Write(book, document, lotsEnd);
        Lots(book, document, lotsEnd);
        Bottles(book, document);
        Entries(book, document);
        AboutSheet.Write(book, document);
        book.FullCalculationOnLoad = true;
        book.SaveAs(whole, new SaveOptions { EvaluateFormulasBeforeSaving = true, ValidatePackage = false });
    }

    /// <summary>What it is called.</summary>
    internal static string Title(StatementDocument document) =>
        document.Us is null ? $"Period statement {document.Plain.Stated}" : $"{UsForm.Current.Name}, {document.Plain.Stated}";

    /// <summary>How litres are shown: to the millilitre, or finer where a figure is.</summary>
    internal static string LitresFormat(StatementDocument document) =>
        document.Plain.Lines.Any(line => Figures.IsFine(line.Volume)) || document.Lots.Any(lot => Figures.IsFine(lot.Volume)) ? Sheet.FineLitresFormat : Sheet.LitresFormat;

    /// <summary>Words of a class; empty for must.</summary>
    internal static string WordsOf(string wine) => wine.Length == 0 ? "" : ClassScheme.Default.Named(wine).Words.ToString();

    /// <summary>Adds up a column of the Lots sheet for a section, and for a class where there is one.</summary>
    internal static string SumOfLots(int column, int lotsEnd, string section, string wine)
    {
        var sum = $"SUMIFS({Sheet.Fixed("Lots", column, FirstRow, lotsEnd)},{Sheet.Fixed("Lots", 1, FirstRow, lotsEnd)},\"{section}\"";
        return wine.Length == 0 ? sum + ")" : $"{sum},{Sheet.Fixed("Lots", 2, FirstRow, lotsEnd)},\"{wine}\")";
    }

    private static void Lots(XLWorkbook book, StatementDocument document, int lotsEnd)
    {
        var sheet = new Sheet(book, "Lots", document.About, $"Lots at the end of {Day(document.Plain.Asked.To)}");
        sheet.Head(FirstRow - 1, ("section", 10), ("class", 10), ("in words", 26), ("lot", 24), ("litres", 16), ("bottles", 12));
        var litres = LitresFormat(document);
        var row = FirstRow;
        foreach (var lot in document.Lots)
        {
            sheet.Text(row, 1, lot.Section.Word());
            sheet.Text(row, 2, lot.Class);
            sheet.Text(row, 3, WordsOf(lot.Class));
            sheet.Text(row, 4, lot.Lot);
            sheet.Number(row, 5, Figures.Litres(lot.Volume), litres);
            if (lot.Section == Section.Bottled) sheet.Number(row, 6, lot.Bottles.Bottles, Sheet.WholeFormat);
            row++;
        }
        row = lotsEnd + 2;
        foreach (var section in new[] { Section.Must, Section.Bulk, Section.Bottled })
        {
            sheet.Text(row, 1, "total");
            sheet.Text(row, 4, section.Word());
            sheet.Formula(row, 5, Rounded(SumOfLots(5, lotsEnd, section.Word(), "")), litres);
            if (section == Section.Bottled) sheet.Formula(row, 6, SumOfLots(6, lotsEnd, section.Word(), ""), Sheet.WholeFormat);
            sheet.Total(row++, 6);
        }
    }

    private static void Bottles(XLWorkbook book, StatementDocument document)
    {
        var sheet = new Sheet(book, "Bottles", document.About, $"Bottles at the end of {Day(document.Plain.Asked.To)}");
        sheet.Head(FirstRow - 1, ("bottling", 20), ("shelf", 16), ("class", 10), ("in words", 26), ("% vol", 9), ("bottle mL", 11), ("bottles", 11), ("litres", 16), ("first filled", 12), ("from lots", 30));
        var litres = LitresFormat(document);
        var row = FirstRow;
        foreach (var found in document.Bottles)
        {
            sheet.Text(row, 1, found.Bottling);
            sheet.Text(row, 2, found.Shelf);
            sheet.Text(row, 3, found.Class);
            sheet.Text(row, 4, WordsOf(found.Class));
            if (found.Strength is { } strength) sheet.Number(row, 5, strength.Hundredths / 100m, "0.00");
            sheet.Number(row, 6, Figures.Millilitres(found.Size), "#,##0.###");
            sheet.Number(row, 7, found.Bottles.Bottles, Sheet.WholeFormat);
            sheet.Formula(row, 8, Rounded($"{Sheet.At(row, 6)}*{Sheet.At(row, 7)}/1000"), litres);
            sheet.Text(row, 9, Day(found.FilledOn));
            sheet.Text(row, 10, string.Join(", ", found.Lots));
            row++;
        }
        var end = Math.Max(FirstRow, row - 1);
        sheet.Text(end + 2, 1, "total");
        sheet.Formula(end + 2, 7, $"SUM({Sheet.Down(7, FirstRow, end)})", Sheet.WholeFormat);
        sheet.Formula(end + 2, 8, Rounded($"SUM({Sheet.Down(8, FirstRow, end)})"), litres);
        sheet.Total(end + 2, 10);
    }

    private static void Entries(XLWorkbook book, StatementDocument document)
    {
        var sheet = new Sheet(book, "Entries", document.About, $"Entries {document.Plain.Stated}");
        sheet.Head(FirstRow - 1, ("entry", 9), ("day", 11), ("time", 9), ("kind", 13), ("category", 24), ("from", 30), ("to", 30), ("litres", 16), ("bottles", 10), ("grams", 12), ("state", 20), ("recorded at", 20), ("recorded by", 16), ("document", 18), ("note", 40));
        var row = FirstRow;
        long more = 0;
        foreach (var entry in document.Entries)
        {
            if (row - FirstRow == MostEntries) { more++; continue; }
            Row(sheet, row++, entry);
        }
        if (more > 0) sheet.Text(3, 1, string.Create(CultureInfo.InvariantCulture, $"Only the first {MostEntries} rows stand here; {more} more are in the CSV of entries."));
        // Formats by column: a format of its own in each cell would make the file and the memory larger.
        var litres = LitresFormat(document);
        sheet.Cells.Column(8).Style.NumberFormat.Format = litres == Sheet.FineLitresFormat || document.Entries.Take(MostEntries).Any(entry => Figures.IsFine(entry.Posting.Volume)) ? Sheet.FineLitresFormat : litres;
        sheet.Cells.Column(9).Style.NumberFormat.Format = Sheet.WholeFormat;
        sheet.Cells.Column(10).Style.NumberFormat.Format = Sheet.WholeFormat;
        if (row > FirstRow) sheet.Cells.Range(FirstRow - 1, 1, row - 1, StatementCsv.EntryColumns.Count).SetAutoFilter();
    }

    private static void Row(Sheet sheet, int row, EntryRow entry)
    {
        var cells = sheet.Cells;
        cells.Cell(row, 1).SetValue(entry.Entry);
        sheet.Text(row, 2, Day(entry.Day));
        sheet.Text(row, 3, entry.Time?.ToString("HH:mm:ss", CultureInfo.InvariantCulture));
        sheet.Text(row, 4, entry.Kind);
        sheet.Text(row, 5, entry.Posting.Category.Code);
        sheet.Text(row, 6, entry.Posting.From.ToString());
        sheet.Text(row, 7, entry.Posting.To.ToString());
        if (!entry.Posting.Volume.IsNil) cells.Cell(row, 8).SetValue((double)Figures.Litres(entry.Posting.Volume));
        if (entry.Posting.Bottles.Bottles != 0) cells.Cell(row, 9).SetValue(entry.Posting.Bottles.Bottles);
        if (entry.Posting.Weight.Grams != 0) cells.Cell(row, 10).SetValue(entry.Posting.Weight.Grams);
        sheet.Text(row, 11, StatementCsv.StateOf(entry));
        sheet.Text(row, 12, entry.Heading.RecordedAt?.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
        sheet.Text(row, 13, entry.Heading.RecordedBy);
        sheet.Text(row, 14, entry.Heading.Document);
        sheet.Text(row, 15, entry.Heading.Note);
    }

    /// <summary>A sum of litres brought back to the nearest microlitre, which binary fractions can miss by a hair.</summary>
    internal static string Rounded(string formula) => $"ROUND({formula},6)";

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
