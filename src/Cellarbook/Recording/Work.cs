using Cellarbook.Storage;

namespace Cellarbook.Recording;

/// <summary>
/// Work that takes longer than a page may: on its way or done. A page waits for it a moment; where it takes longer, the page says how far it is and
/// asks again.
/// </summary>
public sealed class Work : IProgress<int>
{
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(2);

    private int done;
    private Task task = Task.CompletedTask;

    /// <summary>Entries, or rows of a file, gone through so far.</summary>
    public int Done => Volatile.Read(ref done);

    /// <summary>What the check found, once it is over.</summary>
    public VerifyReport? Report { get; internal set; }

    /// <summary>The backup, once it is written and verified.</summary>
    public Aside? Backup { get; internal set; }

    /// <summary>Number of the book's last entry when it began.</summary>
    public long Last { get; init; }

    /// <summary>Why it could not be done.</summary>
    public string? Fault { get; private set; }

    /// <summary>True for a backup, false for a check.</summary>
    public bool IsBackup { get; init; }

    /// <summary>True once there is nothing more to wait for.</summary>
    public bool IsOver => task.IsCompleted;

    /// <summary>Begins it; what the disk or the book has against it is kept as its fault.</summary>
    internal void Begin(Action<Work> does) => task = Task.Run(() =>
    {
        try
        {
            does(this);
        }
        catch (Exception fault) when (fault is BookOpenException or BookWriteException or IOException)
        {
            Fault = fault.Message;
        }
    });

    /// <summary>Waits for it a moment. What went wrong by a bug is thrown here.</summary>
    internal async Task AMoment()
    {
        if (await Task.WhenAny(task, Task.Delay(Moment)) == task) await task;
    }

    void IProgress<int>.Report(int value) => Volatile.Write(ref done, value);
}
