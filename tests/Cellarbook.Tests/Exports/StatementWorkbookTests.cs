using System.Globalization;
using System.Text.RegularExpressions;
using Cellarbook.Core.Statements;
using Cellarbook.Exports;
using Xunit;

namespace Cellarbook.Tests.Exports;

/// <summary>
/// The workbook, opened by LibreOffice with every formula worked out anew, says what the CSV says: figure by figure, and not because it believes
/// the values we cached.
/// </summary>
public class StatementWorkbookTests
{
    private static readonly Period Year = new(new(2026, 4, 1), new(2026, 12, 31));

    private static byte[] Workbook(StatementDocument document)
    {
        using var stream = new MemoryStream();
        StatementWorkbook.Write(document, stream);
        return stream.ToArray();
    }

    [Fact]
    public async Task Every_figure_of_the_worked_quarter_agrees_with_the_form_s_csv()
    {
        var document = Books.Document(Books.Worked(), Books.Quarter, us: true);
        var sheets = Office.Read(Workbook(document));
        var (compared, wrong) = await CompareUs(document, sheets);
        Assert.Empty(wrong);
        Assert.Equal(document.Us!.Figures.Count * 3, compared);
        await CompareLists(document, sheets);
    }

    [Fact]
    public async Task Every_figure_of_the_worked_quarter_agrees_with_the_plain_csv()
    {
        var document = Books.Document(Books.Worked(), Books.Quarter, us: false);
        var sheets = Office.Read(Workbook(document));
        var (compared, wrong) = await ComparePlain(document, sheets);
        Assert.Empty(wrong);
        Assert.Equal(document.Plain.Lines.Count, compared);
        await CompareLists(document, sheets);
    }

    [Fact]
    public async Task A_household_s_year_agrees_to_the_microlitre_in_both_forms()
    {
        var book = Books.Household();
        var plain = Books.Document(book, Year, us: false);
        var sheets = Office.Read(Workbook(plain));
        Assert.Empty((await ComparePlain(plain, sheets)).Wrong);
        await CompareLists(plain, sheets);
        var us = Books.Document(book, Year, us: true);
        Assert.Contains(us.Us!.Figures, figure => Math.Abs(figure.Volume.Microlitres) % 1_000_000 == 500_000);
        Assert.Empty((await CompareUs(us, Office.Read(Workbook(us)))).Wrong);
    }

    [Fact]
    public async Task Spoilt_formulas_and_figures_are_seen_and_spoilt_caches_are_not_believed()
    {
        const string Sheet = "xl/worksheets/sheet1.xml";
        var document = Books.Document(Books.Worked(), Books.Quarter, us: true);
        var good = Workbook(document);

        var cache = Office.Spoil(good, Sheet, xml => Regex.Replace(xml, "(</x:f>\\s*<x:v>)[^<]*(</x:v>)", "${1}99$2"));
        Assert.Empty((await CompareUs(document, Office.Read(cache))).Wrong);

        var formula = Office.Spoil(good, Sheet, xml => new Regex("<x:f>ROUND\\(SUM\\(C(\\d+):").Replace(xml, match => $"<x:f>ROUND(SUM(C{int.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture) + 1}:", 1));
        Assert.NotEmpty((await CompareUs(document, Office.Read(formula))).Wrong);

        var oneMicrolitre = Office.Spoil(good, Sheet, xml => new Regex("(<x:c r=\"C\\d+\"[^>]*t=\"n\"[^>]*>\\s*<x:v>)([0-9.]+)(</x:v>)").Replace(xml, match => match.Groups[1].Value + (decimal.Parse(match.Groups[2].Value, CultureInfo.InvariantCulture) + 0.000001m).ToString(CultureInfo.InvariantCulture) + match.Groups[3].Value, 1));
        var (_, wrong) = await CompareUs(document, Office.Read(oneMicrolitre));
        Assert.Contains(wrong, sentence => sentence.Contains("difference", StringComparison.Ordinal));
        Assert.True(wrong.Count >= 4, "The line, both totals and the closing change with it.");
    }

    [Fact]
    public void Text_that_looks_like_a_formula_stays_text_and_leading_zeros_stay()
    {
        var document = Books.Document(Books.Household(), Year, us: false) with { About = Books.About with { Premises = "=2+3 & Söhne", Book = "@home" } };
        var workbook = Workbook(document);
        var sheets = Office.Read(workbook);
        Assert.Equal("=2+3 & Söhne", sheets["Statement"][1][0]);
        Assert.Contains(sheets["About"], row => row[0] == "premises" && row[1] == "=2+3 & Söhne");
        Assert.Contains(sheets["About"], row => row[0] == "book" && row[1] == "@home");
        foreach (var (document_, note) in new[] { ("@x", "=1+1"), ("00123", "-2"), ("\t4", "+3") })
            Assert.Contains(sheets["Entries"], row => row[13] == document_ && row[14] == note);
        Assert.Contains(sheets["Lots"], row => row[3] == "007");
    }

    [Fact]
    public void It_is_set_up_for_reading_and_printing()
    {
        var document = Books.Document(Books.Worked(), Books.Quarter, us: true) with { About = Books.About with { LetterPaper = true } };
        using var stream = new MemoryStream(Workbook(document));
        using var book = new ClosedXML.Excel.XLWorkbook(stream);
        Assert.Equal(["Statement", "Lots", "Bottles", "Entries", "About"], book.Worksheets.Select(sheet => sheet.Name));
        foreach (var sheet in book.Worksheets)
        {
            Assert.Equal(ClosedXML.Excel.XLPaperSize.LetterPaper, sheet.PageSetup.PaperSize);
            Assert.Equal((1, 0), (sheet.PageSetup.PagesWide, sheet.PageSetup.PagesTall));
            Assert.True(sheet.SheetView.SplitRow >= 4);
            Assert.True(sheet.PageSetup.LastRowToRepeatAtTop >= 4);
            Assert.Contains("Rauhbach && Daughters", sheet.PageSetup.Header.Left.GetText(ClosedXML.Excel.XLHFOccurrence.OddPages), StringComparison.Ordinal);
            Assert.Contains("&P", sheet.PageSetup.Footer.Right.GetText(ClosedXML.Excel.XLHFOccurrence.OddPages), StringComparison.Ordinal);
        }
        var statement = book.Worksheet("Statement");
        var lines = statement.RowsUsed().ToDictionary(row => row.Cell(1).GetString() is { Length: > 0 } code ? code : $"row {row.RowNumber()}", row => row);
        foreach (var line in new[] { "A12", "A31", "A32", "B7", "B20", "B21" })
            Assert.True(lines[line].Cell(3).HasFormula && lines[line].Cell(5).HasFormula, $"{line} is no live formula.");
        Assert.Equal("#,##0.000", lines["A1"].Cell(3).Style.NumberFormat.Format);
    }

    [Fact]
    public void Twenty_thousand_rows_stand_in_it_and_the_rest_is_said_to_be_in_the_csv()
    {
        var document = Books.Document(Books.Household(), Year, us: false);
        var row = document.Entries.First();
        using var stream = new MemoryStream(Workbook(document with { Entries = Enumerable.Repeat(row, StatementWorkbook.MostEntries + 7) }));
        using var book = new ClosedXML.Excel.XLWorkbook(stream);
        var sheet = book.Worksheet("Entries");
        Assert.Equal(StatementWorkbook.MostEntries + 4, sheet.LastRowUsed().RowNumber());
        Assert.Contains("7 more are in the CSV", sheet.Cell(3, 1).GetString(), StringComparison.Ordinal);
    }

    private static async Task<(int Compared, List<string> Wrong)> CompareUs(StatementDocument document, Dictionary<string, List<List<string>>> sheets)
    {
        var sheet = sheets["Statement"];
        var wanted = CsvText.Rows(await Books.Text(stream => StatementCsv.WriteAsync(document, stream)));
        var columns = sheet[3].Select((text, i) => (text, i)).Where(cell => cell.i >= 2 && ClassScheme.Default.Knows(cell.text)).ToDictionary(cell => cell.text, cell => cell.i);
        var lines = sheet.Where(row => Regex.IsMatch(row[0], "^[AB][0-9]+$")).ToDictionary(row => row[0]);
        var (compared, wrong) = (0, new List<string>());
        foreach (var row in wanted)
        {
            var (cells, column) = (lines[row["line"]], columns[row["class"]]);
            Same(row["litres"], cells[column], $"{row["line"]} {row["class"]} litres");
            Same(row["wine_gallons"], cells[column + 1], $"{row["line"]} {row["class"]} wine gallons");
            Same(row["wine_gallons_whole"], cells[column + 2], $"{row["line"]} {row["class"]} whole gallons");
        }
        // Nothing stands in the sheet that isn't in the CSV, and the lots add up to the closings.
        var filled = lines.Values.Sum(row => row.Skip(2).Count(cell => cell.Length > 0));
        if (filled != compared) wrong.Add($"{filled} figures in the sheet, {compared} in the CSV");
        foreach (var cell in sheet.Where(row => row[1] == "Difference").SelectMany(row => row.Skip(2)).Where(cell => cell.Length > 0 && Number(cell) != 0)) wrong.Add($"difference to the lots {cell}");
        return (compared, wrong);

        void Same(string want, string got, string what)
        {
            compared++;
            if (got.Length == 0 || Number(got) != Number(want)) wrong.Add($"{what}: {got}, CSV {want}");
        }
    }

    private static async Task<(int Compared, List<string> Wrong)> ComparePlain(StatementDocument document, Dictionary<string, List<List<string>>> sheets)
    {
        var wanted = CsvText.Rows(await Books.Text(stream => StatementCsv.WriteAsync(document, stream)));
        var got = sheets["Statement"].Skip(4).Where(row => row[0] is "must" or "bulk" or "bottled").ToList();
        var wrong = new List<string>();
        if (got.Count != wanted.Count) wrong.Add($"{got.Count} lines in the sheet, {wanted.Count} in the CSV");
        foreach (var (want, row) in wanted.Zip(got))
        {
            if ((want["section"], want["class"], want["category"], want["direction"]) != (row[0], row[1], row[3], row[5])) wrong.Add($"{string.Join(' ', row)} stands where the CSV has {string.Join(' ', want.Values)}");
            if (Number(want["litres"]) != Number(row[6]) || want["bottles"] != row[7]) wrong.Add($"{row[0]} {row[1]} {row[3]} {row[5]}: {row[6]} {row[7]}, CSV {want["litres"]} {want["bottles"]}");
            if (row[5] == "closing" && Number(row[9]) != 0) wrong.Add($"difference to the lots {row[9]}");
        }
        return (got.Count, wrong);
    }

    private static async Task CompareLists(StatementDocument document, Dictionary<string, List<List<string>>> sheets)
    {
        var lots = CsvText.Rows(await Books.Text(stream => StatementCsv.LotsAsync(document.Lots, stream)));
        var body = sheets["Lots"].Skip(4).ToList();
        Assert.Equal(lots.Select(row => (row["section"], row["class"], row["lot"], Number(row["litres"]), row["bottles"])), body.TakeWhile(row => row[0].Length > 0).Select(row => (row[0], row[1], row[3], Number(row[4]), row[5])));
        foreach (var total in body.Where(row => row[0] == "total"))
        {
            Assert.Equal(lots.Where(row => row["section"] == total[3]).Sum(row => Number(row["litres"])), Number(total[4]));
            if (total[3] == "bottled") Assert.Equal(lots.Where(row => row["bottles"].Length > 0).Sum(row => Number(row["bottles"])), Number(total[5]));
        }
        var bottles = sheets["Bottles"].Skip(4).ToList();
        var shelves = bottles.TakeWhile(row => row[0].Length > 0).ToList();
        foreach (var row in shelves) Assert.Equal(Number(row[5]) * Number(row[6]) / 1000, Number(row[7]));
        var total_ = Assert.Single(bottles, row => row[0] == "total");
        Assert.Equal(lots.Where(row => row["section"] == "bottled").Sum(row => Number(row["litres"])), Number(total_[7]));
        Assert.Equal(lots.Where(row => row["section"] == "bottled").Sum(row => Number(row["bottles"])), Number(total_[6]));

        var entries = CsvText.Rows(await Books.Text(stream => StatementCsv.EntriesAsync(document.Entries, stream)));
        var listed = sheets["Entries"].Skip(4).TakeWhile(row => row[0].Length > 0).ToList();
        Assert.Equal(entries.Count, listed.Count);
        foreach (var (entry, row) in entries.Zip(listed))
            Assert.Equal(StatementCsv.EntryColumns.Select(column => entry[column].TrimStart('\'')), row.Select((cell, i) => i == 7 && cell.Length > 0 ? Number(cell).ToString("0.######", CultureInfo.InvariantCulture) : cell));
    }

    private static decimal Number(string text) => decimal.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
}
