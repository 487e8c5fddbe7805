using System.IO.Compression;
using System.Net;
using AngleSharp.Html.Parser;
using Cellarbook.Hosting;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Cellarbook.Tests.Pages;
using Microsoft.AspNetCore.Builder;

[assembly: AssemblyFixture(typeof(DemoPages))]

namespace Cellarbook.Tests.Pages;

/// <summary>A page as it came over the line.</summary>
public sealed record Fetched(string Path, HttpStatusCode Status, string Html, int Bytes, bool IsCompressed)
{
    public override string ToString() => Path;
}

/// <summary>The program with the demonstration book, and every page of it that a link leads to.</summary>
public sealed class DemoPages : IAsyncLifetime
{
    // Of forms that differ only in what they are about, so many are enough.
    private const int Alike = 2;

    private readonly string folder = Directory.CreateTempSubdirectory("cellarbook-pages-").FullName;
    private readonly Lazy<Task<IReadOnlyList<Fetched>>> all;
    private OpenBook book = null!;
    private WebApplication app = null!;

    public DemoPages() => all = new(Walk);

    /// <summary>The same with other preferences, for one test alone.</summary>
    public static async Task<DemoPages> Open(string preferences)
    {
        var pages = new DemoPages();
        await File.WriteAllTextAsync(Path.Combine(pages.folder, "preferences.json"), preferences);
        await pages.InitializeAsync();
        return pages;
    }

    /// <summary>A browser that takes compressed pages and unpacks nothing.</summary>
    public HttpClient Browser { get; private set; } = null!;

    /// <summary>Every page, fetched once.</summary>
    public Task<IReadOnlyList<Fetched>> All => all.Value;

    public async ValueTask InitializeAsync()
    {
        book = new OpenBook(BookStore.Open(folder), DemoBook.Clock);
        DemoBook.Fill(book);
        app = Site.Build(["--applicationName=Cellarbook", "--urls=http://127.0.0.1:0", "--Logging:LogLevel:Default=Error"], _ => book, folder);
        await app.StartAsync();
        Browser = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = new(app.Urls.First()) };
        Browser.DefaultRequestHeaders.AcceptEncoding.ParseAdd("br");
    }

    public async Task<Fetched> Get(string path)
    {
        using var answer = await Browser.GetAsync(path);
        var bytes = await answer.Content.ReadAsByteArrayAsync();
        var packed = answer.Content.Headers.ContentEncoding.Contains("br");
        using var plain = packed ? (Stream)new BrotliStream(new MemoryStream(bytes), CompressionMode.Decompress) : new MemoryStream(bytes);
        using var reader = new StreamReader(plain);
        return new(path, answer.StatusCode, answer.Content.Headers.ContentType?.MediaType == "text/html" ? await reader.ReadToEndAsync() : "", bytes.Length, packed);
    }

    public async ValueTask DisposeAsync()
    {
        Browser?.Dispose();
        if (app is not null) await app.DisposeAsync();
        book?.Dispose();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Directory.Delete(folder, recursive: true);
    }

    private async Task<IReadOnlyList<Fetched>> Walk()
    {
        var found = new List<Fetched>();
        var seen = new HashSet<string>(StringComparer.Ordinal) { "/", "/sign-in", "/nowhere" };
        var shapes = new Dictionary<string, int>(StringComparer.Ordinal);
        var parser = new HtmlParser();
        for (var waiting = new Queue<string>(seen); waiting.TryDequeue(out var path);)
        {
            var page = await Get(path);
            if (page.Html.Length == 0) continue;
            found.Add(page);
            foreach (var link in parser.ParseDocument(page.Html).QuerySelectorAll("a[href]").Select(a => a.GetAttribute("href")!.Split('#')[0]))
                if (link.StartsWith('/') && !link.StartsWith("/api", StringComparison.Ordinal) && seen.Add(link) && (shapes[Shape(link)] = shapes.GetValueOrDefault(Shape(link)) + 1) <= (link.Contains('?', StringComparison.Ordinal) ? Alike : int.MaxValue)) waiting.Enqueue(link);
        }
        return found;
    }

    private static string Shape(string link)
    {
        var parts = link.Split('?');
        return parts.Length == 1 ? link : parts[0] + "?" + string.Join('&', parts[1].Split('&').Select(pair => pair.Split('=')[0]).Order(StringComparer.Ordinal));
    }
}
