using System.Security.Claims;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Imports;
using Cellarbook.Storage;

namespace Cellarbook.Recording;

/// <summary>
/// The book as the running program has it: in memory, with its file beside it. Reading goes through <see cref="Read{T}"/>; the one write door is
/// <see cref="Record"/> (and <see cref="Import"/> for a whole history): key seen? → decide and check laws on a fork → append → accept.
/// </summary>
public sealed class OpenBook : IDisposable
{
    private readonly BookStore store;
    private readonly TimeProvider clock;
    // Reading within reading happens where a page asks for today while it reads.
    private readonly ReaderWriterLockSlim gate = new(LockRecursionPolicy.SupportsRecursion);
    private readonly Lock door = new();
    private Book book;

    /// <summary>Opens a store and folds what it holds.</summary>
    /// <param name="store">The store.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="progress">Is told how many entries were read.</param>
    public OpenBook(BookStore store, TimeProvider clock, IProgress<int>? progress = null)
    {
        this.store = store;
        this.clock = clock;
        book = Folded(progress);
        Head = store.Head();
    }

    /// <summary>The store behind it, for history as it was written.</summary>
    public BookStore Store => store;

    /// <summary>What is wrong with the book as it was found at start; empty when sound. An unsound book is read-only.</summary>
    public IReadOnlyList<Finding> Findings => store.Findings;

    /// <summary>True when the book was sound at start.</summary>
    public bool IsSound => store.IsSound;

    /// <summary>Number and hash of the last entry; note them elsewhere to notice a rewritten chain.</summary>
    public ChainHead Head { get; private set; }

    /// <summary>Where the book lies.</summary>
    public string Folder => store.Folder;

    /// <summary>The book's time zone: as set, else this machine's.</summary>
    public TimeZoneInfo TimeZone => Read(found => found.Premises?.TimeZone) is { } name && TimeZoneInfo.TryFindSystemTimeZoneById(name, out var zone) ? zone : TimeZoneInfo.Local;

    /// <summary>This moment.</summary>
    public DateTimeOffset Now => clock.GetUtcNow();

    /// <summary>Today in the book's time zone.</summary>
    public DateOnly Today => DateOnly.FromDateTime(TimeZoneInfo.ConvertTime(clock.GetUtcNow(), TimeZone).DateTime);

    /// <summary>Reads the book while nobody changes it. What is returned must not hold on to the book's lists.</summary>
    public T Read<T>(Func<Book, T> read)
    {
        gate.EnterReadLock();
        try
        {
            return read(book);
        }
        finally
        {
            gate.ExitReadLock();
        }
    }

    /// <summary>Who records: who signed in; before accounts exist, the owner's name in Settings.</summary>
    public string ActorOf(ClaimsPrincipal user) => user.Identity?.Name ?? (Read(found => found.Premises?.Owner) is { Length: > 0 } owner ? owner : "owner");

    /// <summary>The entry that the same request made before, under the same key; null when there is none, or it said something else.</summary>
    public StoredEntry? Replays(string key, Operation operation) => store.FindKey(key) is { } first && SaysTheSame(first, operation) ? first : null;

    private static bool SaysTheSame(StoredEntry first, Operation operation) => People.SameMeaning(first.InPlain, OperationJson.Write(operation));

    /// <summary>Records one operation, or says why not.</summary>
    /// <param name="operation">What was done.</param>
    /// <param name="actor">Who records it.</param>
    /// <param name="key">The request's own key: the same key with the same meaning gets the first answer again.</param>
    /// <param name="check">True to do everything but record.</param>
    public Recorded Record(Operation operation, string actor, string? key = null, bool check = false)
    {
        lock (door)
        {
            if (!check && key is not null && store.FindKey(key) is { } first)
            {
                if (SaysTheSame(first, operation)) return new() { Replay = first };
                return Recorded.Refused([new(RefusalCode.KeyUsed, "Idempotency-Key", $"This key was used for entry {first.Number}, which says something else. Use a new key for a new operation.")]);
            }
            if (!check && !IsSound) return Recorded.Refused([Unsound]);
            var trial = book.Propose(operation, Today);
            if (!trial.IsGood) return Recorded.Refused(trial.Refusals);
            if (check) return new() { Trial = trial };
            var now = clock.GetUtcNow();
            return Keep(trial, actor, key, now) is { } fault
                ? Recorded.Refused([fault])
                : new() { Trial = trial, Written = Head, RecordedAt = now, Actor = actor };
        }
    }

    /// <summary>Records a whole imported history, all or nothing.</summary>
    /// <param name="read">Reads it.</param>
    /// <param name="actor">Who records it.</param>
    /// <param name="check">True to do everything but record.</param>
    /// <param name="writing">Is told how many entries were written, while they are.</param>
    /// <param name="after">Number of the last entry when somebody looked at what would be recorded; when it is another by now, nothing is.</param>
    public ImportResult Import(Func<DateOnly, JournalRead> read, string actor, bool check, IProgress<int>? writing = null, long? after = null)
    {
        var file = read(Today);
        if (file.Refusals.Count > 0) return ImportResult.Refused(file.Refusals, check) with { Rows = file.Rows, RefusedBesides = file.RefusedBesides };
        lock (door)
        {
            if (!check && !IsSound) return ImportResult.Refused([Unsound], check);
            if (after is not null && after != Head.Number) return ImportResult.Refused([], check) with { IsStale = true };
            var trial = book.ProposeImport(file.Events, Today);
            if (!trial.IsGood) return ImportResult.Refused(trial.Refusals, check) with { Rows = file.Rows };
            var result = new ImportResult(trial.Entries.Count, trial.Skipped, [], trial.Flags, check)
            {
                Rows = file.Rows,
                After = Head.Number,
                Days = trial.Entries.Count > 0 ? (trial.Entries[0].Day, trial.Entries[^1].Day) : null,
                Brings = book.NewIn(trial),
            };
            return !check && trial.Entries.Count > 0 && Keep(trial, actor, null, clock.GetUtcNow(), writing) is { } fault ? ImportResult.Refused([fault], check) : result;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        store.Dispose();
        gate.Dispose();
    }

    private static Refusal Unsound => new(RefusalCode.ReadOnly, "", "The book was changed from outside or is damaged, so it opens read-only. See what verify found; restore a backup, or keep this copy as evidence.");

    private Book Folded(IProgress<int>? progress = null)
    {
        var folded = store.Load(progress).ToBook(store.FindEvent);
        folded.KnowsContact = store.KnowsContact;
        return folded;
    }

    /// <summary>Stores a trial's entries and makes them part of the book; says why when the disk won't take them.</summary>
    private Refusal? Keep(Trial trial, string actor, string? key, DateTimeOffset now, IProgress<int>? writing = null)
    {
        ChainHead last;
        try
        {
            last = store.Append(trial.Entries, actor, key, now, writing);
        }
        catch (BookWriteException fault)
        {
            return new(fault.Fault == BookFault.DiskFull ? RefusalCode.DiskFull : RefusalCode.ReadOnly, "", Sentence.Verbatim(fault.Message));
        }
        gate.EnterWriteLock();
        try
        {
            // Names are held by entries of all sorts; after a blanking the book is read anew, so that it holds the name no more.
            if (trial.Entries is [{ Operation: BlankContact }]) book = Folded();
            else book.Accept(trial);
            Head = last;
        }
        finally
        {
            gate.ExitWriteLock();
        }
        return null;
    }
}
