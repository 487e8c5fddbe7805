using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Tests.Noticing;
using Xunit;

namespace Cellarbook.Core.Tests.Passbook;

/// <summary>Where a lot came from and what came of it, generation by generation.</summary>
public class LotFamilyTests
{
    private static WrittenBook Cellar(params string[] more) => WrittenBook.Of(
    [
        .. Enumerable.Range(1, 6).Select(i => $$"""{"kind":"vessel","day":"2026-01-01","code":"V{{i}}","capacityLitres":100}"""),
        """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"A","vessel":"V1","litres":50,"abv":12}""",
        """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"B","vessel":"V2","litres":50,"abv":12}""",
        .. more,
    ]);

    private static string[] Members(WrittenBook book, string lot) => [.. LotFamily.Of(book.Book, book.Index, lot).Members.Select(member => $"{member.Generation} {member.Who.Code}{(member.Who.IsBottling ? " bottles" : "")}")];

    private static string[] Flows(WrittenBook book, string lot) => [.. LotFamily.Of(book.Book, book.Index, lot).Flows.Select(flow => $"{flow.From.Code} > {flow.To.Code} {flow.Volume.Litres}").Order(StringComparer.Ordinal)];

    private const string Blend = """{"kind":"transfer","day":"2026-02-01","sources":[{"lot":"A","litres":10},{"lot":"B","litres":20}],"targets":[{"lot":"C","vessel":"V3","litres":30}]}""";
    private const string Bottled = """{"kind":"bottle","day":"2026-03-01","lot":"C","vessel":"V3","fills":[{"bottling":"C-75","bottles":20,"bottleMl":750}]}""";

    [Fact]
    public void A_blend_has_its_parts_before_it_and_its_bottles_after_it()
    {
        var book = Cellar(Blend, Bottled);
        Assert.Equal(["-1 B", "-1 A", "0 C", "1 C-75 bottles"], Members(book, "C"));
        Assert.Equal(["A > C 10", "B > C 20", "C > C-75 15"], Flows(book, "C"));
        Assert.Equal(["0 A", "1 C", "2 C-75 bottles"], Members(book, "A"));
        Assert.True(LotFamily.Of(Cellar().Book, new EntryIndex(), "A").IsAlone);
    }

    [Fact]
    public void What_was_taken_back_counts_for_nothing_in_an_open_period_and_in_a_closed_one()
    {
        var open = Cellar(Blend);
        open.Write("""{"kind":"correct","day":"2026-02-02","takesBack":9,"reason":"It was not done"}""");
        Assert.Equal(["0 C"], Members(open, "C"));
        var closed = Cellar(Blend, """{"kind":"close","day":"2026-03-01","through":"2026-02-28"}""");
        closed.Write("""{"kind":"correct","day":"2026-03-02","takesBack":9,"reason":"It was not done"}""");
        Assert.Equal(["0 C"], Members(closed, "C"));
        Assert.Equal(["0 A"], Members(closed, "A"));
    }

    [Fact]
    public void A_process_passes_on_what_was_put_in_and_two_casks_thinned_in_one_entry_are_no_kin()
    {
        var book = Cellar("""{"kind":"blend","day":"2026-02-01","sources":[{"lot":"A","litres":10},{"lot":"B","litres":20}],"targets":[{"lot":"C","vessel":"V3","litres":10,"abv":12},{"lot":"D","vessel":"V4","litres":20,"abv":12}]}""",
            """{"kind":"topUp","day":"2026-02-02","casks":[{"vessel":"V1","litres":1},{"vessel":"V2","litres":1}],"fromWater":true}""");
        Assert.Equal(["A > C 3.333333", "B > C 6.666666"], Flows(book, "C"));
        Assert.Equal(["A > C 3.333333", "A > D 6.666666"], Flows(book, "A"));
        Assert.Empty(LotPassbook.Of(book.Book, book.Index, "A").CameFrom);
    }

    [Fact]
    public void Casks_that_feed_each_other_stand_once_and_a_large_family_says_how_many_it_leaves_out()
    {
        var book = Cellar(
            """{"kind":"transfer","day":"2026-02-01","sources":[{"lot":"A","litres":5}],"targets":[{"lot":"B","vessel":"V2","litres":5}]}""",
            """{"kind":"transfer","day":"2026-02-02","sources":[{"lot":"B","litres":4}],"targets":[{"lot":"A","vessel":"V1","litres":4}]}""");
        Assert.Equal(["-1 B", "0 A"], Members(book, "A"));
        for (var i = 0; i < 10; i++) book.Write($$"""{"kind":"bottle","day":"2026-03-01","lot":"A","vessel":"V1","fills":[{"bottling":"A-{{i}}","bottles":{{i + 1}},"bottleMl":750}]}""");
        var family = LotFamily.Of(book.Book, book.Index, "A");
        Assert.Equal((8, 2), (family.Members.Count(member => member.Generation == 1), family.LeftOut));
        Assert.Equal("A-9", family.Members.First(member => member.Generation == 1).Who.Code);
        Assert.All(family.Flows, flow => Assert.True(flow.Volume > Volume.None));
    }
}
