using Cellarbook.Core.Book;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>Law 4 in a file: `reverses` takes an event back whole, on its own day, as postings with the accounts swapped.</summary>
public class TakeBackTests
{
    private static ImportedBook Started()
    {
        var book = new ImportedBook();
        book.TakeRows(
            "A,2026-01-01,RECEIVED_BULK,,,W1,,100000,,,12,,,", "A,2026-01-01,TRANSIT_LOSS,W1,,,,500,,,,,,",
            "B,2026-01-02,RECEIVED_BULK,,,W2,,50000,,,15,,,",
            "C,2026-01-03,REMOVED_TAXPAID_BULK,W1,,,,20000,,,,,,");
        return book;
    }

    [Fact]
    public void A_single_row_comes_back()
    {
        var book = Started();
        book.TakeRows("D,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,C,,");
        Assert.Contains("BULK:W1:unplaced 99.5 L 0 still, 12 % vol", ImportedBook.Stock(book.Book), StringComparison.Ordinal);
        Assert.Equal(4, book.Book.Find(3)!.TakenBackBy);
        Assert.False(book.Book.Find(4)!.LeavesOut);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Several_rows_come_back_in_either_order_and_the_new_row_may_stand_beside_them(bool turned)
    {
        var book = Started();
        book.TakeRows("E,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,C,,");
        string[] rows = ["D,2026-01-06,RECEIVED_BULK,W1,,,,100000,,,,A,,", "D,2026-01-06,TRANSIT_LOSS,,,W1,,500,,,,A,,"];
        if (turned) Array.Reverse(rows);
        rows = [.. rows, "D,2026-01-06,RECEIVED_BULK,,,W1,,98000,,,12.5,,,"];
        book.TakeRows(rows);
        Assert.Equal("BULK:W1:unplaced 98 L 0 still, 12.5 % vol\nBULK:W2:unplaced 50 L 0 still, 15 % vol", ImportedBook.Stock(book.Book));
        Assert.Equal(1, book.TakeRows(rows).Skipped);
    }

    [Fact]
    public void A_process_comes_back_and_its_rows_may_bear_the_id_of_either_event()
    {
        var book = Started();
        var before = ImportedBook.Stock(book.Book);
        string[] made = ["F,2026-01-04,FORTIFY_USED,W2,,F,,50000,,,,,,", "F,2026-01-04,FORTIFY_SPIRIT,,,F,,3000,,,96,,,", "F,2026-01-04,FORTIFY_MADE,F,,W2,,52900,,,19.4,,,", "F,2026-01-04,PROCESS_CONTRACTION,F,,,,100,,,,,,"];
        book.TakeRows(made);
        Assert.Contains("BULK:W2:unplaced 52.9 L 0 still, 19.4 % vol", ImportedBook.Stock(book.Book), StringComparison.Ordinal);
        book.TakeRows("G,2026-01-09,FORTIFY_USED,F,,W2,,50000,,,,F,,", "G,2026-01-09,FORTIFY_SPIRIT,G,,,,3000,,,,F,,", "G,2026-01-09,FORTIFY_MADE,W2,,,,52900,,,,F,,", "G,2026-01-09,PROCESS_CONTRACTION,,,F,,100,,,,F,LOSS:CONTRACTION,PROC");
        Assert.Equal(before, ImportedBook.Stock(book.Book));
        Assert.Equal(RefusalCode.WrongAccount, book.Refused("H,2026-01-09,FORTIFY_USED,W2,,F,,50000,,,,,,", "H,2026-01-09,FORTIFY_MADE,,,W2,,50000,,,19,,,").Code);
    }

    [Theory]
    [InlineData("not whole", RefusalCode.TakeBackNotWhole, "D,2026-01-05,RECEIVED_BULK,W1,,,,100000,,,,A,,")]
    [InlineData("another amount", RefusalCode.TakeBackNotWhole, "D,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,19999,,,,C,,")]
    [InlineData("another lot", RefusalCode.TakeBackNotWhole, "D,2026-01-05,REMOVED_TAXPAID_BULK,,,W2,,20000,,,,C,,")]
    [InlineData("another category", RefusalCode.TakeBackNotWhole, "D,2026-01-05,TASTING_BULK,,,W1,,20000,,,,C,,")]
    [InlineData("before it happened", RefusalCode.EnteredBeforeItHappened, "D,2026-01-02,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,C,,")]
    [InlineData("no such event", RefusalCode.UnknownEntry, "D,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,Z,,")]
    [InlineData("itself", RefusalCode.UnknownEntry, "D,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,D,,")]
    [InlineData("two events at once", RefusalCode.TakeBackNotWhole, "D,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,C,,", "D,2026-01-05,RECEIVED_BULK,W2,,,,50000,,,,B,,")]
    [InlineData("not swapped", RefusalCode.WrongDirection, "D,2026-01-05,REMOVED_TAXPAID_BULK,W1,,,,20000,,,,C,,")]
    public void What_does_not_mirror_the_event_is_refused(string what, RefusalCode code, params string[] rows)
    {
        var refusal = Started().Refused(rows);
        Assert.Equal((what, code, 1), (what, refusal.Code, refusal.Row));
    }

    [Fact]
    public void Nothing_is_taken_back_twice_neither_in_one_file_nor_in_two()
    {
        const string once = "D,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,C,,", twice = "E,2026-01-06,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,C,,";
        var both = Started().Refused(once, twice);
        Assert.Equal((RefusalCode.AlreadyTakenBack, 2), (both.Code, both.Row));
        var book = Started();
        book.TakeRows(once);
        Assert.Equal(RefusalCode.AlreadyTakenBack, book.Refused(twice).Code);
    }

    [Fact]
    public void A_take_back_is_not_taken_back()
    {
        var book = Started();
        book.TakeRows("D,2026-01-05,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,C,,");
        Assert.Equal(RefusalCode.CantBeTakenBack, book.Refused("E,2026-01-06,REMOVED_TAXPAID_BULK,,,W1,,20000,,,,D,,").Code);
    }

    [Fact]
    public void What_later_events_used_up_can_not_come_back()
    {
        var book = Started();
        var refusal = book.Refused("D,2026-01-05,RECEIVED_BULK,W1,,,,100000,,,,A,,", "D,2026-01-05,TRANSIT_LOSS,,,W1,,500,,,,A,,");
        Assert.Equal(RefusalCode.MoreThanIsThere, refusal.Code);
    }

    [Fact]
    public void What_is_taken_back_keeps_its_own_strength_and_the_rest_stands_as_before_the_two_met()
    {
        var book = Started();
        book.TakeRows("M,2026-01-04,LOT_TRANSFER,W2,,W1,,40000,,,,,,");
        Assert.Contains("BULK:W1:unplaced 119.5 L 0 still, 13 % vol", ImportedBook.Stock(book.Book), StringComparison.Ordinal);
        book.TakeRows("N,2026-01-05,LOT_TRANSFER,W1,,W2,,40000,,,,M,,");
        Assert.Equal("BULK:W1:unplaced 79.5 L 0 still, 12 % vol\nBULK:W2:unplaced 50 L 0 still, 15 % vol", ImportedBook.Stock(book.Book));
    }
}
