using Cellarbook.Storage;

namespace Cellarbook.Recording;

/// <summary>A check or a backup of the whole book, on its way or done.</summary>
public sealed class Work : IProgress<int>
{
    private int done;

    /// <summary>Entries gone through so far.</summary>
    public int Done => Volatile.Read(ref done);

    /// <summary>What the check found, once it is over.</summary>
    public VerifyReport? Report { get; internal set; }

    /// <summary>The backup, once it is written and verified.</summary>
    public string? Backup { get; internal set; }

    /// <summary>Why it could not be done.</summary>
    public string? Fault { get; internal set; }

    /// <summary>True for a backup, false for a check.</summary>
    public required bool IsBackup { get; init; }

    /// <summary>True once there is nothing more to wait for.</summary>
    public bool IsOver => Task.IsCompleted;

    internal Task Task { get; set; } = Task.CompletedTask;

    void IProgress<int>.Report(int value) => Volatile.Write(ref done, value);
}

/// <summary>
/// Work on the whole book that a page asks for. A page waits for it a moment; where it takes longer, the page says how far it is and asks again. Of
/// each sort one goes on at a time.
/// </summary>
public sealed class LongWork(OpenBook book)
{
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(2);

    private readonly Lock turn = new();
    private Work? check;
    private Work? backup;

    /// <summary>The check or backup that was last asked for; null for none.</summary>
    public Work? Last(bool isBackup)
    {
        lock (turn) return isBackup ? backup : check;
    }

    /// <summary>Begins a check of the whole book, or goes on with the one under way, and waits for it a moment.</summary>
    public Task<Work> Check() => Begin(ref check, isBackup: false, work => work.Report = book.Store.Verify(work));

    /// <summary>Begins a backup into a file of its own, or goes on with the one under way, and waits for it a moment.</summary>
    public Task<Work> Backup() => Begin(ref backup, isBackup: true, work =>
    {
        var aside = Path.Combine(Path.GetTempPath(), $"cellarbook-{Guid.NewGuid():N}.db");
        book.Store.Backup(aside, work);
        work.Backup = aside;
    });

    /// <summary>A backup that was handed out is done with.</summary>
    public void HandedOut()
    {
        lock (turn) backup = null;
    }

    private Task<Work> Begin(ref Work? slot, bool isBackup, Action<Work> does)
    {
        Work work;
        lock (turn)
        {
            if (slot is not { } under || (under.IsOver && under.Backup is null))
            {
                work = slot = new() { IsBackup = isBackup };
                work.Task = Task.Run(() =>
                {
                    try
                    {
                        does(work);
                    }
                    catch (Exception fault) when (fault is BookOpenException or BookWriteException or IOException)
                    {
                        work.Fault = fault.Message;
                    }
                });
            }
            else work = under;
        }
        return Waited(work);
    }

    private static async Task<Work> Waited(Work work)
    {
        await Task.WhenAny(work.Task, Task.Delay(Moment));
        return work;
    }
}
