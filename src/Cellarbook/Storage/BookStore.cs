using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>
/// A book on the disk: one folder, one file of history, one writing process. Everything recorded goes through <see cref="Append"/>; reading may
/// happen from several threads beside it.
/// </summary>
public sealed class BookStore : IDisposable
{
    private readonly Lock turn = new();
    private readonly FileStream? held;
    private readonly SqliteConnection connection;
    private readonly EntryWriter? writer;
    private readonly Statement findKey;
    private readonly Statement findEvent;
    private readonly Microsoft.EntityFrameworkCore.DbContextOptions<BookContext> reading;
    private readonly Findings findings = new();
    private readonly Contacts contacts;

    private BookStore(string folder, string path, FileStream? held, bool readOnly)
    {
        (Folder, DatabaseFile, this.held, IsReadOnly) = (folder, path, held, readOnly);
        connection = readOnly ? BookFile.OpenReadOnly(path) : Pragmas.Open(path, SqliteOpenMode.ReadWrite);
        try
        {
            if (!readOnly)
            {
                BookFile.RemoveStaleMigrationLock(connection);
                // A restored backup isn't in WAL mode yet. A log that grew with an import is cut back afterwards.
                BookFile.Execute(connection, "PRAGMA journal_mode=WAL; PRAGMA journal_size_limit=33554432; PRAGMA cache_size=-32768; PRAGMA secure_delete=ON;");
            }
            BookSchema.Check(connection, findings);
            findKey = new(connection, "SELECT number FROM entry WHERE key = ?1");
            findEvent = new(connection, "SELECT number, content, form FROM entry WHERE event_id = ?1");
            contacts = Storage.Contacts.Read(connection);
            if (!readOnly) writer = new(connection, contacts);
            reading = BookContext.OptionsFor(Pragmas.ConnectionString(new SqliteConnectionStringBuilder(connection.ConnectionString).DataSource, SqliteOpenMode.ReadOnly, pooling: true));
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <summary>The book's folder.</summary>
    public string Folder { get; }

    /// <summary>The file of history.</summary>
    public string DatabaseFile { get; }

    /// <summary>True when it was opened for reading alone.</summary>
    public bool IsReadOnly { get; }

    /// <summary>The backup made before this opening brought the book up to date; null when it was up to date.</summary>
    public string? UpgradeBackup { get; private init; }

    /// <summary>What was found wrong so far: with schema and guards at opening, with the chain and the laws when loaded.</summary>
    public IReadOnlyList<Finding> Findings => findings.List;

    /// <summary>False once something was found wrong; the book then takes no entries.</summary>
    public bool IsSound => !findings.Any;

    /// <summary>The connection that writes, for tests that make it fail.</summary>
    internal SqliteConnection Connection => connection;

    /// <summary>Options of the contexts that read.</summary>
    internal Microsoft.EntityFrameworkCore.DbContextOptions<BookContext> Reading => reading;

    /// <summary>
    /// Opens the book of a folder; makes an empty one when there is none. For writing, the folder is held until disposed, against any other
    /// process. Read-only, it opens beside a running one.
    /// </summary>
    /// <exception cref="BookOpenException">It can't be opened; says why.</exception>
    public static BookStore Open(string folder, bool readOnly = false)
    {
        folder = Path.GetFullPath(folder);
        var path = Path.Combine(folder, BookFile.Name);
        FileStream? held = null;
        try
        {
            if (!readOnly)
            {
                held = BookFile.Lock(folder);
                if (!File.Exists(path)) BookFile.Create(path);
            }
            else if (!File.Exists(path)) throw new BookOpenException(BookFault.NoBook, path);
            string? backup = null;
            if (BookFile.Pending(path).Count > 0) backup = readOnly ? throw new BookOpenException(BookFault.OlderBook, path) : BookFile.Upgrade(path);
            var store = new BookStore(folder, path, held, readOnly) { UpgradeBackup = backup };
            held = null;
            return store;
        }
        catch (SqliteException fault)
        {
            throw new BookOpenException(BookFaults.Of(fault), path, inner: fault);
        }
        catch (BookWriteException fault)
        {
            throw new BookOpenException(fault.Fault, path, fault.Message, fault);
        }
        catch (UnauthorizedAccessException fault)
        {
            throw new BookOpenException(BookFault.ReadOnlyFolder, path, inner: fault);
        }
        catch (IOException fault)
        {
            throw new BookOpenException(Disk.IsFull(fault) ? BookFault.DiskFull : BookFault.DiskFault, path, inner: fault);
        }
        finally
        {
            held?.Dispose();
        }
    }

    /// <summary>Reads the whole book, checking the chain on the way, on a connection of its own. Findings count against <see cref="IsSound"/>.</summary>
    public LoadResult Load(IProgress<int>? progress = null) => new(() => BookFile.OpenReadOnly(DatabaseFile), findings, progress);

    /// <summary>The last entry's number and hash, as stored.</summary>
    public ChainHead Head()
    {
        lock (turn)
        {
            using var head = new Statement(connection, "SELECT number, hash FROM head WHERE id = 1");
            return head.Step() ? new(head.Long(0), Convert.ToHexStringLower(head.Bytes(1))) : new(0, "");
        }
    }

    /// <summary>
    /// Records entries in one transaction: when this returns they are on the disk, when it throws none of them is. The key, if any, stands on
    /// the first one.
    /// </summary>
    /// <returns>The last one's number and hash.</returns>
    /// <exception cref="BookWriteException">Nothing was recorded; says why. The store goes on working.</exception>
    public ChainHead Append(IReadOnlyList<Entry> entries, string actor, string? key, DateTimeOffset recordedAt, IProgress<int>? progress = null)
    {
        lock (turn)
        {
            if (writer is null) throw new BookWriteException(BookFault.ReadOnlyFolder, DatabaseFile);
            if (!IsSound) throw new BookWriteException(BookFault.Unsound, DatabaseFile);
            try
            {
                if (entries.Count == 0) return writer.Head();
                var head = writer.Append(entries, actor, key, recordedAt, progress);
                // What was blanked must not stay in the log either; a reader may hold it up, then the next writing takes it over.
                if (entries is [{ Operation: BlankContact }]) BookFile.Execute(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
                return head;
            }
            catch (SqliteException fault) when (fault.SqliteErrorCode == 19)
            {
                // A used key, a known event or an impossible posting: the door checks them before, so this is a bug.
                throw new InvalidOperationException($"The guards of the book refused this: {fault.Message}", fault);
            }
            catch (SqliteException fault)
            {
                throw new BookWriteException(BookFaults.Of(fault), DatabaseFile, fault);
            }
        }
    }

    /// <summary>Names of people that entries refer to.</summary>
    public IReadOnlyList<Contact> Contacts => Names.All;

    /// <summary>True for a contact whose text is there.</summary>
    public bool KnowsContact(int id) => contacts.Knows(id);

    /// <summary>Beside a program that writes, contacts may have come since.</summary>
    private Contacts Names
    {
        get
        {
            if (!IsReadOnly) return contacts;
            lock (turn) return Storage.Contacts.Read(connection);
        }
    }

    /// <summary>What was recorded under a key, or null: the first entry of what was sent with it.</summary>
    public StoredEntry? FindKey(string key)
    {
        long number;
        lock (turn)
        {
            findKey.Bind(1, key);
            number = findKey.Step() ? findKey.Long(0) : 0;
            findKey.Reset();
        }
        return number == 0 ? null : Read(number);
    }

    /// <summary>An imported event by its id, or null.</summary>
    public KnownEvent? FindEvent(string eventId)
    {
        lock (turn)
        {
            findEvent.Bind(1, eventId);
            try
            {
                return findEvent.Step() && System.Text.Json.JsonSerializer.Deserialize<Operation>(findEvent.Bytes(1), findEvent.Long(2) >= HashedForm.WithContacts ? contacts.Options : OperationJson.Options) is Imported imported
                    ? new(findEvent.Long(0), imported)
                    : null;
            }
            finally
            {
                findEvent.Reset();
            }
        }
    }

    /// <summary>The entry of that number, or null.</summary>
    public StoredEntry? Read(long number)
    {
        using var context = new BookContext(reading);
        return BookReading.Read(context, Names, number);
    }

    /// <summary>So many entries from a number on, in either direction, that number included.</summary>
    public IReadOnlyList<StoredEntry> ReadRange(long from, int count, bool newestFirst = false) =>
        Search(new() { Beyond = newestFirst ? from + 1 : from - 1, Count = count, NewestFirst = newestFirst }).Entries;

    /// <summary>Looks for entries, a page at a time.</summary>
    public BookPage Search(BookQuery query)
    {
        using var context = new BookContext(reading);
        return BookReading.Search(context, Names, query);
    }

    /// <summary>Re-reads and checks everything as it lies on the disk. What is found closes the book to entries.</summary>
    public VerifyReport Verify(IProgress<int>? progress = null)
    {
        var report = BookVerifier.Verify(DatabaseFile, progress);
        lock (turn)
            foreach (var finding in report.Findings) findings.Add(finding.Entry, finding.Sentence);
        return report;
    }

    /// <summary>Checks any file that should be a book, a backup for instance.</summary>
    public static VerifyReport Verify(string file, IProgress<int>? progress = null) =>
        File.Exists(file) ? BookVerifier.Verify(Path.GetFullPath(file), progress) : throw new BookOpenException(BookFault.NoBook, file);

    /// <summary>Writes a whole, verified copy to a file that isn't there yet, while the book is in use.</summary>
    /// <exception cref="BookWriteException">It could not be written.</exception>
    /// <exception cref="BookOpenException">The copy is not sound and was not kept.</exception>
    public void Backup(string file, IProgress<int>? checking = null) => BookBackup.Write(DatabaseFile, file, checking: checking);

    /// <summary>
    /// Puts a backup in the place of a folder's book, verified first; refused while a program has that open. Gives the name under which the
    /// book that lay there is kept, or null when there was none.
    /// </summary>
    public static string? Restore(string file, string folder, IProgress<int>? checking = null)
    {
        try
        {
            return BookBackup.Restore(file, Path.GetFullPath(folder), checking);
        }
        catch (SqliteException fault)
        {
            throw new BookOpenException(BookFaults.Of(fault), file, inner: fault);
        }
        catch (UnauthorizedAccessException fault)
        {
            throw new BookOpenException(BookFault.ReadOnlyFolder, folder, inner: fault);
        }
    }

    /// <summary>Closes the file and lets go of the folder.</summary>
    public void Dispose()
    {
        lock (turn)
        {
            findKey.Dispose();
            findEvent.Dispose();
            writer?.Dispose();
            connection.Dispose();
            using (var pooled = new BookContext(reading)) SqliteConnection.ClearPool((SqliteConnection)Microsoft.EntityFrameworkCore.RelationalDatabaseFacadeExtensions.GetDbConnection(pooled.Database));
            held?.Dispose();
        }
    }
}
