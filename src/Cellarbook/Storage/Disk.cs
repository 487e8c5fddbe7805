using System.Runtime.InteropServices;
using System.Text;

namespace Cellarbook.Storage;

/// <summary>What must be true of files besides their content: on the disk, under their name.</summary>
internal static class Disk
{
    /// <summary>Waits until a file's content is on the disk.</summary>
    public static void Sync(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        file.Flush(flushToDisk: true);
    }

    /// <summary>Waits until the names in a file's folder are on the disk; on Windows a rename is written through by the file system.</summary>
    public static void SyncFolder(string path)
    {
        if (OperatingSystem.IsWindows()) return;
        var descriptor = open(Encoding.UTF8.GetBytes(Path.GetDirectoryName(Path.GetFullPath(path))! + "\0"), 0);
        if (descriptor < 0) return;
        _ = fsync(descriptor);
        _ = close(descriptor);
    }

    /// <summary>True when a file begins with these bytes.</summary>
    public static bool BeginsWith(string path, ReadOnlySpan<byte> magic)
    {
        Span<byte> start = stackalloc byte[magic.Length];
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        return file.ReadAtLeast(start, start.Length, throwOnEndOfStream: false) == start.Length && start.SequenceEqual(magic);
    }

    /// <summary>True when there is no such file, or nothing in it.</summary>
    public static bool IsEmpty(string path) => new FileInfo(path) is { Exists: false } or { Length: 0 };

    /// <summary>True when an I/O fault means a full disk (ENOSPC, or the same from Windows).</summary>
    public static bool IsFull(IOException fault) => fault.HResult is 28 or unchecked((int)0x80070070) or unchecked((int)0x80070027);

    [DllImport("libc")]
    private static extern int open(byte[] path, int flags);

    [DllImport("libc")]
    private static extern int fsync(int descriptor);

    [DllImport("libc")]
    private static extern int close(int descriptor);
}
