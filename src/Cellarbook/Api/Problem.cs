using System.Text.Json;
using Cellarbook.Core.Book;

namespace Cellarbook.Api;

/// <summary>Refusals as problem details: the first reason on top, all of them in "refusals".</summary>
public static class Problem
{
    /// <summary>The stable code of a refusal: its name in snake_case.</summary>
    public static string CodeOf(RefusalCode code) => JsonNamingPolicy.SnakeCaseLower.ConvertName(code.ToString());

    /// <summary>The HTTP status a refusal stands for.</summary>
    public static int StatusOf(RefusalCode code) => code switch
    {
        RefusalCode.Unreadable => StatusCodes.Status400BadRequest,
        RefusalCode.TooLarge => StatusCodes.Status413PayloadTooLarge,
        RefusalCode.KeyUsed or RefusalCode.EventDiffers => StatusCodes.Status409Conflict,
        RefusalCode.DiskFull => StatusCodes.Status507InsufficientStorage,
        RefusalCode.ReadOnly => StatusCodes.Status503ServiceUnavailable,
        _ => StatusCodes.Status422UnprocessableEntity,
    };

    /// <summary>A problem answer from refusals, at least one.</summary>
    public static IResult Of(IReadOnlyList<Refusal> refusals) => Of(refusals[0].Code, StatusOf(refusals[0].Code), refusals[0].Path, refusals[0].Sentence.ToString(), refusals);

    /// <summary>A problem answer for something that isn't there.</summary>
    public static IResult NotFound(RefusalCode code, string path, Sentence sentence) => Of(code, StatusCodes.Status404NotFound, path, sentence.ToString(), [new(code, path, sentence)]);

    private static IResult Of(RefusalCode code, int status, string path, string sentence, IReadOnlyList<Refusal> refusals) => TypedResults.Problem(
        statusCode: status,
        title: status == StatusCodes.Status404NotFound ? "Not found" : "Not recorded",
        detail: sentence,
        extensions: new Dictionary<string, object?>
        {
            ["code"] = CodeOf(code),
            ["path"] = path,
            ["row"] = refusals[0].Row,
            ["refusals"] = refusals.Select(refusal => new RefusalAnswer(CodeOf(refusal.Code), refusal.Path, refusal.Row, refusal.Sentence.ToString(), refusal.Entries.Count == 0 ? null : refusal.Entries)).ToArray(),
        });
}

/// <summary>One reason.</summary>
/// <param name="Code">Stable code; see refusals.md.</param>
/// <param name="Path">The field or column.</param>
/// <param name="Row">Row of an imported file, from 1 below the head.</param>
/// <param name="Sentence">What is the matter, and what to do.</param>
/// <param name="Entries">Entries in the way.</param>
public sealed record RefusalAnswer(string Code, string Path, int? Row, string Sentence, IReadOnlyList<long>? Entries);
