using Cellarbook.Storage;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Cellarbook.Tests.Storage;

public sealed class SchemaTests
{
    [Fact]
    public void What_a_book_is_held_against_is_what_the_migrations_make()
    {
        using var folder = new StoredBook(empty: true);
        var path = Path.Combine(folder.Folder, "fresh.db");
        using (var context = new BookContext(BookContext.OptionsFor($"Data Source={path};Pooling=False"))) context.Database.Migrate();
        using var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        var made = BookSchema.Of(connection);
        Assert.Equal(made.OrderBy(item => item.Key, StringComparer.Ordinal), BookSchema.Expected.OrderBy(item => item.Key, StringComparer.Ordinal));
        Assert.All(made.Where(item => item.Key.StartsWith("table ", StringComparison.Ordinal) && item.Key != "table __EFMigrationsLock"), table => Assert.Contains("STRICT", table.Value, StringComparison.Ordinal));
    }
}
