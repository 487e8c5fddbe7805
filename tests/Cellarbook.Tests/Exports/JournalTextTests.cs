using System.Globalization;
using System.Text.RegularExpressions;
using Cellarbook.Core.Book;
using Cellarbook.Exports;
using CsCheck;
using Xunit;

namespace Cellarbook.Tests.Exports;

/// <summary>
/// The journal is read without complaint by hledger and ledger, adds up to what we say lies in the cellar (law 2, law 6), and a change of the
/// smallest unit is noticed by both.
/// </summary>
public partial class JournalTextTests
{
    private static string Journal(Book book)
    {
        using var writer = new StringWriter();
        JournalText.Write(book, writer);
        return writer.ToString();
    }

    private static void Judge(Book book)
    {
        var journal = Journal(book);
        Assert.Equal(("", ""), Judges.Objections(journal));
        var ours = Judges.StockOf(book.Now);
        var (hledger, ledger) = Judges.Balances(journal);
        Assert.Equal(ours, Judges.StockAmong(hledger));
        Assert.Equal(ours, Judges.StockAmong(ledger));
        // Counter-accounts too: both say the same, and everything together is nil.
        Assert.Equal(hledger, ledger);
        foreach (var commodity in ledger.GroupBy(balance => balance.Key[(balance.Key.LastIndexOf(' ') + 1)..])) Assert.Equal(0, commodity.Sum(balance => balance.Value));
    }

    [Fact]
    public void Both_judges_accept_the_worked_quarter_and_add_it_up_as_we_do()
    {
        var book = Books.Worked();
        Assert.NotEmpty(Judges.StockOf(book.Now));
        Judge(book);
    }

    [Fact]
    public void Both_judges_accept_a_household_s_book_with_umlauts_blanks_bottles_and_fruit()
    {
        var book = Books.Household();
        Assert.Equal(["bottles", "g", "uL"], Judges.StockOf(book.Now).Keys.Select(key => key[(key.LastIndexOf(' ') + 1)..]).Distinct().Order(StringComparer.Ordinal));
        Judge(book);
        Assert.All(Journal(book), c => Assert.True(c < 0x80));
    }

    [Fact]
    public void Both_judges_accept_the_demonstration_book_and_add_it_up_as_we_do()
    {
        using var folder = new ScratchFolder();
        using var open = new Recording.OpenBook(Cellarbook.Storage.BookStore.Open(folder.File("demo")), Hosting.DemoBook.Clock);
        Hosting.DemoBook.Fill(open);
        open.Read(book =>
        {
            Assert.True(Judges.StockOf(book.Now).Count > 10);
            Judge(book);
            return 0;
        });
    }

    [Fact]
    public void Every_stock_posting_asserts_its_balance()
    {
        var lines = Journal(Books.Worked()).Split('\n').Where(line => line.StartsWith("    ", StringComparison.Ordinal)).ToList();
        Assert.True(lines.Count > 200);
        Assert.All(lines, line => Assert.Matches(PostingLine(), line));
    }

    [Fact]
    public void What_was_taken_back_while_open_is_left_out_and_named()
    {
        var journal = Journal(Books.Household());
        Assert.DoesNotContain("(9)", journal, StringComparison.Ordinal);
        Assert.Contains("; Entry 9 of 2026-05-20 is left out: entry 12 of 2026-06-02 took it back.", journal, StringComparison.Ordinal);
    }

    [Fact]
    public void An_empty_book_is_an_empty_journal() => Assert.Equal(("", ""), Judges.Objections(Journal(new Book())));

    [Fact]
    public void One_microlitre_or_one_bottle_more_anywhere_is_caught_by_both()
    {
        var journal = Journal(Books.Worked());
        var amounts = Amount().Matches(journal);
        // A line at the beginning, in the middle and at the end, and one of bottles.
        var chosen = new[] { amounts[3], amounts[amounts.Count / 2], amounts[^1], amounts.First(match => match.Value.Contains("bottles", StringComparison.Ordinal)) };
        foreach (var match in chosen)
        {
            var number = match.Groups["amount"];
            var spoilt = string.Concat(journal.AsSpan(0, number.Index), (long.Parse(number.Value, CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture), journal.AsSpan(number.Index + number.Length));
            var (hledger, ledger) = Judges.Objections(spoilt);
            Assert.NotEqual("", hledger);
            Assert.NotEqual("", ledger);
        }
    }

    [Fact]
    public void A_balance_that_is_out_by_one_is_caught_by_both()
    {
        var journal = Journal(Books.Worked());
        var balances = Asserted().Matches(journal);
        var number = balances[balances.Count / 2].Groups["balance"];
        var (hledger, ledger) = Judges.Objections(string.Concat(journal.AsSpan(0, number.Index), (long.Parse(number.Value, CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture), journal.AsSpan(number.Index + number.Length)));
        Assert.NotEqual("", hledger);
        Assert.NotEqual("", ledger);
    }

    [Fact]
    public void Both_judges_add_random_books_up_as_we_do()
    {
        Gen.Select(Gen.Int[0, RandomBooks.Kinds - 1], Gen.Int[0, 999_999], Gen.Int[0, 999_999]).List[60, 120].Sample(steps =>
        {
            var book = RandomBooks.Of(steps);
            Assert.True(book.Pages.Count > 0);
            Judge(book);
        }, iter: 8, threads: 1);
    }

    [GeneratedRegex(@"^    \S(?: ?\S)*  -?\d+ (uL|bottles|g) = -?\d+ \1(  ; [A-Z_]+)?$")]
    private static partial Regex PostingLine();

    [GeneratedRegex(@"  (?<amount>-?\d+) (uL|bottles|g) = ")]
    private static partial Regex Amount();

    [GeneratedRegex(@" = (?<balance>-?\d+) (uL|bottles|g)")]
    private static partial Regex Asserted();
}
