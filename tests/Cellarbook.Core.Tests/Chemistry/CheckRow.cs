using System.Globalization;
using System.Text;
using Xunit.Sdk;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>One published or derived value with its source, as carried in data/chemistry.</summary>
public sealed class CheckRow : IXunitSerializable
{
    private static readonly string[] NoInputs = ["case_id", "quantity", "expected", "unit", "tolerance", "source", "verified", "seen_at", "notes"];

    private Dictionary<string, string> cells = [];

    public string Id => cells["case_id"];

    public string Quantity => cells["quantity"];

    public string Source => cells["source"];

    public string Verified => cells["verified"];

    public double Expected => double.Parse(cells["expected"], CultureInfo.InvariantCulture);

    public double Tolerance => double.Parse(cells["tolerance"], CultureInfo.InvariantCulture);

    public IEnumerable<string> Inputs => cells.Where(c => !NoInputs.Contains(c.Key) && c.Value.Length > 0).Select(c => c.Key);

    public string Text(string column) => cells[column];

    public double this[string column] => double.Parse(cells[column], CultureInfo.InvariantCulture);

    public static IReadOnlyList<string> Files => [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "data", "chemistry"), "*.csv").Order(StringComparer.Ordinal)];

    public static IReadOnlyList<CheckRow> All { get; } = [.. Files.SelectMany(Read)];

    public override string ToString() => $"{Id} {Quantity} [{Verified}] {Source}";

    public void Serialize(IXunitSerializationInfo info) => info.AddValue("row", string.Join('\n', cells.Select(c => c.Key + "\t" + c.Value)));

    public void Deserialize(IXunitSerializationInfo info) =>
        cells = info.GetValue<string>("row")!.Split('\n').Select(l => l.Split('\t', 2)).ToDictionary(p => p[0], p => p[1]);

    private static IEnumerable<CheckRow> Read(string file)
    {
        string[] lines = File.ReadAllLines(file);
        string[] header = Fields(lines[0]);
        return lines[1..].Where(l => l.Length > 0).Select(line =>
            new CheckRow { cells = header.Zip(Fields(line)).ToDictionary(p => p.First, p => p.Second) });
    }

    private static string[] Fields(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            if (line[i] == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
            {
                field.Append(line[i++]);
            }
            else if (line[i] == '"')
            {
                quoted = !quoted;
            }
            else if (line[i] == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(line[i]);
            }
        }

        fields.Add(field.ToString());
        return [.. fields];
    }
}
