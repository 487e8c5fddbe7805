using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>Why a book can't be opened or written, for the maker to act on.</summary>
public enum BookFault
{
    /// <summary>Another program has the book open for writing.</summary>
    Locked,
    /// <summary>The folder or file can't be written.</summary>
    ReadOnlyFolder,
    /// <summary>The disk is full.</summary>
    DiskFull,
    /// <summary>There is no book there.</summary>
    NoBook,
    /// <summary>The file is no book.</summary>
    NotABook,
    /// <summary>The book was written by a newer version of this program.</summary>
    NewerBook,
    /// <summary>The book was written by an older version and can't be brought up to date while read-only.</summary>
    OlderBook,
    /// <summary>Bringing the book up to date failed; the backup made before is named.</summary>
    UpgradeFailed,
    /// <summary>The file is damaged.</summary>
    Damaged,
    /// <summary>The book was changed from outside and takes no entries.</summary>
    Unsound,
    /// <summary>A file of that name is there already.</summary>
    FileExists,
    /// <summary>The disk or its file system reported a fault.</summary>
    DiskFault,
}

/// <summary>Words and translations of faults.</summary>
public static class BookFaults
{
    /// <summary>The stable code of a fault, such as "disk_full".</summary>
    public static string Code(this BookFault fault) =>
        string.Concat(fault.ToString().Select((c, i) => char.IsUpper(c) && i > 0 ? "_" + char.ToLowerInvariant(c) : char.ToLowerInvariant(c).ToString()));

    /// <summary>What SQLite's error means for the maker.</summary>
    internal static BookFault Of(SqliteException fault) => fault.SqliteErrorCode switch
    {
        5 or 6 => BookFault.Locked,
        3 or 8 or 14 or 23 => BookFault.ReadOnlyFolder,
        13 => BookFault.DiskFull,
        // A full disk also shows when the shared index of the log can't grow.
        10 when fault.SqliteExtendedErrorCode == 4874 => BookFault.DiskFull,
        11 => BookFault.Damaged,
        26 => BookFault.NotABook,
        _ => BookFault.DiskFault,
    };

    internal static string Sentence(BookFault fault, string path) => fault switch
    {
        BookFault.Locked => $"Another program holds {path} open for writing. Close it, or use that one.",
        BookFault.ReadOnlyFolder => $"{path} can't be written. Check the rights of the folder and the file, and whether the disk is mounted read-only.",
        BookFault.DiskFull => $"The disk with {path} is full. Make room and try again; nothing was half recorded.",
        BookFault.NoBook => $"There is no book at {path}.",
        BookFault.NotABook => $"{path} is not a book of this program. Move it away, or restore a backup.",
        BookFault.NewerBook => $"{path} was written by a newer version of this program. It was left untouched; install that version or a later one.",
        BookFault.OlderBook => $"{path} was written by an older version of this program. Start the program on it once, so that it is backed up and brought up to date.",
        BookFault.Damaged => $"{path} is damaged. Keep it, restore the last good backup, and enter again what came after.",
        BookFault.Unsound => $"{path} was changed from outside and takes no entries. Run verify to see what was found, then restore the last good backup.",
        BookFault.FileExists => $"{path} is there already and is not overwritten. Choose another name.",
        _ => $"The disk with {path} reported a fault. Check the disk; nothing was half recorded.",
    };
}

/// <summary>A book can't be opened; the message says what to do.</summary>
public sealed class BookOpenException(BookFault fault, string path, string? sentence = null, Exception? inner = null)
    : Exception(sentence ?? BookFaults.Sentence(fault, path), inner)
{
    /// <summary>Why.</summary>
    public BookFault Fault => fault;

    /// <summary>Its stable code.</summary>
    public string Code => fault.Code();
}

/// <summary>Nothing was recorded, and why; the message says what to do. The book goes on working.</summary>
public sealed class BookWriteException(BookFault fault, string path, Exception? inner = null)
    : Exception(BookFaults.Sentence(fault, path), inner)
{
    /// <summary>Why.</summary>
    public BookFault Fault => fault;

    /// <summary>Its stable code.</summary>
    public string Code => fault.Code();
}
