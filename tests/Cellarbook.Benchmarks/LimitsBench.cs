using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;

namespace Cellarbook.Benchmarks;

/// <summary>A blend of 200 lots that were given 500 additions, held against every limit set; and its additions register.</summary>
internal sealed class LimitsBench(Report report)
{
    private const int Ancestors = 200, Additions = 500;

    // Each is listed somewhere; an excess is recorded with its reason.
    private static readonly (string Material, decimal Grams)[] Added =
        [("kmbs", 0.4m), ("potassium-sorbate", 1), ("tartaric-acid", 8), ("lysozyme", 2), ("bentonite", 5), ("metatartaric-acid", 0.5m), ("citric-acid", 3), ("ascorbic-acid", 0.5m), ("gum-arabic", 2), ("dap", 1)];

    public void Run()
    {
        var book = new Book();
        Do(book, """{"kind":"premises","day":"2026-01-01","regimes":["eu","us","uk","organic-eu"],"owner":"Bench"}""");
        for (var i = 0; i < Ancestors; i++)
        {
            Do(book, $$"""{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"L{{i}}","litres":10,"abv":12.5,"colour":"red","supplier":"Bench Farm","document":"B {{i}}"}""");
            Do(book, $$"""{"kind":"measure","day":"2026-01-02","lot":"L{{i}}","totalSo2MgPerLitre":30,"vaGramsPerLitre":0.4,"taGramsPerLitre":5.2,"sugarGramsPerLitre":1.5,"gravity":0.993}""");
        }
        for (var i = 0; i < Additions; i++)
        {
            var (material, grams) = Added[i % Added.Length];
            Do(book, string.Create(System.Globalization.CultureInfo.InvariantCulture, $$"""{"kind":"add","day":"2026-01-03","lot":"L{{i % Ancestors}}","reason":"bench","items":[{"material":"{{material}}","grams":{{grams}}}]}"""));
        }
        for (var i = 1; i < Ancestors; i++) Do(book, $$"""{"kind":"transfer","day":"2026-01-04","reason":"bench","sources":[{"lot":"L{{i}}","litres":10}],"targets":[{"lot":"L0","litres":10}]}""");
        Do(book, """{"kind":"measure","day":"2026-01-05","lot":"L0","totalSo2MgPerLitre":60,"vaGramsPerLitre":0.4,"taGramsPerLitre":5.2,"sugarGramsPerLitre":1.5,"gravity":0.993}""");

        var sets = book.LimitsInForce(new(2026, 2, 1), withLaw: true);
        var verdicts = LotLimits.OfLot(book.Now, sets, "L0").Worst.Count;
        var median = Timing.Median(500, () => LotLimits.OfLot(book.Now, sets, "L0"));
        report.Row($"verdicts of a lot with {Additions} additions and {Ancestors} ancestors against all {sets.Count} sets ({sets.Sum(set => set.Rows.Count)} rows)", Report.Time(median), $"{verdicts} verdicts", "≤ 5 ms");
        report.Row("its additions register, each line judged as of its day", Report.Time(Timing.Median(10, () => AdditionsRegister.Of(book, new(2026, 1, 1), new(2026, 2, 1), "L0"))), $"{AdditionsRegister.Of(book, new(2026, 1, 1), new(2026, 2, 1), "L0").Count} lines", "");
    }

    private static void Do(Book book, string json)
    {
        var refusals = new List<Refusal>();
        var operation = OperationJson.Read(Encoding.UTF8.GetBytes(json), refusals) ?? throw new InvalidOperationException(refusals[0].Sentence.ToString());
        var trial = book.Propose(operation, new(2026, 12, 31));
        if (!trial.IsGood) throw new InvalidOperationException($"{json}: {trial.Refusals[0].Sentence}");
        book.Accept(trial);
    }
}
