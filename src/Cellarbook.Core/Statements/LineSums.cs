using System.Runtime.InteropServices;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>A line of a statement: section, class, kind of movement (null for opening and closing), direction.</summary>
internal readonly record struct LineKey(Section Section, string Class, Category? Category, Direction Direction);

/// <summary>Sums by line. What was once handed out is not changed any more.</summary>
internal sealed class LineSums
{
    public static readonly LineSums None = new();

    private readonly Dictionary<LineKey, (Volume Volume, BottleCount Bottles)> sums = [];

    public IReadOnlyDictionary<LineKey, (Volume Volume, BottleCount Bottles)> All => sums;

    public void Add(LineSums other)
    {
        foreach (var (key, (volume, bottles)) in other.sums) Add(key, volume, bottles);
    }

    /// <summary>Adds what the days from one to another moved; true when a measurement among them no longer agrees.</summary>
    public bool Read(Book.Book book, ClassScheme scheme, DateOnly from, DateOnly to)
    {
        var onFirst = false;
        var reading = new Contributions(scheme, book.SizeOf, part => Add(KeyOf(part, onFirst), part.Volume, part.Bottles));
        var disagrees = false;
        for (var i = book.FirstPageFrom(from); i < book.Pages.Count && book.Pages[i].Day <= to; i++)
        {
            onFirst = i == 0;
            disagrees |= book.Pages[i].Disagreements.Count > 0;
            reading.Read(book.Pages[i].Effects);
        }
        return disagrees;
    }

    /// <summary>
    /// The line a contribution counts in. Stock brought forward counts as the opening of the book's first day; taken back on a later day it is a
    /// move of that day (law 6).
    /// </summary>
    public static LineKey KeyOf(Contribution part, bool onFirstDay) => onFirstDay && part.Category.Code == "OPENING"
        ? new(part.Section, part.Class, null, Direction.Opening)
        : new(part.Section, part.Class, part.Category, part.Direction);

    /// <summary>What is on hand after moves, as the openings of what follows; classes that come to nil are left out.</summary>
    public static LineSums Closing(LineSums openings, LineSums moves)
    {
        var closing = new LineSums();
        closing.Add(openings);
        foreach (var (key, (volume, bottles)) in moves.sums)
        {
            var sign = key.Direction == Direction.Out ? -1 : 1;
            closing.Add(new(key.Section, key.Class, null, Direction.Opening), sign < 0 ? -volume : volume, sign < 0 ? -bottles : bottles);
        }
        foreach (var (key, (volume, bottles)) in closing.sums.ToArray())
            if (volume.IsNil && bottles.Bottles == 0) closing.sums.Remove(key);
        return closing;
    }

    private void Add(LineKey key, Volume volume, BottleCount bottles)
    {
        ref var sum = ref CollectionsMarshal.GetValueRefOrAddDefault(sums, key, out _);
        sum = (sum.Volume + volume, sum.Bottles + bottles);
    }
}
