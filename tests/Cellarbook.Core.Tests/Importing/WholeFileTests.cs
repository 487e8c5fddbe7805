using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>A whole history comes in, in whatever order its rows and columns stand, and twice without harm.</summary>
public class WholeFileTests
{
    private const int Events = 79;

    public static TheoryData<string> Ledgers => new("records/worked_period.csv", "records/second_year.csv");

    private static string Text(string ledger) => File.ReadAllText(Csv.DataFile(ledger));

    [Fact]
    public void The_worked_quarter_goes_in_whole()
    {
        var book = new ImportedBook();
        var trial = book.Take(ImportedBook.Worked);
        Assert.Equal(Events, book.Book.Entries.Count);
        Assert.Equal(104, book.Book.Entries.Sum(entry => entry.Deeds.Sum(deed => deed.Postings.Count)));
        Assert.Equal(0, trial.Skipped);
        Assert.Empty(trial.Flags);
        Assert.Equal("MUST → nothing", book.Book.Now.Places.Any(place => place.Account.Section == Section.Must && !place.IsEmpty) ? "must is left" : "MUST → nothing");
    }

    [Theory]
    [MemberData(nameof(Ledgers))]
    public void Twice_without_harm_everything_is_skipped(string ledger)
    {
        var book = ImportedBook.Of(Text(ledger));
        var (postings, stock, entries) = (ImportedBook.Postings(book.Book), ImportedBook.Stock(book.Book), book.Book.LastNumber);
        var again = book.Take(Text(ledger));
        Assert.Equal(entries, again.Skipped);
        Assert.Empty(again.Entries);
        Assert.Equal((postings, stock, entries), (ImportedBook.Postings(book.Book), ImportedBook.Stock(book.Book), book.Book.LastNumber));
    }

    [Theory]
    [MemberData(nameof(Ledgers))]
    public void Rows_in_any_order_of_the_file_make_the_same_book(string ledger)
    {
        var whole = ImportedBook.Of(Text(ledger));
        var lines = Text(ledger).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        for (var seed = 1; seed <= 5; seed++)
        {
            var rows = lines[1..];
            new Random(seed).Shuffle(rows);
            var shuffled = ImportedBook.Of(string.Join('\n', rows.Prepend(lines[0])));
            Assert.Equal(ImportedBook.Postings(whole.Book), ImportedBook.Postings(shuffled.Book));
            Assert.Equal(ImportedBook.Stock(whole.Book), ImportedBook.Stock(shuffled.Book));
            Assert.Equal(whole.Book.LastNumber, shuffled.Take(Text(ledger)).Skipped);
        }
    }

    [Theory]
    [MemberData(nameof(Ledgers))]
    public void A_history_in_parts_is_the_same_history(string ledger)
    {
        var whole = ImportedBook.Of(Text(ledger));
        var records = Csv.Records(Text(ledger));
        var (date, head) = (records[0].IndexOf("date"), Text(ledger).Split('\n')[0]);
        var parts = Text(ledger).Split('\n', StringSplitOptions.RemoveEmptyEntries)[1..].Zip(records.Skip(1)).GroupBy(row => row.Second[date][..7]).OrderBy(month => month.Key);
        var book = new ImportedBook();
        foreach (var month in parts) book.Take(string.Join('\n', month.Select(row => row.First).Prepend(head)));
        Assert.Equal(ImportedBook.Postings(whole.Book), ImportedBook.Postings(book.Book));
        Assert.Equal(ImportedBook.Stock(whole.Book), ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void Columns_stand_in_any_order_and_line_ends_and_a_mark_of_byte_order_do_no_harm()
    {
        var records = Csv.Records(ImportedBook.Worked);
        var order = Enumerable.Range(0, records[0].Count).Reverse().ToArray();
        var text = "\uFEFF" + string.Join("\r\n", records.Select(record => string.Join(',', order.Select(i => Quoted(record[i])))));
        Assert.Equal(ImportedBook.Postings(ImportedBook.Of(ImportedBook.Worked).Book), ImportedBook.Postings(ImportedBook.Of(text).Book));
    }

    [Fact]
    public void Only_the_needed_columns_are_needed()
    {
        var book = ImportedBook.Of("event_id,date,category,volume_ml,lot_to\nA,2026-01-01,MUST_RECEIVED,23000,KIT\nB,2026-01-02,WATER_ADDED_MUST,2000.5,KIT\n");
        Assert.Equal("MUST:KIT:unplaced 25.0005 L 0 still, strength not stated", ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void Without_row_numbers_the_place_in_the_file_is_the_order_of_a_day()
    {
        var book = ImportedBook.Of(Without(ImportedBook.Worked, "row"));
        Assert.Equal(ImportedBook.Postings(ImportedBook.Of(ImportedBook.Worked).Book), ImportedBook.Postings(book.Book));
        Assert.Equal(Events, book.Take(ImportedBook.Worked).Skipped);
    }

    [Fact]
    public void A_row_without_a_number_counts_by_its_place_so_that_the_order_is_one_for_all()
    {
        // Rows 3, none (second in the file), 1: by number and place 1, 2, 3. A rule that compared numbers only where both have one would run in a ring.
        const string head = "row,event_id,date,category,lot_from,lot_to,volume_ml\n";
        var rows = Enumerable.Range(1, 40).Select(n => (n % 3 == 0 ? "" : (41 - n).ToString(System.Globalization.CultureInfo.InvariantCulture), n))
            .Select(row => $"{row.Item1},E{row.n},2026-01-01,MUST_RECEIVED,,L{row.n},1000\n");
        var trial = Csv.Import(new Book.Book(), head + string.Concat(rows));
        var wanted = Enumerable.Range(1, 40).OrderBy(n => n % 3 == 0 ? n : 41 - n).ThenBy(n => n).Select(n => $"E{n}");
        Assert.Equal(wanted, trial.Entries.Select(entry => entry.EventId));
    }

    [Fact]
    public void Rows_of_one_event_may_lie_apart_and_are_one_entry()
    {
        var book = new ImportedBook();
        book.TakeRows(
            "A,2026-01-01,RECEIVED_BULK,,,W1,,50000,,,12,,,", "B,2026-01-01,MUST_RECEIVED,,,M1,,9000,,,,,,",
            "A,2026-01-01,TRANSIT_LOSS,W1,,,,200,,,,,,", "B,2026-01-01,MUST_SPILLED,M1,,,,100,,,,,,");
        Assert.Equal(["BULK 2", "MUST 2"], book.Book.Entries.Select(entry => $"{entry.Deeds[0].Postings[0].To.Section.ToString().ToUpperInvariant()} {entry.Deeds[0].Postings.Count}"));
    }

    private static string Quoted(string field) => field.Contains(',') || field.Length > 8 ? $"\"{field}\"" : field;

    internal static string Without(string text, params string[] columns)
    {
        var records = Csv.Records(text);
        var keep = Enumerable.Range(0, records[0].Count).Where(i => !columns.Contains(records[0][i])).ToArray();
        return string.Join('\n', records.Select(record => string.Join(',', keep.Select(i => Quoted(record[i])))));
    }
}
