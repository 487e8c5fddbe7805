using Cellarbook.Storage;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>
/// A book written by the first version of this program (tables without stores and contacts, hashed form 1), kept as a file: every later version
/// must bring it up to date with nothing lost. It holds eleven entries of an invented household and was verified by the program that wrote it.
/// </summary>
public sealed class FirstFormTests
{
    private const string HeadAsWritten = "25997751a5bc67d9de206fc9ea6c3bf320c521e4b9437be91ba5c51819e60e9a";

    private static StoredBook Old()
    {
        var stored = new StoredBook(empty: true);
        File.Copy(Path.Combine(AppContext.BaseDirectory, "data/books/first-form.book"), stored.DatabaseFile);
        return stored;
    }

    [Fact]
    public void It_is_backed_up_brought_up_to_date_and_sound_with_the_hash_it_was_written_with()
    {
        using var stored = Old();
        stored.Open();
        Assert.True(stored.Store.IsSound, string.Join(" ", stored.Store.Findings));
        Assert.Equal(new ChainHead(11, HeadAsWritten), stored.Store.Head());
        Assert.Empty(BookStore.Verify(stored.DatabaseFile).Findings);
        var backup = Assert.Single(Directory.GetFiles(stored.Folder, "*before-upgrade*"));
        using var untouched = BookFile.OpenReadOnly(backup);
        Assert.Equal(0, BookFile.Count(untouched, "SELECT count(*) FROM pragma_table_info('posting') WHERE name = 'material'"));
    }

    [Fact]
    public void What_it_says_is_said_as_before_and_the_book_goes_on()
    {
        using var stored = Old();
        stored.Open();
        Assert.Equal("Nora Feld", stored.Book.Find(4)!.Operation!.Supplier);
        Assert.Equal(25, stored.Book.Now.ShelvesOfBottling("L1-75").Sum(shelf => stored.Book.Now.At(shelf).Bottles.Bottles));
        stored.Record("""{"kind":"remove","day":"2026-07-01","as":"gift","bottling":"L1-75","bottles":1,"recipient":"Otto Brack"}""");
        Assert.True(stored.Store.Verify().Sound);
        stored.Close();
        stored.Open();
        Assert.Equal(12, stored.Book.LastNumber);
    }

    [Theory]
    [InlineData("UPDATE posting SET volume_ul = volume_ul + 1 WHERE entry = 8", "postings are never changed")]
    [InlineData("DELETE FROM posting WHERE entry = 8", "postings are never removed")]
    public void Its_guards_stand_after_the_upgrade(string sql, string sentence)
    {
        using var stored = Old();
        stored.Open();
        using var connection = stored.Bare();
        Assert.Contains(sentence, Assert.ThrowsAny<Exception>(() => BookFile.Execute(connection, sql)).Message, StringComparison.Ordinal);
    }
}
