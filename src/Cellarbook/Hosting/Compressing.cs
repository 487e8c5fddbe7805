using Microsoft.AspNetCore.ResponseCompression;

namespace Cellarbook.Hosting;

/// <summary>
/// Which answers are sent compressed. The size of a compressed answer can tell something about a secret in it to somebody who listens on an
/// encrypted line and can have words of their own put beside the secret, again and again. So what is in an answer decides:
/// <list type="bullet">
/// <item>A form's token is made anew, with random bytes all through it, for every answer: there is nothing to learn by asking again. Pages with forms are compressed.</item>
/// <item>A script's token and a sign-in stand in answers of /settings and /sign-in: these are never compressed.</item>
/// <item>What the book says is the same each time, and lists repeat what was looked for. A page of another site could send a signed-in reader there
/// with words it chose; the browser says so, and what it was sent to is not compressed. A browser that doesn't say so at all is treated alike once
/// there is a sign-in.</item>
/// </list>
/// </summary>
public static class Compressing
{
    /// <summary>The services it needs.</summary>
    public static void Add(IServiceCollection services) => services.AddResponseCompression(options =>
    {
        options.EnableForHttps = true;
        options.MimeTypes = [.. ResponseCompressionDefaults.MimeTypes, "application/problem+json", "text/csv", "image/svg+xml"];
    });

    /// <summary>True where compressing gives nothing away.</summary>
    public static bool IsSafe(HttpContext context)
    {
        var path = context.Request.Path;
        if (path.StartsWithSegments("/settings") || path.StartsWithSegments(Accounts.SignIn.Page)) return false;
        var site = context.Request.Headers["Sec-Fetch-Site"].ToString();
        // "none": typed into the address line or kept as a bookmark. A script that comes with a token is no browser: nobody can make it ask.
        return site is "same-origin" or "none" || (site.Length == 0 && (context.Request.Headers.Authorization.Count > 0 || context.Request.Headers.Cookie.Count == 0 || !context.RequestServices.GetRequiredService<Accounts.AccountsFile>().HasOwner));
    }
}
