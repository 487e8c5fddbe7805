using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Importing;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>Where a statement begins and what it says at the edges of a book (law 6).</summary>
public class StatementEdgeTests
{
    private static PlainStatement Plain(ImportedBook book, string from, string to) => PlainStatement.Build(book.Book, new(DateOnly.Parse(from, System.Globalization.CultureInfo.InvariantCulture), DateOnly.Parse(to, System.Globalization.CultureInfo.InvariantCulture)), ClassScheme.Default);

    private static IEnumerable<string> Text(PlainStatement plain) => plain.Lines.Select(line => $"{line.Section.Word()} {line.Class} {line.Direction} {line.Category} {line.Volume.Litres} {line.Bottles}");

    private static ImportedBook Opened()
    {
        var book = new ImportedBook();
        book.TakeRows("O,2026-01-10,OPENING,,,W,,100000,,,12,,,", "O,2026-01-10,OPENING,,,W-75,,7500,10,750,12,,,", "A,2026-01-10,SPILLAGE,W,,,,1000,,,,,,", "B,2026-02-20,SPILLAGE,W,,,,2000,,,,,,");
        return book;
    }

    [Fact]
    public void An_empty_book_states_nothing_and_says_so()
    {
        var book = new Book.Book();
        var statement = UsStatement.Build(book, new(new(2026, 1, 1), new(2026, 1, 31)));
        Assert.Empty(statement.Figures);
        Assert.Equal(["The book is empty."], statement.Notes);
        Assert.Empty(LotStatement.Build(book, new(2026, 1, 1), ClassScheme.Default).Lines);
        Assert.Equal(Volume.None, LossCheck.Build(book, new(new(2026, 1, 1), new(2026, 1, 31))).Allowance);
        Assert.Empty(LotAccount.OfLot(book, "W").Lines);
    }

    [Fact]
    public void Before_the_books_first_day_there_is_nothing_to_state()
    {
        var plain = Plain(Opened(), "2025-12-01", "2026-01-09");
        Assert.Empty(plain.Lines);
        Assert.Equal(["The book begins on 2026-01-10, after this period."], plain.Notes);
        Assert.Empty(LotStatement.Build(Opened().Book, new(2026, 1, 9), ClassScheme.Default).Lines);
    }

    [Theory]
    [InlineData("2026-01-01", "2026-01-31")]
    [InlineData("2026-01-10", "2026-01-10")]
    [InlineData("2020-01-01", "2026-02-19")]
    public void Asked_from_before_its_first_day_it_starts_there_with_the_stock_brought_forward_as_opening(string from, string to)
    {
        var plain = Plain(Opened(), from, to);
        Assert.Equal(["bulk A16 Opening  100 0", "bulk A16 Out SPILLAGE 1 0", "bulk A16 Closing  99 0", "bottled A16 Opening  7.5 10", "bottled A16 Closing  7.5 10"], Text(plain));
        Assert.Equal(new(2026, 1, 10), plain.Stated.From);
        Assert.Equal(from != "2026-01-10", plain.Notes.Count == 1);
    }

    [Fact]
    public void A_class_with_stock_and_no_movement_is_still_stated_and_after_the_last_entry_too() =>
        Assert.Equal(["bulk A16 Opening  97 0", "bulk A16 Closing  97 0", "bottled A16 Opening  7.5 10", "bottled A16 Closing  7.5 10"], Text(Plain(Opened(), "2031-03-03", "2031-03-04")));

    [Fact]
    public void Whole_gallons_of_a_book_begun_in_the_middle_of_a_month_open_at_half_up_and_go_on_from_what_was_reported()
    {
        var book = Opened().Book;
        // 100 L = 26.417 gal → 26; 1 L = 0.26417 → 0; 99 L = 26.153 → 26. Then 97 L = 25.624 → 26, and 2 L = 0.528 → 1: one of them gives way.
        var january = UsStatement.Build(book, new(new(2026, 1, 1), new(2026, 1, 31)));
        Assert.Equal("A1 26, A12 26, A29 0, A31 26, A32 26", string.Join(", ", january.Figures.Where(figure => figure.Section.Name == "BULK").Select(figure => $"{figure.Line.Line} {figure.WholeGallons}")));
        var february = UsStatement.Build(book, new(new(2026, 2, 1), new(2026, 2, 28)));
        Assert.Equal("A1 26, A12 26, A29 0, A31 26, A32 26", string.Join(", ", february.Figures.Where(figure => figure.Section.Name == "BULK").Select(figure => $"{figure.Line.Line} {figure.WholeGallons}")));
    }

    [Fact]
    public void Stock_brought_forward_that_is_taken_back_later_leaves_the_opening_as_stated()
    {
        var book = Opened();
        book.TakeRows("X,2026-03-05,SPILLAGE,,,W,,1000,,,,A,,", "Y,2026-03-05,SPILLAGE,,,W,,2000,,,,B,,", "Z,2026-03-05,OPENING,W,,,,100000,,,,O,,", "Z,2026-03-05,OPENING,W-75,,,,7500,10,750,,O,,");
        Assert.Equal(["bulk A16 Opening  100 0", "bulk A16 Out SPILLAGE 1 0", "bulk A16 Closing  99 0", "bottled A16 Opening  7.5 10", "bottled A16 Closing  7.5 10"], Text(Plain(book, "2026-01-01", "2026-01-31")));
        Assert.Equal(["bulk A16 Opening  97 0", "bulk A16 In OPENING -100 0", "bulk A16 Out SPILLAGE -3 0", "bulk A16 Closing  0 0", "bottled A16 Opening  7.5 10", "bottled A16 In OPENING -7.5 -10", "bottled A16 Closing  0 0"], Text(Plain(book, "2026-03-01", "2026-03-31")));
        var statement = UsStatement.Build(book.Book, new(new(2026, 3, 1), new(2026, 3, 31)));
        Assert.Equal("A1 97, A11 -100, A12 -3, A29 -3, A31 0, A32 -3, B1 7.5, B5 -7.5, B7 0, B20 0, B21 0", string.Join(", ", statement.Figures.Select(figure => $"{figure.Line.Line} {figure.Volume.Litres}")));
        Assert.Contains(statement.Notes, note => note.ToString().Contains("A11", StringComparison.Ordinal));
        Assert.Equal(Volume.OfLitres(97), LossCheck.Build(book.Book, new(new(2026, 3, 1), new(2026, 3, 31)))["opening"]);
    }

    [Fact]
    public void Wine_without_a_stated_strength_stands_in_a_class_of_its_own_and_is_left_out_of_the_form_with_a_note()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-10,RECEIVED_BULK,,,W,,100000,,,,,,BULK:A16");
        Assert.Equal(["bulk unstated Opening  0 0", "bulk unstated In RECEIVED_BULK 100 0", "bulk unstated Closing  100 0"], Text(Plain(book, "2026-01-01", "2026-01-31")));
        var statement = UsStatement.Build(book.Book, new(new(2026, 1, 1), new(2026, 1, 31)));
        Assert.Empty(statement.Figures);
        Assert.Contains(statement.Notes, note => note.ToString().StartsWith("100 L bulk, strength not stated", StringComparison.Ordinal));
    }

    [Fact]
    public void What_was_taken_back_is_negative_in_its_direction_and_category()
    {
        var book = Opened();
        book.TakeRows("X,2026-03-05,SPILLAGE,,,W,,2000,,,,B,,");
        Assert.Equal(["bulk A16 Opening  97 0", "bulk A16 Out SPILLAGE -2 0", "bulk A16 Closing  99 0"], Text(Plain(book, "2026-03-01", "2026-03-31")).Take(3));
    }

    [Fact]
    public void The_loss_check_covers_any_period_names_its_entries_and_rounds_down_to_a_millilitre()
    {
        var book = new ImportedBook();
        book.TakeRows("O,2026-01-01,OPENING,,,W,,100033,,,12,,,", "O,2026-01-01,OPENING,,,F,,50000,,,12,,,BULK:E_SPKL", "P,2026-01-05,MUST_RECEIVED,,,M,,10000,,,,,,",
            "Q,2026-01-20,PRODUCED,M,,M,,9999,,,13,,,", "R,2026-01-21,LEES_REMOVED,W,,,,4000,,,,,,", "S,2026-01-21,SPILLAGE,F,,,,500,,,,,,", "T,2026-02-01,INVENTORY_GAIN_BULK,,,W,,7,,,,,,", "U,2026-02-01,RECEIVED_BULK,,,N,,1000,,,11,,,");
        var january = LossCheck.Build(book.Book, new(new(2026, 1, 1), new(2026, 1, 31)));
        Assert.Equal(["opening 100.033 by 1", "received 0 by ", "produced 9.999 by 3", "gain 0 by ", "lost 4 by 4"], january.Figures.Select(figure => $"{figure.Name} {figure.Volume.Litres} by {string.Join(' ', figure.Entries)}"));
        // 3 % of 100 033 mL is 3000.99, 6 % of 9 999 mL is 599.94: 3600.93 together, rounded once.
        Assert.Equal(Volume.OfMillilitres(3600), january.Allowance);
        Assert.True(january.IsOver);
        var february = LossCheck.Build(book.Book, new(new(2026, 2, 1), new(2026, 2, 28)));
        Assert.Equal(["opening 106.032 by ", "received 1 by 7", "produced 0 by ", "gain 0.007 by 6", "lost 0 by "], february.Figures.Select(figure => $"{figure.Name} {figure.Volume.Litres} by {string.Join(' ', figure.Entries)}"));
        Assert.False(february.IsOver);
    }

    [Fact]
    public void The_lots_on_hand_are_summed_over_places_and_a_lot_in_two_classes_has_two_lines()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,100000,,,15,,,", "B,2026-01-02,LOT_TRANSFER,W,T1,W,T2,20000,,,,,,", "C,2026-01-03,CLASS_CHANGE,W,T1,W,T3,30000,,,16.4,,,", "D,2026-01-04,MUST_RECEIVED,,,W,T4,5000,,,,,,",
            "E,2026-01-05,BOTTLED,W,T2,W-75,S1,7500,10,750,,,,", "F,2026-01-05,BOTTLED,W,T2,W-75,S2,1500,2,750,,,,", "G,2026-01-06,RECEIVED_BULK,,,A,,1000,,,15,,,");
        Assert.Equal(["must  W 5 0", "bulk A16 A 1 0", "bulk A16 W 61 0", "bulk B21 W 30 0", "bottled A16 W-75 9 12"],
            LotStatement.Build(book.Book, new(2026, 1, 6), ClassScheme.Default).Lines.Select(line => $"{line.Section.Word()} {line.Class} {line.Lot} {line.Volume.Litres} {line.Bottles}"));
        Assert.Equal(["bulk A16 W 100 0"], LotStatement.Build(book.Book, new(2026, 1, 2), ClassScheme.Default).Lines.Select(line => $"{line.Section.Word()} {line.Class} {line.Lot} {line.Volume.Litres} {line.Bottles}"));
    }

    [Fact]
    public void A_correction_in_an_open_period_changes_the_opening_itself()
    {
        var book = new ImportedBook();
        book.Record(new Open { Day = new(2026, 1, 10), Stocks = [new() { What = "wine", Lot = "W", Litres = Volume.OfLitres(100), Abv = new(1200) }] });
        book.Record(new Correct { Day = new(2026, 2, 1), TakesBack = new(1, null), Reason = "read wrongly", Write = [new Open { Day = new(2026, 1, 10), Stocks = [new() { What = "wine", Lot = "W", Litres = Volume.OfLitres(98), Abv = new(1200) }] }] });
        Assert.Equal(["bulk A16 Opening  98 0", "bulk A16 Closing  98 0"], Text(Plain(book, "2026-01-01", "2026-01-31")));
    }
}
