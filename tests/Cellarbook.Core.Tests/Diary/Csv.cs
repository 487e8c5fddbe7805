using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Tests.Diary;

/// <summary>Reads the small CSV files of the tests, independently of the readers under test: RFC 4180 with quotes, nothing else.</summary>
public static class Csv
{
    public static string DataFile(string name) => Path.Combine(AppContext.BaseDirectory, "data", name);

    public static List<List<string>> Records(string text)
    {
        var records = new List<List<string>>();
        foreach (var line in text.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var fields = new List<string>();
            var field = "";
            var quoted = false;
            foreach (var c in line.TrimEnd('\r'))
            {
                if (c == '"') quoted = !quoted;
                else if (c == ',' && !quoted) { fields.Add(field); field = ""; }
                else field += c;
            }
            fields.Add(field);
            records.Add(fields);
        }
        return records;
    }

    public static List<Dictionary<string, string>> Rows(string name)
    {
        var records = Records(File.ReadAllText(DataFile(name)));
        return [.. records.Skip(1).Select(record => records[0].Zip(record).ToDictionary(pair => pair.First, pair => pair.Second))];
    }

    /// <summary>Proposes a journal file to a book.</summary>
    public static Trial Import(Book.Book book, string text, DateOnly? today = null)
    {
        var records = Records(text);
        var refusals = new List<Refusal>();
        var columns = JournalColumns.Read(records[0], refusals);
        if (columns is null) return new([]) { Refusals = refusals };
        var reader = new JournalReader(columns);
        foreach (var record in records.Skip(1)) reader.Add(record);
        var events = reader.Events(today ?? new DateOnly(2030, 1, 1));
        return reader.Refusals.Count > 0 ? new([]) { Refusals = reader.Refusals } : book.ProposeImport(events, today ?? new DateOnly(2030, 1, 1));
    }
}
