using Cellarbook.Recording;

namespace Cellarbook.Imports;

/// <summary>
/// Journal files from pages, each sent once: looked at, then written as it was looked at, once. A file waits an hour; whoever sends another gives the one
/// before up. They go through the book's door as a script's do.
/// </summary>
public sealed class JournalDesk(OpenBook book, Asides asides)
{
    private readonly Lock turn = new();
    // A large file takes memory while it is read, so they go one after the other.
    private readonly Lock reading = new();
    private readonly Dictionary<string, WaitingJournal> waiting = new(StringComparer.Ordinal);

    /// <summary>Takes a file in, begins to look at it, and waits for that a moment.</summary>
    /// <param name="name">What the sender calls it.</param>
    /// <param name="save">Saves it under a name.</param>
    /// <param name="person">Who signed in; empty where nobody does.</param>
    /// <param name="actor">Who will have written it.</param>
    public async Task<WaitingJournal> Take(string name, Func<string, Task> save, string person, string actor)
    {
        var file = asides.Take("journal.csv");
        try
        {
            await save(file.Path);
        }
        catch
        {
            file.Dispose();
            throw;
        }
        var journal = new WaitingJournal(name, file, person, actor);
        lock (turn)
        {
            foreach (var before in waiting.Values.Where(before => before.Person == person && (before.Work.IsOver || !before.IsToBeWritten)).ToArray()) GiveUp(before);
            waiting.Add(journal.Id, journal);
            Begin(journal, () => journal.Looked = Import(journal, check: true));
        }
        await journal.Work.AMoment();
        return journal;
    }

    /// <summary>A file by its address, for who sent it; null when it is no longer here.</summary>
    public WaitingJournal? Find(string id, string person)
    {
        lock (turn)
        {
            if (!waiting.TryGetValue(id, out var journal) || journal.Person != person) return null;
            if (journal.Written is null && journal.Work.IsOver && !journal.File.IsThere)
            {
                GiveUp(journal);
                return null;
            }
            asides.Touch(journal.File);
            return journal;
        }
    }

    /// <summary>Looks at a file again, for a book that changed, and waits for that a moment.</summary>
    public Task LookAgain(WaitingJournal journal) => Next(journal, () => (journal.IsToBeWritten, journal.IsOvertaken) = (false, false), () => journal.Looked = Import(journal, check: true));

    /// <summary>
    /// Writes a file as it was looked at, and waits for that a moment. Pressed twice it is written once; where the book changed meanwhile, it is looked at again
    /// instead.
    /// </summary>
    /// <param name="journal">The file.</param>
    /// <param name="after">The last entry of the book that it was looked at for, as the page said.</param>
    public Task Write(WaitingJournal journal, long after)
    {
        if (journal.Looked is not { Refusals.Count: 0, Entries: > 0 } looked || looked.After != after) return journal.Work.AMoment();
        return Next(journal, () => journal.IsToBeWritten = true, () =>
        {
            var result = Import(journal, check: false, after);
            if (result.IsStale)
            {
                journal.Looked = Import(journal, check: true);
                journal.IsOvertaken = true;
            }
            else if (result.Refusals.Count > 0) journal.Looked = result;
            else
            {
                journal.Written = result;
                journal.File.Dispose();
            }
        });
    }

    private async Task Next(WaitingJournal journal, Action first, Action does)
    {
        lock (turn)
        {
            if (journal.Work.IsOver && journal.Written is null)
            {
                first();
                Begin(journal, does);
            }
        }
        await journal.Work.AMoment();
    }

    private static void Begin(WaitingJournal journal, Action does)
    {
        (journal.Stage, journal.Work) = (JournalStage.Reading, new());
        journal.Work.Begin(_ => does());
    }

    private ImportResult Import(WaitingJournal journal, bool check, long? after = null)
    {
        lock (reading)
        {
            using var stream = new FileStream(journal.File.Path, FileMode.Open, FileAccess.Read, FileShare.Read | FileShare.Delete, 1 << 16);
            return book.Import(today =>
            {
                var read = JournalUpload.Read(stream, today, new Count(journal, JournalStage.Reading));
                ((IProgress<int>)new Count(journal, JournalStage.WorkingOut)).Report(read.Rows);
                return read;
            }, journal.Actor, check, new Count(journal, JournalStage.Writing), after);
        }
    }

    private void GiveUp(WaitingJournal journal)
    {
        waiting.Remove(journal.Id);
        journal.File.Dispose();
    }

    /// <summary>Notes how far it is, and with what.</summary>
    private sealed class Count(WaitingJournal journal, JournalStage stage) : IProgress<int>
    {
        public void Report(int value)
        {
            journal.Stage = stage;
            ((IProgress<int>)journal.Work).Report(value);
        }
    }
}
