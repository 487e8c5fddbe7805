using System.Globalization;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.OutputCaching;

namespace Cellarbook.Hosting;

/// <summary>
/// A lot's page is made once for each state of the book, however many read it at a time. Kept by the last entry's number, the day and the
/// preferences, so that it is never older than what was acknowledged; for nobody who is signed in, whose pages bear a token of their own.
/// </summary>
internal sealed class KeptPages : IOutputCachePolicy
{
    public static void Add(IServiceCollection services) => services.AddOutputCache(options =>
    {
        options.SizeLimit = 4 << 20;
        options.MaximumBodySize = 1 << 20;
        options.AddBasePolicy(new KeptPages());
    });

    public ValueTask CacheRequestAsync(OutputCacheContext context, CancellationToken cancellation)
    {
        var http = context.HttpContext;
        var keeps = HttpMethods.IsGet(http.Request.Method) && http.Request.Path.StartsWithSegments("/lots", out var lot) && lot.HasValue && http.User.Identity?.IsAuthenticated != true;
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
