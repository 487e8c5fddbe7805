using Cellarbook.Core.Book;
using Cellarbook.Core.Cautions;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;

namespace Cellarbook.Api;

/// <summary>The operations door and what belongs to it: vessels, entries.</summary>
public static class OperationsApi
{
    /// <summary>The largest body of an operation, in bytes.</summary>
    public const long MostBytes = 1 << 20;

    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/operations", Record)
            .WithName("recordOperation").WithSummary("Record any operation.")
            .WithDescription("What was done, by its kind. A refusal is 422 and records nothing. With check=true everything is done but recording; the answer then has no entry.")
            .Accepts<Operation>("application/json")
            .Produces<OperationAnswer>(StatusCodes.Status201Created).Produces<OperationAnswer>(StatusCodes.Status200OK)
            .ProducesProblem(StatusCodes.Status400BadRequest).ProducesProblem(StatusCodes.Status409Conflict).ProducesProblem(StatusCodes.Status413PayloadTooLarge).ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/cautions", () => TypedResults.Ok(new CautionsAnswer(CautionSheet.Standing, CautionSheet.All)))
            .WithName("cautions").WithSummary("The usual cautions, with the operations they belong to, their figures and sources.");
        api.MapPost("/vessels", MakeVessel)
            .WithName("makeVessel").WithSummary("Make a vessel.").Accepts<VesselBody>("application/json")
            .Produces<VesselAnswer>(StatusCodes.Status201Created).ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapPut("/vessels/{**code}", ChangeVessel)
            .WithName("changeVessel").WithSummary("Change a vessel's name, capacity, sort or location.").Accepts<VesselBody>("application/json")
            .Produces<VesselAnswer>().ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/vessels", (OpenBook book) => TypedResults.Ok(book.Read<VesselAnswer[]>(found => [.. found.Vessels.Keys.Concat(found.Now.Vessels.Select(vessel => vessel.Code)).Distinct().Order(StringComparer.Ordinal).Select(code => VesselAnswer.Of(found, code)!)])))
            .WithName("vessels").WithSummary("Every vessel with what it holds.");
        api.MapGet("/vessels/{**code}", (string code, OpenBook book) => book.Read(found => VesselAnswer.Of(found, code)) is { } vessel ? TypedResults.Ok(vessel) : Problem.NotFound(RefusalCode.UnknownVessel, "code", $"There is no vessel {Names.Shown(code)}."))
            .WithName("vessel").WithSummary("A vessel and what it holds.").Produces<VesselAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
    }

    /// <summary>The usual cautions, and what stands under all of them.</summary>
    public sealed record CautionsAnswer(Sentence Standing, IReadOnlyList<Caution> Cautions);

    /// <summary>What makes or changes a vessel.</summary>
    public sealed record VesselBody(string? Code, string? Name, Core.Quantities.Volume? CapacityLitres, string? Sort, string? Location, DateOnly? Day, string? Note);

    private static async Task<IResult> Record(HttpRequest request, OpenBook book, [FromHeader(Name = "Idempotency-Key")] string? key, bool check = false)
    {
        var refusals = new List<Refusal>();
        if (await Bytes(request, refusals) is not { } bytes || OperationJson.Read(bytes, refusals) is not { } operation) return Problem.Of(refusals);
        if (Key(key, refusals) is var kept && refusals.Count > 0) return Problem.Of(refusals);
        return Answer(book, operation, book.Record(operation, book.ActorOf(request.HttpContext.User), kept, check));
    }

    private static async Task<IResult> MakeVessel(HttpRequest request, OpenBook book, [FromHeader(Name = "Idempotency-Key")] string? key) =>
        await RecordVessel(request, book, key, null);

    private static async Task<IResult> ChangeVessel(HttpRequest request, string code, OpenBook book, [FromHeader(Name = "Idempotency-Key")] string? key) =>
        await RecordVessel(request, book, key, code);

    /// <summary>A vessel's body is an operation without kind and day: the day is today unless given, and is shown in the entry.</summary>
    private static async Task<IResult> RecordVessel(HttpRequest request, OpenBook book, string? key, string? code)
    {
        var refusals = new List<Refusal>();
        if (await Bytes(request, refusals) is not { } bytes) return Problem.Of(refusals);
        if (VesselJson.Read(bytes, code, book.Today, refusals) is not { } operation) return Problem.Of(refusals);
        if (Key(key, refusals) is var kept && refusals.Count > 0) return Problem.Of(refusals);
        var recorded = book.Record(operation, book.ActorOf(request.HttpContext.User), kept);
        if (recorded.Refusals.Count > 0) return Problem.Of(recorded.Refusals);
        var answer = book.Read(found => VesselAnswer.Of(found, operation.Code!));
        return code is null && recorded.Replay is null ? TypedResults.Created($"/api/v1/vessels/{Uri.EscapeDataString(operation.Code!)}", answer) : TypedResults.Ok(answer);
    }

    private static IResult Answer(OpenBook book, Operation operation, Recorded recorded)
    {
        if (recorded.Refusals.Count > 0) return Problem.Of(recorded.Refusals);
        if (recorded.Replay is { } first) return TypedResults.Ok(OperationAnswer.Of(first, BookApi.FlagsOf(book, first.Number)));
        var answer = OperationAnswer.Of(recorded, operation);
        return answer.Entry is null ? TypedResults.Ok(answer) : TypedResults.Created($"/api/v1/book/entries/{answer.Entry}", answer);
    }

    private static string? Key(string? key, List<Refusal> refusals)
    {
        if (string.IsNullOrEmpty(key)) return null;
        if (key.Length <= 200) return key;
        refusals.Add(new(RefusalCode.BadName, "Idempotency-Key", "A key has at most 200 characters."));
        return null;
    }

    private static async Task<byte[]?> Bytes(HttpRequest request, List<Refusal> refusals)
    {
        var bytes = await Body.Read(request, MostBytes);
        if (bytes is null) refusals.Add(new(RefusalCode.TooLarge, "", $"An operation has at most {MostBytes / 1024} kB."));
        return bytes;
    }
}
