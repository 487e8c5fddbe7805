using Cellarbook.Core.Book;
using Cellarbook.Core.Costing;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Recording;

namespace Cellarbook.Api;

/// <summary>What wine cost: by lot, by bottling, and all there is on a day.</summary>
public static class CostApi
{
    /// <summary>Money by what it was spent on, in the book's currency.</summary>
    public sealed record CostsAnswer(Money Total, Money Fruit, Money Wine, Money Spirit, Money Materials, Money Packaging, Money Own)
    {
        internal static CostsAnswer Of(Costs costs) => new(costs.Total, costs.Fruit, costs.Wine, costs.Spirit, costs.Materials, costs.Packaging, costs.Own);
    }

    /// <summary>What one entry brought and took.</summary>
    public sealed record CostLineAnswer(long Entry, DateOnly Day, CostsAnswer In, CostsAnswer Out);

    /// <summary>What a lot in bulk, or a bottling, has cost: figures of a litre and a bottle are to the nearest millionth, half up.</summary>
    public sealed record CostAnswer(string Code, string? Currency, Volume Litres, BottleCount? Bottles, CostsAnswer Cost, Money? PerLitre, Money? PerBottle, IReadOnlyList<string> Notes, IReadOnlyList<CostLineAnswer> Lines);

    /// <summary>What lies in one account and cost.</summary>
    public sealed record StockCostAnswer(string Account, Volume? Litres, BottleCount? Bottles, CostsAnswer Cost, bool Unpriced);

    /// <summary>Cost that went out: where to, and whether it left, was a normal loss of all there was, or a mishap.</summary>
    public sealed record OutCostAnswer(string To, string As, CostsAnswer Cost);

    /// <summary>All costs on a day: what came in is in stock or went out.</summary>
    public sealed record AllCostsAnswer(DateOnly? On, string? Currency, string Materials, CostsAnswer In, CostsAnswer InStock, CostsAnswer Out, IReadOnlyList<StockCostAnswer> Stock, IReadOnlyList<OutCostAnswer> WentOut, IReadOnlyList<string> Notes);

    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/lots/{code}/cost", (string code, OpenBook book, CostMemory memory, string? on) => One(book, memory, on, Ask.Code(code), CostAccount.OfLot, RefusalCode.UnknownLot, "lot"))
            .WithName("lotCost").WithSummary("What a lot in bulk has cost so far, by litre, with the entries that brought and took it.").Produces<CostAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/bottlings/{code}/cost", (string code, OpenBook book, CostMemory memory, string? on) => One(book, memory, on, Ask.Code(code), CostAccount.OfBottling, RefusalCode.UnknownBottling, "bottling"))
            .WithName("bottlingCost").WithSummary("What a bottling has cost so far, by bottle, with the entries that brought and took it.").Produces<CostAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/cost", (OpenBook book, CostMemory memory, string? on) => Ask.OnDay(on, day => book.Read(found => All(found, Ledger(found, memory, day), day))))
            .WithName("cost").WithSummary("What everything in stock cost at the end of a day, and what went out at what cost.").Produces<AllCostsAnswer>();
    }

    private static CostLedger Ledger(Book found, CostMemory memory, DateOnly? day) => (day is null ? memory.Of(found) : null) ?? CostLedger.Build(found, day);

    private static IResult One(OpenBook book, CostMemory memory, string? on, string code, Func<CostLedger, string, CostAccount?> find, RefusalCode missing, string what) =>
        Ask.OnDay(on, day => book.Read(found => find(Ledger(found, memory, day), code) is { } account ? Of(code, account, what == "bottling") : null), Problem.NotFound(missing, "code", $"There is no {what} {Names.Shown(code)}."));

    private static CostAnswer Of(string code, CostAccount account, bool bottling) => new(code, account.Currency, account.Volume, bottling ? account.Bottles : null, CostsAnswer.Of(account.Costs), account.PerLitre, bottling ? account.PerBottle : null,
        [.. Notes(account.IsUnpriced, account.HasOtherCurrency)], [.. account.Lines.Select(line => new CostLineAnswer(line.Entry.Number, line.Day, CostsAnswer.Of(line.In), CostsAnswer.Of(line.Out)))]);

    private static AllCostsAnswer All(Book found, CostLedger ledger, DateOnly? day)
    {
        var stock = ledger.Stock.OrderBy(pool => pool.Account.ToString(), StringComparer.Ordinal).ToArray();
        var outs = ledger.Out.ToArray();
        return new(day, ledger.Currency, found.Premises?.MaterialCost ?? "movingAverage", CostsAnswer.Of(ledger.In), CostsAnswer.Of(Sum(stock.Select(pool => pool.Costs))), CostsAnswer.Of(Sum(outs.Select(part => part.Costs))),
            [.. stock.Select(pool => new StockCostAnswer(pool.Account.ToString(), pool.Volume.IsNil ? null : pool.Volume, pool.Bottles.IsPositive ? pool.Bottles : null, CostsAnswer.Of(pool.Costs), pool.IsUnpriced))],
            [.. outs.Select(part => new OutCostAnswer(part.To, part.Rule switch { LossRule.Normal => "normalLoss", LossRule.Abnormal => "abnormalLoss", _ => "left" }, CostsAnswer.Of(part.Costs)))],
            [.. Notes(stock.Any(pool => pool.IsUnpriced), ledger.HasOtherCurrency)]);
    }

    private static Costs Sum(IEnumerable<Costs> costs) => costs.Aggregate(Costs.None, (sum, part) => sum + part);

    private static IEnumerable<string> Notes(bool unpriced, bool otherCurrency)
    {
        if (unpriced) yield return "Some of it came without a price, so it cost at least this. What was added as free text has no price either.";
        if (otherCurrency) yield return "Prices in another currency than the book's are left out.";
    }
}
