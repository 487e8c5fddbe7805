using System.Data.Common;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Diagnostics;

namespace Cellarbook.Storage;

/// <summary>What holds on every connection to a book, whoever opens it (law 9): waiting instead of failing, full sync, keys and guards in force.</summary>
internal static class Pragmas
{
    /// <summary>The settings and the values they must read back as; the tests assert them on each way a connection is opened.</summary>
    public static IReadOnlyList<(string Name, long Value)> Required { get; } =
        [("busy_timeout", 5000), ("synchronous", 2), ("foreign_keys", 1), ("recursive_triggers", 1)];

    private static readonly string Sql = string.Concat(Required.Select(pragma => $"PRAGMA {pragma.Name}={pragma.Value};"));

    public static void Apply(DbConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText = Sql;
        command.ExecuteNonQuery();
    }

    /// <summary>Opens a connection outside EF, with the same settings.</summary>
    public static SqliteConnection Open(string path, SqliteOpenMode mode)
    {
        var connection = new SqliteConnection(ConnectionString(path, mode, pooling: false));
        try
        {
            connection.Open();
            Apply(connection);
            return connection;
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    public static string ConnectionString(string path, SqliteOpenMode mode, bool pooling) =>
        new SqliteConnectionStringBuilder { DataSource = path, Mode = mode, Pooling = pooling }.ToString();
}

/// <summary>Sets them on each connection EF opens.</summary>
internal sealed class PragmaInterceptor : DbConnectionInterceptor
{
    public override void ConnectionOpened(DbConnection connection, ConnectionEndEventData eventData) => Pragmas.Apply(connection);

    public override Task ConnectionOpenedAsync(DbConnection connection, ConnectionEndEventData eventData, CancellationToken cancellationToken = default)
    {
        Pragmas.Apply(connection);
        return Task.CompletedTask;
    }
}
