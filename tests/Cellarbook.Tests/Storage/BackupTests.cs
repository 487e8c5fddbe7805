using Cellarbook.Storage;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 9: a book can be taken away whole while it is in use, and put back without losing the one that lay there.</summary>
public sealed class BackupTests
{
    [Fact]
    public void A_backup_of_a_book_in_use_is_whole_and_sound()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var file = Path.Combine(stored.Folder, "backup.db");
        // Nothing was written back from the log yet: a plain copy of book.db would miss it.
        Assert.True(new FileInfo(stored.DatabaseFile + "-wal").Length > 0);
        stored.Store.Backup(file);
        var report = BookStore.Verify(file);
        Assert.True(report.Sound);
        Assert.Equal(stored.Store.Head(), report.Head);
        Assert.False(File.Exists(file + "-wal"));
        Assert.False(File.Exists(file + ".partial"));
        stored.Record("""{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"L1-75","bottles":1}""");
    }

    [Fact]
    public void A_reader_beside_the_running_program_backs_up_too()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        using var reading = BookStore.Open(stored.Folder, readOnly: true);
        reading.Backup(Path.Combine(stored.Folder, "backup.db"));
        Assert.Equal(stored.Store.Head(), BookStore.Verify(Path.Combine(stored.Folder, "backup.db")).Head);
    }

    [Fact]
    public void A_backup_is_never_written_over_a_file()
    {
        using var stored = new StoredBook();
        var file = Path.Combine(stored.Folder, "backup.db");
        File.WriteAllText(file, "last year's");
        var refused = Assert.Throws<BookWriteException>(() => stored.Store.Backup(file));
        Assert.Equal("file_exists", refused.Code);
        Assert.Equal("last year's", File.ReadAllText(file));
    }

    [Fact]
    public void A_folder_that_is_not_there_is_said_so()
    {
        using var stored = new StoredBook();
        Assert.Equal(BookFault.ReadOnlyFolder, Assert.Throws<BookWriteException>(() => stored.Store.Backup(Path.Combine(stored.Folder, "nowhere/backup.db"))).Fault);
    }

    [Fact]
    public void A_spoilt_book_gives_no_backup_that_looks_good()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Close();
        stored.FromOutside("UPDATE entry SET actor = 'x' WHERE number = 4", dropGuards: true);
        var file = Path.Combine(stored.Folder, "backup.db");
        using var store = BookStore.Open(stored.Folder);
        Assert.Equal(BookFault.Unsound, Assert.Throws<BookOpenException>(() => store.Backup(file)).Fault);
        Assert.False(File.Exists(file));
        Assert.False(File.Exists(file + ".partial"));
    }

    [Fact]
    public void A_restored_book_is_the_one_of_the_backup_and_the_other_is_kept()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var file = Path.Combine(stored.Folder, "backup.db");
        stored.Store.Backup(file);
        var saved = stored.Store.Head();
        stored.Record("""{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"L1-75","bottles":1}""");
        var later = stored.Store.Head();
        Assert.Equal(BookFault.Locked, Assert.Throws<BookOpenException>(() => BookStore.Restore(file, stored.Folder)).Fault);
        stored.Close();

        var kept = BookStore.Restore(file, stored.Folder);
        Assert.Equal(later, BookStore.Verify(kept!).Head);
        stored.Open();
        Assert.Equal(saved, stored.Store.Head());
        Assert.Equal(["wal"], StoredBook.Column(stored.Store.Connection, "PRAGMA journal_mode"));
        Assert.True(BookStore.Verify(file).Sound);
        stored.Record("""{"kind":"remove","day":"2026-06-12","as":"gift","bottling":"L1-75","bottles":1}""");
    }

    [Fact]
    public void Into_an_empty_folder_too()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var file = Path.Combine(stored.Folder, "backup.db");
        stored.Store.Backup(file);
        using var other = new StoredBook(empty: true);
        Assert.Null(BookStore.Restore(file, other.Folder));
        Assert.Equal(9, other.Open().Book.LastNumber);
    }

    [Fact]
    public void What_is_no_sound_book_is_not_restored_and_the_old_one_stays()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var file = Path.Combine(stored.Folder, "backup.db");
        stored.Store.Backup(file);
        stored.Close();
        using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={file};Pooling=False"))
        {
            connection.Open();
            StoredBook.DropGuards(connection);
            StoredBook.Run(connection, "UPDATE posting SET volume_ul = volume_ul + 1 WHERE entry = 3");
        }
        Assert.Equal(BookFault.Unsound, Assert.Throws<BookOpenException>(() => BookStore.Restore(file, stored.Folder)).Fault);
        File.WriteAllText(file, "no book");
        Assert.Equal(BookFault.NotABook, Assert.Throws<BookOpenException>(() => BookStore.Restore(file, stored.Folder)).Fault);
        Assert.Equal(BookFault.NoBook, Assert.Throws<BookOpenException>(() => BookStore.Restore(file + "x", stored.Folder)).Fault);
        Assert.Equal(9, stored.Open().Book.LastNumber);
    }

    [Fact]
    public void A_ruined_book_is_replaced_and_its_log_never_meets_the_other_book()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var file = Path.Combine(stored.Folder, "backup.db");
        stored.Store.Backup(file);
        stored.Close();
        File.WriteAllText(stored.DatabaseFile, "ruined");
        File.WriteAllText(stored.DatabaseFile + "-wal", "its log");
        var kept = BookStore.Restore(file, stored.Folder);
        Assert.Equal("ruined", File.ReadAllText(kept!));
        Assert.Equal("its log", File.ReadAllText(kept + "-wal"));
        Assert.Equal(9, stored.Open().Book.LastNumber);
    }
}
