namespace Cellarbook.Recording;

/// <summary>A check or a backup of the whole book that a page asks for. Of each sort one goes on at a time.</summary>
public sealed class LongWork(OpenBook book, Asides asides)
{
    private readonly Lock turn = new();
    private Work? check;
    private Work? backup;

    /// <summary>The check or backup that was last asked for; null for none.</summary>
    public Work? Last(bool isBackup)
    {
        lock (turn) return isBackup ? backup : check;
    }

    /// <summary>Begins a check of the whole book, or goes on with the one under way, and waits for it a moment.</summary>
    public async Task<Work> Check()
    {
        Work work;
        lock (turn)
        {
            if (check is not { IsOver: false })
            {
                check = new() { Last = book.Head.Number };
                check.Begin(work => work.Report = book.Store.Verify(work));
            }
            work = check;
        }
        await work.AMoment();
        return work;
    }

    /// <summary>Begins a backup into a file of its own, or goes on with the one under way, and waits for it a moment.</summary>
    /// <param name="ready">True to take the one that is ready, though the book went on since; an older one is no backup of the book as it is.</param>
    public async Task<Work> Backup(bool ready = false)
    {
        Work work;
        lock (turn)
        {
            if (backup is { IsOver: true } over && (over.Backup is not { IsThere: true } || (!ready && over.Last != book.Head.Number)))
            {
                over.Backup?.Dispose();
                backup = null;
            }
            if (backup is null)
            {
                backup = new() { IsBackup = true, Last = book.Head.Number };
                backup.Begin(work =>
                {
                    var aside = asides.Take("book.db");
                    try
                    {
                        book.Store.Backup(aside.Path, work);
                        asides.Touch(aside);
                        work.Backup = aside;
                    }
                    finally
                    {
                        if (work.Backup is null) aside.Dispose();
                    }
                });
            }
            work = backup;
        }
        await work.AMoment();
        return work;
    }

    /// <summary>Hands a backup out, once: whoever gets it removes it. Null when another got it.</summary>
    public Aside? HandOut(Work work)
    {
        lock (turn)
        {
            if (backup != work || work.Backup is not { IsThere: true } aside) return null;
            backup = null;
            asides.Touch(aside);
            return aside;
        }
    }
}
