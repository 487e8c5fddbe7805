using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>Copies of a book: written aside, synced, verified, then given their name.</summary>
internal static class BookBackup
{
    /// <summary>Writes a whole, self-contained copy while the book is in use. Refuses to overwrite.</summary>
    /// <param name="source">The book.</param>
    /// <param name="target">The copy.</param>
    /// <param name="schema">False before an upgrade, where the copy has the schema of an older program.</param>
    /// <param name="checking">Is told how many entries of the copy were checked.</param>
    public static void Write(string source, string target, bool schema = true, IProgress<int>? checking = null)
    {
        target = Path.GetFullPath(target);
        if (File.Exists(target)) throw new BookWriteException(BookFault.FileExists, target);
        var aside = target + ".partial";
        try
        {
            File.Delete(aside);
            using (var connection = BookFile.OpenReadOnly(source))
            {
                using var copy = new Statement(connection, "VACUUM INTO ?1");
                copy.Bind(1, aside);
                copy.Run();
            }
            Disk.Sync(aside);
            var findings = Check(aside, schema, checking);
            if (findings.Any) throw new BookOpenException(BookFault.Unsound, source, $"The copy of {source} is not sound, so it was not kept: {findings.List[0]}");
            File.Move(aside, target, overwrite: false);
            Disk.SyncFolder(target);
        }
        catch (SqliteException fault)
        {
            throw new BookWriteException(BookFaults.Of(fault), target, fault);
        }
        catch (Exception fault) when (fault is UnauthorizedAccessException or DirectoryNotFoundException)
        {
            throw new BookWriteException(BookFault.ReadOnlyFolder, target, fault);
        }
        catch (IOException fault)
        {
            throw new BookWriteException(Disk.IsFull(fault) ? BookFault.DiskFull : BookFault.DiskFault, target, fault);
        }
        finally
        {
            if (Directory.Exists(Path.GetDirectoryName(target))) File.Delete(aside);
        }
    }

    /// <summary>
    /// Puts a backup in the place of a folder's book, after verifying it, while nobody has that open. The book that lay there is kept beside it;
    /// gives its name, or null when there was none.
    /// </summary>
    /// <param name="file">The backup.</param>
    /// <param name="folder">The book's folder.</param>
    /// <param name="checking">Is told how many entries of the backup were checked.</param>
    public static string? Restore(string file, string folder, IProgress<int>? checking = null)
    {
        file = Path.GetFullPath(file);
        if (!File.Exists(file)) throw new BookOpenException(BookFault.NoBook, file);
        using var held = BookFile.Lock(folder);
        BookFile.Pending(file);
        var path = Path.Combine(folder, BookFile.Name);
        var aside = path + ".restoring";
        try
        {
            // Through SQLite, so that a file with a log of its own is copied whole.
            Write(file, aside, schema: false, checking);
            string? kept = null;
            if (File.Exists(path))
            {
                kept = BookFile.Dated(path, "before-restore");
                Keep(path, kept);
            }
            File.Move(aside, path, overwrite: true);
            Disk.SyncFolder(path);
            return kept;
        }
        finally
        {
            File.Delete(aside);
        }
    }

    /// <summary>
    /// Keeps the book that lies there under another name, its log with it, and leaves no log behind: a log must never meet another book. While
    /// the folder is held nobody writes, so that plain copies of both are the whole book; they come first, whatever happens after.
    /// </summary>
    private static void Keep(string path, string kept)
    {
        foreach (var part in new[] { "", "-wal" })
        {
            if (Disk.IsEmpty(path + part)) continue;
            File.Copy(path + part, kept + part, overwrite: false);
            Disk.Sync(kept + part);
        }
        Disk.SyncFolder(kept);
        if (Disk.BeginsWith(path, "SQLite format 3\0"u8))
        {
            try
            {
                using var connection = Pragmas.Open(path, SqliteOpenMode.ReadWrite);
                BookFile.Execute(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
            }
            catch (SqliteException)
            {
                // A ruined book is replaced all the same; what there was of it is kept.
            }
        }
        File.Delete(path + "-wal");
        File.Delete(path + "-shm");
    }

    private static Findings Check(string path, bool schema, IProgress<int>? progress)
    {
        var findings = new Findings();
        using var connection = BookFile.OpenReadOnly(path);
        using (var integrity = new Statement(connection, "PRAGMA integrity_check"))
            while (integrity.Step())
                if (integrity.Text(0) is { } said && said != "ok") findings.Add(null, Sentence.Verbatim(said));
        if (schema) BookSchema.Check(connection, findings);
        BookVerifier.CheckChain(connection, findings, progress);
        return findings;
    }
}
