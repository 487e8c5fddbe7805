using System.Collections;

namespace Cellarbook.Core.Book;

/// <summary>
/// The entries of a book by number. Of an imported event that says nothing beyond its one deed, only the deed is held, because a book holds
/// millions of these; its entry is made anew whenever it is asked for.
/// </summary>
internal sealed class EntryList : IReadOnlyList<Entry>
{
    private readonly List<object> held = [];

    public int Count => held.Count;

    public Entry this[int index] => held[index] as Entry ?? Of((Deed)held[index]);

    public void Add(Entry entry) => held.Add(IsPlain(entry) ? entry.Deeds[0] : entry);

    /// <summary>Notes that an entry was taken back by a later one.</summary>
    public void TakenBack(long number, long by)
    {
        var entry = this[(int)number - 1];
        entry.TakenBackBy = by;
        held[(int)number - 1] = entry;
    }

    public IEnumerator<Entry> GetEnumerator()
    {
        for (var i = 0; i < held.Count; i++) yield return this[i];
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    private static bool IsPlain(Entry entry) => entry is { IsImported: true, Operation: null, EventId: null, TakesBack: null, TakenBackBy: null, LeavesOut: false, Deeds: [{ Index: 0, TakesBack: null } deed] }
        && deed.Entry == entry.Number && deed.Day == entry.Day;

    private static Entry Of(Deed deed) => new() { Number = deed.Entry, Day = deed.Day, IsImported = true, Deeds = [deed] };
}
