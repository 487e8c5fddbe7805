using System.Text;
using Cellarbook.Core.Operations;
using Cellarbook.Hosting;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Builder;
using Microsoft.Playwright;
using Xunit;

namespace Cellarbook.Browser.Tests.Forms;

/// <summary>A real browser before the program, which serves a small cellar from a folder of its own.</summary>
public sealed class FormRoom : IAsyncLifetime
{
    /// <summary>A phone in one hand.</summary>
    public static readonly ViewportSize Phone = new() { Width = 360, Height = 740 };

    /// <summary>A kitchen table.</summary>
    public static readonly ViewportSize Table = new() { Width = 1440, Height = 900 };

    private readonly string folder = Directory.CreateTempSubdirectory("cellarbook-room-").FullName;
    private readonly OpenBook book;
    private readonly WebApplication app;
    private IPlaywright? playwright;
    private IBrowser? browser;

    public FormRoom()
    {
        book = new(BookStore.Open(folder), TimeProvider.System);
        // The style sheets come from the program's own folder, wherever the tests run.
        app = Site.Build(["--urls", "http://127.0.0.1:0", "--applicationName", "Cellarbook", "--environment", "Development", "--Logging:Console:LogLevel:Default", "None"], _ => book, folder);
    }

    public OpenBook Book => book;

    public async ValueTask InitializeAsync()
    {
        foreach (var operation in (string[])
        [
            """{"kind":"premises","day":"2026-01-01","regimes":["household"],"owner":"Ida","name":"Ashlar Hill"}""",
            """{"kind":"vessel","day":"2026-01-01","code":"V1","capacityLitres":30}""", """{"kind":"vessel","day":"2026-01-01","code":"V2","capacityLitres":30}""", """{"kind":"vessel","day":"2026-01-01","code":"V3","capacityLitres":30}""",
            """{"kind":"receive","day":"2026-01-02","what":"must","lot":"L1","vessel":"V1","litres":23}""", """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"W1","vessel":"V3","litres":25,"abv":12,"taxPaid":true}""",
            """{"kind":"bottle","day":"2026-01-03","lot":"W1","vessel":"V3","fills":[{"bottling":"W1-75","bottles":6,"bottleMl":750}]}""",
        ])
            Assert.Empty(book.Record(OperationJson.Read(Encoding.UTF8.GetBytes(operation), [])!, "Ida").Refusals);
        await app.StartAsync();
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Environment.GetEnvironmentVariable("CELLARBOOK_CHROMIUM") ?? "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
    }

    /// <summary>A fresh page.</summary>
    public async Task<IPage> Page(ViewportSize size, bool script = false, ColorScheme theme = ColorScheme.Light)
    {
        var context = await browser!.NewContextAsync(new() { BaseURL = app.Urls.First(), ViewportSize = size, JavaScriptEnabled = script, ColorScheme = theme });
        context.SetDefaultTimeout(15_000);
        return await context.NewPageAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (browser is not null) await browser.DisposeAsync();
        playwright?.Dispose();
        await app.DisposeAsync();
        book.Dispose();
        Directory.Delete(folder, recursive: true);
    }
}
