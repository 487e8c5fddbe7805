using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Noticing;
using Xunit;

namespace Cellarbook.Core.Tests.Passbook;

/// <summary>A lot's page reads like a passbook, and its small account says where the litres went.</summary>
public class LotPassbookTests
{
    private static WrittenBook Life() => WrittenBook.Of(
        """{"kind":"vessel","day":"2026-03-01","code":"V1","capacityLitres":30}""", """{"kind":"vessel","day":"2026-03-01","code":"V2","capacityLitres":30}""",
        """{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":23}""",
        """{"kind":"measure","day":"2026-03-05","lot":"L1","gravity":1.050}""",
        """{"kind":"declareWine","day":"2026-03-20","lot":"L1","litres":22.6,"abv":12.5,"losses":[{"kind":"lees","litres":0.3}]}""",
        """{"kind":"transfer","day":"2026-04-01","sources":[{"lot":"L1","vessel":"V1","litres":22.6}],"targets":[{"lot":"L1","vessel":"V2","litres":22.1}],"losses":[{"kind":"lees","litres":0.5}]}""",
        """{"kind":"bottle","day":"2026-06-01","lot":"L1","vessel":"V2","fills":[{"bottling":"L1-75","bottles":29,"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.35}]}""");

    private static string[] Rows(WrittenBook book, string lot) =>
        [.. LotPassbook.Of(book.Book, book.Index, lot).Lines.Select(line => $"{line.Placed.Deed.Day:d MMM}: {(line.Placed.IsStruck ? "struck " : "")}in {line.In.Litres} out {line.Out.Litres} left {line.Balance.Litres}")];

    [Fact]
    public void A_life_from_must_to_bottle_reads_line_by_line()
    {
        Assert.Equal(
        [
            "1 Mar: in 23 out 0 left 23",
            "5 Mar: in 0 out 0 left 23",
            "20 Mar: in 0 out 0.4 left 22.6",
            "1 Apr: in 0 out 0.5 left 22.1",
            "1 Jun: in 0 out 22.1 left 0",
        ], Rows(Life(), "L1"));
    }

    [Fact]
    public void The_small_account_found_by_the_index_is_the_one_leafed_through_and_ends_where_the_passbook_ends()
    {
        var book = Life();
        book.Write("""{"kind":"correct","day":"2026-06-02","takesBack":7,"reason":"counted wrong","write":{"kind":"bottle","day":"2026-06-01","lot":"L1","vessel":"V2","fills":[{"bottling":"L1-75","bottles":28,"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.35}]}}""");
        book.Write("""{"kind":"remove","as":"gift","day":"2026-06-03","bottling":"L1-75","bottles":3}""");
        var account = LotAccount.OfLot(book.Book, book.Index, "L1");
        Assert.Equal(Said(LotAccount.OfLot(book.Book, "L1")), Said(account));
        Assert.Equal(Said(LotAccount.OfBottling(book.Book, "L1-75")), Said(LotAccount.OfBottling(book.Book, book.Index, "L1-75")));
        Assert.Equal(LotPassbook.Of(book.Book, book.Index, "L1").Lines[^1].Balance, account.Left);
        Assert.Contains("Out LEES_REMOVED 0.5 L 0 of 6", Said(account));
    }

    [Fact]
    public void A_line_taken_back_stays_in_sight_struck_before_what_stands_in_its_place_and_counts_for_nothing()
    {
        var book = Life();
        book.Write("""{"kind":"correct","day":"2026-06-02","takesBack":7,"reason":"counted wrong","write":{"kind":"bottle","day":"2026-06-01","lot":"L1","vessel":"V2","fills":[{"bottling":"L1-75","bottles":28,"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.35}]}}""");
        Assert.Equal(["1 Jun: struck in 0 out 22.1 left 22.1", "1 Jun: in 0 out 21.35 left 0.75"], Rows(book, "L1")[^2..]);
    }

    [Fact]
    public void A_late_entry_reads_where_it_happened()
    {
        var book = Life();
        book.Write("""{"kind":"measure","day":"2026-03-02","lot":"L1","gravity":1.081}""");
        Assert.Equal("2 Mar: in 0 out 0 left 23", Rows(book, "L1")[1]);
    }

    [Fact]
    public void Lots_that_flow_into_each_other_know_their_kin()
    {
        var book = Life();
        book.Write("""{"kind":"receive","day":"2026-03-01","what":"bulkWine","lot":"L2","litres":5,"abv":12}""");
        book.Write("""{"kind":"transfer","day":"2026-04-02","sources":[{"lot":"L2","litres":2}],"targets":[{"lot":"L1","vessel":"V2","litres":2}]}""");
        Assert.Equal([new("L2", Volume.OfLitres(2))], LotPassbook.Of(book.Book, book.Index, "L1").CameFrom);
        Assert.Equal([new("L1", Volume.OfLitres(2))], LotPassbook.Of(book.Book, book.Index, "L2").WentTo);
    }

    [Fact]
    public void A_blend_made_as_a_process_tells_its_kin_too()
    {
        var book = WrittenBook.Of(
            """{"kind":"receive","day":"2026-03-01","what":"bulkWine","lot":"A","litres":5,"abv":12}""", """{"kind":"receive","day":"2026-03-01","what":"bulkWine","lot":"B","litres":3,"abv":17}""",
            """{"kind":"blend","day":"2026-03-02","sources":[{"lot":"A","litres":5},{"lot":"B","litres":3}],"targets":[{"lot":"C","litres":8,"abv":13.9}]}""");
        Assert.Equal(["A", "B"], LotPassbook.Of(book.Book, book.Index, "C").CameFrom.Select(kin => kin.Lot));
        Assert.Equal(["C"], LotPassbook.Of(book.Book, book.Index, "A").WentTo.Select(kin => kin.Lot));
    }

    private static string[] Said(LotAccount account) => [.. account.Lines.Concat(account.Within).Select(line => $"{line.Direction} {line.Category} {line.Volume} {line.Bottles} of {string.Join(", ", line.Entries)}"), $"left {account.Left} {account.LeftBottles}"];
}
