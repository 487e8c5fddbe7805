namespace Cellarbook.Core.Book;

/// <summary>One day of the book: its deeds in book order, and what the fold saw them do.</summary>
public sealed class Page(DateOnly day)
{
    /// <summary>The day.</summary>
    public DateOnly Day { get; } = day;

    /// <summary>Deeds in book order; what was taken back while its period was open is not among them.</summary>
    public List<Deed> Deeds { get; init; } = [];

    /// <summary>Effects, in the order of the deeds.</summary>
    public List<Effect> Effects { get; init; } = [];

    /// <summary>Measurements that no longer agree with what stands before them.</summary>
    public List<Disagreement> Disagreements { get; init; } = [];

    /// <summary>
    /// Puts a deed where it belongs: in the place of what it stands for, else before the first deed with a later time, else last.
    /// </summary>
    internal static void Insert(List<Deed> deeds, Deed deed, int? slot = null)
    {
        var at = slot ?? (deed.Time is { } time ? deeds.FindIndex(other => other.Time > time) : -1);
        if (at < 0) deeds.Add(deed);
        else deeds.Insert(at, deed);
    }
}
