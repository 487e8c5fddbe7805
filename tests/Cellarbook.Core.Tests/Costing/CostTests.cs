using Cellarbook.Core.Book;
using Cellarbook.Core.Costing;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Costing;

/// <summary>Law 7: cost goes where the wine goes; what came in is in stock or went out.</summary>
public class CostTests
{
    private static Check Cellar(string cost = "movingAverage") => new Check()
        .Does($$"""{"kind":"premises","regimes":["household"],"currency":"EUR","materialCost":"{{cost}}"}""")
        .Vessel("V1").Vessel("V2").Vessel("V3")
        .On("2026-03-01")
        .Does("""{"kind":"deliver","items":[{"material":"kmbs","delivery":"D1","grams":100,"price":2},{"material":"cork-natural","delivery":"K1","pieces":100,"price":20}]}""")
        .Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":100,"price":250}""");

    private static CostLedger Ledger(Check check, string? on = null)
    {
        var ledger = CostLedger.Build(check.Book, on is null ? null : DateOnly.Parse(on, System.Globalization.CultureInfo.InvariantCulture));
        Law_7_what_came_in_is_in_stock_or_went_out(ledger);
        return ledger;
    }

    internal static void Law_7_what_came_in_is_in_stock_or_went_out(CostLedger ledger)
    {
        Assert.Equal(ledger.In.Total, ledger.Stock.Aggregate(Money.None, (sum, pool) => sum + pool.Costs.Total) + ledger.Out.Aggregate(Money.None, (sum, part) => sum + part.Costs.Total));
        Assert.All(ledger.Stock, pool => Assert.True(pool.Costs.AtMost(Costs.None) == Costs.None, $"{pool.Account} cost less than nothing"));
        Assert.All(ledger.Stock.Where(pool => pool.Amount == 0), pool => Assert.Equal(Costs.None, pool.Costs));
    }

    private static string Lot(CostLedger ledger, string lot) => CostAccount.OfLot(ledger, lot)!.Costs.Total.Text;

    [Fact]
    public void Must_becomes_wine_and_what_it_lost_on_the_way_stays_in_the_cost_of_the_rest()
    {
        var check = Cellar().On("2026-04-01").Does("""{"kind":"declareWine","lot":"L1","vessel":"V1","litres":90,"abv":12,"losses":[{"kind":"lees","litres":4}]}""");
        var account = CostAccount.OfLot(Ledger(check), "L1")!;
        Assert.Equal(("250", "2.777778"), (account.Costs.Total.Text, account.PerLitre!.Value.Text));
        check.On("2026-05-01").Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":90}],"targets":[{"lot":"L1","vessel":"V2","litres":50},{"lot":"L1","vessel":"V3","litres":38}],"losses":[{"kind":"lees","litres":2}]}""");
        var ledger = Ledger(check);
        Assert.Equal("250", Lot(ledger, "L1"));
        Assert.Equal(("142.045455", "107.954545"), (ledger.Of(Account.Bulk("L1", "V2"))!.Costs.Total.Text, ledger.Of(Account.Bulk("L1", "V3"))!.Costs.Total.Text));
        // Before the racking it was all in one place; the day decides.
        Assert.Equal("250", Ledger(check, "2026-04-30").Of(Account.Bulk("L1", "V1"))!.Costs.Total.Text);
    }

    [Fact]
    public void A_mishap_takes_its_cost_and_is_shown_apart_and_a_sale_takes_its_own()
    {
        var check = Cellar().On("2026-04-01").Does("""{"kind":"declareWine","lot":"L1","vessel":"V1","litres":100,"abv":12}""")
            .On("2026-04-02").Does("""{"kind":"lose","as":"spill","lot":"L1","vessel":"V1","litres":10}""")
            .On("2026-04-03").Does("""{"kind":"remove","as":"sold","lot":"L1","vessel":"V1","litres":20}""");
        var ledger = Ledger(check);
        Assert.Equal(["LOSS:SPILL Abnormal 25", "OUT:TAXPAID Leaves 50"], ledger.Out.Select(part => $"{part.To} {part.Rule} {part.Costs.Total}"));
        Assert.Equal("175", Lot(ledger, "L1"));
    }

    [Theory]
    // 100 g at 2 and 100 g at 4: on average 0.03 a gram; by receipt the first is used first, at 0.02.
    [InlineData("movingAverage", "0.3")]
    [InlineData("receipt", "0.2")]
    public void Materials_cost_by_moving_average_or_by_receipt(string how, string ten)
    {
        var check = Cellar(how).On("2026-03-02").Does("""{"kind":"deliver","items":[{"material":"kmbs","delivery":"D2","grams":100,"price":4}]}""")
            .On("2026-03-03").Does("""{"kind":"add","lot":"L1","vessel":"V1","items":[{"material":"kmbs","delivery":"D1","grams":10}]}""");
        Assert.Equal(ten, CostAccount.OfLot(Ledger(check), "L1")!.Costs.Materials.Text);
    }

    [Fact]
    public void A_bottle_costs_its_wine_its_cork_and_the_work()
    {
        var check = Cellar().On("2026-04-01").Does("""{"kind":"declareWine","lot":"L1","vessel":"V1","litres":90,"abv":12}""")
            .On("2026-05-01").Does("""{"kind":"cost","what":"Cellar work","lot":"L1","perHour":15,"hours":2}""")
            .Does("""{"kind":"cost","what":"Rent","lot":"L1","perLitre":0.05}""")
            .On("2026-06-01").Does("""{"kind":"bottle","lot":"L1","vessel":"V1","fills":[{"bottling":"B1","bottles":60,"bottleMl":750}],"materials":[{"material":"cork-natural","delivery":"K1","pieces":60}]}""")
            .Does("""{"kind":"cost","what":"Labelling","bottling":"B1","perBottle":0.1}""");
        var bottling = CostAccount.OfBottling(Ledger(check), "B1")!;
        // (250 + 30 + 4.50) × 45 / 90 = 142.25; corks 12; labelling 6.
        Assert.Equal(("160.25", "12", "23.25", "2.670833"), (bottling.Costs.Total.Text, bottling.Costs.Packaging.Text, bottling.Costs.Own.Text, bottling.PerBottle!.Value.Text));
        check.On("2026-07-01").Does("""{"kind":"remove","as":"sold","bottling":"B1","bottles":20}""").Does("""{"kind":"return","bottling":"B1","bottles":5}""").Does("""{"kind":"lose","as":"breakage","bottling":"B1","bottles":1}""");
        var ledger = Ledger(check);
        Assert.Equal(44, CostAccount.OfBottling(ledger, "B1")!.Bottles.Bottles);
        Assert.Equal("2.670833", CostAccount.OfBottling(ledger, "B1")!.PerBottle!.Value.Text);
        Assert.Contains(ledger.Out, part => part is { To: "LOSS:BREAKAGE", Rule: LossRule.Abnormal });
    }

    [Fact]
    public void Fruit_becomes_must_at_its_price_and_a_blend_carries_what_each_brought()
    {
        var check = Cellar().On("2026-03-02").Does("""{"kind":"receive","what":"fruit","lot":"P1","kilograms":100,"price":80}""")
            .Does("""{"kind":"crush","fruit":[{"parcel":"P1","kilograms":50}],"targets":[{"lot":"L2","vessel":"V2","litres":30},{"lot":"L3","vessel":"V3","litres":10}]}""");
        Assert.Equal(("30", "10", "40"), (Lot(Ledger(check), "L2"), Lot(Ledger(check), "L3"), Ledger(check).Of(Account.Fruit("P1"))!.Costs.Total.Text));
        check.On("2026-04-01").Does("""{"kind":"declareWine","lot":"L1","vessel":"V1","litres":100,"abv":12}""").Does("""{"kind":"declareWine","lot":"L2","vessel":"V2","litres":30,"abv":13}""")
            .Does("""{"kind":"blend","sources":[{"lot":"L1","vessel":"V1","litres":20},{"lot":"L2","vessel":"V2","litres":30}],"targets":[{"lot":"CUVEE","vessel":"V2","litres":49.9,"abv":12.6}]}""");
        Assert.Equal(("80", "200"), (Lot(Ledger(check), "CUVEE"), Lot(Ledger(check), "L1")));
    }

    [Fact]
    public void What_came_without_a_price_is_said_so()
    {
        var check = Cellar().On("2026-03-02").Does("""{"kind":"receive","what":"must","lot":"L2","vessel":"V2","litres":10}""");
        Assert.True(CostAccount.OfLot(Ledger(check), "L2")!.IsUnpriced);
        Assert.False(CostAccount.OfLot(Ledger(check), "L1")!.IsUnpriced);
    }

    [Fact]
    public void Law_4_what_is_taken_back_gives_its_cost_back()
    {
        var check = Cellar().On("2026-03-02").Does("""{"kind":"add","lot":"L1","vessel":"V1","items":[{"material":"kmbs","delivery":"D1","grams":10}]}""")
            .Does("""{"kind":"cost","what":"Work","lot":"L1","amount":7}""");
        var (add, work) = (check.Number - 1, check.Number);
        var before = Lot(Ledger(check), "L1");
        Assert.Equal("257.2", before);
        // While the period is open the fold leaves it out; closed, it is taken back by postings of a later day.
        check.On("2026-03-31").Does("""{"kind":"close","through":"2026-03-15"}""").Does($$"""{"kind":"correct","takesBack":{{add}},"reason":"Other tank"}""").Does($$"""{"kind":"correct","takesBack":{{work}},"reason":"Not done"}""");
        Assert.Equal("250", Lot(Ledger(check), "L1"));
        Assert.Equal("2", Ledger(check).Stock.Single(pool => pool.Account.Name == "kmbs").Costs.Total.Text);
        Assert.Equal("257.2", Lot(Ledger(check, "2026-03-30"), "L1"));
    }

    [Fact]
    public void Law_4_a_material_taken_back_late_gives_its_cost_back_from_wherever_the_wine_carried_it()
    {
        var check = Cellar().On("2026-03-02").Does("""{"kind":"receive","what":"must","lot":"L2","vessel":"V2","litres":50,"price":100}""")
            .Does("""{"kind":"add","lot":"L1","vessel":"V1","items":[{"material":"kmbs","delivery":"D1","grams":100}]}""");
        var add = check.Number;
        check.On("2026-03-03").Does("""{"kind":"transfer","sources":[{"lot":"L1","vessel":"V1","litres":50}],"targets":[{"lot":"L2","vessel":"V2","litres":50}]}""")
            .On("2026-03-04").Does("""{"kind":"remove","as":"gift","lot":"L2","vessel":"V2","litres":25}""");
        Assert.Equal(("126", "169.5"), (Lot(Ledger(check), "L1"), Lot(Ledger(check), "L2")));
        check.On("2026-03-31").Does("""{"kind":"close","through":"2026-03-15"}""").Does($$"""{"kind":"correct","takesBack":{{add}},"reason":"Other tank"}""");
        var ledger = Ledger(check);
        Assert.Equal(("125", "168.75"), (Lot(ledger, "L1"), Lot(ledger, "L2")));
        Assert.Equal("2", ledger.Stock.Single(pool => pool.Account.Name == "kmbs").Costs.Total.Text);
        Assert.Equal("56.25", ledger.Out.Single().Costs.Total.Text);
        // Both lots open to it.
        Assert.All(new[] { ("L1", "1"), ("L2", "0.75") }, lot => Assert.Equal((check.Number, lot.Item2), (CostAccount.OfLot(ledger, lot.Item1)!.Lines[^1].Entry.Number, CostAccount.OfLot(ledger, lot.Item1)!.Lines[^1].Out.Total.Text)));
    }

    [Fact]
    public void Law_8_every_figure_opens_to_the_entries_that_brought_and_took_it()
    {
        var check = Cellar().On("2026-03-02").Does("""{"kind":"add","lot":"L1","vessel":"V1","items":[{"material":"kmbs","delivery":"D1","grams":10}]}""")
            .On("2026-04-01").Does("""{"kind":"declareWine","lot":"L1","vessel":"V1","litres":90,"abv":12}""").Does("""{"kind":"remove","as":"gift","lot":"L1","litres":9}""");
        var account = CostAccount.OfLot(Ledger(check), "L1")!;
        Assert.Equal([(check.Number - 3, "250", "0"), (check.Number - 2, "0.2", "0"), (check.Number, "0", "25.02")], account.Lines.Select(line => (line.Entry.Number, line.In.Total.Text, line.Out.Total.Text)));
        Assert.Equal(account.Costs.Total, account.Lines.Aggregate(Money.None, (sum, line) => sum + line.In.Total - line.Out.Total));
    }

    [Fact]
    public void A_book_has_one_currency() => Cellar()
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"receive","what":"must","lot":"L9","vessel":"V2","litres":1,"price":1,"currency":"USD"}""", "currency")
        .Refuses(RefusalCode.UnknownWord, """{"kind":"premises","regimes":["household"],"currency":"euro"}""", "currency")
        .Refuses(RefusalCode.DoesNotAddUp, """{"kind":"cost","what":"x","lot":"L1","amount":1,"perLitre":1}""", "amount")
        .Refuses(RefusalCode.NotPositive, """{"kind":"cost","what":"x","lot":"L1","amount":-1}""", "amount")
        .Refuses(RefusalCode.UnknownLot, """{"kind":"cost","what":"x","lot":"L8","amount":1}""", "lot")
        .Refuses(RefusalCode.Missing, """{"kind":"cost","what":"x","lot":"L1","perHour":1}""", "hours")
        .Refuses(RefusalCode.Missing, """{"kind":"cost","what":"x","lot":"L1","perBottle":1}""", "bottling");

    [Fact]
    public void Every_loss_of_wine_is_stated_normal_or_a_mishap()
    {
        var losses = Category.All.Where(category => !category.IsOfStores && LossRules.IsLoss(category)).Select(category => category.Code).ToArray();
        Assert.True(losses.Length > 15);
        Assert.Empty(losses.Except(LossRules.Categories));
    }
}
