using System.Globalization;
using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Costing;
using Cellarbook.Core.Operations;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Costing;

/// <summary>Law 7 for money, on cellars that live at random: cost in = cost in stock + cost out, whatever is done, taken back or entered late.</summary>
public class CostProperties
{
    private static readonly DateOnly Today = new(2030, 1, 1);

    [Fact]
    public void Law_7_no_cost_is_lost_and_none_made()
    {
        var (all, kinds) = (0, new HashSet<int>());
        Gen.Select(Gen.Int[0, 15], Gen.Int[0, 9_999], Gen.Int[0, 9_999], Gen.Int[0, 400]).List[20, 70].Sample(steps =>
        {
            var book = new Book.Book();
            Do(book, """{"kind":"premises","day":"2026-01-01","regimes":["household"],"currency":"EUR"}""");
            for (var i = 1; i <= 4; i++) Do(book, $$"""{"kind":"vessel","day":"2026-01-01","code":"V{{i}}"}""");
            Do(book, """{"kind":"deliver","day":"2026-01-01","items":[{"material":"kmbs","delivery":"D1","grams":500,"price":7.77},{"material":"cork-natural","delivery":"K1","pieces":5000,"price":333.33}]}""");
            var (recorded, closed) = (0, false);
            foreach (var (kind, a, b, day) in steps)
            {
                var on = new DateOnly(2026, 1, 1).AddDays(day);
                if (Do(book, Step(kind, a, b, on, book)))
                {
                    recorded++;
                    kinds.Add(kind);
                }
                if (!closed && recorded == 25) closed = Do(book, $$"""{"kind":"close","day":"2029-01-01","through":"2026-06-01"}""");
                CostTests.Law_7_what_came_in_is_in_stock_or_went_out(CostLedger.Build(book, null));
            }
            CostTests.Law_7_what_came_in_is_in_stock_or_went_out(CostLedger.Build(book, new(2026, 7, 1)));
            // What lies where is what the book says, so that litres and bottles cost what they should.
            foreach (var pool in CostLedger.Build(book, null).Stock.Where(pool => pool.Account.Section is Section.Must or Section.Bulk or Section.Bottled))
                Assert.Equal((book.Now.At(pool.Account).Volume, book.Now.At(pool.Account).Bottles), (pool.Volume, pool.Bottles));
            all += recorded;
            // Long afterwards every addition is taken back. What lies in store costs what was paid for it; every split rounds by a millionth.
            Do(book, """{"kind":"close","day":"2029-01-02","through":"2028-12-31"}""");
            foreach (var add in book.Entries.Where(entry => entry is { Operation: Add, TakenBackBy: null }).ToArray())
                Do(book, $$"""{"kind":"correct","day":"2029-07-01","takesBack":{{add.Number}},"reason":"not done"}""");
            var costs = CostLedger.Build(book, null);
            CostTests.Law_7_what_came_in_is_in_stock_or_went_out(costs);
            foreach (var (material, price, whole) in new[] { ("kmbs", 7_770_000, 500_000), ("cork-natural", 333_330_000, 5_000) })
                foreach (var pool in costs.Stock.Where(pool => pool.Account.Name == material))
                    Assert.InRange(pool.Costs.Total.Millionths - (long)((Int128)price * pool.Amount / whole), -2 * recorded - 1, 2 * recorded + 1);
        }, iter: 200, threads: 1);
        Assert.True(all > 1_000 && kinds.Count > 12, $"only {all} were recorded, of {kinds.Count} kinds");
    }

    private static string Step(int kind, int a, int b, DateOnly on, Book.Book book)
    {
        var day = on.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        var (from, to) = ($"V{1 + a % 4}", $"V{1 + b % 4}");
        var (lotFrom, lotTo) = (book.Now.Vessel(from).Lot ?? $"L{a % 4}", book.Now.Vessel(to).Lot ?? $"L{b % 4}");
        var litres = (1 + a % 37).ToString(CultureInfo.InvariantCulture);
        var price = (b / 7m).ToString("0.######", CultureInfo.InvariantCulture);
        return kind switch
        {
            0 or 1 => $$"""{"kind":"receive","day":"{{day}}","what":"must","lot":"{{lotTo}}","vessel":"{{to}}","litres":{{litres}},"price":{{price}}}""",
            2 => $$"""{"kind":"receive","day":"{{day}}","what":"bulkWine","lot":"{{lotTo}}","vessel":"{{to}}","litres":{{litres}},"abv":12,"price":{{price}}}""",
            3 or 4 => $$"""{"kind":"declareWine","day":"{{day}}","lot":"{{lotFrom}}","vessel":"{{from}}","litres":{{(book.Now.Vessel(from).Held.Microlitres / 1_000_000m * 0.9m).ToString("0.######", CultureInfo.InvariantCulture)}},"abv":12.5,"losses":[{"kind":"lees","litres":0.1}]}""",
            5 or 6 => $$"""{"kind":"transfer","day":"{{day}}","sources":[{"lot":"{{lotFrom}}","vessel":"{{from}}","litres":{{litres}}}],"targets":[{"lot":"{{lotTo}}","vessel":"{{to}}","litres":{{(1 + a % 37 - 0.3m).ToString(CultureInfo.InvariantCulture)}}}],"losses":[{"kind":"lees","litres":0.3}]}""",
            7 => $$"""{"kind":"lose","day":"{{day}}","as":"{{(b % 2 == 0 ? "spill" : "evaporation")}}","lot":"{{lotFrom}}","vessel":"{{from}}","litres":{{litres}}}""",
            8 => $$"""{"kind":"bottle","day":"{{day}}","lot":"{{lotFrom}}","vessel":"{{from}}","fills":[{"bottling":"B{{a % 2}}","bottles":{{1 + b % 9}},"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.05}],"materials":[{"material":"cork-natural","pieces":{{1 + b % 9}}}]}""",
            9 => $$"""{"kind":"remove","day":"{{day}}","as":"sold","bottling":"B{{a % 2}}","bottles":{{1 + b % 4}}}""",
            10 => $$"""{"kind":"return","day":"{{day}}","bottling":"B{{a % 2}}","bottles":{{1 + b % 2}}}""",
            11 => $$"""{"kind":"add","day":"{{day}}","lot":"{{lotFrom}}","vessel":"{{from}}","items":[{"material":"kmbs","grams":{{((1 + b % 40) / 10m).ToString(CultureInfo.InvariantCulture)}}}]}""",
            12 => $$"""{"kind":"cost","day":"{{day}}","what":"work","lot":"{{lotFrom}}","perLitre":{{price}}}""",
            13 => $$"""{"kind":"gauge","day":"{{day}}","vessel":"{{from}}","litres":{{litres}}}""",
            14 => $$"""{"kind":"fortify","day":"{{day}}","sources":[{"lot":"{{lotFrom}}","vessel":"{{from}}","litres":{{litres}}}],"spiritLitres":1,"spiritAbv":96,"targets":[{"lot":"{{lotFrom}}","vessel":"{{from}}","litres":{{litres}},"abv":18}]}""",
            _ => $$"""{"kind":"correct","day":"2029-06-01","takesBack":{{1 + a % Math.Max(1, book.LastNumber)}},"reason":"chance"}""",
        };
    }

    private static bool Do(Book.Book book, string json)
    {
        var refusals = new List<Refusal>();
        if (OperationJson.Read(Encoding.UTF8.GetBytes(json), refusals) is not { } operation) return false;
        var trial = book.Propose(operation, Today);
        if (trial.IsGood) book.Accept(trial);
        return trial.IsGood;
    }
}
