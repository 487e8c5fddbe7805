using Microsoft.AspNetCore.WebUtilities;

namespace Cellarbook.Pages.Shared;

/// <summary>One page of a long list.</summary>
/// <param name="Number">Which page, from 1.</param>
/// <param name="Size">Lines on a page.</param>
/// <param name="HasMore">True when another page follows.</param>
/// <param name="Total">Lines in all, where known.</param>
public sealed record Paging(int Number, int Size, bool HasMore, int? Total = null)
{
    /// <summary>A page of so many lines; one beyond the last is the last.</summary>
    public static Paging Of(int number, int size, int total)
    {
        number = Math.Clamp(number, 1, Math.Max(1, (total + size - 1) / size));
        return new(number, size, number * size < total, total);
    }

    /// <summary>Lines before this page.</summary>
    public int Skip => (Number - 1) * Size;

    /// <summary>The same address with another page number.</summary>
    public static string Address(HttpRequest request, int page)
    {
        var query = request.Query.Where(pair => pair.Key != "page").SelectMany(pair => pair.Value, (pair, value) => KeyValuePair.Create(pair.Key, value)).Append(new("page", page.ToString(System.Globalization.CultureInfo.InvariantCulture)));
        return QueryHelpers.AddQueryString(request.Path, query);
    }

    /// <summary>The same address, sorted another way, from the first page.</summary>
    public static string Sorted(HttpRequest request, string by)
    {
        var query = request.Query.Where(pair => pair.Key is not ("page" or "sort")).SelectMany(pair => pair.Value, (pair, value) => KeyValuePair.Create(pair.Key, value)).Append(new("sort", by));
        return QueryHelpers.AddQueryString(request.Path, query);
    }
}
