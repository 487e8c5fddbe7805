using Cellarbook.Core.Passbook;
using Cellarbook.Core.Tests.Noticing;
using Xunit;

namespace Cellarbook.Core.Tests.Passbook;

/// <summary>When a vessel was last topped up, filled or cleaned.</summary>
public class LastToppedTests
{
    private static readonly string[] Cellar =
    [
        """{"kind":"vessel","day":"2026-01-01","code":"C1","capacityLitres":60}""",
        """{"kind":"vessel","day":"2026-01-01","code":"V2","capacityLitres":60}""",
        """{"kind":"observe","day":"2026-01-01","vessel":"C1","what":"cleaned","doneBy":"Mim"}""",
        """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"W1","vessel":"C1","litres":40,"abv":12}""",
        """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"W2","vessel":"V2","litres":40,"abv":12}""",
    ];

    [Fact]
    public void A_cask_is_filled_topped_up_and_after_a_correction_only_filled_again()
    {
        var book = WrittenBook.Of(Cellar);
        Assert.Equal(new(new(2026, 1, 2), WasToppedUp: false, 4), LastTopped.Of(book.Book, book.Index, "C1"));
        var topped = book.Write("""{"kind":"topUp","day":"2026-02-01","casks":[{"vessel":"C1","litres":0.5}],"from":{"lot":"W2"}}""");
        // A spill later puts nothing in.
        book.Write("""{"kind":"lose","day":"2026-02-10","as":"spill","lot":"W1","litres":0.1}""");
        Assert.Equal(new(new(2026, 2, 1), WasToppedUp: true, topped), LastTopped.Of(book.Book, book.Index, "C1"));
        book.Write($$"""{"kind":"correct","day":"2026-02-11","takesBack":{{topped}},"reason":"It was another cask"}""");
        Assert.Equal(new(new(2026, 1, 2), WasToppedUp: false, 4), LastTopped.Of(book.Book, book.Index, "C1"));
    }

    [Fact]
    public void An_empty_vessel_was_cleaned_by_somebody_and_not_topped_up()
    {
        var book = WrittenBook.Of(Cellar);
        book.Write("""{"kind":"transfer","day":"2026-03-01","sources":[{"lot":"W1"}],"losses":[{"kind":"spill","litres":40}]}""");
        Assert.Null(LastTopped.Of(book.Book, book.Index, "C1"));
        Assert.Equal(new(new(2026, 1, 1), "Mim", 3), LastCleaned.Of(book.Book, book.Index, "C1"));
        Assert.Null(LastCleaned.Of(book.Book, book.Index, "V2"));
        var later = book.Write("""{"kind":"observe","day":"2026-03-02","vessel":"C1","what":"cleaned"}""");
        Assert.Equal(new(new(2026, 3, 2), null, later), LastCleaned.Of(book.Book, book.Index, "C1"));
    }
}
