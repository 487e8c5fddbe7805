using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;

namespace Cellarbook.Core.Noticing;

/// <summary>A gravity as read.</summary>
/// <param name="Text">The figure as it was read, such as "1.050".</param>
/// <param name="Gravity">The same as a specific gravity, for comparing.</param>
/// <param name="Day">When.</param>
/// <param name="Entry">Where it stands.</param>
public sealed record GravityRead(string Text, double Gravity, DateOnly Day, long Entry);

/// <summary>How the gravity of a wine has gone: its readings, and since when it has stood still.</summary>
/// <param name="Reads">The readings, oldest first.</param>
/// <param name="SteadySince">The first of the last readings that are all the same, within what a hydrometer tells.</param>
public sealed record GravityRun(IReadOnlyList<GravityRead> Reads, GravityRead? SteadySince)
{
    private static readonly GravityRun Unread = new([], null);

    /// <summary>The last reading.</summary>
    public GravityRead? Last => Reads.Count == 0 ? null : Reads[^1];

    /// <summary>Days from the first to the last of the readings that are the same.</summary>
    public int SteadyDays => Last is null ? 0 : Last.Day.DayNumber - SteadySince!.Day.DayNumber;

    /// <summary>True when it stands still.</summary>
    public bool IsSteady(Habits habits) => SteadyDays >= habits.SteadyDays;

    /// <summary>True when the last reading leaves little sugar.</summary>
    public bool IsDry(Habits habits) => Last is { } last && last.Gravity <= habits.DryAt;

    /// <summary>The run of the must in a place of the book as it stands. Where all that is left of its lot lies there, readings in any vessel are its own.</summary>
    public static GravityRun Of(Book.Book book, EntryIndex index, Place place, Habits habits) =>
        index.NotesOfLot(book, place.Account.Name) is { Count: > 0 } notes ? Of(book, notes, place.Account.Name, book.Now.IsInOnePlace(place.Account.Name) ? null : place.Account.Place, habits) : Unread;

    /// <summary>The run of a lot in all its vessels.</summary>
    public static GravityRun Of(Book.Book book, EntryIndex index, string lot, Habits habits) => Of(book, index.NotesOfLot(book, lot), lot, null, habits);

    /// <summary>
    /// Hydrometer readings only (specific gravity or °Oechsle, 1 °Oe being 0.001): what a refractometer shows in a ferment is no gravity.
    /// </summary>
    private static GravityRun Of(Book.Book book, IReadOnlyList<Entry> notes, string lot, string? vessel, Habits habits)
    {
        var reads = new List<GravityRead>();
        foreach (var placed in BookOrder.Of(book, notes, deed => deed.Operation is Measure measure && measure.Lot == lot && (vessel is null || measure.Vessel is null || measure.Vessel == vessel)))
        {
            if (placed.IsStruck) continue;
            var measure = (Measure)placed.Deed.Operation!;
            if (measure.Gravity is { } gravity) reads.Add(new(gravity.Text, gravity.Value, placed.Deed.Day, placed.Deed.Entry));
            else if (measure.Oechsle is { } oechsle) reads.Add(new(oechsle.Text + " °Oe", 1 + oechsle.Value / 1000, placed.Deed.Day, placed.Deed.Entry));
        }
        if (reads.Count == 0) return Unread;
        var since = reads.Count - 1;
        // A hair more than the tolerance, for binary fractions: 1.001 and 1.000 are one point apart.
        while (since > 0 && Math.Abs(reads[since - 1].Gravity - reads[^1].Gravity) <= habits.SteadyWithin + 1e-9) since--;
        return new(reads, reads[since]);
    }
}
