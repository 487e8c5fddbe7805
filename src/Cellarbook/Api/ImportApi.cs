using Cellarbook.Imports;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Http.Features;

namespace Cellarbook.Api;

/// <summary>A whole history of volumes comes in, all or nothing.</summary>
public static class ImportApi
{
    /// <summary>What became of the file.</summary>
    /// <param name="Entries">Entries recorded, or that would be.</param>
    /// <param name="Skipped">Events that were in the book already, with the same content.</param>
    /// <param name="Check">True when nothing was to be recorded.</param>
    /// <param name="Flags">What is worth knowing.</param>
    public sealed record ImportAnswer(int Entries, int Skipped, bool Check, IReadOnlyList<FlagAnswer> Flags);

    /// <summary>Maps the endpoint.</summary>
    public static void Map(RouteGroupBuilder api) => api.MapPost("/imports/journal", Import)
        .WithName("importJournal").WithSummary("Import a journal of volumes from CSV.")
        .WithDescription("Columns are listed in columns.md. Nothing is recorded unless every row can be. A file sent twice is skipped the second time.")
        .Accepts<string>("text/csv").DisableAntiforgery()
        .Produces<ImportAnswer>(StatusCodes.Status201Created).Produces<ImportAnswer>()
        .ProducesProblem(StatusCodes.Status400BadRequest).ProducesProblem(StatusCodes.Status409Conflict).ProducesProblem(StatusCodes.Status413PayloadTooLarge).ProducesProblem(StatusCodes.Status422UnprocessableEntity);

    private static async Task<IResult> Import(HttpContext context, OpenBook book, Asides asides, bool check = false)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = null;
        if (context.Request.ContentLength > JournalUpload.MostBytes) return Problem.Of([JournalUpload.TooLarge]);
        // Set aside on disk first: a slow sender holds nothing up, and a file that turns out too long has changed nothing.
        using var aside = asides.Take("journal.csv");
        await using var file = new FileStream(aside.Path, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16);
        var buffer = new byte[1 << 16];
        int n;
        while ((n = await context.Request.Body.ReadAsync(buffer, context.RequestAborted)) > 0)
        {
            if (file.Length + n > JournalUpload.MostBytes) return Problem.Of([JournalUpload.TooLarge]);
            await file.WriteAsync(buffer.AsMemory(0, n), context.RequestAborted);
        }
        file.Position = 0;
        var result = book.Import(today => JournalUpload.Read(file, today), book.ActorOf(context.User), check);
        if (result.Refusals.Count > 0) return Problem.Of(result.Refusals);
        var answer = new ImportAnswer(result.Entries, result.Skipped, check, [.. result.Flags.Select(FlagAnswer.Of)]);
        return check || result.Entries == 0 ? TypedResults.Ok(answer) : TypedResults.Created("/api/v1/book/entries", answer);
    }
}
