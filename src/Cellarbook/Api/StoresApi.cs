using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Stores;
using Cellarbook.Recording;

namespace Cellarbook.Api;

/// <summary>Materials, what lies in store of them, and traces both ways.</summary>
public static class StoresApi
{
    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/materials", (OpenBook book) => TypedResults.Ok(book.Read<MaterialAnswer[]>(found => [.. found.Materials.All.Select(MaterialAnswer.Of)])))
            .WithName("materials").WithSummary("Materials of the catalogue and your own, with what they bring into wine.");
        api.MapGet("/materials/{code}", (string code, OpenBook book) => book.Read(found => found.Materials.Find(Ask.Code(code)) is { } material ? MaterialAnswer.Of(material) : null) is { } answer
                ? TypedResults.Ok(answer) : Problem.NotFound(RefusalCode.UnknownMaterial, "code", $"There is no material {Names.Shown(Ask.Code(code))}."))
            .WithName("material").WithSummary("A material.").Produces<MaterialAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/stores", (OpenBook book, bool usedUp = false) => TypedResults.Ok(book.Read<StoreAnswer[]>(found => [.. StoreLine.All(found, book.Today, usedUp).Select(StoreAnswer.Of)])))
            .WithName("stores").WithSummary("What lies in store, by material and delivery; low and out-of-date said. usedUp=true: also what is used up.");
        api.MapGet("/stores/{delivery}", (string delivery, OpenBook book, string? material) => Traces(book, Ask.Code(delivery), material))
            .WithName("delivery").WithSummary("A delivery, of each material in it: where it went, amounts adding up.").Produces<DeliveryTraceAnswer[]>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/bottlings/{code}/trace", (string code, OpenBook book) => book.Read(found => BottleTrace.Of(found, Ask.Code(code))) is { } trace
                ? TypedResults.Ok(BottleTraceAnswer.Of(trace)) : Problem.NotFound(RefusalCode.UnknownBottling, "code", $"There is no bottling {Names.Shown(Ask.Code(code))}."))
            .WithName("bottlingTrace").WithSummary("A bottling back to every delivery of material and every receipt of must and wine.").Produces<BottleTraceAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
    }

    private static IResult Traces(OpenBook book, string delivery, string? material)
    {
        var traces = book.Read<DeliveryTraceAnswer[]>(found =>
            [.. found.Now.MaterialsInStore.Where(code => material is null || code == material).Order(StringComparer.Ordinal).Select(code => found.TraceOf(Account.Stores(code, delivery))).Where(trace => trace is not null).Select(trace => DeliveryTraceAnswer.Of(trace!))]);
        return traces.Length > 0 ? TypedResults.Ok(traces) : Problem.NotFound(RefusalCode.UnknownDelivery, "delivery", $"There is no delivery {Names.Shown(delivery)}.");
    }

}
