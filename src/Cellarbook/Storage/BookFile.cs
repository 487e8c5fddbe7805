using System.Reflection;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Cellarbook.Storage;

/// <summary>
/// The file of a book before it is opened: made when absent, refused when it is not ours or newer, brought up to date with a backup beside it.
/// </summary>
internal static class BookFile
{
    /// <summary>The file of history in a book's folder.</summary>
    public const string Name = "book.db";

    private const string LockName = "book.lock";

    /// <summary>Names of the migrations this program knows, in order.</summary>
    public static IReadOnlyList<string> Known { get; } =
        [.. typeof(BookFile).Assembly.GetTypes().Select(type => type.GetCustomAttribute<MigrationAttribute>()?.Id).OfType<string>().Order(StringComparer.Ordinal)];

    /// <summary>Holds the folder for the one writing process, until disposed or the process ends.</summary>
    public static FileStream Lock(string folder)
    {
        var path = Path.Combine(folder, LockName);
        try
        {
            Directory.CreateDirectory(folder);
            return new FileStream(path, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (UnauthorizedAccessException fault)
        {
            throw new BookOpenException(BookFault.ReadOnlyFolder, folder, inner: fault);
        }
        catch (IOException fault)
        {
            throw new BookOpenException(Fault(fault, path), folder, inner: fault);
        }
    }

    /// <summary>Makes an empty book aside and moves it in place whole, so that a kill on the way leaves none.</summary>
    public static void Create(string path)
    {
        if (File.Exists(path + "-wal"))
            throw new BookOpenException(BookFault.Damaged, path, $"{path} is missing, but its log {path}-wal is there: the book was moved without it. Put the book back beside its log, or move the log away.");
        var aside = path + ".new";
        foreach (var left in new[] { aside, aside + "-wal", aside + "-shm", aside + "-journal" }) File.Delete(left);
        Migrate(aside);
        using (var connection = Pragmas.Open(aside, SqliteOpenMode.ReadWrite)) Execute(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
        Disk.Sync(aside);
        File.Move(aside, path);
        Disk.SyncFolder(path);
    }

    /// <summary>Refuses what is no book or a newer one, without touching it. Gives the migrations it still needs.</summary>
    public static IReadOnlyList<string> Pending(string path)
    {
        if (!Disk.BeginsWith(path, "SQLite format 3\0"u8)) throw new BookOpenException(BookFault.NotABook, path);
        var applied = new List<string>();
        using (var connection = OpenReadOnly(path))
        {
            using var history = Count(connection, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = '__EFMigrationsHistory'") == 0
                ? throw new BookOpenException(BookFault.NotABook, path)
                : new Statement(connection, "SELECT MigrationId FROM __EFMigrationsHistory ORDER BY MigrationId");
            while (history.Step()) applied.Add(history.Text(0)!);
        }
        if (applied.Count == 0) throw new BookOpenException(BookFault.NotABook, path);
        return applied.Except(Known, StringComparer.Ordinal).Any()
            ? throw new BookOpenException(BookFault.NewerBook, path)
            : [.. Known.Except(applied, StringComparer.Ordinal)];
    }

    /// <summary>Backs the book up, verifies the backup, migrates, verifies. Gives the backup's name.</summary>
    public static string Upgrade(string path)
    {
        var backup = Dated(path, "before-upgrade");
        BookBackup.Write(path, backup, schema: false);
        try
        {
            Migrate(path);
            var findings = new Findings();
            using var connection = Pragmas.Open(path, SqliteOpenMode.ReadOnly);
            BookSchema.Check(connection, findings);
            BookVerifier.CheckChain(connection, findings);
            if (findings.Any) throw new InvalidOperationException(findings.List[0].ToString());
        }
        catch (Exception fault) when (fault is SqliteException or InvalidOperationException or DbUpdateException)
        {
            throw new BookOpenException(BookFault.UpgradeFailed, path, $"{path} could not be brought up to date: {fault.Message} The book as it was before is in {backup}.", fault);
        }
        return backup;
    }

    /// <summary>Opens for reading alone; in a folder that can't be written, as a file that nobody changes.</summary>
    public static SqliteConnection OpenReadOnly(string path)
    {
        try
        {
            var connection = Pragmas.Open(path, SqliteOpenMode.ReadOnly);
            try
            {
                Count(connection, "SELECT count(*) FROM sqlite_master");
                return connection;
            }
            catch
            {
                connection.Dispose();
                throw;
            }
        }
        catch (SqliteException fault) when (fault.SqliteErrorCode is 8 or 14 && File.Exists(path) && Disk.IsEmpty(path + "-wal"))
        {
            return OpenUnchanging(path);
        }
    }

    /// <summary>Opens a file that nobody can change while it is read: no lock is taken, no log looked for.</summary>
    public static SqliteConnection OpenUnchanging(string path)
    {
        var segments = path.Replace('\\', '/').TrimStart('/').Split('/').Select(Uri.EscapeDataString);
        return Pragmas.Open($"file:///{string.Join('/', segments)}?immutable=1", SqliteOpenMode.ReadOnly);
    }

    /// <summary>A name beside the book that says why and when it was kept.</summary>
    public static string Dated(string path, string why)
    {
        var stem = Path.Combine(Path.GetDirectoryName(path)!, $"{Path.GetFileNameWithoutExtension(path)}-{why}-{DateTime.UtcNow:yyyyMMdd'T'HHmmss'Z'}");
        var name = stem + ".db";
        for (var i = 2; File.Exists(name); i++) name = $"{stem}-{i}.db";
        return name;
    }

    /// <summary>The number a query gives.</summary>
    public static long Count(SqliteConnection connection, string sql)
    {
        using var statement = new Statement(connection, sql);
        return statement.Step() ? statement.Long(0) : 0;
    }

    /// <summary>Runs a command.</summary>
    public static void Execute(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        command.ExecuteNonQuery();
    }

    /// <summary>
    /// A process killed while migrating leaves a row that the next one would wait for without end. We hold the folder's lock, so nobody else
    /// is migrating.
    /// </summary>
    public static void RemoveStaleMigrationLock(SqliteConnection connection)
    {
        if (Count(connection, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = '__EFMigrationsLock'") == 0) return;
        if (Count(connection, "SELECT count(*) FROM __EFMigrationsLock") > 0) Execute(connection, "DELETE FROM __EFMigrationsLock");
    }

    private static void Migrate(string path)
    {
        if (File.Exists(path))
            using (var connection = Pragmas.Open(path, SqliteOpenMode.ReadWrite)) RemoveStaleMigrationLock(connection);
        using var context = new BookContext(BookContext.OptionsFor(Pragmas.ConnectionString(path, SqliteOpenMode.ReadWriteCreate, pooling: false)));
        context.Database.Migrate();
    }

    private static BookFault Fault(IOException fault, string path) => fault switch
    {
        _ when Disk.IsFull(fault) => BookFault.DiskFull,
        _ when File.Exists(path) => BookFault.Locked,
        _ => BookFault.ReadOnlyFolder,
    };
}
