using Cellarbook.Core.Book;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>Shrinkage of a ferment and contraction of a process may go either way; everything else only with `reverses`.</summary>
public class DirectionTests
{
    private static ImportedBook Started()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,,100000,,,12,,,", "B,2026-01-01,MUST_RECEIVED,,,M,,50000,,,,,,");
        return book;
    }

    private static string[] Sweetened(string contraction) => ["S,2026-01-02,SWEETEN_USED,W,,,,50000,,,,,,", "S,2026-01-02,SWEETEN_SUGAR,,,,,1000,,,,,,", "S,2026-01-02,SWEETEN_MADE,,,SWEET,,51010,,,11.8,,,", contraction];

    [Theory]
    [InlineData("S,2026-01-02,PROCESS_CONTRACTION,,,,,10,,,,,,")]
    [InlineData("S,2026-01-02,PROCESS_CONTRACTION,,,S,,10,,,,,,")]
    [InlineData("S,2026-01-02,PROCESS_CONTRACTION,,,,,10,,,,,LOSS:CONTRACTION,PROC")]
    [InlineData("S,2026-01-02,PROCESS_CONTRACTION,,,S,,10,,,,,LOSS:CONTRACTION,PROC")]
    public void More_measured_out_than_went_in_is_a_contraction_below_nil_however_it_is_told(string contraction)
    {
        var book = Started();
        book.TakeRows(Sweetened(contraction));
        var posting = book.Book.Find(3)!.Deeds[0].Postings[^1];
        Assert.Equal(("LOSS:CONTRACTION", "PROC"), (posting.From.ToString(), posting.To.ToString()));
        // Each way of telling it is the same content.
        foreach (var told in new[] { "S,2026-01-02,PROCESS_CONTRACTION,,,,,10,,,,,,", "S,2026-01-02,PROCESS_CONTRACTION,,,S,,10,,,,,,", "S,2026-01-02,PROCESS_CONTRACTION,,,,,10,,,,,LOSS:CONTRACTION,PROC" })
            Assert.Equal(1, book.TakeRows(Sweetened(told)).Skipped);
    }

    [Theory]
    [InlineData("S,2026-01-02,PROCESS_CONTRACTION,S,,,,10,,,,,,")]
    [InlineData("S,2026-01-02,PROCESS_CONTRACTION,,,,,10,,,,,PROC,LOSS:CONTRACTION")]
    public void Told_the_wrong_way_the_process_is_not_nil(string contraction) =>
        Assert.Equal(RefusalCode.ProcessNotCleared, Started().Refused(Sweetened(contraction)).Code);

    [Theory]
    [InlineData("F,2026-01-02,FERMENT_VOLUME_CHANGE,M,,,,300,,,,,,", 49.7)]
    [InlineData("F,2026-01-02,FERMENT_VOLUME_CHANGE,,,M,,300,,,,,,", 50.3)]
    [InlineData("F,2026-01-02,FERMENT_VOLUME_CHANGE,,,M,,300,,,,,LOSS:FERMENT,MUST", 50.3)]
    public void Shrinkage_goes_the_way_its_lot_tells_and_comes_back_the_other(string row, double litres)
    {
        var book = Started();
        book.TakeRows(row);
        var stock = FormattableString.Invariant($"MUST:M:unplaced {litres} L");
        Assert.Contains(stock, ImportedBook.Stock(book.Book), StringComparison.Ordinal);
        book.TakeRows(row.Contains(",M,,,,", StringComparison.Ordinal) ? "G,2026-01-03,FERMENT_VOLUME_CHANGE,,,M,,300,,,,F,LOSS:FERMENT,MUST" : "G,2026-01-03,FERMENT_VOLUME_CHANGE,M,,,,300,,,,F,MUST,LOSS:FERMENT");
        Assert.Contains("MUST:M:unplaced 50 L", ImportedBook.Stock(book.Book), StringComparison.Ordinal);
    }

    [Fact]
    public void Any_other_swap_needs_to_take_something_back() =>
        Assert.Equal(RefusalCode.WrongAccount, Started().Refused("X,2026-01-02,LEES_REMOVED,,,W,,300,,,,,BYPRODUCT:LEES,BULK:A16").Code);
}
