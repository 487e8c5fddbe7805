namespace Cellarbook.Tests.Exports;

/// <summary>Reads CSV files back, independently of the writer under test: RFC 4180 with quotes, nothing else.</summary>
internal static class CsvText
{
    public static string DataFile(string name) => Path.Combine(AppContext.BaseDirectory, "data", "records", name);

    public static List<List<string>> Records(string text)
    {
        var records = new List<List<string>>();
        var (fields, field, quoted) = (new List<string>(), "", false);
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (quoted && c == '"' && i + 1 < text.Length && text[i + 1] == '"') field += text[++i];
            else if (c == '"') quoted = !quoted;
            else if (quoted || (c is not (',' or '\r' or '\n'))) field += c;
            else if (c != '\r')
            {
                fields.Add(field);
                field = "";
                if (c != '\n') continue;
                records.Add(fields);
                fields = [];
            }
        }
        return records;
    }

    /// <summary>Rows by column name; every row must be as long as the head.</summary>
    public static List<Dictionary<string, string>> Rows(string text)
    {
        var records = Records(text);
        return [.. records.Skip(1).Select(record => record.Count == records[0].Count
            ? records[0].Zip(record).ToDictionary(pair => pair.First, pair => pair.Second)
            : throw new FormatException($"{record.Count} fields under a head of {records[0].Count}: {record[0]}"))];
    }
}
