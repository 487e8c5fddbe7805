using System.Text;

namespace Cellarbook.Core.Facts;

/// <summary>
/// The project's own data files (folder seed/), carried inside this assembly. They are read once, at first use; a fault in one is a bug.
/// </summary>
public static class Seed
{
    /// <summary>The text of a seed file, named by its path such as "seed/records/event_categories.csv".</summary>
    public static string Text(string path)
    {
        using var stream = typeof(Seed).Assembly.GetManifestResourceStream(path)
            ?? throw new InvalidOperationException($"No seed file {path}.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        return reader.ReadToEnd();
    }

    /// <summary>The rows of a seed CSV file, by column name. Fields may be quoted; every row must be as long as the head.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string path)
    {
        var records = Records(Text(path));
        var head = records[0];
        var rows = new List<IReadOnlyDictionary<string, string>>(records.Count - 1);
        foreach (var record in records.Skip(1))
        {
            if (record.Count != head.Count) throw new InvalidOperationException($"{path}: a row of {record.Count} fields under a head of {head.Count}: {record[0]}.");
            rows.Add(head.Zip(record).ToDictionary(pair => pair.First, pair => pair.Second, StringComparer.Ordinal));
        }
        return rows;
    }

    private static List<List<string>> Records(string text)
    {
        var records = new List<List<string>>();
        var record = new List<string>();
        var field = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < text.Length; i++)
        {
            var c = text[i];
            if (quoted)
            {
                if (c != '"') field.Append(c);
                else if (i + 1 < text.Length && text[i + 1] == '"') field.Append(text[++i]);
                else quoted = false;
            }
            else if (c == '"') quoted = true;
            else if (c == ',') End();
            else if (c == '\n') { End(); EndRecord(); }
            else if (c is not ('\r' or '\uFEFF')) field.Append(c);
        }
        if (field.Length > 0 || record.Count > 0) { End(); EndRecord(); }
        return records;

        void End() { record.Add(field.ToString()); field.Clear(); }
        void EndRecord() { if (record.Count > 1 || record[0].Length > 0) records.Add(record); record = []; }
    }
}
