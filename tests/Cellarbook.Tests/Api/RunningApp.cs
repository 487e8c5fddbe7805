using System.Net.Http.Json;
using System.Text;
using System.Text.Json;
using Cellarbook.Hosting;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Builder;

namespace Cellarbook.Tests.Api;

/// <summary>The whole program on a loopback port with a book in a throw-away folder; today is a day of the test's choosing.</summary>
public sealed class RunningApp : IAsyncDisposable
{
    private readonly WebApplication app;

    private RunningApp(WebApplication app, OpenBook book, string folder)
    {
        this.app = app;
        Book = book;
        Folder = folder;
        Http = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
    }

    public OpenBook Book { get; }

    public string Folder { get; }

    public HttpClient Http { get; }

    public IServiceProvider Services => app.Services;

    public static async Task<RunningApp> Start(string? folder = null, DateOnly? today = null)
    {
        folder ??= Directory.CreateTempSubdirectory("cellarbook-test-").FullName;
        var book = new OpenBook(BookStore.Open(folder), new FixedClock(today ?? new DateOnly(2026, 11, 24)));
        var app = Site.Build(["--urls", "http://127.0.0.1:0", "--Logging:LogLevel:Default=None", "--Logging:LogLevel:Microsoft=None"], _ => book, folder);
        await app.StartAsync();
        return new(app, book, folder);
    }

    /// <summary>Posts JSON and gives status and answer.</summary>
    public async Task<(int Status, JsonElement Answer)> Post(string path, string json, string? key = null, string type = "application/json")
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new StringContent(json, Encoding.UTF8, type) };
        if (key is not null) request.Headers.Add("Idempotency-Key", key);
        using var response = await Http.SendAsync(request);
        return ((int)response.StatusCode, await Json(response));
    }

    /// <summary>Records an operation that must be accepted.</summary>
    public async Task<JsonElement> Does(string json)
    {
        var (status, answer) = await Post("/api/v1/operations", json);
        Assert.True(status == 201, $"HTTP {status}: {answer} for {json}");
        return answer;
    }

    public async Task<JsonElement> Get(string path) => await Http.GetFromJsonAsync<JsonElement>(path);

    public async ValueTask DisposeAsync()
    {
        Http.Dispose();
        await app.DisposeAsync();
        Book.Dispose();
        Directory.Delete(Folder, recursive: true);
    }

    private static async Task<JsonElement> Json(HttpResponseMessage response)
    {
        var text = await response.Content.ReadAsStringAsync();
        return text.Length == 0 ? default : JsonDocument.Parse(text).RootElement;
    }

    private sealed class FixedClock(DateOnly today) : TimeProvider
    {
        private int ticks;

        public override DateTimeOffset GetUtcNow() => new(today.ToDateTime(new TimeOnly(12, 0)).AddMilliseconds(ticks++), TimeSpan.Zero);
    }
}
