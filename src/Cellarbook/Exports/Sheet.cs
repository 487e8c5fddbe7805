using System.Globalization;
using System.Xml;
using ClosedXML.Excel;

namespace Cellarbook.Exports;

/// <summary>One sheet of the workbook: writes cells so that text stays text and figures stay figures, and sets it up for reading and printing.</summary>
internal sealed class Sheet
{
    /// <summary>Litres to the millilitre.</summary>
    public const string LitresFormat = "#,##0.000";

    /// <summary>Litres to the microlitre, where a figure of the document needs it.</summary>
    public const string FineLitresFormat = "#,##0.000000";

    /// <summary>Whole numbers.</summary>
    public const string WholeFormat = "#,##0";

    private const string FormulaStarts = "=+-@\t\r\n";
    private const int LongestText = 32_767;

    public Sheet(IXLWorkbook book, string name, AboutFacts about, string title)
    {
        Cells = book.Worksheets.Add(name);
        Text(1, 1, title);
        Cells.Cell(1, 1).Style.Font.SetBold().Font.SetFontSize(14);
        Text(2, 1, about.Premises);
        var page = Cells.PageSetup;
        page.PaperSize = about.LetterPaper ? XLPaperSize.LetterPaper : XLPaperSize.A4Paper;
        page.PageOrientation = XLPageOrientation.Landscape;
        page.FitToPages(1, 0);
        // An ampersand begins a code in headers and footers; doubled it stands for itself.
        page.Header.Left.AddText(Fit(about.Premises, 120).Replace("&", "&&", StringComparison.Ordinal));
        page.Header.Right.AddText(Fit(title, 100).Replace("&", "&&", StringComparison.Ordinal));
        page.Footer.Left.AddText($"entry {about.LastEntry.ToString(CultureInfo.InvariantCulture)}");
        page.Footer.Right.AddText("page ");
        page.Footer.Right.AddText(XLHFPredefinedText.PageNumber);
        page.Footer.Right.AddText(" of ");
        page.Footer.Right.AddText(XLHFPredefinedText.NumberOfPages);
    }

    public IXLWorksheet Cells { get; }

    /// <summary>Writes the head of the table and freezes everything down to it.</summary>
    public void Head(int row, params (string Words, double Width)[] columns)
    {
        for (var i = 0; i < columns.Length; i++)
        {
            Text(row, i + 1, columns[i].Words);
            Cells.Column(i + 1).Width = columns[i].Width;
        }
        HeadStyle(row, row, columns.Length);
    }

    /// <summary>Styles rows as the head, freezes them and repeats them on every printed page.</summary>
    public void HeadStyle(int first, int last, int columns)
    {
        var head = Cells.Range(first, 1, last, columns);
        head.Style.Font.SetBold().Border.SetBottomBorder(XLBorderStyleValues.Thin).Alignment.SetWrapText();
        Cells.SheetView.FreezeRows(last);
        Cells.PageSetup.SetRowsToRepeatAtTop(first, last);
    }

    /// <summary>Writes text; nothing for an empty one. What looks like a formula is marked as text for whoever edits the cell.</summary>
    public void Text(int row, int column, string? text)
    {
        if (string.IsNullOrEmpty(text)) return;
        var cell = Cells.Cell(row, column);
        cell.SetValue(Fit(text, LongestText));
        if (FormulaStarts.Contains(text[0], StringComparison.Ordinal)) cell.Style.SetIncludeQuotePrefix();
    }

    /// <summary>Writes a figure.</summary>
    public void Number(int row, int column, decimal number, string format)
    {
        var cell = Cells.Cell(row, column);
        cell.SetValue((double)number);
        cell.Style.NumberFormat.Format = format;
    }

    /// <summary>Writes a live formula.</summary>
    public void Formula(int row, int column, string formula, string format)
    {
        var cell = Cells.Cell(row, column);
        cell.FormulaA1 = formula;
        cell.Style.NumberFormat.Format = format;
    }

    /// <summary>Marks a row of the table as a total.</summary>
    public void Total(int row, int columns) =>
        Cells.Range(row, 1, row, columns).Style.Font.SetBold().Border.SetTopBorder(XLBorderStyleValues.Thin);

    /// <summary>A cell's address, such as "C7".</summary>
    public static string At(int row, int column) => XLHelper.GetColumnLetterFromNumber(column) + row.ToString(CultureInfo.InvariantCulture);

    /// <summary>A column's cells from one row to another, such as "C7:C9".</summary>
    public static string Down(int column, int first, int last) => $"{At(first, column)}:{At(last, column)}";

    /// <summary>The same from another sheet, held in place: "Lots!$C$7:$C$9".</summary>
    public static string Fixed(string sheet, int column, int first, int last)
    {
        var letter = XLHelper.GetColumnLetterFromNumber(column);
        return string.Create(CultureInfo.InvariantCulture, $"{sheet}!${letter}${first}:${letter}${last}");
    }

    /// <summary>Text as a cell can hold it: what XML can't carry becomes a dot, what is too long is cut and says so.</summary>
    private static string Fit(string text, int longest)
    {
        if (text.Length > longest) text = string.Concat(text.AsSpan(0, longest - 2), " …");
        for (var i = 0; i < text.Length; i++)
        {
            if (XmlConvert.IsXmlChar(text[i])) continue;
            if (i + 1 < text.Length && XmlConvert.IsXmlSurrogatePair(text[i + 1], text[i])) { i++; continue; }
            text = string.Concat(text.AsSpan(0, i), "·", text.AsSpan(i + 1));
        }
        return text;
    }
}
