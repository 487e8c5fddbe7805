using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>One Chromium for all tests, and the two books they look at: the demonstration book of a licensed maker, and a household's.</summary>
public sealed class Browsers : IAsyncLifetime
{
    private IPlaywright? playwright;
    private IBrowser? browser;

    /// <summary>The demonstration book.</summary>
    public RunningCellar Demo { get; private set; } = null!;

    /// <summary>A household's book.</summary>
    public RunningCellar Household { get; private set; } = null!;

    /// <inheritdoc/>
    public async ValueTask InitializeAsync()
    {
        playwright = await Playwright.CreateAsync();
        browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = Environment.GetEnvironmentVariable("CELLARBOOK_CHROMIUM") ?? "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
        });
        Demo = await RunningCellar.Demo();
        Household = await RunningCellar.Empty();
        await HouseholdDiary.Write(Household);
    }

    /// <summary>A window on a book.</summary>
    /// <param name="cellar">The book.</param>
    /// <param name="width">360 for a phone, 1440 for a table.</param>
    /// <param name="dark">True for the dark scheme.</param>
    /// <param name="script">False to switch script off.</param>
    /// <param name="scale">Pixels of a picture for each of the page's own.</param>
    public async Task<Window> Open(RunningCellar cellar, int width = 1440, bool dark = false, bool script = true, float scale = 1)
    {
        var context = await browser!.NewContextAsync(new()
        {
            BaseURL = cellar.Address,
            ViewportSize = new() { Width = width, Height = width < 600 ? 740 : 900 },
            ColorScheme = dark ? ColorScheme.Dark : ColorScheme.Light,
            JavaScriptEnabled = script,
            DeviceScaleFactor = scale,
            Locale = "en-GB",
        });
        context.SetDefaultTimeout(15_000);
        return new(context, await context.NewPageAsync(), cellar.Address);
    }

    /// <inheritdoc/>
    public async ValueTask DisposeAsync()
    {
        if (browser is not null) await browser.DisposeAsync();
        playwright?.Dispose();
        if (Demo is not null) await Demo.DisposeAsync();
        if (Household is not null) await Household.DisposeAsync();
    }
}

/// <summary>A page with what went wrong on it.</summary>
public sealed class Window : IAsyncDisposable
{
    private readonly IBrowserContext context;

    internal Window(IBrowserContext context, IPage page, string address)
    {
        this.context = context;
        Page = page;
        page.PageError += (_, fault) => Faults.Add("script: " + fault);
        page.Console += (_, message) => { if (message.Type is "error" or "warning") Faults.Add($"console: {message.Text}"); };
        page.Request += (_, request) => { if (!request.Url.StartsWith(address, StringComparison.Ordinal) && !request.Url.StartsWith("data:", StringComparison.Ordinal)) Faults.Add("outside: " + request.Url); };
        page.Response += (_, response) => { if (response.Status >= 500) Faults.Add($"{response.Status} {response.Url}"); };
    }

    /// <summary>The page.</summary>
    public IPage Page { get; }

    /// <summary>Script errors, refused styles, requests to elsewhere, failures of the server.</summary>
    public List<string> Faults { get; } = [];

    /// <summary>Goes to an address of the book.</summary>
    public Task Go(string path) => Page.GotoAsync(path);

    /// <summary>How far the page runs over to the right, in pixels.</summary>
    public Task<int> Overrun() => Page.EvaluateAsync<int>("document.documentElement.scrollWidth - document.documentElement.clientWidth");

    /// <inheritdoc/>
    public ValueTask DisposeAsync() => context.DisposeAsync();
}

/// <summary>The tests that share the browser and the two books.</summary>
[CollectionDefinition(Name)]
public sealed class InTheBrowser : ICollectionFixture<Browsers>
{
    /// <summary>Its name.</summary>
    public const string Name = "in the browser";
}
