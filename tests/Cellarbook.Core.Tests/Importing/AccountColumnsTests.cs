using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>Classes are worked out, never stored: account columns tell the product kind and are otherwise only held against what was worked out.</summary>
public class AccountColumnsTests
{
    /// <summary>The ledger with its account columns emptied wherever strength, lot and category tell as much.</summary>
    private static string Emptied(string text, Func<string, string, bool> keeps)
    {
        var records = Csv.Records(text);
        int At(string column) => records[0].IndexOf(column);
        foreach (var record in records.Skip(1))
        {
            if (keeps(record[At("from_account")], record[At("to_account")])) continue;
            record[At("from_account")] = record[At("to_account")] = "";
        }
        return string.Join('\n', records.Select(record => string.Join(',', record.Select(field => field.Contains(',') ? $"\"{field}\"" : field))));
    }

    [Fact]
    public void The_worked_quarter_needs_no_account_columns_and_either_form_knows_the_other()
    {
        var full = ImportedBook.Of(ImportedBook.Worked);
        var bare = ImportedBook.Of(WholeFileTests.Without(ImportedBook.Worked, "from_account", "to_account"));
        Assert.Equal(ImportedBook.Postings(full.Book), ImportedBook.Postings(bare.Book));
        Assert.Equal(ImportedBook.Stock(full.Book), ImportedBook.Stock(bare.Book));
        Assert.Equal(79, bare.Take(ImportedBook.Worked).Skipped);
        Assert.Equal(79, full.Take(WholeFileTests.Without(ImportedBook.Worked, "from_account", "to_account")).Skipped);
    }

    [Fact]
    public void The_second_year_needs_them_only_where_they_tell_a_kind()
    {
        static bool Kind(string from, string to) => (from + to).Contains("D_CARB", StringComparison.Ordinal) || (from + to).Contains("E_SPKL", StringComparison.Ordinal) || (from + to).Contains("F_CIDER", StringComparison.Ordinal)
            || to.StartsWith("BULK:", StringComparison.Ordinal) && !from.StartsWith("BULK:", StringComparison.Ordinal);
        var full = ImportedBook.Of(ImportedBook.SecondYear);
        var bare = ImportedBook.Of(Emptied(ImportedBook.SecondYear, Kind));
        Assert.Equal(ImportedBook.Stock(full.Book), ImportedBook.Stock(bare.Book));
        Assert.Equal(186, bare.Take(ImportedBook.SecondYear).Skipped);
        Assert.Equal(186, full.Take(Emptied(ImportedBook.SecondYear, Kind)).Skipped);
    }

    [Fact]
    public void A_told_kind_is_taken_from_the_column_and_carried_along()
    {
        var book = new ImportedBook();
        book.TakeRows(
            "A,2026-01-01,RECEIVED_BULK,,,APPLE,,90000,,,6.5,,EXT:BONDED,BULK:F_CIDER",
            "B,2026-01-02,BOTTLED,APPLE,,APPLE-33,,33000,100,330,,,,",
            "C,2026-01-03,SPARKLE_USED,APPLE,,,,50000,,,,,,", "C,2026-01-03,SPARKLE_MADE,,,FIZZ,,50000,,,,,,BULK:D_CARB");
        Assert.Equal("BOTTLED:APPLE-33:unplaced 33 L 100 cider, 6.5 % vol\nBULK:APPLE:unplaced 7 L 0 cider, 6.5 % vol\nBULK:FIZZ:unplaced 50 L 0 carbonated, 6.5 % vol", ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void Sparkling_wine_without_a_told_kind_is_sparkling()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,CUVEE,,90000,,,11,,,", "B,2026-01-03,SPARKLE_USED,CUVEE,,,,90000,,,,,,", "B,2026-01-03,SPARKLE_MADE,,,FIZZ,,90000,,,11.8,,,");
        Assert.Equal("BULK:FIZZ:unplaced 90 L 0 sparkling, 11.8 % vol", ImportedBook.Stock(book.Book));
    }

    [Theory]
    [InlineData("A,2026-01-01,RECEIVED_BULK,,,W,,9000,,,16.01,,,BULK:A16", RefusalCode.ClassDisagrees, "to_account")]
    [InlineData("A,2026-01-01,RECEIVED_BULK,,,W,,9000,,,16,,,BULK:B21", RefusalCode.ClassDisagrees, "to_account")]
    [InlineData("A,2026-01-02,SAMPLE_BULK,OLD,,,,100,,,,,BULK:B21,", RefusalCode.ClassDisagrees, "from_account")]
    [InlineData("A,2026-01-02,SAMPLE_BULK,OLD,,,,100,,,,,BULK:F_CIDER,", RefusalCode.ClassDisagrees, "from_account")]
    [InlineData("A,2026-01-02,RECEIVED_BULK,,,W,,9000,,,12,,,BULK:X99", RefusalCode.WrongAccount, "to_account")]
    [InlineData("A,2026-01-02,RECEIVED_BULK,,,W,,9000,,,12,,,MUST", RefusalCode.WrongAccount, "to_account")]
    [InlineData("A,2026-01-02,LEES_REMOVED,OLD,,,,100,,,,,BULK:A16,LOSS:SPILL", RefusalCode.WrongAccount, "to_account")]
    public void A_told_class_that_is_not_the_one_worked_out_is_refused(string row, RefusalCode code, string path)
    {
        var book = new ImportedBook();
        book.TakeRows("O,2026-01-01,RECEIVED_BULK,,,OLD,,50000,,,13,,,");
        var refusal = book.Refused(row);
        Assert.Equal((code, path, 1), (refusal.Code, refusal.Path, refusal.Row));
    }

    [Fact]
    public void Kinds_meet_only_in_a_process_or_with_the_kind_told()
    {
        string[] start = ["O,2026-01-01,RECEIVED_BULK,,,GRAPE,,50000,,,13,,,", "O,2026-01-01,RECEIVED_BULK,,,APPLE,,50000,,,6,,,BULK:F_CIDER"];
        var book = new ImportedBook();
        book.TakeRows(start);
        Assert.Equal(RefusalCode.KindsMeet, book.Refused("A,2026-01-02,LOT_TRANSFER,GRAPE,,APPLE,,10000,,,,,,").Code);
        book.TakeRows("B,2026-01-02,BLEND_USED,GRAPE,,,,10000,,,,,,", "B,2026-01-02,BLEND_USED,APPLE,,,,10000,,,,,,", "B,2026-01-02,BLEND_MADE,,,BOTH,,20000,,,,,,BULK:F_CIDER");
        book.TakeRows("C,2026-01-03,LOT_TRANSFER,GRAPE,,APPLE,,10000,,,,,BULK:A16,BULK:F_CIDER");
        Assert.Equal("BULK:APPLE:unplaced 50 L 0 cider, 7.4 % vol\nBULK:BOTH:unplaced 20 L 0 cider, 9.5 % vol\nBULK:GRAPE:unplaced 30 L 0 still, 13 % vol", ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void The_to_class_is_that_after_the_event_and_a_second_import_knows_it_again()
    {
        // 10 L of 15 % into 90 L of 18 %: 17.7 %, over 16, and the file says so.
        var book = new ImportedBook();
        string[] rows = ["A,2026-01-01,RECEIVED_BULK,,,WEAK,,20000,,,15,,,BULK:A16", "B,2026-01-01,RECEIVED_BULK,,,STRONG,,90000,,,18,,,BULK:B21", "C,2026-01-02,LOT_TRANSFER,WEAK,,STRONG,,10000,,,,,BULK:A16,BULK:B21"];
        book.TakeRows(rows);
        Assert.Contains("BULK:STRONG:unplaced 100 L 0 still, 17.7 % vol", ImportedBook.Stock(book.Book), StringComparison.Ordinal);
        Assert.Equal(3, book.TakeRows(rows).Skipped);
        rows[2] = rows[2].Replace("BULK:A16,BULK:B21", "BULK:A16,BULK:A16", StringComparison.Ordinal);
        Assert.Equal(RefusalCode.EventDiffers, book.Refused(rows).Code);
    }

    [Fact]
    public void A_column_that_tells_something_new_of_a_known_event_is_other_content()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,,20000,,,12,,,");
        Assert.Equal(1, book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,,20000,,,12,,EXT:BONDED,BULK:A16").Skipped);
        Assert.Equal(RefusalCode.EventDiffers, book.Refused("A,2026-01-01,RECEIVED_BULK,,,W,,20000,,,12,,EXT:BONDED,BULK:F_CIDER").Code);
    }

    [Fact]
    public void The_section_is_bottled_where_bottles_are_given_else_bulk_where_a_strength_is_given_else_must()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,OPENING,,,S1,,75000,100,750,12,,,", "A,2026-01-01,OPENING,,,S2,,75000,,,12,,,", "A,2026-01-01,OPENING,,,S3,,75000,,,,,,",
            "B,2026-01-02,CASUALTY,S1,,,,750,1,750,,,,", "C,2026-01-02,CASUALTY,S2,,,,750,,,,,,");
        Assert.Equal("BOTTLED:S1:unplaced 74.25 L 99 still, 12 % vol\nBULK:S2:unplaced 74.25 L 0 still, 12 % vol\nMUST:S3:unplaced 75 L 0 still, strength not stated", ImportedBook.Stock(book.Book));
    }
}
