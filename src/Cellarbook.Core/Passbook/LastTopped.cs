using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Passbook;

/// <summary>When wine last went into a vessel that lies full: by a top-up, or when it was filled.</summary>
/// <param name="Day">The day.</param>
/// <param name="WasToppedUp">True for a top-up, false when it was only filled.</param>
/// <param name="Entry">The entry that says so.</param>
public sealed record LastTopped(DateOnly Day, bool WasToppedUp, long Entry)
{
    /// <summary>Of a vessel; null where nothing lies in it.</summary>
    public static LastTopped? Of(Book.Book book, EntryIndex index, string vessel)
    {
        if (book.Now.Vessel(vessel).Accounts.IsEmpty) return null;
        LastTopped? last = null;
        foreach (var entry in index.OfVessel(book, vessel).Where(entry => entry.TakenBackBy is null))
            foreach (var deed in entry.Deeds.Where(deed => deed.TakesBack is null && (last is null || deed.Day >= last.Day)))
                if (Brought(deed, vessel).IsPositive) last = new(deed.Day, deed.Operation is TopUp, entry.Number);
        return last;
    }

    private static Volume Brought(Deed deed, string vessel) => deed.Postings
        .Where(posting => posting.To.InVessel && posting.To.Place == vessel && posting.From.Place != vessel)
        .Aggregate(Volume.None, (sum, posting) => sum + posting.Volume);
}
