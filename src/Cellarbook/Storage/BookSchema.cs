using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>Holds the schema of a book against what this program makes: tables, indexes and guards, by their whole text.</summary>
internal static partial class BookSchema
{
    /// <summary>All of it, as (kind and name → text).</summary>
    public static IReadOnlyDictionary<string, string> Expected { get; } =
        Tables.Select(table => KeyValuePair.Create(table.Key, table.Value))
            .Concat(Guards.ByName.Select(guard => KeyValuePair.Create("trigger " + guard.Key, guard.Value)))
            .ToDictionary(item => item.Key, item => Normal(item.Value), StringComparer.Ordinal);

    /// <summary>What a file has.</summary>
    public static Dictionary<string, string> Of(SqliteConnection connection)
    {
        var found = new Dictionary<string, string>(StringComparer.Ordinal);
        using var statement = new Statement(connection, "SELECT type, name, sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite!_%' ESCAPE '!'");
        while (statement.Step()) found[$"{statement.Text(0)} {statement.Text(1)}"] = Normal(statement.Text(2)!);
        return found;
    }

    /// <summary>Says each table, index and guard that is missing, changed or not ours.</summary>
    public static void Check(SqliteConnection connection, Findings findings)
    {
        var found = Of(connection);
        foreach (var (name, text) in Expected.OrderBy(item => item.Key, StringComparer.Ordinal))
        {
            if (!found.TryGetValue(name, out var own)) findings.Add(null, $"The {Said(name)} is missing.");
            else if (own != text) findings.Add(null, $"The {Said(name)} is not as this program made it.");
        }
        foreach (var name in found.Keys.Except(Expected.Keys).Order(StringComparer.Ordinal)) findings.Add(null, $"The {name} is not this program's.");
    }

    private static string Said(string name) => name.StartsWith("trigger ", StringComparison.Ordinal) ? "guard " + name[8..] : name;

    private static string Normal(string sql) => sql.ReplaceLineEndings("\n").Trim();
}
