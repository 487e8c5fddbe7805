using System.Collections;
using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Book;

/// <summary>
/// The entries that a journal file would add. Only their deeds are held, because a file may hold a million events; an entry is made anew whenever
/// it is asked for, and so is its operation.
/// </summary>
/// <param name="firstNumber">The number of the first one.</param>
/// <param name="events">The events of the file; some may be known already and add nothing.</param>
internal sealed class ImportedEntries(long firstNumber, IReadOnlyList<Imported> events) : IReadOnlyList<Entry>
{
    private readonly List<int> at = new(events.Count);
    // A deed alone, or the pair of what is taken back and what is done besides.
    private readonly List<object> held = new(events.Count);

    public int Count => at.Count;

    /// <summary>How many deeds they hold together.</summary>
    public int Deeds { get; private set; }

    public Entry this[int index]
    {
        get
        {
            var (deeds, imported) = (DeedsOf(index), events[at[index]]);
            return new() { Number = firstNumber + index, Operation = imported, Day = imported.Day, EventId = imported.EventId, IsImported = true, Deeds = deeds, TakesBack = deeds[0].TakesBack };
        }
    }

    /// <summary>Adds the entry of an event; one of the two deeds at least is there.</summary>
    public void Add(int index, Deed? back, Deed? deed)
    {
        at.Add(index);
        held.Add(back is not null && deed is not null ? new[] { back, deed } : back ?? deed!);
        Deeds += back is not null && deed is not null ? 2 : 1;
    }

    /// <summary>The entry of that number.</summary>
    public Entry Of(long number) => this[(int)(number - firstNumber)];

    /// <summary>The deeds of the entry at a place.</summary>
    public IReadOnlyList<Deed> DeedsOf(int index) => held[index] as Deed[] ?? [(Deed)held[index]];

    public IEnumerator<Entry> GetEnumerator()
    {
        for (var i = 0; i < Count; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
