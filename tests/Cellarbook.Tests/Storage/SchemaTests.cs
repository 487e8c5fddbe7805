using Cellarbook.Storage;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 10: the schema a book is held against at every start is the one its migrations make, and it is strict.</summary>
public sealed class SchemaTests
{
    [Fact]
    public void What_a_book_is_held_against_is_what_the_migrations_make()
    {
        using var stored = new StoredBook(empty: true);
        var path = Path.Combine(stored.Folder, "book.db");
        using (var context = new BookContext(BookContext.OptionsFor($"Data Source={path};Pooling=False"))) context.Database.Migrate();
        using var connection = stored.Bare();
        var made = BookSchema.Of(connection);
        Assert.Equal(made.OrderBy(item => item.Key, StringComparer.Ordinal), BookSchema.Expected.OrderBy(item => item.Key, StringComparer.Ordinal));
        foreach (var table in new[] { "entry", "posting", "contact", "head", "__EFMigrationsHistory" }) Assert.Contains(") STRICT", made[$"table {table}"], StringComparison.Ordinal);
    }

    [Fact]
    public void The_model_has_no_change_without_a_migration()
    {
        using var context = new BookContext(BookContext.OptionsFor("Data Source=:memory:"));
        Assert.False(context.Database.HasPendingModelChanges());
        Assert.Equal(context.Database.GetMigrations(), BookFile.Known);
    }
}
