using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using ClosedXML.Excel;

namespace Cellarbook.Exports;

/// <summary>
/// The US form on a sheet, laid out like the form: lines down, classes across, each in litres, wine gallons and whole gallons. Totals and the
/// closing are formulas; whole gallons of single lines are the figures as reported, since the rule that makes them balance looks at a column whole.
/// </summary>
internal static class UsSheet
{
    private const int FirstClass = 3;
    private const int PerClass = 3;
    private const int ClassRow = StatementWorkbook.FirstRow - 1;
    private const int UnitRow = StatementWorkbook.FirstRow;

    public static void Write(XLWorkbook book, StatementDocument document, UsStatement us, int lotsEnd)
    {
        var sheet = new Sheet(book, "Statement", document.About, StatementWorkbook.Title(document));
        var classes = us.Figures.Select(figure => figure.Class).Distinct().OrderBy(ClassScheme.Default.OrderOf).ToArray();
        Head(sheet, classes);
        var row = UnitRow + 1;
        foreach (var section in UsForm.Current.Sections)
        {
            var rows = new Dictionary<FormLine, int>();
            sheet.Text(row, 2, section.Name);
            sheet.Cells.Cell(row++, 2).Style.Font.SetBold();
            foreach (var line in section.Lines)
            {
                rows.Add(line, row);
                sheet.Text(row, 1, line.Line);
                sheet.Text(row, 2, line.Label.ToString());
                if (line.Side is LineSide.Total || line == section.Closing) sheet.Total(row, FirstClass - 1 + classes.Length * PerClass);
                row++;
            }
            sheet.Text(row, 2, "Litres in lots, last day");
            sheet.Text(row + 1, 2, "Difference");
            for (var i = 0; i < classes.Length; i++)
                Column(sheet, section, rows, FirstClass + i * PerClass, [.. us.Figures.Where(figure => figure.Section == section && figure.Class == classes[i])], classes[i], StatementWorkbook.LitresFormat(document), row, lotsEnd);
            row += 3;
        }
        foreach (var note in us.Notes) sheet.Text(row++, 1, note.ToString());
    }

    private static void Head(Sheet sheet, string[] classes)
    {
        sheet.Head(UnitRow, [("line", 6), ("label", 38), .. classes.SelectMany(_ => new[] { ("litres", 14.0), ("wine gallons", 14.0), ("whole gallons", 10.0) })]);
        for (var i = 0; i < classes.Length; i++)
        {
            var column = FirstClass + i * PerClass;
            sheet.Text(ClassRow, column, classes[i]);
            sheet.Text(ClassRow, column + 1, StatementWorkbook.WordsOf(classes[i]));
            sheet.Cells.Range(ClassRow, column + 1, ClassRow, column + 2).Merge();
        }
        sheet.HeadStyle(ClassRow, UnitRow, FirstClass - 1 + classes.Length * PerClass);
        sheet.Cells.SheetView.Freeze(UnitRow, FirstClass - 1);
    }

    private static void Column(Sheet sheet, FormSection section, Dictionary<FormLine, int> rows, int column, UsFigure[] figures, string wine, string format, int below, int lotsEnd)
    {
        if (figures.Length == 0) return;
        int opening = rows[section.Opening], upper = rows[section.UpperTotal], closing = rows[section.Closing], lower = rows[section.LowerTotal];
        foreach (var figure in figures)
        {
            var row = rows[figure.Line];
            if (row == upper || row == closing || row == lower)
            {
                sheet.Formula(row, column, StatementWorkbook.Rounded(Formula(column)), format);
                sheet.Formula(row, column + 2, Formula(column + 2), Sheet.WholeFormat);
            }
            else
            {
                sheet.Number(row, column, Figures.Litres(figure.Volume), format);
                sheet.Number(row, column + 2, figure.WholeGallons, Sheet.WholeFormat);
            }
            sheet.Formula(row, column + 1, Gallons(Sheet.At(row, column)), "#,##0.00000");

            // A12 = A1 + … + A11; A31 = A12 − (A13 + … + A30); A32 = A13 + … + A31. The same for B.
            string Formula(int of) => row == upper ? $"SUM({Sheet.Down(of, opening, upper - 1)})"
                : row == closing ? $"{Sheet.At(upper, of)}-SUM({Sheet.Down(of, upper + 1, closing - 1)})"
                : $"SUM({Sheet.Down(of, upper + 1, closing)})";
        }
        sheet.Formula(below, column, StatementWorkbook.Rounded(StatementWorkbook.SumOfLots(5, lotsEnd, section.Section.Word(), wine)), format);
        sheet.Formula(below + 1, column, StatementWorkbook.Rounded($"{Sheet.At(closing, column)}-{Sheet.At(below, column)}"), format);
    }

    /// <summary>
    /// Litres in gallons to five decimals, half away from nil. Reckoned in whole microlitres: every odd half litre is a tie, and a binary fraction
    /// would fall to the wrong side of some.
    /// </summary>
    private static string Gallons(string litres) =>
        $"ROUND(ROUND({litres}*1000000,0)*{GallonsPerLitreE5}/1000000,0)/100000";

    private static readonly string GallonsPerLitreE5 = UsForm.Current.Gallons(Volume.OfLitres(100_000)).Split('.')[0];
}
