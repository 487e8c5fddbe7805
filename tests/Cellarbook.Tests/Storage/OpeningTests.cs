using System.Diagnostics;
using System.Security.Cryptography;
using Cellarbook.Storage;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Laws 9 and 10 at the door: what is no book, newer or held by another is refused with a reason and left as it is.</summary>
public sealed class OpeningTests
{
    private static BookOpenException Refused(string folder, BookFault fault, bool readOnly = false)
    {
        var refused = Assert.Throws<BookOpenException>(() => BookStore.Open(folder, readOnly).Dispose());
        Assert.Equal(fault, refused.Fault);
        return refused;
    }

    private static string Sum(string file) => Convert.ToHexString(SHA256.HashData(File.ReadAllBytes(file)));

    [Fact]
    public void An_empty_folder_gets_an_empty_sound_book()
    {
        using var stored = new StoredBook();
        Assert.Equal(new ChainHead(0, new string('0', 64)), stored.Store.Head());
        Assert.True(stored.Store.Verify().Sound);
        Assert.Equal(["book.db", "book.db-shm", "book.db-wal", "book.lock"], Directory.GetFiles(stored.Folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_folder_that_is_not_there_is_made()
    {
        using var stored = new StoredBook(empty: true);
        using var store = BookStore.Open(Path.Combine(stored.Folder, "a/b c"));
        Assert.True(store.IsSound);
    }

    [Fact]
    public void A_making_that_was_killed_half_way_leaves_no_book_and_hinders_none()
    {
        using var stored = new StoredBook(empty: true);
        File.WriteAllText(stored.DatabaseFile + ".new", "half a file");
        stored.Open();
        Assert.False(File.Exists(stored.DatabaseFile + ".new"));
    }

    [Fact]
    public void A_second_program_is_told_that_the_book_is_held()
    {
        using var stored = new StoredBook();
        Assert.Equal("locked", Refused(stored.Folder, BookFault.Locked).Code);
        stored.Close();
        stored.Open();
    }

    [Fact]
    public void A_program_that_only_reads_opens_beside_the_one_that_writes()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        using var reading = BookStore.Open(stored.Folder, readOnly: true);
        Assert.Equal(9, reading.Load().ToBook(null).LastNumber);
        stored.Record("""{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"L1-75","bottles":1}""");
        Assert.Equal(10, reading.Load().ToBook(null).LastNumber);
        Assert.True(reading.Verify().Sound);
        Assert.Equal(10, reading.Read(10)!.Number);
        Assert.Equal(BookFault.ReadOnlyFolder, Assert.Throws<BookWriteException>(() => reading.Append([stored.Book.Entries[9]], "m.k.", null, StoredBook.Moment)).Fault);
    }

    [Fact]
    public void Reading_alone_makes_no_book()
    {
        using var stored = new StoredBook(empty: true);
        Refused(stored.Folder, BookFault.NoBook, readOnly: true);
        Assert.Empty(Directory.GetFiles(stored.Folder));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_book_of_a_newer_program_is_refused_untouched(bool readOnly)
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Close();
        stored.FromOutside("INSERT INTO __EFMigrationsHistory VALUES ('29990101000000_Later', '99.0.0')");
        var before = Sum(stored.DatabaseFile);
        Assert.Contains("newer version", Refused(stored.Folder, BookFault.NewerBook, readOnly).Message, StringComparison.Ordinal);
        Assert.Equal(before, Sum(stored.DatabaseFile));
        Assert.Equal(["book.db"], Directory.GetFiles(stored.Folder, "*.db*").Select(Path.GetFileName).Where(name => new FileInfo(Path.Combine(stored.Folder, name!)).Length > 0 && !name!.EndsWith("-shm", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("Dear diary, today I racked the Riesling. It was cold in the cellar, and the hose leaked.")]
    [InlineData("")]
    public void A_file_that_is_no_database_is_refused_untouched(string text)
    {
        using var stored = new StoredBook(empty: true);
        File.WriteAllText(stored.DatabaseFile, text);
        Refused(stored.Folder, BookFault.NotABook);
        Refused(stored.Folder, BookFault.NotABook, readOnly: true);
        Assert.Equal(text, File.ReadAllText(stored.DatabaseFile));
    }

    [Fact]
    public void A_database_of_another_program_is_refused()
    {
        using var stored = new StoredBook(empty: true);
        stored.FromOutside("CREATE TABLE recipe (name TEXT)");
        Refused(stored.Folder, BookFault.NotABook);
    }

    [Fact]
    public void A_book_that_was_moved_away_without_its_log_is_not_replaced_by_an_empty_one()
    {
        using var stored = new StoredBook(empty: true);
        File.WriteAllText(stored.DatabaseFile + "-wal", "what was recorded last");
        Assert.Contains("its log", Refused(stored.Folder, BookFault.Damaged).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_that_can_not_be_written_is_said_so()
    {
        if (OperatingSystem.IsWindows()) return;
        using var stored = new StoredBook(empty: true);
        // The rights of a folder don't bind the superuser; the kernel's own folder binds everybody.
        var folder = Environment.IsPrivilegedProcess ? "/sys/cellarbook" : Directory.CreateDirectory(Path.Combine(stored.Folder, "closed"), UnixFileMode.UserRead | UnixFileMode.UserExecute).FullName;
        Assert.Contains("can't be written", Refused(folder, BookFault.ReadOnlyFolder).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_nobody_can_change_is_read_without_locks_whatever_its_name()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var backup = Path.Combine(stored.Folder, "a b?c#d%20é.db");
        stored.Store.Backup(backup);
        using var connection = BookFile.OpenUnchanging(backup);
        Assert.Equal(9, BookFile.Count(connection, "SELECT count(*) FROM entry"));
        Assert.False(File.Exists(backup + "-shm"));
    }

    /// <summary>A book as the first of our programs would have left it: the tables without the guards that came with the second migration.</summary>
    private static void MakeOlder(StoredBook stored)
    {
        using var context = new BookContext(BookContext.OptionsFor($"Data Source={stored.DatabaseFile};Pooling=False"));
        context.GetInfrastructure().GetRequiredService<IMigrator>().Migrate(BookFile.Known[0]);
    }

    [Fact]
    public void An_older_book_is_backed_up_and_brought_up_to_date()
    {
        using var stored = new StoredBook(empty: true);
        MakeOlder(stored);
        Refused(stored.Folder, BookFault.OlderBook, readOnly: true);
        using var store = BookStore.Open(stored.Folder);
        Assert.True(store.Verify().Sound);
        Assert.True(File.Exists(store.UpgradeBackup));
        Assert.Equal(BookFile.Known.Skip(1), BookFile.Pending(store.UpgradeBackup!));
    }

    [Fact]
    public void A_migration_killed_half_way_does_not_hold_up_the_next_start()
    {
        using var stored = new StoredBook(empty: true);
        MakeOlder(stored);
        stored.FromOutside("INSERT INTO __EFMigrationsLock VALUES (1, '2026-01-01 00:00:00+00:00')");
        var watch = Stopwatch.StartNew();
        stored.Open();
        Assert.True(watch.Elapsed < TimeSpan.FromSeconds(20), $"took {watch.Elapsed}");
        using var connection = stored.Bare();
        Assert.Empty(StoredBook.Column(connection, "SELECT Timestamp FROM __EFMigrationsLock"));
    }

    [Fact]
    public void A_stale_migration_lock_in_a_book_that_is_up_to_date_is_removed_too()
    {
        using var stored = new StoredBook();
        stored.Close();
        stored.FromOutside("INSERT INTO __EFMigrationsLock VALUES (1, '2026-01-01 00:00:00+00:00')");
        stored.Open();
        using var connection = stored.Bare();
        Assert.Empty(StoredBook.Column(connection, "SELECT Timestamp FROM __EFMigrationsLock"));
    }

    [Fact]
    public void A_spoilt_older_book_is_not_brought_up_to_date()
    {
        using var stored = new StoredBook(empty: true);
        MakeOlder(stored);
        stored.FromOutside("UPDATE head SET number = 3");
        Refused(stored.Folder, BookFault.Unsound);
        Assert.Equal(BookFile.Known.Skip(1), BookFile.Pending(stored.DatabaseFile));
    }
}
