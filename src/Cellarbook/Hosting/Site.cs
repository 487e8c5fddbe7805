using Cellarbook.Api;
using Cellarbook.Core.Operations;
using Cellarbook.Recording;
using Microsoft.AspNetCore.DataProtection;
using Scalar.AspNetCore;

namespace Cellarbook.Hosting;

/// <summary>The web program around an open book: API, pages, docs.</summary>
public static class Site
{
    /// <summary>Where it listens unless --urls says otherwise.</summary>
    public const string Address = "http://127.0.0.1:5080";

    /// <summary>Builds it. What needs the book gets it from <paramref name="open"/>, once.</summary>
    /// <param name="args">Settings of the web server.</param>
    /// <param name="open">Gives the book.</param>
    /// <param name="folder">The book's folder; null where no book is open.</param>
    public static WebApplication Build(string[] args, Func<IServiceProvider, OpenBook> open, string? folder)
    {
        // Published files lie beside the program, wherever it was started from.
        var beside = Path.Combine(AppContext.BaseDirectory, "wwwroot");
        var builder = WebApplication.CreateBuilder(new WebApplicationOptions { Args = args, ApplicationName = typeof(Site).Assembly.GetName().Name, ContentRootPath = Directory.Exists(beside) ? AppContext.BaseDirectory : null });
        if (builder.Configuration["urls"] is null) builder.WebHost.UseUrls(Address);
        // Run from its sources, the files come from where the build left them, compressed ones too, whatever the working directory; published, this does nothing.
        builder.WebHost.UseStaticWebAssets();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = 4 << 20;
            kestrel.Limits.MaxConcurrentConnections = 500;
            kestrel.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
        });
        // The least of all sources, so that any setting wins over it.
        builder.Configuration.Sources.Insert(0, new Microsoft.Extensions.Configuration.Memory.MemoryConfigurationSource
        {
            InitialData = new Dictionary<string, string?> { ["Logging:LogLevel:Microsoft"] = "Warning", ["Logging:LogLevel:Microsoft.AspNetCore.DataProtection"] = "Error", ["Logging:LogLevel:Default"] = "Information" },
        });
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.AddSingleton(open);
        builder.Services.AddSingleton<CostMemory>();
        builder.Services.AddSingleton<LongWork>();
        builder.Services.AddSingleton<Asides>();
        builder.Services.AddSingleton<Imports.JournalDesk>();
        builder.Services.ConfigureHttpJsonOptions(options =>
        {
            foreach (var converter in OperationJson.Converters) options.SerializerOptions.Converters.Add(converter);
            options.SerializerOptions.Converters.Add(new Api.SentenceJson());
            options.SerializerOptions.DefaultIgnoreCondition = System.Text.Json.Serialization.JsonIgnoreCondition.WhenWritingNull;
            options.SerializerOptions.Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
        });
        builder.Services.AddProblemDetails(options => options.CustomizeProblemDetails = context =>
        {
            // Every problem has a code, also those the framework finds by itself.
            if (!context.ProblemDetails.Extensions.ContainsKey("code")) context.ProblemDetails.Extensions["code"] = FrameworkCode(context.HttpContext.Response.StatusCode);
        });
        builder.Services.AddOpenApi(ApiDocument.Configure);
        Pages(builder.Services, folder);
        Accounts.SignIn.Add(builder.Services, folder);
        KeptPages.Add(builder.Services);
        Compressing.Add(builder.Services);
        var app = builder.Build();
        // At once, so that what a program left that was killed is removed.
        app.Services.GetRequiredService<Asides>();

        app.UseWhen(Compressing.IsSafe, branch => branch.UseResponseCompression());
        app.UseExceptionHandler();
        app.UseStatusCodePages();
        app.UseStatusCodePagesWithReExecute("/missing");
        app.Use(PagesForPagesOnly);
        app.Use(SecurityHeaders);
        app.UseAuthentication();
        app.Use(Accounts.SignIn.Guard);
        app.UseOutputCache();
        app.MapStaticAssets();
        app.MapOpenApi("/api-docs/openapi.json");
        app.MapScalarApiReference("/api-docs", options => options.WithTitle("Cellarbook API").WithOpenApiRoutePattern("/api-docs/openapi.json")
            .DisableDefaultFonts().DisableTelemetry().DisableAgent().DisableMcp().HideDeveloperTools().HideClientButton());
        app.MapGet("/health", Health).ExcludeFromDescription();
        var api = app.MapGroup("/api/v1");
        OperationsApi.Map(api);
        CellarApi.Map(api);
        StoresApi.Map(api);
        LimitsApi.Map(api);
        AdditionsApi.Map(api);
        ImportApi.Map(api);
        StatementsApi.Map(api);
        BookApi.Map(api);
        BenchApi.Map(api);
        CostApi.Map(api);
        app.MapRazorPages().WithStaticAssets();
        return app;
    }

    private static void Pages(IServiceCollection services, string? folder)
    {
        services.AddRazorPages().AddMvcOptions(options => options.Filters.Add<Cellarbook.Pages.Shared.FirstQuestion>());
        services.AddSingleton<Cellarbook.Pages.Shared.PreferencesFile>();
        services.AddSingleton<Cellarbook.Texts.Texts>();
        services.AddSingleton<Cellarbook.Pages.Shared.House>();
        services.AddSingleton<Cellarbook.Pages.Shared.Show>();
        services.AddSingleton<Cellarbook.Pages.Shared.Told>();
        services.AddSingleton<Cellarbook.Pages.Shared.Notices>();
        services.AddSingleton<Cellarbook.Pages.Shared.EntryLines>();
        services.AddSingleton<Cellarbook.Core.Passbook.EntryIndex>();
        services.AddSingleton<Cellarbook.Forms.Desk>();
        // Keys that guard forms lie beside the book, so that a form opened before a restart can still be sent.
        if (folder is not null) services.AddDataProtection().SetApplicationName("cellarbook").PersistKeysToFileSystem(new DirectoryInfo(Path.Combine(folder, "keys")));
        services.AddAntiforgery(options => options.Cookie.Name = "cellarbook-form");
    }

    private static IResult Health(OpenBook book) => book.IsSound
        ? TypedResults.Ok(new { status = "sound", entries = book.Read(found => found.LastNumber) })
        : TypedResults.Json(new { status = "unsound", findings = book.Findings.Select(finding => finding.Sentence).Take(20) }, statusCode: StatusCodes.Status503ServiceUnavailable);

    private static Task SecurityHeaders(HttpContext context, RequestDelegate next)
    {
        var headers = context.Response.Headers;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers.XFrameOptions = "DENY";
        // The API page's own script builds styles and runs inline; everything of ours needs neither.
        headers.ContentSecurityPolicy = context.Request.Path.StartsWithSegments("/api-docs")
            ? "default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; font-src 'self' data:; frame-ancestors 'none'"
            : "default-src 'self'; style-src 'self'; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
        return next(context);
    }

    /// <summary>People get a page when something isn't there, scripts a problem answer.</summary>
    private static Task PagesForPagesOnly(HttpContext context, RequestDelegate next)
    {
        if (context.Request.Path.StartsWithSegments("/api") || context.Request.Path.StartsWithSegments("/health")) context.Features.Get<Microsoft.AspNetCore.Diagnostics.IStatusCodePagesFeature>()!.Enabled = false;
        return next(context);
    }

    private static string FrameworkCode(int status) => status switch
    {
        400 => "unreadable",
        401 => "sign_in_needed",
        403 => "not_allowed",
        404 => "not_found",
        405 => "method_not_allowed",
        413 => "too_large",
        429 => "too_many",
        415 => "unsupported_media_type",
        _ => "failed",
    };
}
