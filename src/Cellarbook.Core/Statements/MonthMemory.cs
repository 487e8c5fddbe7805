using Cellarbook.Core.Book;

namespace Cellarbook.Core.Statements;

/// <summary>
/// What statements remember of calendar months, so that none reads the whole book: each month's sums by line, what was on hand at its end by
/// class, and whole gallons as reported. Worked out when asked for, forgotten from the month of any change on; never stored.
/// </summary>
internal sealed class MonthMemory
{
    private readonly Lock gate = new();
    private readonly Dictionary<ClassScheme, List<Month>> schemes = [];

    /// <summary>One calendar month.</summary>
    public sealed record Month(DateOnly First, LineSums Moves, LineSums Closing, bool Disagrees)
    {
        /// <summary>Its last day.</summary>
        public DateOnly Last => First.AddMonths(1).AddDays(-1);

        /// <summary>Whole gallons reported as closing, by section and class; null until a form asked.</summary>
        public IReadOnlyDictionary<(Section Section, string Class), long>? Gallons { get; set; }
    }

    public void Forget(DateOnly day)
    {
        lock (gate)
            foreach (var months in schemes.Values) months.RemoveAll(month => month.Last >= day);
    }

    /// <summary>What was on hand at the end of the day before <paramref name="day"/>, as openings.</summary>
    public LineSums Before(Book.Book book, DateOnly day, ClassScheme scheme)
    {
        if (book.FirstDay is not { } first || day <= first) return LineSums.None;
        // After the book's last day nothing changes any more, however late the day asked for.
        if (EndOf(book) is var end && day > end) day = end.AddDays(1);
        var month = FirstOf(day);
        var closing = month > FirstOf(first) ? Through(book, month.AddDays(-1), scheme).Closing : LineSums.None;
        if (month == day) return closing;
        var moves = new LineSums();
        moves.Read(book, scheme, month, day.AddDays(-1));
        return LineSums.Closing(closing, moves);
    }

    /// <summary>Adds what moved in a period: whole months as remembered, the days at its ends from the pages. True when a measurement in it disagrees.</summary>
    public bool AddMoves(Book.Book book, Period period, ClassScheme scheme, LineSums sums)
    {
        var disagrees = false;
        if (EndOf(book) is var end && period.To > end) period = period with { To = end };
        for (var from = period.From; from <= period.To;)
        {
            var last = FirstOf(from).AddMonths(1).AddDays(-1);
            if (last <= period.To && (from.Day == 1 || from <= book.FirstDay))
            {
                var month = Through(book, last, scheme);
                sums.Add(month.Moves);
                disagrees |= month.Disagrees;
            }
            else disagrees |= sums.Read(book, scheme, from, last < period.To ? last : period.To);
            from = last.AddDays(1);
        }
        return disagrees;
    }

    /// <summary>The month that holds <paramref name="day"/>, with every month before it worked out.</summary>
    public Month Through(Book.Book book, DateOnly day, ClassScheme scheme)
    {
        lock (gate)
        {
            if (!schemes.TryGetValue(scheme, out var months)) schemes.Add(scheme, months = []);
            var wanted = FirstOf(day);
            var next = months.Count == 0 ? FirstOf(book.FirstDay!.Value) : months[^1].First.AddMonths(1);
            for (; next <= wanted; next = next.AddMonths(1))
            {
                var moves = new LineSums();
                var disagrees = moves.Read(book, scheme, next, next.AddMonths(1).AddDays(-1));
                months.Add(new(next, moves, LineSums.Closing(months.Count == 0 ? LineSums.None : months[^1].Closing, moves), disagrees));
            }
            return months[(wanted.Year - months[0].First.Year) * 12 + wanted.Month - months[0].First.Month];
        }
    }

    /// <summary>Months from the book's first to the one that holds <paramref name="last"/>.</summary>
    public IReadOnlyList<Month> AllThrough(Book.Book book, DateOnly last, ClassScheme scheme)
    {
        Through(book, last, scheme);
        lock (gate) return [.. schemes[scheme].Where(month => month.First <= last)];
    }

    /// <summary>The last day of the book's last month.</summary>
    private static DateOnly EndOf(Book.Book book) => FirstOf(book.Pages[^1].Day).AddMonths(1).AddDays(-1);

    public static DateOnly FirstOf(DateOnly day) => new(day.Year, day.Month, 1);
}
