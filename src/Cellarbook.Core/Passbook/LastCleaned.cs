using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Passbook;

/// <summary>When a vessel was last said to have been cleaned.</summary>
/// <param name="Day">The day.</param>
/// <param name="By">Who did it, where somebody is named.</param>
/// <param name="Entry">The entry that says so.</param>
public sealed record LastCleaned(DateOnly Day, string? By, long Entry)
{
    /// <summary>Of a vessel; null where nothing was noted.</summary>
    public static LastCleaned? Of(Book.Book book, EntryIndex index, string vessel)
    {
        LastCleaned? last = null;
        foreach (var entry in index.OfVessel(book, vessel).Where(entry => entry.TakenBackBy is null))
            foreach (var deed in entry.Deeds)
                if (deed.Operation is Observe { What: "cleaned" } cleaned && cleaned.Vessel == vessel && (last is null || deed.Day >= last.Day)) last = new(deed.Day, cleaned.DoneBy, entry.Number);
        return last;
    }
}
