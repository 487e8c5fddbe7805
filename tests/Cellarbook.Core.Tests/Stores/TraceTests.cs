using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;
using Cellarbook.Core.Tests.Diary;
using Cellarbook.Core.Tests.Properties;
using CsCheck;
using Xunit;
using Check = Cellarbook.Core.Tests.Diary.Check;
using static Cellarbook.Core.Book.Account;

namespace Cellarbook.Core.Tests.Stores;

/// <summary>From a delivery to every bottle and paper, and from a bottle back to every delivery.</summary>
public class TraceTests
{
    private static Check Cellar() => new Check().On("2026-03-01").Vessel("V1", "100").Vessel("V2", "100").Vessel("V3", "100")
        .Does("""{"kind":"deliver","supplier":"Lindmoor Supplies","items":[{"material":"kmbs","delivery":"D1","grams":100,"batch":"K-1"},{"material":"cork-natural","delivery":"C1","pieces":100}]}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"A","vessel":"V1","litres":60,"abv":12,"supplier":"Weingut Probe","document":"W-1"}""")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"B","vessel":"V2","litres":40,"abv":12}""")
        .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs","grams":6}]}""")
        .Does("""{"kind":"add","lot":"B","items":[{"material":"kmbs","delivery":"unknown","grams":4}]}""")
        .Does("""{"kind":"transfer","sources":[{"lot":"A","litres":30},{"lot":"B","litres":40}],"targets":[{"lot":"C","vessel":"V3","litres":70}]}""")
        .Does("""{"kind":"lose","as":"spill","lot":"A","litres":10}""")
        .Does("""{"kind":"bottle","lot":"C","fills":[{"bottling":"C-75","bottles":80,"bottleMl":750}],"materials":[{"material":"cork-natural","pieces":80}]}""")
        .Does("""{"kind":"remove","as":"sold","bottling":"C-75","bottles":20,"recipient":"Inn at Quarle","document":"I-77"}""")
        .Does("""{"kind":"return","bottling":"C-75","bottles":5}""")
        .Does("""{"kind":"takeFromStores","as":"cleaning","items":[{"material":"kmbs","delivery":"D1","grams":20}]}""");

    [Fact]
    public void A_batch_is_followed_to_each_lot_bottling_removal_and_paper_and_adds_up()
    {
        var trace = Cellar().Book.TraceOf(Account.Stores("kmbs", "D1"))!;
        Assert.Equal(74_000, trace.InStore.Units);
        Assert.Equal(["USED:BULK:A:V1 6000 True", "USED:CLEANING 20000 False"], trace.Uses.Select(use => $"{use.To} {use.Amount.Units} {use.Assumed}"));
        // Half of A went into C, 60 of C's 70 L into bottles, 15 of 80 bottles to the inn; of the rest of A a third was spilt.
        Assert.Equal(["BOTTLED:C-75:unplaced 2089285714", "BULK:A:V1 2000000000", "BULK:C:V3 428571429"], trace.Holding.Select(place => $"{place.Account} {place.Amount.Millionths}"));
        Assert.Equal(["BULK:A:V1 LOSS:SPILL 1000000000  ", "BOTTLED:C-75:unplaced OUT:TAXPAID 642857143 I-77 Inn at Quarle", "BOTTLED:C-75:unplaced OUT:TAXPAID -160714286  "],
            trace.Departures.Select(departure => $"{departure.From} {departure.To} {departure.Amount.Millionths} {departure.Document} {departure.Recipient}"));
        Assert.Equal(6_000_000_000, trace.InWine.Millionths);
        Assert.Equal(["BOTTLED:C-75:unplaced", "BULK:A:V1", "BULK:C:V3"], trace.Passed.Select(account => account.ToString()));
    }

    [Fact]
    public void Corks_are_followed_too_and_a_delivery_of_nothing_used_is_all_in_store()
    {
        var book = Cellar().Book;
        var corks = book.TraceOf(Account.Stores("cork-natural", "C1"))!;
        Assert.Equal(80_000_000, corks.InWine.Millionths);
        Assert.Equal(65_000_000, Assert.Single(corks.Holding).Amount.Millionths);
        Assert.Null(book.TraceOf(Account.Stores("kmbs", "D9")));
    }

    [Fact]
    public void A_bottle_is_followed_back_to_every_delivery_and_receipt()
    {
        var trace = BottleTrace.Of(Cellar().Book, "C-75")!;
        Assert.Equal(["NOBATCH:kmbs 3428571429 False ", "STORES:cork-natural:C1 80000000 True ", "STORES:kmbs:D1 2571428571 True K-1"],
            trace.Sources.Select(source => $"{source.From} {source.About.Millionths} {source.Assumed} {source.Facts?.Batch}"));
        Assert.Equal(["A 25714286 Weingut Probe W-1", "B 34285714  "], trace.Receipts.Select(receipt => $"{receipt.Into.Name} {receipt.About.Microlitres} {receipt.Supplier} {receipt.Document}"));
        Assert.Null(BottleTrace.Of(Cellar().Book, "C-99"));
    }

    [Fact]
    public void A_mix_leads_on_to_what_it_was_made_of_both_ways()
    {
        var check = Cellar()
            .Does("""{"kind":"mix","material":"kmbs-10","delivery":"S1","millilitres":100,"items":[{"material":"kmbs","delivery":"D1","grams":10}]}""")
            .Does("""{"kind":"add","lot":"A","items":[{"material":"kmbs-10","delivery":"S1","millilitres":30}]}""")
            .Does("""{"kind":"bottle","lot":"A","fills":[{"bottling":"A-75","bottles":20,"bottleMl":750}]}""");
        Assert.Equal(["STORES:kmbs-10:S1 22500000000 ", "STORES:kmbs:D1 1500000000 ", "STORES:kmbs:D1 2250000000 STORES:kmbs-10:S1"],
            BottleTrace.Of(check.Book, "A-75")!.Sources.Select(source => $"{source.From} {source.About.Millionths} {source.Through}").Order(StringComparer.Ordinal));
        var trace = check.Book.TraceOf(Account.Stores("kmbs", "D1"))!;
        Assert.Equal(["STORES:kmbs-10:S1"], trace.Mixes.Select(mix => mix.ToString()));
        Assert.Equal(9_000_000_000, trace.InWine.Millionths);
    }

    [Fact]
    public void What_is_taken_back_is_not_in_the_trace()
    {
        var trace = Cellar().Does("""{"kind":"correct","takesBack":7,"reason":"another tank"}""").Book.TraceOf(Account.Stores("kmbs", "D1"))!;
        Assert.Equal(["USED:CLEANING"], trace.Uses.Select(use => use.To.ToString()));
        Assert.Empty(trace.Holding);
        Assert.Equal(80_000, trace.InStore.Units);
    }

    [Fact]
    public void Law_7_of_any_history_a_trace_adds_up_and_a_bottle_holds_what_was_brought_to_it() =>
        RandomCellar.History(60).Sample(history =>
        {
            var book = RandomCellar.Empty();
            RandomCellar.Record(book, [new Deliver { Day = RandomCellar.First, Items = [new() { Material = "kmbs", Delivery = "D1", Grams = new(1_000_000) }, new() { Material = "potassium-sorbate", Delivery = "D1", Grams = new(1_000_000) }] }]);
            RandomCellar.Record(book, history.Select(operation => operation is Add add ? add with { Items = [.. add.Items!.Select(item => item with { Delivery = "D1" })] } : operation));
            var trace = book.TraceOf(Account.Stores("kmbs", "D1"))!;
            Assert.Equal(FineAmount.Of(new(trace.Uses.Where(use => use.To.WineUsedIn is not null).Sum(use => use.Amount.Units))), trace.InWine);
            Assert.Equal(1_000_000, trace.InStore.Units + trace.Uses.Sum(use => use.Amount.Units));
            foreach (var bottling in book.Now.Bottlings)
            {
                // Bottles emptied back went on as wine; what they held is counted there.
                if (book.Pages.SelectMany(page => page.Deeds).SelectMany(deed => deed.Postings).Any(posting => posting.From.Section == Section.Bottled && posting.From.Name == bottling.Code && posting.To.Section == Section.Bulk)) continue;
                var forward = trace.Holding.Where(place => place.Account.Section == Section.Bottled && place.Account.Name == bottling.Code).Sum(place => place.Amount.Millionths)
                    + trace.Departures.Where(departure => departure.From.Section == Section.Bottled && departure.From.Name == bottling.Code).Sum(departure => departure.Amount.Millionths);
                var back = BottleTrace.Of(book, bottling.Code)!.Sources.Where(source => source.From == trace.Delivery).Sum(source => source.About.Millionths);
                Assert.InRange(back, forward - 200, forward + 200);
            }
        }, iter: 60, print: RandomCellar.Told);
}
