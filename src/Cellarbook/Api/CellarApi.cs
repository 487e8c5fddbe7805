using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;

namespace Cellarbook.Api;

/// <summary>What is where: lots and bottlings.</summary>
public static class CellarApi
{
    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/lots", (OpenBook book, string? on, int skip = 0, int take = 200) => Ask.OnDay(on, day => book.Read<LotAnswer[]>(found =>
            {
                var cellar = day is null ? found.Now : found.AsOf(day.Value);
                return [.. cellar.Lots.Order(StringComparer.Ordinal).Skip(Math.Max(0, skip)).Take(Math.Clamp(take, 1, 1000)).Select(code => LotAnswer.Of(cellar, code)!)];
            })))
            .WithName("lots").WithSummary("Lots by code, with their places.").Produces<LotAnswer[]>();
        api.MapGet("/lots/{**code}", (string code, OpenBook book, string? on) => Ask.OnDay(on, day => book.Read(found => LotAnswer.Of(day is null ? found.Now : found.AsOf(day.Value), code)), Problem.NotFound(RefusalCode.UnknownLot, "code", $"There is no lot {Names.Shown(code)}.")))
            .WithName("lot").WithSummary("A lot: stage, litres, strength, places, bottlings.").Produces<LotAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/bottlings", (OpenBook book, int skip = 0, int take = 200) => TypedResults.Ok(book.Read<BottlingAnswer[]>(found =>
                [.. found.Now.Bottlings.Select(bottling => bottling.Code).Order(StringComparer.Ordinal).Skip(Math.Max(0, skip)).Take(Math.Clamp(take, 1, 1000)).Select(code => BottlingAnswer.Of(found.Now, code)!)])))
            .WithName("bottlings").WithSummary("Bottlings by code, with what is left.");
        api.MapGet("/bottlings/{**code}", (string code, OpenBook book) => book.Read(found => BottlingAnswer.Of(found.Now, code)) is { } bottling ? TypedResults.Ok(bottling) : Problem.NotFound(RefusalCode.UnknownBottling, "code", $"There is no bottling {Names.Shown(code)}."))
            .WithName("bottling").WithSummary("A bottling and what is left of it.").Produces<BottlingAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
    }
}
