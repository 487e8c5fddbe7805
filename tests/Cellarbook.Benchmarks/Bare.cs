using Cellarbook.Storage;
using Microsoft.Data.Sqlite;

namespace Cellarbook.Benchmarks;

/// <summary>What SQLite itself does with the same rows: the yardstick for recording, importing, opening and stating.</summary>
internal static class Bare
{
    /// <summary>A connection as the program has it: WAL, full sync.</summary>
    public static SqliteConnection Open(string file)
    {
        var connection = new SqliteConnection($"Data Source={file};Pooling=False");
        connection.Open();
        Run(connection, "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;");
        return connection;
    }

    /// <summary>Copies a book's tables, empty, without its guards.</summary>
    public static SqliteConnection EmptyLike(string book, string file)
    {
        using var source = new SqliteConnection($"Data Source={book};Mode=ReadOnly;Pooling=False");
        source.Open();
        using var command = source.CreateCommand();
        command.CommandText = "SELECT sql FROM sqlite_master WHERE tbl_name IN ('entry','posting','head') AND type IN ('table','index') AND sql IS NOT NULL ORDER BY type DESC";
        var statements = new List<string>();
        using (var reader = command.ExecuteReader())
            while (reader.Read()) statements.Add(reader.GetString(0));
        var target = Open(file);
        foreach (var sql in statements) Run(target, sql);
        return target;
    }

    /// <summary>Reads every row of a table into memory, to insert them again.</summary>
    public static List<object?[]> Rows(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<object?[]>();
        while (reader.Read())
        {
            var row = new object?[reader.FieldCount];
            for (var i = 0; i < row.Length; i++) row[i] = reader.IsDBNull(i) ? DBNull.Value : reader.GetValue(i);
            rows.Add(row);
        }
        return rows;
    }

    /// <summary>A prepared insert of so many columns.</summary>
    public static SqliteCommand Insert(SqliteConnection connection, string table, int columns)
    {
        var command = connection.CreateCommand();
        command.CommandText = $"INSERT INTO {table} VALUES ({string.Join(",", Enumerable.Range(0, columns).Select(i => "$" + i))})";
        for (var i = 0; i < columns; i++) command.Parameters.Add(new SqliteParameter("$" + i, null));
        return command;
    }

    /// <summary>Fills and runs a prepared insert.</summary>
    public static void Run(SqliteCommand insert, object?[] row)
    {
        for (var i = 0; i < row.Length; i++) insert.Parameters[i].Value = row[i];
        insert.ExecuteNonQuery();
    }

    /// <summary>Runs a statement.</summary>
    public static void Run(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    /// <summary>Milliseconds of a bare write and fsync of 4 kB.</summary>
    public static double Fsync(string folder)
    {
        using var file = new FileStream(Path.Combine(folder, "fsync"), FileMode.Create, FileAccess.Write);
        var block = new byte[4096];
        return Timing.Median(50, () =>
        {
            file.Write(block);
            file.Flush(flushToDisk: true);
        });
    }
}
