using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using ClosedXML.Excel;

namespace Cellarbook.Exports;

/// <summary>The plain statement on a sheet: a block for each section and class, its closing a formula, held against the lots of that day.</summary>
internal static class PlainSheet
{
    private const int Litres = 7;
    private const int Bottles = 8;
    private const int Columns = 10;

    public static void Write(XLWorkbook book, StatementDocument document, int lotsEnd)
    {
        var sheet = new Sheet(book, "Statement", document.About, StatementWorkbook.Title(document));
        sheet.Head(StatementWorkbook.FirstRow - 1, ("section", 10), ("class", 10), ("in words", 26), ("category", 26), ("what", 32), ("direction", 11), ("litres", 16), ("bottles", 11), ("litres in lots", 16), ("difference", 14));
        var format = StatementWorkbook.LitresFormat(document);
        var row = StatementWorkbook.FirstRow;
        foreach (var block in document.Plain.Lines.GroupBy(line => (line.Section, line.Class)))
        {
            var opening = row;
            var (ins, outs) = (0, 0);
            foreach (var line in block)
            {
                Words(sheet, row, line);
                if (line.Direction == Direction.In) ins++;
                else if (line.Direction == Direction.Out) outs++;
                if (line.Direction == Direction.Closing) Closing(sheet, document, row, opening, ins, outs, line, format, lotsEnd);
                else
                {
                    sheet.Number(row, Litres, Figures.Litres(line.Volume), format);
                    if (line.Section == Section.Bottled) sheet.Number(row, Bottles, line.Bottles.Bottles, Sheet.WholeFormat);
                }
                row++;
            }
            row++;
        }
        foreach (var note in document.Notes) sheet.Text(++row, 1, note.ToString());
    }

    private static void Words(Sheet sheet, int row, PlainLine line)
    {
        sheet.Text(row, 1, line.Section.Word());
        sheet.Text(row, 2, line.Class);
        sheet.Text(row, 3, StatementWorkbook.WordsOf(line.Class));
        sheet.Text(row, 4, line.Category?.Code);
        sheet.Text(row, 5, line.Category?.Term ?? (line.Direction == Direction.Opening ? "On hand, first day" : "On hand, last day"));
        sheet.Text(row, 6, StatementCsv.Word(line.Direction));
    }

    private static void Closing(Sheet sheet, StatementDocument document, int row, int opening, int ins, int outs, PlainLine line, string format, int lotsEnd)
    {
        sheet.Formula(row, Litres, StatementWorkbook.Rounded(Balance(Litres, opening, ins, outs)), format);
        if (line.Section == Section.Bottled) sheet.Formula(row, Bottles, Balance(Bottles, opening, ins, outs), Sheet.WholeFormat);
        sheet.Formula(row, Columns - 1, StatementWorkbook.Rounded(StatementWorkbook.SumOfLots(5, lotsEnd, line.Section.Word(), line.Class)), format);
        sheet.Formula(row, Columns, StatementWorkbook.Rounded($"{Sheet.At(row, Litres)}-{Sheet.At(row, Columns - 1)}"), format);
        sheet.Total(row, Columns);
    }

    /// <summary>opening + in − out.</summary>
    private static string Balance(int column, int opening, int ins, int outs)
    {
        var balance = Sheet.At(opening, column);
        if (ins > 0) balance += $"+SUM({Sheet.Down(column, opening + 1, opening + ins)})";
        if (outs > 0) balance += $"-SUM({Sheet.Down(column, opening + ins + 1, opening + ins + outs)})";
        return balance;
    }
}
