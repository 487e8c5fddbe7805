using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Laws;

/// <summary>Law 11: the book records what was done, even if it was wrong; law 12: nothing is assumed in silence.</summary>
public class RecordedAsItWasTests
{
    private static Check Wine() => new Check().Vessel("V1", "60").On("2026-03-01")
        .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":50,"abv":12}""");

    [Fact]
    public void Law_11_a_limit_broken_is_recorded_with_its_reason_and_stays_flagged()
    {
        var check = Wine().Does("""{"kind":"add","lot":"L1","items":[{"material":"sulphite","gramsPerHectolitre":60}],"flags":[{"code":"over_limit","reason":"stuck and going brown"}]}""");
        Assert.Equal([new RaisedFlag("over_limit", "stuck and going brown")], check.Book.Find(3)!.Operation!.Flags);
    }

    [Fact]
    public void Law_11_a_fact_an_authority_wants_is_asked_for_and_never_a_reason_to_refuse() => Wine()
        .Does("""{"kind":"remove","as":"destroyed","lot":"L1","litres":1}""").Flagged()
        .Does("""{"kind":"premises","regimes":["eu"],"name":"Weingarten am Bach"}""")
        .Does("""{"kind":"remove","as":"destroyed","lot":"L1","litres":1}""").Flagged("fact_missing")
        .Does("""{"kind":"premises","regimes":["household"]}""")
        .Does("""{"kind":"remove","as":"destroyed","lot":"L1","litres":1}""").Flagged();

    [Fact]
    public void Law_11_more_wine_than_must_is_recorded_and_said() => new Check().On("2026-03-01")
        .Does("""{"kind":"receive","what":"must","lot":"L1","litres":10}""")
        .Does("""{"kind":"declareWine","lot":"L1","litres":10.2,"abv":12}""").Flagged("more_than_the_must")
        .Posted("PRODUCED MUST:L1:unplaced > BULK:L1:unplaced 10.2 L", "FERMENT_VOLUME_CHANGE LOSS:FERMENT > MUST:L1:unplaced 0.2 L");

    [Fact]
    public void Law_11_impossible_things_are_refused() => Wine()
        .Refuses(RefusalCode.MoreThanIsThere, """{"kind":"lose","as":"spill","lot":"L1","litres":51}""")
        .Refuses(RefusalCode.OverCapacity, """{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":11,"abv":12}""")
        .Refuses(RefusalCode.UnknownField, """{"kind":"lose","as":"spill","lot":"L1","gallons":1}""", "gallons");

    [Fact]
    public void Law_12_there_is_no_implied_today()
    {
        var refusals = new List<Refusal>();
        Assert.Null(OperationJson.Read(Encoding.UTF8.GetBytes("""{"kind":"lose","as":"spill","lot":"L1","litres":1}"""), refusals));
        Assert.Equal((RefusalCode.Missing, "day"), (refusals[0].Code, refusals[0].Path));
        Wine().Today("2026-03-02").Refuses(RefusalCode.DayToCome, """{"kind":"lose","day":"2026-03-03","as":"spill","lot":"L1","litres":1}""", "day")
            .Refuses(RefusalCode.NoSuchDay, """{"kind":"lose","day":"2026-02-30","as":"spill","lot":"L1","litres":1}""", "day")
            .Refuses(RefusalCode.NoSuchDay, """{"kind":"lose","day":"1.3.2026","as":"spill","lot":"L1","litres":1}""", "day")
            .Refuses(RefusalCode.EnteredBeforeItHappened, """{"kind":"lose","day":"2026-03-02","enteredOn":"2026-03-01","as":"spill","lot":"L1","litres":1}""", "enteredOn")
            .Refuses(RefusalCode.DayToCome, """{"kind":"lose","day":"2026-03-02","enteredOn":"2026-03-03","as":"spill","lot":"L1","litres":1}""", "enteredOn");
    }

    [Fact]
    public void Law_12_finer_than_the_smallest_unit_is_refused_and_never_rounded() => Wine()
        .Refuses(RefusalCode.TooFine, """{"kind":"lose","as":"spill","lot":"L1","litres":1.0000001}""", "litres")
        .Refuses(RefusalCode.NotANumber, """{"kind":"lose","as":"spill","lot":"L1","litres":"1"}""", "litres")
        .Refuses(RefusalCode.NotANumber, """{"kind":"lose","as":"spill","lot":"L1","litres":"1,5"}""", "litres")
        .Refuses(RefusalCode.TooLargeNumber, """{"kind":"lose","as":"spill","lot":"L1","litres":1111111111222222222233333333334444444444}""", "litres")
        .Refuses(RefusalCode.NotPositive, """{"kind":"lose","as":"spill","lot":"L1","litres":0}""", "litres")
        .Refuses(RefusalCode.NotPositive, """{"kind":"lose","as":"spill","lot":"L1","litres":-1}""", "litres")
        .Refuses(RefusalCode.Unreadable, """{"kind":"lose","as":"spill","lot":"L1","litres":NaN}""")
        .Does("""{"kind":"lose","as":"spill","lot":"L1","litres":1.0000010}""").Holds("L1", "V1", "48.999999");

    [Fact]
    public void Law_12_figure_and_unit_as_typed_are_kept_beside_what_was_posted()
    {
        var check = Wine().Does("""{"kind":"lose","as":"spill","lot":"L1","litres":3.785412,"typed":{"litres":"1 US gal"}}""");
        Assert.Equal("1 US gal", check.Book.Find(3)!.Operation!.Typed!["litres"]);
        Assert.Equal("3.785412", check.Last.Entries[0].Deeds[0].Postings[0].Volume.Litres);
    }

    [Fact]
    public void Law_12_a_strength_nobody_stated_is_unstated_and_one_worked_out_says_so()
    {
        var check = Wine().Vessel("V2", "60").Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"V2","litres":5}""").Stands("L2", "V2", "none")
            .Does("""{"kind":"receive","what":"bulkWine","lot":"L1","vessel":"V1","litres":1}""").Stands("L1", "V1", "12")
            .Does("""{"kind":"fortify","sources":[{"lot":"L1","litres":51}],"spiritLitres":3,"spiritAbv":96,"targets":[{"litres":53.9}]}""").Flagged("strength_by_volume");
        // (51 × 12 + 3 × 96) / 53.9 = 16.697…, to the nearest hundredth: the contraction took volume and no alcohol.
        check.Stands("L1", "V1", "16.7");
    }

    [Fact]
    public void Law_12_a_strength_mixed_by_volume_is_marked_so_until_one_is_stated()
    {
        var check = Wine().Vessel("V2", "60").Does("""{"kind":"receive","what":"bulkWine","lot":"L2","vessel":"V2","litres":5,"abv":18}""");
        Assert.False(Mixed("L1", "V1") || Mixed("L2", "V2"));
        check.Does("""{"kind":"transfer","sources":[{"lot":"L1","litres":5}],"targets":[{"lot":"L2","vessel":"V2","litres":5}]}""").Stands("L2", "V2", "15");
        Assert.True(Mixed("L2", "V2"));
        check.Vessel("V3", "60").Does("""{"kind":"transfer","sources":[{"lot":"L2"}],"targets":[{"vessel":"V3","litres":10}]}""");
        Assert.True(Mixed("L2", "V3"));
        check.Does("""{"kind":"regauge","lot":"L2","abv":15.1}""");
        Assert.False(Mixed("L2", "V3"));

        bool Mixed(string lot, string vessel) => check.Book.Now.At(Account.Bulk(lot, vessel)).StrengthIsMixed;
    }

    [Fact]
    public void Readings_never_change_the_standing_but_say_when_a_regauge_is_due() => Wine()
        .Does("""{"kind":"measure","lot":"L1","abvFound":12.6}""").Flagged("regauge_due").Stands("L1", "V1", "12")
        .Does("""{"kind":"measure","lot":"L1","abvFound":12.4}""").Flagged()
        .Does("""{"kind":"regauge","lot":"L1","abv":12.6}""").Stands("L1", "V1", "12.6");
}
