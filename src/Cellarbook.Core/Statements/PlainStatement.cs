using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>A line of the plain statement.</summary>
/// <param name="Section">Must, bulk or bottled.</param>
/// <param name="Class">Class code; empty for must.</param>
/// <param name="Category">Null on opening and closing.</param>
/// <param name="Direction">Which place it has.</param>
/// <param name="Volume">How much; negative for what was taken back.</param>
/// <param name="Bottles">How many, in the bottled section.</param>
public sealed record PlainLine(Section Section, string Class, Category? Category, Direction Direction, Volume Volume, BottleCount Bottles);

/// <summary>
/// The neutral period statement: opening + in − out = closing for each section and class, to the microlitre (law 6).
/// </summary>
public sealed class PlainStatement
{
    private PlainStatement(Period asked, Period stated, IReadOnlyList<PlainLine> lines, IReadOnlyList<Sentence> notes)
    {
        Asked = asked;
        Stated = stated;
        Lines = lines;
        Notes = notes;
    }

    /// <summary>The period asked for.</summary>
    public Period Asked { get; }

    /// <summary>The period stated: it starts on the book's first day when asked from an earlier one.</summary>
    public Period Stated { get; }

    /// <summary>The lines: section by section, class by class, opening, in, out, closing.</summary>
    public IReadOnlyList<PlainLine> Lines { get; }

    /// <summary>What has to be said beside it.</summary>
    public IReadOnlyList<Sentence> Notes { get; }

    /// <summary>Builds it.</summary>
    public static PlainStatement Build(Book.Book book, Period asked, ClassScheme scheme)
    {
        var notes = new List<Sentence>();
        if (book.FirstDay is not { } first || asked.To < first)
        {
            notes.Add(book.FirstDay is null ? "The book is empty." : (Sentence)$"The book begins on {book.FirstDay:yyyy-MM-dd}, after this period.");
            return new(asked, asked, [], notes);
        }
        var stated = asked with { From = asked.From < first ? first : asked.From };
        if (asked.From < first) notes.Add($"The book begins on {first:yyyy-MM-dd}; the statement starts there.");

        var sums = new LineSums();
        sums.Add(book.Memory.Before(book, stated.From, scheme));
        var disagrees = book.Memory.AddMoves(book, stated, scheme, sums);

        var lines = new List<PlainLine>();
        foreach (var group in sums.All.GroupBy(sum => (sum.Key.Section, sum.Key.Class)).OrderBy(group => group.Key.Section).ThenBy(group => scheme.OrderOf(group.Key.Class)))
        {
            if (group.All(sum => sum.Value.Volume.IsNil && sum.Value.Bottles.Bottles == 0)) continue;
            var opening = sums.All.GetValueOrDefault(new(group.Key.Section, group.Key.Class, null, Direction.Opening));
            var closing = opening;
            lines.Add(new(group.Key.Section, group.Key.Class, null, Direction.Opening, opening.Volume, opening.Bottles));
            foreach (var direction in new[] { Direction.In, Direction.Out })
                foreach (var sum in group.Where(sum => sum.Key.Direction == direction && (!sum.Value.Volume.IsNil || sum.Value.Bottles.Bottles != 0)).OrderBy(sum => IndexOf(sum.Key.Category!)))
                {
                    closing = direction == Direction.In ? (closing.Volume + sum.Value.Volume, closing.Bottles + sum.Value.Bottles) : (closing.Volume - sum.Value.Volume, closing.Bottles - sum.Value.Bottles);
                    lines.Add(new(group.Key.Section, group.Key.Class, sum.Key.Category, direction, sum.Value.Volume, sum.Value.Bottles));
                }
            lines.Add(new(group.Key.Section, group.Key.Class, null, Direction.Closing, closing.Volume, closing.Bottles));
        }
        if (lines.Exists(line => line.Class == scheme.Unstated.Code)) notes.Add("Some wine has no stated strength; it stands in a class of its own until one is stated.");
        notes.AddRange(Limits.OverLimits.Notes(book, stated.To));
        if (disagrees) notes.Add("A measurement in the book no longer agrees with the entries before it; see the book.");
        return new(asked, stated, lines, notes);
    }

    /// <summary>What each entry gave to each line of a period, in book order (law 8): the same sums as the statement's, entry by entry.</summary>
    public static IReadOnlyList<Contribution> Behind(Book.Book book, Period asked, ClassScheme scheme)
    {
        var contributions = new List<Contribution>();
        var onFirst = false;
        var reading = new Contributions(scheme, book.SizeOf, part => contributions.Add(LineSums.KeyOf(part, onFirst).Direction == Direction.Opening ? part with { Direction = Direction.Opening } : part));
        for (var i = book.FirstPageFrom(asked.From); i < book.Pages.Count && book.Pages[i].Day <= asked.To; i++)
        {
            onFirst = i == 0;
            reading.Read(book.Pages[i].Effects);
        }
        return contributions;
    }

    private static int IndexOf(Category category)
    {
        for (var i = 0; i < Category.All.Count; i++)
            if (Category.All[i] == category) return i;
        return -1;
    }
}
