using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Xunit;

namespace Cellarbook.Core.Tests.Importing;

/// <summary>Places in a file: named, left out where there is one, refused where there are several (design: places, laws 2 and 3).</summary>
public class PlaceTests
{
    [Fact]
    public void No_vessel_named_means_the_lots_one_place_and_for_a_new_lot_none()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,100000,,,12,,,", "B,2026-01-02,SAMPLE_BULK,W,,,,200,,,,,,", "C,2026-01-02,RECEIVED_BULK,,,W,,300,,,12,,,", "D,2026-01-02,RECEIVED_BULK,,,NEW,,700,,,12,,,");
        Assert.Equal("BULK:NEW:unplaced 0.7 L 0 still, 12 % vol\nBULK:W:T1 100.1 L 0 still, 12 % vol", ImportedBook.Stock(book.Book));
    }

    [Theory]
    [InlineData("C,2026-01-03,SAMPLE_BULK,W,,,,200,,,,,,", "vessel_from")]
    [InlineData("C,2026-01-03,INVENTORY_GAIN_BULK,,,W,,200,,,,,,", "vessel_to")]
    public void A_lot_in_two_places_must_be_told_which(string row, string path)
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,100000,,,12,,,", "B,2026-01-02,LOT_TRANSFER,W,T1,W,T2,40000,,,,,,");
        var refusal = book.Refused(row);
        Assert.Equal((RefusalCode.SeveralPlaces, path, 1), (refusal.Code, refusal.Path, refusal.Row));
        Assert.Contains("T1, T2", refusal.Sentence.ToString(), StringComparison.Ordinal);
        // With one of them empty there is one place again, also within the event itself.
        book.TakeRows("C,2026-01-03,LOT_TRANSFER,W,T2,W,T1,40000,,,,,,", "C,2026-01-03,SAMPLE_BULK,W,,,,200,,,,,,");
        Assert.Equal("BULK:W:T1 99.8 L 0 still, 12 % vol", ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void A_vessel_first_named_here_has_an_unknown_capacity_and_is_flagged_not_checked()
    {
        var book = new ImportedBook();
        var trial = book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,900000000,,,12,,,");
        Assert.Equal("capacity_unknown", Assert.Single(trial.Flags).Code);
    }

    [Fact]
    public void A_known_capacity_is_checked_with_the_row_named()
    {
        var book = new ImportedBook();
        book.Record(new Vessel { Day = new(2025, 12, 1), Code = "T1", Name = "T1", CapacityLitres = Volume.OfLitres(30) });
        var refusal = book.Refused("X,2026-01-01,RECEIVED_BULK,,,OTHER,,1000,,,12,,,", "A,2026-01-01,RECEIVED_BULK,,,W,T1,30000.001,,,12,,,");
        Assert.Equal((RefusalCode.OverCapacity, 2), (refusal.Code, refusal.Row));
        Assert.Empty(book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,30000,,,12,,,").Flags);
    }

    [Theory]
    [InlineData("B,2026-01-02,RECEIVED_BULK,,,V,T1,1000,,,12,,,")]
    [InlineData("B,2026-01-02,MUST_RECEIVED,,,W,T1,1000,,,,,,")]
    public void A_vessel_holds_one_lot_of_must_or_of_wine(string row)
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,100000,,,12,,,");
        var refusal = book.Refused(row);
        Assert.Equal((RefusalCode.VesselHoldsAnother, 1), (refusal.Code, refusal.Row));
    }

    [Fact]
    public void Must_may_become_wine_in_its_own_vessel_when_all_of_it_does()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,MUST_RECEIVED,,,W,T1,100000,,,,,,",
            "B,2026-01-20,PRODUCED,W,T1,W,T1,97000,,,12.2,,,", "B,2026-01-20,MUST_SOLIDS_REMOVED,W,T1,,,2500,,,,,,", "B,2026-01-20,FERMENT_VOLUME_CHANGE,W,,,,500,,,,,,");
        Assert.Equal("BULK:W:T1 97 L 0 still, 12.2 % vol", ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void A_lot_may_be_must_in_one_vessel_and_wine_in_another()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,MUST_RECEIVED,,,W,T1,100000,,,,,,", "B,2026-01-20,PRODUCED,W,T1,W,T2,60000,,,12.2,,,", "C,2026-01-21,MUST_SPILLED,W,,,,1000,,,,,,", "D,2026-01-21,SPILLAGE,W,,,,1000,,,,,,");
        Assert.Equal("BULK:W:T2 59 L 0 still, 12.2 % vol\nMUST:W:T1 39 L 0 still, strength not stated", ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void Several_fills_of_one_event_and_shelves_of_one_bottling()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,100000,,,12,,,",
            "B,2026-01-02,BOTTLED,W,,W-75,S1,30000,40,750,,,,", "B,2026-01-02,BOTTLED,W,,W-75,S2,15000,20,750,,,,", "B,2026-01-02,BOTTLED,W,,W-150,S1,15000,10,1500,,,,", "B,2026-01-02,BOTTLING_LOSS,W,,,,350,,,,,,",
            "C,2026-01-03,CASED,W-75,S1,W-75,S2,7500,10,750,,,,");
        Assert.Equal("BOTTLED:W-150:S1 15 L 10 still, 12 % vol\nBOTTLED:W-75:S1 22.5 L 30 still, 12 % vol\nBOTTLED:W-75:S2 22.5 L 30 still, 12 % vol\nBULK:W:T1 39.65 L 0 still, 12 % vol", ImportedBook.Stock(book.Book));
        Assert.Equal(RefusalCode.SeveralPlaces, book.Refused("D,2026-01-04,TASTING,W-75,,,,750,1,750,,,,").Code);
    }

    [Fact]
    public void A_lot_emptied_and_filled_again_takes_the_standing_of_what_comes()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,T1,10000,,,18,,,", "B,2026-01-02,DESTROYED_BULK,W,,,,10000,,,,,,", "C,2026-01-03,RECEIVED_BULK,,,W,,5000,,,11,,,BULK:A16", "D,2026-01-04,DESTROYED_BULK,W,,,,5000,,,,,,", "E,2026-01-05,INVENTORY_GAIN_BULK,,,W,,20,,,,,,");
        // What comes from outside unstated takes the standing of what last lay there.
        Assert.Equal("BULK:W:T1 0.02 L 0 still, 11 % vol", ImportedBook.Stock(book.Book));
    }

    [Fact]
    public void A_strength_stated_at_leaving_is_that_of_the_whole_stock_and_at_arriving_that_of_what_came()
    {
        var book = new ImportedBook();
        book.TakeRows("A,2026-01-01,RECEIVED_BULK,,,W,,100000,,,12,,,", "B,2026-01-02,REMOVED_TAXPAID_BULK,W,,,,50000,,,12.4,,,", "C,2026-01-03,RECEIVED_BULK,,,W,,50000,,,13.01,,,");
        // 50 L at 12.4 and 50 L at 13.01: 12.705, half up.
        Assert.Equal("BULK:W:unplaced 100 L 0 still, 12.71 % vol", ImportedBook.Stock(book.Book));
    }
}
