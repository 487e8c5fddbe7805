using System.Globalization;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.OutputCaching;

namespace Cellarbook.Hosting;

/// <summary>
/// A lot's page, Today and the lists are made once for each state of the book, however many read them at a time. Kept by the last entry's number, the day and the
/// preferences, so that none is older than what was acknowledged; for nobody who is signed in, whose pages bear a token of their own.
/// </summary>
internal sealed class KeptPages : IOutputCachePolicy
{
    // Pages of figures alone: none of them holds a form that writes, which would bear a token.
    private static readonly HashSet<string> Lists = new(StringComparer.OrdinalIgnoreCase) { "/", "/lots", "/vessels", "/bottles", "/book", "/statements", "/statements/stock" };

    public static void Add(IServiceCollection services) => services.AddOutputCache(options =>
    {
        options.SizeLimit = 4 << 20;
        options.MaximumBodySize = 1 << 20;
        options.AddBasePolicy(new KeptPages());
    });

    public ValueTask CacheRequestAsync(OutputCacheContext context, CancellationToken cancellation)
    {
        var http = context.HttpContext;
        var keeps = HttpMethods.IsGet(http.Request.Method) && (Lists.Contains(http.Request.Path) || http.Request.Path.StartsWithSegments("/lots")) && http.User.Identity?.IsAuthenticated != true;
        context.EnableOutputCaching = context.AllowCacheLookup = context.AllowCacheStorage = context.AllowLocking = keeps;
        if (!keeps) return ValueTask.CompletedTask;
        var book = http.RequestServices.GetRequiredService<OpenBook>();
        context.ResponseExpirationTimeSpan = TimeSpan.FromMinutes(1);
        context.CacheVaryByRules.QueryKeys = "*";
        context.CacheVaryByRules.VaryByValues["book"] = book.Read(found => found.LastNumber).ToString(CultureInfo.InvariantCulture);
        context.CacheVaryByRules.VaryByValues["day"] = book.Today.ToString("O", CultureInfo.InvariantCulture);
        context.CacheVaryByRules.VaryByValues["preferences"] = http.RequestServices.GetRequiredService<PreferencesFile>().Now.ToString();
        return ValueTask.CompletedTask;
    }

    public ValueTask ServeFromCacheAsync(OutputCacheContext context, CancellationToken cancellation) => ValueTask.CompletedTask;

    public ValueTask ServeResponseAsync(OutputCacheContext context, CancellationToken cancellation)
    {
        if (context.HttpContext.Response is not { StatusCode: StatusCodes.Status200OK } response || response.Headers.SetCookie.Count > 0) context.AllowCacheStorage = false;
        return ValueTask.CompletedTask;
    }
}
