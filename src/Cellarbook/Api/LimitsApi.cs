using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;

namespace Cellarbook.Api;

/// <summary>Limit sets, and lots held against them.</summary>
public static class LimitsApi
{
    private const int MostBytes = 1 << 20;

    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/limits", (OpenBook book) => TypedResults.Ok(book.Read<LimitSetAnswer[]>(found =>
            {
                var inForce = found.LimitsInForce(book.Today).Concat(found.PacketsHeld).ToHashSet();
                return [.. found.EveryLimitSet.Select(set => LimitSetAnswer.Of(set, inForce.Contains(set)))];
            })))
            .WithName("limitSets").WithSummary("Every limit set: laws, recommendations, the book's own, and what packets allow that are in its wine.");
        api.MapGet("/limits/{set}", Rows)
            .WithName("limitSet").WithSummary("A limit set with its rows, scopes and sources.").Produces<LimitSetRowsAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapPost("/limits", State)
            .WithName("stateLimitSet").WithSummary("State a limit set of your own from CSV.")
            .WithDescription("Columns are those of the sets that travel with the program. Refused whole, with row numbers, when one row is broken; the set before then stays in force.")
            .Accepts<string>("text/csv").DisableAntiforgery()
            .Produces<LimitSetStated>(StatusCodes.Status201Created).Produces<LimitSetStated>().ProducesProblem(StatusCodes.Status413PayloadTooLarge).ProducesProblem(StatusCodes.Status422UnprocessableEntity);
        api.MapGet("/lots/{code}/limits", (string code, OpenBook book, bool law = false, bool release = false) =>
                book.Read(found => found.Now.AccountsOfLot(Ask.Code(code)).IsEmpty ? null : LotLimitsAnswer.From(LotLimits.OfLot(found.Now, found.LimitsInForce(book.Today, law), Ask.Code(code), release))) is { } answer
                    ? TypedResults.Ok(answer) : Problem.NotFound(RefusalCode.UnknownLot, "code", $"There is no lot {Names.Shown(Ask.Code(code))}."))
            .WithName("lotLimits").WithSummary("A lot held against its limits; the worst place counts. law=true: against every law; release=true: as for the market.").Produces<LotLimitsAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        api.MapGet("/bottlings/{code}/limits", (string code, OpenBook book, bool law = false, bool release = false) =>
                book.Read(found => found.Now.Bottling(Ask.Code(code)) is null ? null : LotLimitsAnswer.From(LotLimits.OfBottling(found.Now, found.LimitsInForce(book.Today, law), Ask.Code(code), release))) is { } answer
                    ? TypedResults.Ok(answer) : Problem.NotFound(RefusalCode.UnknownBottling, "code", $"There is no bottling {Names.Shown(Ask.Code(code))}."))
            .WithName("bottlingLimits").WithSummary("A bottling held against its limits.").Produces<LotLimitsAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
    }

    private static IResult Rows(string set, OpenBook book)
    {
        var answer = book.Read(found => found.EveryLimitSet.FirstOrDefault(one => one.Code == Ask.Code(set)) is { } one
            ? new LimitSetRowsAnswer(LimitSetAnswer.Of(one, found.LimitsInForce(book.Today).Concat(found.PacketsHeld).Contains(one)), [.. one.Rows.Select(LimitLine.Of)]) : null);
        return answer is null ? Problem.NotFound(RefusalCode.UnknownWord, "set", $"There is no limit set {Names.Shown(Ask.Code(set))}.") : TypedResults.Ok(answer);
    }

    private static async Task<IResult> State(HttpRequest request, OpenBook book, string? code, string? name, string? @as, string? who, string? expires, bool check = false)
    {
        var refusals = new List<Refusal>();
        var last = Ask.Day(expires, "expires", refusals);
        if (await Text(request, refusals) is not { } text || refusals.Count > 0) return Problem.Of(refusals);
        if (LimitSetReader.Lines(text, out var faults) is not { } lines) return Problem.Of([.. faults.Select(fault => new Refusal(RefusalCode.LimitsUnreadable, fault.Column, Sentence.Verbatim(fault.ToString())) { Row = fault.Row })]);
        var operation = new StateLimits { Day = book.Today, Code = code, Name = name, As = @as, Who = who, Expires = last, Rows = lines };
        var recorded = book.Record(operation, book.ActorOf(request.HttpContext.User), check: check);
        if (recorded.Refusals.Count > 0) return Problem.Of(recorded.Refusals);
        var answer = new LimitSetStated(recorded.Number, code!, lines.Count);
        return check ? TypedResults.Ok(answer) : TypedResults.Created($"/api/v1/limits/{Uri.EscapeDataString(code!)}", answer);
    }

    private static async Task<string?> Text(HttpRequest request, List<Refusal> refusals)
    {
        if (await Body.Read(request, MostBytes) is not { } bytes)
        {
            refusals.Add(new(RefusalCode.TooLarge, "", $"A limit set has at most {MostBytes >> 10} kB."));
            return null;
        }
        try
        {
            return new UTF8Encoding(false, true).GetString(bytes);
        }
        catch (DecoderFallbackException)
        {
            refusals.Add(new(RefusalCode.Unreadable, "", "The file is not UTF-8 text. Save it as CSV in UTF-8 and send it again."));
            return null;
        }
    }
}
