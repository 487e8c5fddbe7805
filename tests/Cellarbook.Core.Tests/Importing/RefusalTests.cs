using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>
/// Bad files get a refusal with row, code and a sentence; nothing is recorded (held by <see cref="ImportedBook.RefusedFile"/>), and the good file
/// still goes in, twice without harm.
/// </summary>
public class RefusalTests
{
    /// <summary>The worked quarter with one cell changed: row 8 is a sample from a tank, row 13 a sale of bottles.</summary>
    private static string Edited(int row, string column, string value)
    {
        var records = Csv.Records(ImportedBook.Worked);
        records[row][records[0].IndexOf(column)] = value;
        return string.Join('\n', records.Select(record => string.Join(',', record.Select(field => field.Contains(',') ? $"\"{field}\"" : field))));
    }

    [Theory]
    [InlineData("more than is there", 8, "volume_ml", "99999999", RefusalCode.MoreThanIsThere)]
    [InlineData("unknown category", 8, "category", "MAGIC", RefusalCode.UnknownCategory)]
    [InlineData("no such day", 8, "date", "2025-02-30", RefusalCode.NoSuchDay)]
    [InlineData("a day as spoken", 8, "date", "4.9.2025", RefusalCode.NoSuchDay)]
    [InlineData("no day", 8, "date", "", RefusalCode.Missing)]
    [InlineData("a day to come", 8, "date", "2031-01-01", RefusalCode.EnteredBeforeItHappened)]
    [InlineData("entered before it happened", 8, "entered_on", "2025-09-03", RefusalCode.EnteredBeforeItHappened)]
    [InlineData("comma and unit in a volume", 8, "volume_ml", "12,5 L", RefusalCode.NotANumber)]
    [InlineData("negative volume", 8, "volume_ml", "-250", RefusalCode.NotPositive)]
    [InlineData("nil volume", 8, "volume_ml", "0", RefusalCode.NotPositive)]
    [InlineData("no volume", 8, "volume_ml", "", RefusalCode.Missing)]
    [InlineData("not a number", 8, "volume_ml", "NaN", RefusalCode.NotANumber)]
    [InlineData("finer than a microlitre", 8, "volume_ml", "250.0000001", RefusalCode.TooFine)]
    [InlineData("forty digits", 8, "volume_ml", "9999999999999999999999999999999999999999", RefusalCode.TooLargeNumber)]
    [InlineData("unknown lot drawn from", 8, "lot_from", "NOBODY", RefusalCode.UnknownLot)]
    [InlineData("no lot drawn from", 8, "lot_from", "", RefusalCode.Missing)]
    [InlineData("a name that can't be a code", 8, "lot_from", "=1+1", RefusalCode.BadName)]
    [InlineData("a lot on the side without one", 8, "lot_to", "RED24", RefusalCode.WrongDirection)]
    [InlineData("takes back what is not there", 8, "reverses", "E999", RefusalCode.WrongAccount)]
    [InlineData("strength of 101 %", 1, "abv_pct", "101", RefusalCode.TooLargeNumber)]
    [InlineData("strength too fine", 1, "abv_pct", "13.205", RefusalCode.TooFine)]
    [InlineData("strength in words", 1, "abv_pct", "strong", RefusalCode.NotANumber)]
    [InlineData("no event", 8, "event_id", "", RefusalCode.Missing)]
    [InlineData("an event's id too long", 8, "event_id", "xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx", RefusalCode.BadName)]
    [InlineData("a row number in words", 8, "row", "eight", RefusalCode.NotANumber)]
    [InlineData("count and volume disagree", 13, "bottles", "35", RefusalCode.CountAndVolumeDisagree)]
    [InlineData("no count", 13, "bottles", "", RefusalCode.Missing)]
    [InlineData("no size", 13, "bottle_ml", "", RefusalCode.Missing)]
    [InlineData("nil bottles", 13, "bottles", "0", RefusalCode.NotPositive)]
    [InlineData("part of a bottle", 13, "bottles", "35.5", RefusalCode.NotANumber)]
    [InlineData("bottles from nothing", 13, "lot_from", "NEVER-750", RefusalCode.UnknownBottling)]
    [InlineData("the contraction left out", 42, "volume_ml", "169", RefusalCode.ProcessNotCleared)]
    [InlineData("a class that isn't the wine's", 8, "from_account", "BULK:B21", RefusalCode.ClassDisagrees)]
    [InlineData("must into a sample of wine", 8, "from_account", "MUST", RefusalCode.WrongAccount)]
    public void A_bad_cell_in_the_worked_quarter_is_named_by_row_and_the_good_file_goes_in_after(string what, int row, string column, string value, RefusalCode code)
    {
        var book = new ImportedBook();
        var refusal = book.RefusedFile(Edited(row, column, value));
        Assert.Equal((what, code), (what, refusal.Code));
        Assert.InRange(refusal.Row!.Value, row is 42 ? 39 : row, row);
        book.Take(ImportedBook.Worked);
        Assert.Equal(79, book.Take(ImportedBook.Worked).Skipped);
    }

    [Fact]
    public void A_day_to_come_is_refused_row_by_row()
    {
        var trial = Csv.Import(new(), ImportedBook.Worked, new DateOnly(2025, 11, 29));
        Assert.Equal(Enumerable.Range(98, 7), trial.Refusals.Where(refusal => refusal.Path == "date").Select(refusal => refusal.Row!.Value));
        Assert.All(trial.Refusals, refusal => Assert.Equal(RefusalCode.DayToCome, refusal.Code));
    }

    [Theory]
    [InlineData("unknown column", ",note", ",notes_x", RefusalCode.UnknownColumn)]
    [InlineData("missing column", "category,", "cat,", RefusalCode.UnknownColumn)]
    [InlineData("a column twice", ",note", ",row", RefusalCode.UnknownColumn)]
    public void A_head_that_is_wrong_is_refused(string what, string good, string bad, RefusalCode code)
    {
        var at = ImportedBook.Worked.IndexOf(good, StringComparison.Ordinal);
        var refusal = new ImportedBook().RefusedFile(string.Concat(ImportedBook.Worked.AsSpan(0, at), bad, ImportedBook.Worked.AsSpan(at + good.Length)));
        Assert.Equal((what, code), (what, refusal.Code));
    }

    [Fact]
    public void A_missing_column_is_named()
    {
        var refusal = new ImportedBook().RefusedFile(WholeFileTests.Without(ImportedBook.Worked, "volume_ml"));
        Assert.Equal((RefusalCode.MissingColumn, "volume_ml"), (refusal.Code, refusal.Path));
        refusal = new ImportedBook().RefusedFile(WholeFileTests.Without(ImportedBook.Worked, "bottle_ml"));
        Assert.Equal((RefusalCode.MissingColumn, "bottle_ml"), (refusal.Code, refusal.Path));
    }

    [Fact]
    public void A_file_of_a_head_alone_is_empty() =>
        Assert.Equal(RefusalCode.Empty, new ImportedBook().RefusedFile(ImportedBook.Head + "\n").Code);

    [Fact]
    public void A_row_with_too_few_fields_is_unreadable()
    {
        var refusal = new ImportedBook().Refused("A,2026-01-01,RECEIVED_BULK,,,W,,9000,,,12,,,", "B,2026-01-01");
        Assert.Equal((RefusalCode.Unreadable, 2), (refusal.Code, refusal.Row));
    }

    [Fact]
    public void Refusals_are_listed_together_to_a_hundred_in_order_of_weight_and_row()
    {
        var rows = Enumerable.Range(1, 150).Select(n => string.Create(CultureInfo.InvariantCulture, $"E{n},2026-01-01,MUST_RECEIVED,,,L{n},,-{n},,,,,,"));
        var trial = Csv.Import(new(), ImportedBook.Written([.. rows]));
        Assert.Equal(Enumerable.Range(1, 100), trial.Refusals.Select(refusal => refusal.Row!.Value));
    }

    [Theory]
    [InlineData("wine into must", "A,2026-01-02,MUST_TRANSFER,WINE,,JUICE,,1000,,,,,,", RefusalCode.UnknownLot)]
    [InlineData("must into bottles", "A,2026-01-02,BOTTLED,JUICE,,J-75,,750,1,750,,,,", RefusalCode.UnknownLot)]
    [InlineData("must into a blend", "A,2026-01-02,BLEND_USED,JUICE,,,,1000,,,,,,", RefusalCode.UnknownLot)]
    [InlineData("a process not cleared", "A,2026-01-02,SWEETEN_USED,WINE,,,,1000,,,,,,", RefusalCode.ProcessNotCleared)]
    [InlineData("another size of a bottling", "A,2026-01-02,BOTTLED,WINE,,W-75,,1000,1,1000,,,,", RefusalCode.OtherBottleSize)]
    [InlineData("more bottles than there are", "A,2026-01-02,OWN_USE,W-75,,,,75000,100,750,,,,", RefusalCode.MoreThanIsThere)]
    [InlineData("more wine than there is", "A,2026-01-02,SPILLAGE,WINE,,,,92500.001,,,,,,", RefusalCode.MoreThanIsThere)]
    [InlineData("more re-classed than there is", "A,2026-01-02,CLASS_CHANGE,WINE,,WINE,,92500.001,,,17,,,", RefusalCode.MoreThanIsThere)]
    [InlineData("more bottles re-classed than there are", "A,2026-01-02,CLASS_CHANGE_BOTTLED,W-75,,W-75,,8250,11,750,17,,,", RefusalCode.MoreThanIsThere)]
    [InlineData("a treatment of an unknown lot", "A,2026-01-02,TREATMENT,NOBODY,,,,,,,,,,", RefusalCode.UnknownLot)]
    [InlineData("a swap that takes nothing back", "A,2026-01-02,RECEIVED_BULK,WINE,,,,1000,,,,,,", RefusalCode.WrongDirection)]
    [InlineData("opening later", "A,2026-01-02,OPENING,,,LATE,,1000,,,12,,,", RefusalCode.OpeningNotFirst)]
    [InlineData("before the opening", "A,2025-12-31,RECEIVED_BULK,,,EARLY,,1000,,,12,,,", RefusalCode.OpeningNotFirst)]
    public void What_can_not_have_happened_is_refused(string what, string row, RefusalCode code)
    {
        var book = new ImportedBook();
        book.TakeRows("O,2026-01-01,OPENING,,,WINE,,100000,,,12,,,", "P,2026-01-01,MUST_RECEIVED,,,JUICE,,50000,,,,,,", "Q,2026-01-01,BOTTLED,WINE,,W-75,,7500,10,750,,,,");
        var refusal = book.Refused(row);
        Assert.Equal((what, code, 1), (what, refusal.Code, refusal.Row));
    }

    [Fact]
    public void Wine_is_not_given_before_it_is_there_not_even_within_one_event()
    {
        var book = new ImportedBook();
        book.TakeRows("O,2026-01-01,RECEIVED_BULK,,,WINE,,1000,,,12,,,");
        string[] rows = ["A,2026-01-02,SPILLAGE,WINE,,,,1500,,,,,,", "A,2026-01-02,RECEIVED_BULK,,,WINE,,5000,,,17,,,"];
        Assert.Equal(RefusalCode.MoreThanIsThere, book.Refused(rows).Code);
        Array.Reverse(rows);
        book.TakeRows(rows);
    }

    [Fact]
    public void An_event_happens_on_one_day()
    {
        var refusal = new ImportedBook().Refused("A,2026-01-01,RECEIVED_BULK,,,W,,9000,,,12,,,", "A,2026-01-02,TRANSIT_LOSS,W,,,,10,,,,,,");
        Assert.Equal((RefusalCode.NoSuchDay, 2), (refusal.Code, refusal.Row));
    }

    [Fact]
    public void A_known_event_with_other_content_is_refused_and_nothing_beside_it_goes_in()
    {
        var book = ImportedBook.Of(ImportedBook.Worked);
        var refusal = book.RefusedFile(Edited(8, "volume_ml", "251") + "\n" + "105,E900,2025-11-30,2025-12-01,m.k.,MUST_RECEIVED,EXT:SUPPLIER,,MUST,NEW,1000,,,,,,");
        Assert.Equal((RefusalCode.EventDiffers, 8), (refusal.Code, refusal.Row));
        Assert.Null(book.Book.Entries.FirstOrDefault(entry => entry.EventId == "E900"));
    }

    [Theory]
    [InlineData("document", "X")]
    [InlineData("note", "another")]
    [InlineData("entered_by", "z.z.")]
    [InlineData("entered_on", "2025-09-05")]
    [InlineData("abv_pct", "13.2")]
    public void Every_stated_fact_is_content(string column, string value) =>
        Assert.Equal(RefusalCode.EventDiffers, ImportedBook.Of(ImportedBook.Worked).RefusedFile(Edited(8, column, value)).Code);

    [Fact]
    public void The_row_number_alone_is_no_content()
    {
        var book = ImportedBook.Of(ImportedBook.Worked);
        Assert.Equal(79, book.Take(Edited(8, "row", "8000")).Skipped);
    }

    [Fact]
    public void A_closed_period_takes_no_rows_but_what_it_holds_already_is_skipped()
    {
        var book = ImportedBook.Of(ImportedBook.Worked);
        book.Record(new Close { Day = new(2025, 12, 15), Through = new(2025, 11, 30) });
        Assert.Equal(79, book.Take(ImportedBook.Worked).Skipped);
        var refusal = book.Refused("N,2025-11-30,MUST_RECEIVED,,,NEW,,1000,,,,,,");
        Assert.Equal((RefusalCode.PeriodClosed, "date", 1), (refusal.Code, refusal.Path, refusal.Row));
        Assert.Single(book.TakeRows("N,2025-12-01,MUST_RECEIVED,,,NEW,,1000,,,,,,").Entries);
    }
}
