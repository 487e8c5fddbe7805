using System.Text;

namespace Cellarbook.Core.Limits;

/// <summary>A record of a CSV text with its row, counted from 1 below the head.</summary>
internal sealed record CsvRow(int Number, IReadOnlyList<string> Fields);

/// <summary>Reads CSV (RFC 4180) and says where it is broken instead of guessing.</summary>
internal static class StrictCsv
{
    /// <summary>The records; an empty line is none. Faults name the row they stand in.</summary>
    public static List<CsvRow> Read(string text, List<LimitFault> faults)
    {
        var rows = new List<CsvRow>();
        var fields = new List<string>();
        var field = new StringBuilder();
        int row = 0, i = text.StartsWith('\uFEFF') ? 1 : 0;
        bool quoted = false, closed = false;
        for (; i < text.Length; i++)
        {
            var c = text[i];
            if (quoted)
            {
                if (c != '"') field.Append(c);
                else if (i + 1 < text.Length && text[i + 1] == '"') { field.Append('"'); i++; }
                else { quoted = false; closed = true; }
            }
            else if (c == ',') EndField();
            else if (c == '\n' || (c == '\r' && i + 1 < text.Length && text[i + 1] == '\n'))
            {
                if (c == '\r') i++;
                EndField();
                EndRow();
            }
            else if (c == '"' && field.Length == 0 && !closed) quoted = true;
            else if (c == '"' || closed) { faults.Add(new(row, "", "A quotation mark stands where none may stand. Put the whole field in quotation marks and double the ones inside.")); return rows; }
            else if (c == '\0') { faults.Add(new(row, "", "This is no text file.")); return rows; }
            else field.Append(c);
        }
        if (quoted) faults.Add(new(row, "", "A quoted field isn't closed."));
        else if (field.Length > 0 || closed || fields.Count > 0) { EndField(); EndRow(); }
        return rows;

        void EndField() { fields.Add(field.ToString()); field.Clear(); closed = false; }
        void EndRow()
        {
            if (fields.Count > 1 || fields[0].Length > 0) rows.Add(new(row, fields));
            fields = [];
            row++;
        }
    }
}
