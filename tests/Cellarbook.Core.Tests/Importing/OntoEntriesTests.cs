using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>A file comes into a book that has entries already: after them, before them, on the same day (law 2: judged in book order).</summary>
public class OntoEntriesTests
{
    private static ImportedBook Recorded(DateOnly day)
    {
        var book = new ImportedBook();
        return book.Record(new Receive { Day = day, What = "must", Lot = "L1", Litres = Volume.OfLitres(20) });
    }

    [Fact]
    public void After_what_is_there()
    {
        var book = Recorded(new(2026, 1, 1));
        book.TakeRows("A,2026-01-05,MUST_SPILLED,L1,,,,1000,,,,,,");
        Assert.StartsWith("MUST:L1:unplaced 19 L", ImportedBook.Stock(book.Book), StringComparison.Ordinal);
        Assert.Equal(2, book.Book.LastNumber);
    }

    [Fact]
    public void Before_what_is_there_it_is_folded_in_on_its_day()
    {
        var book = Recorded(new(2026, 2, 1));
        book.Record(new Lose { Day = new(2026, 2, 2), As = "spill", Lot = "L1", Litres = Volume.OfLitres(15) });
        book.TakeRows("A,2026-01-05,MUST_RECEIVED,,,L1,,5000,,,,,,", "B,2026-02-03,MUST_SPILLED,L1,,,,10000,,,,,,");
        Assert.Equal("", ImportedBook.Stock(book.Book));
        Assert.Equal(new DateOnly(2026, 1, 5), book.Book.FirstDay);
    }

    [Fact]
    public void What_would_leave_a_later_entry_without_its_wine_is_refused_with_the_entry_named()
    {
        var book = Recorded(new(2026, 2, 1));
        book.Record(new Lose { Day = new(2026, 2, 5), As = "spill", Lot = "L1", Litres = Volume.OfLitres(15) });
        var refusal = book.Refused("A,2026-02-03,MUST_SPILLED,L1,,,,6000,,,,,,");
        Assert.Equal(RefusalCode.LaterEntriesNeedIt, refusal.Code);
        Assert.Equal([2L], refusal.Entries);
    }

    [Fact]
    public void On_the_same_day_it_stands_after_what_was_there()
    {
        var book = Recorded(new(2026, 2, 1));
        book.TakeRows("A,2026-02-01,MUST_SPILLED,L1,,,,20000,,,,,,");
        Assert.Equal([1L, 2L], book.Book.Pages[0].Deeds.Select(deed => deed.Entry));
        Assert.Equal(RefusalCode.MoreThanIsThere, book.Refused("B,2026-02-01,MUST_SPILLED,L1,,,,1,,,,,,").Code);
    }

    [Fact]
    public void An_opening_onto_a_book_that_began_earlier_is_refused()
    {
        var book = Recorded(new(2026, 1, 1));
        Assert.Equal(RefusalCode.OpeningNotFirst, book.Refused("A,2026-01-05,OPENING,,,W,,1000,,,12,,,").Code);
        book.TakeRows("A,2025-12-31,OPENING,,,W,,1000,,,12,,,");
        Assert.Equal(RefusalCode.OpeningNotFirst, book.Refused("B,2025-12-30,MUST_RECEIVED,,,M,,1000,,,,,,").Code);
    }

    [Fact]
    public void Half_of_a_history_late_makes_the_same_cellar_as_the_whole_in_time()
    {
        var whole = ImportedBook.Of(ImportedBook.Worked);
        var lines = ImportedBook.Worked.Split('\n', StringSplitOptions.RemoveEmptyEntries);
        // Sales and losses first can't be; so every receipt first, in one file, then the rest before them in entry number.
        var events = lines.Skip(1).GroupBy(line => line.Split(',')[1]).ToArray();
        var early = events.Where(rows => rows.All(row => row.Contains("EXT:", StringComparison.Ordinal) || row.Contains("OPENING", StringComparison.Ordinal))).SelectMany(rows => rows);
        var book = new ImportedBook();
        book.Take(string.Join('\n', early.Prepend(lines[0])));
        Assert.InRange(book.Book.LastNumber, 3, 10);
        book.Take(ImportedBook.Worked);
        Assert.Equal(79, book.Book.LastNumber);
        Assert.Equal(ImportedBook.Stock(whole.Book), ImportedBook.Stock(book.Book));
    }
}
