using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;

namespace Cellarbook.Api;

/// <summary>Reads what stands in a query, with refusals of its own instead of a bare 400.</summary>
internal static class Ask
{
    /// <summary>A day, or null when none is given.</summary>
    public static DateOnly? Day(string? text, string path, List<Refusal> refusals)
    {
        if (string.IsNullOrEmpty(text)) return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)) return day;
        refusals.Add(new(RefusalCode.NoSuchDay, path, $"“{Names.Shown(text)}” is no day. Write it as 2026-03-01."));
        return null;
    }

    /// <summary>A code out of the middle of a path, where a slash in it comes escaped.</summary>
    public static string Code(string escaped) => Uri.UnescapeDataString(escaped);

    /// <summary>Answers with what was on a day; or now, when none is given.</summary>
    public static IResult OnDay<T>(string? text, Func<DateOnly?, T?> answer, IResult? missing = null) where T : class
    {
        var refusals = new List<Refusal>();
        var day = Day(text, "on", refusals);
        if (refusals.Count > 0) return Problem.Of(refusals);
        return answer(day) is { } found ? TypedResults.Ok(found) : missing ?? TypedResults.NotFound();
    }
}
