using System.Globalization;
using System.Text;

namespace Cellarbook.Core.Chemistry;

/// <summary>A published table from <c>seed/chemistry</c>, carried inside the assembly and parsed once.</summary>
internal sealed class PublishedTable
{
    private readonly Dictionary<string, int> columns;
    private readonly IReadOnlyList<string[]> rows;

    private PublishedTable(string[] header, IReadOnlyList<string[]> rows)
    {
        columns = header.Select((name, at) => (name, at)).ToDictionary(c => c.name, c => c.at, StringComparer.Ordinal);
        this.rows = rows;
    }

    /// <summary>Count of data rows.</summary>
    public int Count => rows.Count;

    /// <summary>Opens the table of that file name. A missing table or a ragged row is a bug of the build, hence an exception.</summary>
    public static PublishedTable Open(string fileName)
    {
        string resource = "seed/chemistry/" + fileName;
        using Stream stream = typeof(PublishedTable).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException("The published table " + resource + " is not in the assembly.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        string[] header = Fields(reader.ReadLine() ?? "");
        var rows = new List<string[]>();
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0)
            {
                continue;
            }

            string[] row = Fields(line);
            if (row.Length != header.Length)
            {
                throw new InvalidOperationException("Ragged row in " + resource + ": " + line);
            }

            rows.Add(row);
        }

        return new PublishedTable(header, rows);
    }

    /// <summary>One text cell.</summary>
    public string Text(int row, string column) => rows[row][columns[column]];

    /// <summary>One number.</summary>
    public double Number(int row, string column) => double.Parse(Text(row, column), NumberStyles.Float, CultureInfo.InvariantCulture);

    /// <summary>A whole column of numbers.</summary>
    public double[] Numbers(string column)
    {
        var numbers = new double[Count];
        for (int row = 0; row < numbers.Length; row++)
        {
            numbers[row] = Number(row, column);
        }

        return numbers;
    }

    private static string[] Fields(string line)
    {
        var fields = new List<string>();
        var field = new StringBuilder();
        bool quoted = false;
        foreach (char c in line)
        {
            if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else
            {
                field.Append(c);
            }
        }

        fields.Add(field.ToString());
        return [.. fields];
    }
}
