using System.Runtime.CompilerServices;
using Cellarbook.Storage;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 9 needs full sync on every connection, law 10 the guards in force on every connection: each way a connection is opened is held to it.</summary>
public sealed class PragmaTests
{
    private static void Check(SqliteConnection connection)
    {
        foreach (var (name, value) in Pragmas.Required) Assert.Equal((name, value), (name, long.Parse(Assert.Single(StoredBook.Column(connection, $"PRAGMA {name}")), System.Globalization.CultureInfo.InvariantCulture)));
    }

    [Fact]
    public void The_connection_that_writes()
    {
        using var stored = new StoredBook();
        Check(stored.Store.Connection);
        Assert.Equal(["wal"], StoredBook.Column(stored.Store.Connection, "PRAGMA journal_mode"));
        Assert.Contains(("synchronous", 2L), Pragmas.Required);
    }

    [Fact]
    public void Connections_that_load_verify_and_back_up()
    {
        using var stored = new StoredBook();
        using (var connection = BookFile.OpenReadOnly(stored.DatabaseFile)) Check(connection);
        using (var connection = BookFile.OpenUnchanging(stored.DatabaseFile)) Check(connection);
    }

    [Fact]
    public async Task Connections_of_EF_new_from_the_pool_and_asynchronous()
    {
        using var stored = new StoredBook();
        for (var i = 0; i < 2; i++)
        {
            using var context = new BookContext(stored.Store.Reading);
            context.Database.OpenConnection();
            Check((SqliteConnection)context.Database.GetDbConnection());
        }
        await using var another = new BookContext(stored.Store.Reading);
        await another.Database.OpenConnectionAsync();
        Check((SqliteConnection)another.Database.GetDbConnection());
    }

    [Fact]
    public void There_is_no_other_way()
    {
        var sources = Path.Combine(Path.GetDirectoryName(Here())!, "../../../src/Cellarbook");
        var makers = Directory.EnumerateFiles(sources, "*.cs", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal))
            .Where(file => File.ReadAllText(file) is var text && (text.Contains("new SqliteConnection(", StringComparison.Ordinal) || text.Contains(".UseSqlite(", StringComparison.Ordinal)))
            .Where(file => file.Contains("Storage", StringComparison.Ordinal))
            .Select(Path.GetFileName).Order(StringComparer.Ordinal);
        Assert.Equal(["BookContext.cs", "Pragmas.cs"], makers);
    }

    private static string Here([CallerFilePath] string path = "") => path;
}
