using System.Net;
using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;

namespace Cellarbook.Accounts;

/// <summary>
/// Who may do what. Until the owner has a password the program serves this machine alone and asks nobody; from then on everybody signs in: people by a
/// page and a cookie, scripts by a token.
/// </summary>
public static class SignIn
{
    /// <summary>The page that asks for the password.</summary>
    public const string Page = "/sign-in";

    private const string Stamp = "stamp";
    private static readonly string[] ForOwners = ["/settings", "/api/v1/imports", "/record/close", "/record/blank-contact", "/api/v1/book/contacts"];

    /// <summary>The services it needs.</summary>
    public static void Add(IServiceCollection services, string? folder)
    {
        services.AddSingleton(new AccountsFile(folder ?? System.IO.Path.GetTempPath()));
        services.AddSingleton<Tries>();
        services.AddAuthentication(CookieAuthenticationDefaults.AuthenticationScheme).AddCookie(options =>
        {
            options.Cookie.Name = "cellarbook";
            options.Cookie.HttpOnly = true;
            options.Cookie.SameSite = SameSiteMode.Lax;
            options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
            options.ExpireTimeSpan = TimeSpan.FromDays(30);
            options.SlidingExpiration = true;
            options.LoginPath = Page;
            options.Events.OnValidatePrincipal = Validate;
        });
    }

    /// <summary>True when this machine asks itself, without another between.</summary>
    public static bool IsFromHere(HttpContext context) =>
        (context.Connection.RemoteIpAddress is not { } remote || IPAddress.IsLoopback(remote)) && Listening.IsLoopbackName(context.Request.Host.Host) && context.Request.Headers["X-Forwarded-For"].Count == 0 && context.Request.Headers["Forwarded"].Count == 0;

    /// <summary>Signs somebody in.</summary>
    public static Task Enter(HttpContext context, Person person) => context.SignInAsync(
        new ClaimsPrincipal(new ClaimsIdentity([new(ClaimTypes.Name, person.Name), new(ClaimTypes.Role, person.Role.ToString()), new(Stamp, person.Stamp)], CookieAuthenticationDefaults.AuthenticationScheme)),
        new AuthenticationProperties { IsPersistent = true });

    /// <summary>Lets a request through, asks who it is, or says why not.</summary>
    public static async Task Guard(HttpContext context, RequestDelegate next)
    {
        var accounts = context.RequestServices.GetRequiredService<AccountsFile>();
        var request = context.Request;
        var isApi = request.Path.StartsWithSegments("/api");
        var changes = !(HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || HttpMethods.IsOptions(request.Method));
        if (isApi && changes && IsFromElsewhere(request))
        {
            await Refuse(context, StatusCodes.Status403Forbidden, "A page of another address may not write here.");
            return;
        }
        if (!accounts.HasOwner)
        {
            if (IsFromHere(context)) await next(context);
            else await Refuse(context, StatusCodes.Status403Forbidden, "The book has no password yet, so only this machine itself may open it, as localhost. Give it a password first.");
            return;
        }
        if (request.Path == "/health" || request.Path.StartsWithSegments(Page) || IsStyle(request.Path))
        {
            await next(context);
            return;
        }
        if (Bearer(request) is { } bearer)
        {
            if (accounts.CheckToken(bearer) is not { } token)
            {
                await Refuse(context, StatusCodes.Status401Unauthorized, "This token is not known. Make one in Settings, under People and scripts.");
                return;
            }
            context.User = new(new ClaimsIdentity([new(ClaimTypes.Name, token.Name), new(ClaimTypes.Role, token.Role.ToString())], "token"));
        }
        else if (context.User.Identity?.IsAuthenticated != true)
        {
            if (isApi) await Refuse(context, StatusCodes.Status401Unauthorized, "Sign in, or send a token: Authorization: Bearer …");
            else context.Response.Redirect(Page + QueryString.Create("to", request.Path + request.QueryString));
            return;
        }
        else if (isApi && changes && request.Headers.Origin.Count == 0 && request.Headers["Sec-Fetch-Site"].Count == 0)
        {
            // A cookie alone doesn't show that its owner meant it.
            await Refuse(context, StatusCodes.Status403Forbidden, "Scripts come with a token, not with somebody's sign-in.");
            return;
        }
        if (!May(context.User, request, changes))
        {
            await Refuse(context, StatusCodes.Status403Forbidden, "This is for the owner of the book to do.");
            return;
        }
        // What somebody signed in to see stays in no cache that another may look into.
        context.Response.Headers.CacheControl = "no-store";
        await next(context);
    }

    private static bool May(ClaimsPrincipal user, HttpRequest request, bool changes)
    {
        if (user.IsInRole(nameof(Role.Owner))) return true;
        if (ForOwners.Any(path => request.Path.StartsWithSegments(path))) return false;
        return !changes || user.IsInRole(nameof(Role.Hand));
    }

    private static bool IsStyle(PathString path) => path.Value is { } value && value.IndexOf('/', 1) < 0 && (value.EndsWith(".css", StringComparison.Ordinal) || value.EndsWith(".svg", StringComparison.Ordinal) || value.EndsWith(".js", StringComparison.Ordinal));

    private static string? Bearer(HttpRequest request) => request.Headers.Authorization.ToString() is var header && header.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase) ? header["Bearer ".Length..].Trim() : null;

    /// <summary>True when a browser says that a page of another site sends this.</summary>
    private static bool IsFromElsewhere(HttpRequest request) =>
        request.Headers["Sec-Fetch-Site"].ToString() is "cross-site" or "same-site"
        || (request.Headers.Origin.ToString() is { Length: > 0 } origin && !(Uri.TryCreate(origin, UriKind.Absolute, out var from) && from.Authority.Equals(request.Host.Value, StringComparison.OrdinalIgnoreCase)));

    private static async Task Validate(CookieValidatePrincipalContext context)
    {
        var accounts = context.HttpContext.RequestServices.GetRequiredService<AccountsFile>();
        if (accounts.Holds(context.Principal?.Identity?.Name, context.Principal?.FindFirstValue(Stamp))) return;
        context.RejectPrincipal();
        await context.HttpContext.SignOutAsync();
    }

    private static async Task Refuse(HttpContext context, int status, Sentence sentence)
    {
        context.Response.StatusCode = status;
        if (status == StatusCodes.Status401Unauthorized) context.Response.Headers.WWWAuthenticate = "Bearer";
        if (context.Request.Path.StartsWithSegments("/api")) await TypedResults.Problem(statusCode: status, detail: sentence.ToString()).ExecuteAsync(context);
        else
        {
            context.Response.ContentType = "text/plain; charset=utf-8";
            await context.Response.WriteAsync(context.RequestServices.GetRequiredService<Texts.Texts>()[sentence]);
        }
    }
}
