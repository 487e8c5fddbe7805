using Cellarbook.Hosting;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Builder;

namespace Cellarbook.Benchmarks;

/// <summary>What a page of the demonstration book takes to make and to send: time from request to last byte on this machine, and bytes on the line.</summary>
internal sealed class PagesBench(string folder, Report report)
{
    private const int Runs = 41;

    public async Task Run()
    {
        using var book = new OpenBook(BookStore.Open(folder), DemoBook.Clock);
        DemoBook.Fill(book);
        await using var app = Site.Build(["--applicationName=Cellarbook", "--urls=http://127.0.0.1:0", "--Logging:LogLevel:Default=Error"], _ => book, folder);
        await app.StartAsync();
        using var browser = new HttpClient { BaseAddress = new(app.Urls.First()) };
        browser.DefaultRequestHeaders.AcceptEncoding.ParseAdd("br");
        // The lot of which most is known has the longest page.
        var lot = book.Read(found => found.Now.Lots.ToArray()).MaxBy(code => book.Store.Search(new() { About = code, Count = 1_000 }).Entries.Count)!;
        foreach (var (name, path) in new[] { ("Today", "/"), ($"the lot with most entries ({lot})", "/lots/" + Uri.EscapeDataString(lot)), ("the lots", "/lots"), ("the book", "/book"), ("a year's statement", "/statements?period=2026"), ("the form of a racking", "/record/rack") })
        {
            var bytes = 0;
            var median = Timing.Median(Runs, () => bytes = browser.GetByteArrayAsync(path).GetAwaiter().GetResult().Length);
            var plain = new HttpClient { BaseAddress = browser.BaseAddress }.GetByteArrayAsync(path).GetAwaiter().GetResult().Length;
            report.Row($"page: {name}", $"{Report.Time(median)}, {bytes / 1000.0:0.0} kB", $"{plain / 1000.0:0.0} kB unpacked", "≤ 30 ms, ≤ 60 kB");
        }
        await app.StopAsync();
    }
}
