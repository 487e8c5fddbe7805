using Cellarbook.Core.Book;

namespace Cellarbook.Core.Statements;

/// <summary>
/// What statements remember of earlier calendar months, so that a month's statement doesn't read the whole book: what was on hand at each month's
/// end, and whole gallons as reported. Worked out when asked for, forgotten from the month of any change on; never stored.
/// </summary>
internal sealed class MonthMemory
{
    private readonly Lock gate = new();
    private readonly List<Month> months = [];

    /// <summary>One calendar month's end.</summary>
    public sealed record Month(DateOnly First, StandingTotals Closing)
    {
        /// <summary>Whole gallons reported as closing, by section and class; null until a form asked.</summary>
        public IReadOnlyDictionary<(Section Section, string Class), long>? Gallons { get; set; }
    }

    public void Forget(DateOnly day)
    {
        lock (gate) months.RemoveAll(month => month.First >= FirstOf(day) || month.First.AddMonths(1).AddDays(-1) >= day);
    }

    /// <summary>What was on hand at the end of the day before <paramref name="day"/>.</summary>
    public StandingTotals Before(Book.Book book, DateOnly day)
    {
        if (book.FirstDay is not { } first || day <= first) return new();
        var month = FirstOf(day);
        var totals = month > first ? new StandingTotals(Through(book, month.AddDays(-1)).Closing) : new();
        if (month < day) Apply(totals, book, month, day.AddDays(-1));
        return totals;
    }

    /// <summary>The month that ends with <paramref name="last"/>, or holds it, with every month before it worked out.</summary>
    public Month Through(Book.Book book, DateOnly last)
    {
        lock (gate)
        {
            var wanted = FirstOf(last);
            var next = months.Count == 0 ? FirstOf(book.FirstDay!.Value) : months[^1].First.AddMonths(1);
            for (; next <= wanted; next = next.AddMonths(1))
            {
                var totals = months.Count == 0 ? new StandingTotals() : new StandingTotals(months[^1].Closing);
                Apply(totals, book, next, next.AddMonths(1).AddDays(-1));
                months.Add(new(next, totals));
            }
            return months.Find(month => month.First == wanted)!;
        }
    }

    /// <summary>Months from the book's first to the one that holds <paramref name="last"/>.</summary>
    public IReadOnlyList<Month> AllThrough(Book.Book book, DateOnly last)
    {
        Through(book, last);
        lock (gate) return [.. months.Where(month => month.First <= last)];
    }

    public static DateOnly FirstOf(DateOnly day) => new(day.Year, day.Month, 1);

    private static void Apply(StandingTotals totals, Book.Book book, DateOnly from, DateOnly to)
    {
        for (var i = book.FirstPageFrom(from); i < book.Pages.Count && book.Pages[i].Day <= to; i++)
            totals.Apply(book.Pages[i].Effects, bottling => book.SizeOf(bottling));
    }
}
