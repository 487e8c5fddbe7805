using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;

namespace Cellarbook.Pages.Shared;

/// <summary>
/// A page that takes a file of at most so many bytes. A larger one is let run past and kept nowhere, so that the browser hears a sentence and not a broken
/// line.
/// </summary>
/// <param name="most">Bytes of the file.</param>
/// <param name="else">Where the page says that a file is too large.</param>
[AttributeUsage(AttributeTargets.Class)]
public sealed class TakesFileAttribute(long most, string @else) : Attribute, IAsyncAuthorizationFilter, IOrderedFilter
{
    // Token, names and boundaries around the file.
    private const long Around = 64 << 10;

    /// <summary>Before the form is read for its token.</summary>
    public int Order => 100;

    /// <inheritdoc/>
    public async Task OnAuthorizationAsync(AuthorizationFilterContext context)
    {
        var http = context.HttpContext;
        if (!http.Request.HasFormContentType) return;
        var fits = http.Request.ContentLength is null || http.Request.ContentLength <= most + Around;
        if (http.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit) limit.MaxRequestBodySize = fits ? most + Around : null;
        http.Features.Set<IFormFeature>(new FormFeature(http.Request, new FormOptions { MultipartBodyLengthLimit = most + Around }));
        if (fits) return;
        await http.Request.Body.CopyToAsync(Stream.Null, http.RequestAborted);
        context.Result = new RedirectResult(@else);
    }
}
