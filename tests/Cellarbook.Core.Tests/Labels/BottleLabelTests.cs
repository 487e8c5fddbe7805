using Cellarbook.Core.Labels;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Tests.Noticing;
using Xunit;

namespace Cellarbook.Core.Tests.Labels;

/// <summary>What a label says is what the book knows; what it doesn't know it says so (law 12).</summary>
public class BottleLabelTests
{
    private static WrittenBook Cellar(string regime, string abv, params string[] more) => WrittenBook.Of(
    [
        $$"""{"kind":"premises","day":"2026-01-01","regimes":["{{regime}}"],"owner":"Ida"}""",
        """{"kind":"vessel","day":"2026-01-01","code":"V1","capacityLitres":60}""",
        """{"kind":"vessel","day":"2026-01-01","code":"V2","capacityLitres":60}""",
        $$"""{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"W1","vessel":"V1","litres":40,"abv":{{abv}}}""",
        .. more,
    ]);

    private static BottleLabel Label(WrittenBook book, string code = "W1-75") => BottleLabel.Of(book.Book, book.Index, code)!;

    [Fact]
    public void Sulphite_added_before_a_racking_still_stands_on_the_label_of_what_was_bottled_after_it()
    {
        var book = Cellar("household", "12.3",
            """{"kind":"add","day":"2026-01-03","lot":"W1","items":[{"material":"Potassium metabisulphite","grams":2}]}""",
            """{"kind":"transfer","day":"2026-01-04","sources":[{"lot":"W1"}],"targets":[{"lot":"W1","vessel":"V2","litres":39}],"losses":[{"kind":"lees","litres":1}]}""",
            """{"kind":"bottle","day":"2026-01-05","lot":"W1","fills":[{"bottling":"W1-75","bottles":40,"bottleMl":750}]}""");
        var label = Label(book);
        Assert.True(label.Sulphites);
        Assert.Equal("Added by entry 5.", label.SulphitesWhy.ToString());
        Assert.Equal("12.5 % vol", label.Strength.ToString());
        Assert.False(label.StrengthIsSure);
        Assert.Equal((null, null, new DateOnly(2026, 1, 5)), (label.Name, label.LotMark, label.Day));
    }

    [Fact]
    public void Nothing_written_of_sulphite_is_no_reason_to_leave_it_off_but_a_measurement_below_the_threshold_is()
    {
        const string bottled = """{"kind":"bottle","day":"2026-01-05","lot":"W1","fills":[{"bottling":"W1-75","bottles":40,"bottleMl":750}]}""";
        Assert.Null(Label(Cellar("household", "12", bottled)).Sulphites);
        // Above 10 mg/L in the EU, from 10 on in the US.
        const string ten = """{"kind":"measure","day":"2026-01-04","lot":"W1","totalSo2MgPerLitre":10}""";
        Assert.False(Label(Cellar("eu", "12", ten, bottled)).Sulphites);
        Assert.True(Label(Cellar("us", "12", ten, bottled)).Sulphites);
        // What was added after the measurement isn't in it.
        const string added = """{"kind":"add","day":"2026-01-04","lot":"W1","items":[{"material":"sulfite tablets","pieces":2}]}""";
        Assert.True(Label(Cellar("eu", "12", ten, added, bottled)).Sulphites);
    }

    [Fact]
    public void A_strength_stated_for_the_label_is_held_against_the_regimes_tolerance()
    {
        static string Bottled(string label) => $$"""{"kind":"bottle","day":"2026-01-05","lot":"W1","fills":[{"bottling":"W1-75","bottles":40,"bottleMl":750,"labelAbv":{{label}},"labelName":"Bench Field","lotMark":"L26-1"}]}""";
        var label = Label(Cellar("eu", "12.74", Bottled("13")));
        Assert.Equal(("Bench Field", "L26-1", "13 % vol", true), (label.Name, label.LotMark, label.Strength.ToString(), label.StrengthIsSure));
        // 12.7 is no whole or half unit: 2019/33 Art. 44, see seed/labels.
        label = Label(Cellar("eu", "12.74", Bottled("12.7")));
        Assert.False(label.StrengthIsSure);
        Assert.Contains("12.5 % vol or 13 % vol", label.StrengthWhy.ToString(), StringComparison.Ordinal);
        Assert.True(Label(Cellar("us", "12.74", Bottled("13.9"))).StrengthIsSure);
        Assert.False(Label(Cellar("us", "13.9", Bottled("14.2"))).StrengthIsSure);
    }

    [Fact]
    public void A_label_follows_what_was_last_stated_and_forgets_what_was_taken_back()
    {
        var book = Cellar("household", "12",
            """{"kind":"bottle","day":"2026-01-05","lot":"W1","fills":[{"bottling":"W1-75","bottles":40,"bottleMl":750,"labelName":"First"}]}""",
            """{"kind":"shelve","day":"2026-01-06","bottling":"W1-75","labelName":"Second"}""");
        Assert.Equal("Second", Label(book).Name);
        book.Write("""{"kind":"correct","day":"2026-01-07","takesBack":6,"reason":"Wrong name"}""");
        Assert.Equal("First", Label(book).Name);
    }

    [Fact]
    public void Egg_is_named_and_an_unknown_bottling_has_no_label()
    {
        var book = Cellar("household", "12", """{"kind":"add","day":"2026-01-03","lot":"W1","items":[{"material":"Egg albumin","grams":5}]}""", """{"kind":"bottle","day":"2026-01-05","lot":"W1","fills":[{"bottling":"W1-75","bottles":40,"bottleMl":750}]}""");
        Assert.Equal(new AllergenAdded("Egg albumin", "egg", 5), Assert.Single(Label(book).Others));
        Assert.Null(BottleLabel.Of(book.Book, new EntryIndex(), "None"));
    }
}
