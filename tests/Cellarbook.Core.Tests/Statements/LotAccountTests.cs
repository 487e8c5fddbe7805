using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Importing;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>"Where did these 14 litres go": a lot's own small account, each figure with the entries behind it (law 8).</summary>
public class LotAccountTests
{
    private static IEnumerable<string> Text(IEnumerable<LotAccountLine> lines) =>
        lines.Select(line => $"{line.Direction} {line.Category}{(line.Other.Length > 0 ? $" {line.Other}" : "")} {line.Volume.Litres}{(line.Bottles.Bottles != 0 ? $" ({line.Bottles})" : "")} by {string.Join(' ', line.Entries)}");

    /// <summary>A kit of 23 L: declared, racked, topped up from another lot, bottled.</summary>
    private static ImportedBook Kit()
    {
        var book = new ImportedBook();
        book.TakeRows(
            "1,2026-03-01,MUST_RECEIVED,,,KIT,V1,11000,,,,,,", "2,2026-03-01,WATER_ADDED_MUST,,,KIT,,12000,,,,,,", "3,2026-03-01,RECEIVED_BULK,,,OLD,,5000,,,12,,,",
            "4,2026-03-15,PRODUCED,KIT,V1,KIT,V2,22200,,,12.5,,,", "4,2026-03-15,MUST_SOLIDS_REMOVED,KIT,V1,,,500,,,,,,", "4,2026-03-15,FERMENT_VOLUME_CHANGE,KIT,V1,,,300,,,,,,",
            "5,2026-04-01,LOT_TRANSFER,KIT,V2,KIT,V3,21800,,,,,,", "5,2026-04-01,LEES_REMOVED,KIT,V2,,,400,,,,,,", "6,2026-04-02,LOT_TRANSFER,OLD,,KIT,,1000,,,,,,",
            "7,2026-04-10,SAMPLE_BULK,KIT,,,,100,,,,,,", "8,2026-04-11,SAMPLE_BULK,KIT,,,,150,,,,,,",
            "9,2026-05-20,BOTTLED,KIT,,KIT-75,,15000,20,750,,,,", "9,2026-05-20,BOTTLED,KIT,,KIT-37,,3750,10,375,,,,", "9,2026-05-20,BOTTLING_LOSS,KIT,,,,350,,,,,,",
            "10,2026-05-21,UNBOTTLED,KIT-75,,KIT,,750,1,750,,,,", "11,2026-05-22,TASTING,KIT-75,,,,1500,2,750,,,,", "12,2026-05-30,SAMPLE_BULK,,,KIT,,150,,,,8,,");
        return book;
    }

    [Fact]
    public void In_and_out_by_kind_and_what_is_left_each_with_its_entries()
    {
        var account = LotAccount.OfLot(Kit().Book, "KIT");
        Assert.Equal(
            ["In MUST_RECEIVED 11 by 1", "In WATER_ADDED_MUST 12 by 2", "In UNBOTTLED KIT-75 0.75 (1) by 10", "In LOT_TRANSFER OLD 1 by 6",
             "Out MUST_SOLIDS_REMOVED 0.5 by 4", "Out FERMENT_VOLUME_CHANGE 0.3 by 4", "Out BOTTLED KIT-37 3.75 (10) by 9", "Out BOTTLED KIT-75 15 (20) by 9", "Out BOTTLING_LOSS 0.35 by 9", "Out LEES_REMOVED 0.4 by 5", "Out SAMPLE_BULK 0.1 by 7 8 12"],
            Text(account.Lines));
        Assert.Equal(["In PRODUCED 22.2 by 4", "In LOT_TRANSFER 21.8 by 5"], Text(account.Within));
        Assert.Equal((Volume.None, Volume.OfMillilitres(24750), Volume.OfMillilitres(20400), Volume.OfMillilitres(4350)), (account.Opening, account.In, account.Out, account.Left));
        Assert.Equal(BottleCount.None, account.LeftBottles);
    }

    [Fact]
    public void Over_a_period_it_opens_with_what_was_there()
    {
        var account = LotAccount.OfLot(Kit().Book, "KIT", new Period(new(2026, 4, 2), new(2026, 4, 30)));
        Assert.Equal(["In LOT_TRANSFER OLD 1 by 6", "Out SAMPLE_BULK 0.25 by 7 8"], Text(account.Lines));
        Assert.Equal((Volume.OfMillilitres(21800), Volume.OfMillilitres(22550)), (account.Opening, account.Left));
    }

    [Fact]
    public void A_bottling_has_the_same_account_in_bottles()
    {
        var account = LotAccount.OfBottling(Kit().Book, "KIT-75");
        Assert.Equal(["In BOTTLED KIT 15 (20) by 9", "Out UNBOTTLED KIT 0.75 (1) by 10", "Out TASTING 1.5 (2) by 11"], Text(account.Lines));
        Assert.Equal((17, 12_750_000), (account.LeftBottles.Bottles, account.Left.Microlitres));
        Assert.Equal(20, LotAccount.OfBottling(Kit().Book, "KIT-75", new Period(new(2026, 5, 21), new(2026, 5, 30))).OpeningBottles.Bottles);
    }

    [Fact]
    public void A_process_names_the_lots_on_its_other_side_also_when_it_is_taken_back()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,DRY,,50000,,,12,,,", "A,2026-01-01,RECEIVED_BULK,,,STRONG,,20000,,,19,,,", "A,2026-01-01,RECEIVED_BULK,,,SELF,,20000,,,15,,,",
            "B,2026-01-02,BLEND_USED,DRY,,,,20000,,,,,,", "B,2026-01-02,BLEND_USED,STRONG,,,,10000,,,,,,", "B,2026-01-02,BLEND_MADE,,,CUP,,30000,,,14.3,,,",
            "C,2026-01-03,FORTIFY_USED,SELF,,,,20000,,,,,,", "C,2026-01-03,FORTIFY_SPIRIT,,,,,1000,,,96,,,", "C,2026-01-03,FORTIFY_MADE,,,SELF,,20900,,,19,,,", "C,2026-01-03,PROCESS_CONTRACTION,,,,,100,,,,,,",
            "E,2026-01-06,RECEIVED_BULK,,,ADDED,,10,,,12,,,");
        Assert.Equal(["In RECEIVED_BULK 50 by 1", "Out BLEND_USED CUP 20 by 2"], Text(LotAccount.OfLot(book.Book, "DRY").Lines));
        Assert.Equal(["In BLEND_MADE DRY, STRONG 30 by 2"], Text(LotAccount.OfLot(book.Book, "CUP").Lines));
        Assert.Equal(["In RECEIVED_BULK 20 by 1", "In FORTIFY_MADE 20.9 by 3", "Out FORTIFY_USED 20 by 3"], Text(LotAccount.OfLot(book.Book, "SELF").Lines));
        book.TakeRows("D,2026-01-05,BLEND_USED,,,DRY,,20000,,,,B,,", "D,2026-01-05,BLEND_USED,,,STRONG,,10000,,,,B,,", "D,2026-01-05,BLEND_MADE,CUP,,,,30000,,,,B,,");
        Assert.Equal(["In RECEIVED_BULK 50 by 1", "Out BLEND_USED CUP 0 by 2 5"], Text(LotAccount.OfLot(book.Book, "DRY").Lines));
        Assert.Equal(["In BLEND_MADE DRY, STRONG 0 by 2 5"], Text(LotAccount.OfLot(book.Book, "CUP").Lines));
    }

    [Fact]
    public void Law_6_for_each_lot_and_bottling_of_random_books_what_is_left_is_what_lies_there() => Gen.Int[1, 10_000_000].Sample(seed =>
    {
        var cellar = new RandomCellar(seed);
        var book = cellar.Book.Book;
        var (from, to) = cellar.AnyRange();
        foreach (var lot in book.Now.Lots)
        {
            Assert.Equal(Lying(book, to, lot).Volume, LotAccount.OfLot(book, lot, new Period(from, to)).Left);
            var life = LotAccount.OfLot(book, lot);
            Assert.Equal((Volume.None, Lying(book, DateOnly.MaxValue, lot).Volume), (life.Opening, life.Left));
            Assert.Equal(life.Left, life.Opening + life.In - life.Out);
        }
        foreach (var bottling in book.Now.Bottlings)
            Assert.Equal(Lying(book, to, bottling.Code), LotAccount.OfBottling(book, bottling.Code, new Period(from, to)) is var account ? (account.Left, account.LeftBottles) : default);
    }, iter: 30);

    private static (Volume Volume, BottleCount Bottles) Lying(Book.Book book, DateOnly on, string name)
    {
        var places = book.AsOf(on).Places.Where(place => place.Account.Name == name && place.Account.IsStock).ToArray();
        return (new(places.Sum(place => place.Volume.Microlitres)), new(places.Sum(place => place.Bottles.Bottles)));
    }
}
