using System.Net;
using Cellarbook.Hosting;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Builder;
using Xunit;

namespace Cellarbook.Tests.Bench;

/// <summary>The program itself on a free port, with an empty book in a folder of its own.</summary>
public sealed class BenchSite : IAsyncLifetime
{
    private readonly string folder = Directory.CreateTempSubdirectory("cellarbook-bench-").FullName;
    private OpenBook? book;
    private WebApplication? app;

    /// <summary>Talks to it; follows no redirect.</summary>
    public HttpClient Client { get; private set; } = null!;

    public async ValueTask InitializeAsync()
    {
        book = new OpenBook(BookStore.Open(folder), TimeProvider.System);
        // Every page leads to the first question until it is answered.
        Assert.Empty(book.Record(new Core.Operations.Premises { Day = new(2026, 3, 1), Name = "Bench House", Regimes = ["household"], TimeZone = "UTC" }, "owner").Refusals);
        app = Site.Build(["--applicationName=Cellarbook", "--urls=http://127.0.0.1:0", "--Logging:LogLevel:Default=Error"], _ => book, folder);
        await app.StartAsync();
        Client = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, AutomaticDecompression = DecompressionMethods.All }) { BaseAddress = new(app.Urls.First()) };
    }

    public async ValueTask DisposeAsync()
    {
        Client?.Dispose();
        if (app is not null) await app.DisposeAsync();
        book?.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
    }
}
