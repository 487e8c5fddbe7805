namespace Cellarbook.Core.Book;

/// <summary>
/// States of the cellar as it stood before certain days, close together near the end and sparse further back, so that a late entry refolds little
/// and memory stays small. Only a convenience: dropping any of them changes nothing.
/// </summary>
internal sealed class Checkpoints
{
    /// <summary>Deeds folded between two checkpoints.</summary>
    public const int Spacing = 2_048;

    private const int Most = 14;

    private readonly List<(DateOnly Day, int Deeds, Cellar Cellar)> kept = [];

    /// <summary>
    /// Where to take states when so many deeds are folded in one go, counted from the first: close together near the end, sparse before.
    /// </summary>
    public static Queue<int> Wanted(int total)
    {
        var wanted = new Stack<int>();
        for (double back = Spacing; back < total; back *= 2.1) wanted.Push(total - (int)back);
        return new(wanted);
    }

    /// <summary>True when a state is due after so many deeds; takes it off the list.</summary>
    public static bool IsDue(Queue<int> wanted, int folded)
    {
        var due = false;
        while (wanted.TryPeek(out var next) && next <= folded)
        {
            wanted.Dequeue();
            due = true;
        }
        return due;
    }

    /// <summary>The newest state before <paramref name="day"/> or an earlier day; an empty cellar when there is none.</summary>
    public (DateOnly Day, Cellar Cellar) Before(DateOnly day)
    {
        var at = kept.FindLastIndex(checkpoint => checkpoint.Day <= day);
        return at < 0 ? (DateOnly.MinValue, new Cellar()) : (kept[at].Day, kept[at].Cellar);
    }

    /// <summary>Forgets states that a change on <paramref name="day"/> may have changed.</summary>
    public void Forget(DateOnly day) => kept.RemoveAll(checkpoint => checkpoint.Day > day);

    public void Keep(DateOnly day, int deedsBefore, Cellar cellar)
    {
        if (kept.Count > 0 && kept[^1].Day >= day) return;
        kept.Add((day, deedsBefore, cellar));
        if (kept.Count <= Most) return;
        // Drop the one whose neighbours lie closest together, measured from the end: what is far back may be sparse.
        var end = kept[^1].Deeds + Spacing;
        var drop = 1;
        var least = double.MaxValue;
        for (var i = 1; i < kept.Count - 1; i++)
        {
            var ratio = (end - kept[i - 1].Deeds) / (double)(end - kept[i + 1].Deeds);
            if (ratio < least) (least, drop) = (ratio, i);
        }
        kept.RemoveAt(drop);
    }
}
