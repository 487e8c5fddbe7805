using System.Globalization;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using ClosedXML.Excel;

namespace Cellarbook.Exports;

/// <summary>What the workbook says about itself: whose it is, from which moment of which book, in which units, rounded how, from which sources.</summary>
internal static class AboutSheet
{
    public static void Write(XLWorkbook book, StatementDocument document)
    {
        var sheet = new Sheet(book, "About", document.About, "About this statement");
        sheet.Head(StatementWorkbook.FirstRow - 1, ("what", 22), ("says", 110));
        sheet.Cells.Column(2).Style.Alignment.SetWrapText();
        var row = StatementWorkbook.FirstRow;
        foreach (var (what, says) in Facts(document))
        {
            sheet.Text(row, 1, what);
            sheet.Text(row, 2, says);
            row++;
        }
    }

    /// <summary>The facts, in order; pages may show the same.</summary>
    public static IEnumerable<(string What, string Says)> Facts(StatementDocument document)
    {
        var about = document.About;
        yield return ("premises", about.Premises);
        yield return ("book", about.Book);
        yield return ("form", document.Us is null ? "plain statement" : UsForm.Current.Name);
        yield return ("period asked for", document.Plain.Asked.ToString());
        yield return ("period stated", document.Plain.Stated.ToString());
        yield return ("last entry", about.LastEntry.ToString(CultureInfo.InvariantCulture));
        yield return ("hash of that entry", about.Hash);
        yield return ("made at", about.MadeAt.ToUniversalTime().ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
        yield return ("days are those of", about.TimeZone);
        yield return ("balance", "opening + in − out = closing, for each section and class, to the microlitre. What was taken back stands as a negative figure in its own line.");
        yield return ("cross-check", "The closing is worked out from the statement's own lines and held against the lots of that day, which are added up by themselves; the difference must be nil.");
        yield return ("litres", "Kept in whole microlitres, shown as decimal litres, never rounded.");
        if (document.Us is null) yield return ("classes", "By product kind and stated strength; codes are those of the files.");
        else
        {
            yield return ("wine gallons", $"Litres × {FactorText}, to five decimals, half away from nil.");
            yield return ("whole gallons", "Every line starts as its own half-up figure, the closing as that of the true stock; the opening is the closing last reported. While a column is out, the one line that ends nearest its true value moves by a gallon: never A13 and B2, A8 and B10, A10 and A24, B6 and B16, which must agree with each other; A14 and B8 only last. If nothing may move, the closing takes it. This rule is ours; no published text on rounding these lines was found.");
            yield return ("source", UsForm.Current.Source);
        }
        foreach (var note in document.Notes) yield return ("note", note.ToString());
        yield return ("mind", "A help for whoever signs; the law and a qualified person decide.");
    }

    private static string FactorText => UsForm.Current.Gallons(Volume.OfLitres(1));
}
