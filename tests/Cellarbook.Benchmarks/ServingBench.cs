using System.Diagnostics;
using System.Diagnostics.Metrics;
using System.Text;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Hosting;
using Cellarbook.Imports;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;

namespace Cellarbook.Benchmarks;

/// <summary>The program as it is used: how soon it answers, how much memory it takes, a lot's page while many read and some write.</summary>
internal sealed class ServingBench(string folder, int rows, Report report)
{
    private const int Readers = 20;
    private const int Writers = 2;

    public void Run()
    {
        StartOf10000();
        Memory();
        LotPage().GetAwaiter().GetResult();
    }

    private void StartOf10000()
    {
        var data = Path.Combine(folder, "ten-thousand");
        var journal = Path.Combine(folder, "ten-thousand.csv");
        using (var writer = new StreamWriter(journal)) new CellarGenerator(3).Write(writer, 10_400, 4 * 365, new(2020, 1, 1));
        long entries;
        using (var book = new OpenBook(BookStore.Open(data), TimeProvider.System))
        using (var stream = File.OpenRead(journal))
        {
            if (book.Import(today => JournalUpload.Read(stream, today), "bench", false).Refusals is { Count: > 0 } refusals) throw new InvalidOperationException(refusals[0].Sentence.ToString());
            entries = book.Read(found => found.LastNumber);
        }
        var times = new double[5];
        for (var i = 0; i < times.Length; i++)
        {
            var watch = Stopwatch.StartNew();
            using var program = ServedProgram.Serve(data);
            using var client = new HttpClient();
            client.GetAsync(program.Address + "/health").GetAwaiter().GetResult().EnsureSuccessStatusCode();
            times[i] = watch.Elapsed.TotalMilliseconds;
        }
        Array.Sort(times);
        report.Row($"answering after a start on a book of {entries:N0} entries", Report.Time(times[2]), "a process of its own, median of 5", "≤ 2 s");
    }

    private void Memory()
    {
        using var program = ServedProgram.Serve(Path.Combine(folder, $"book-{rows}"));
        using var client = new HttpClient { BaseAddress = new Uri(program.Address), Timeout = TimeSpan.FromMinutes(2) };
        // A book that nobody said who it is for asks that first; after it, pages are pages.
        client.PostAsync("/api/v1/operations", Json("""{"kind":"premises","day":"2026-01-01","regimes":["us"]}""")).GetAwaiter().GetResult().EnsureSuccessStatusCode();
        foreach (var path in new[] { "/", "/lots", "/lots/L000100", "/bottles", "/book", "/statements?period=2020-05", "/api/v1/statements/period?from=2020-05-01&to=2020-05-31&form=us-5120-17&format=csv", "/api/v1/statements/period?from=1996-01-01&to=2025-12-31&form=plain&format=json", "/api/v1/lots", "/api/v1/book/entries" })
            client.GetAsync(path).GetAwaiter().GetResult().EnsureSuccessStatusCode();
        report.Row($"peak memory serving {rows:N0} postings", $"{program.Peak >> 20:N0} MB", "working set of the serving process after start, pages, statements and lists", "≤ 400 MB");
    }

    /// <summary>In this process, so that the server's own measure of a request can be heard; the clients share its cores.</summary>
    private async Task LotPage()
    {
        var data = Path.Combine(folder, "lot-page");
        using var book = new OpenBook(BookStore.Open(data), TimeProvider.System);
        Record(book, new Premises { Day = new(2025, 1, 1), Regimes = ["household"] });
        Record(book, new Receive { Day = new(2025, 1, 1), What = "must", Lot = "BIG", Litres = Volume.OfLitres(10_000) });
        for (var i = 0; i < 2_000; i++)
            Record(book, i % 3 == 0 ? new Lose { Day = new DateOnly(2025, 1, 2).AddDays(i / 5), As = "spill", Lot = "BIG", Litres = Volume.OfMillilitres(100) } : new Observe { Day = new DateOnly(2025, 1, 2).AddDays(i / 5), Lot = "BIG", What = "stirred", Finding = "by hand" });
        await using var app = Site.Build(["--urls", "http://127.0.0.1:0", "--Logging:LogLevel:Default=None"], _ => book, data);
        var pages = new List<double>();
        using var listener = new MeterListener { InstrumentPublished = (instrument, own) => { if (instrument.Name == "http.server.request.duration") own.EnableMeasurementEvents(instrument); } };
        listener.SetMeasurementEventCallback<double>((_, seconds, tags, _) =>
        {
            foreach (var tag in tags)
                if (tag is { Key: "http.route", Value: string route } && route.StartsWith("lots/", StringComparison.Ordinal))
                    lock (pages) pages.Add(seconds * 1000);
        });
        listener.Start();
        await app.StartAsync();
        using var client = new HttpClient { BaseAddress = new Uri(app.Urls.First()) };
        (await client.GetAsync("/lots/BIG")).EnsureSuccessStatusCode();
        lock (pages) pages.Clear();
        using var end = new CancellationTokenSource(TimeSpan.FromSeconds(15));
        var writes = 0;
        var readers = Enumerable.Range(0, Readers).Select(_ => Task.Run(async () =>
        {
            while (!end.IsCancellationRequested) (await client.GetAsync("/lots/BIG")).EnsureSuccessStatusCode();
        }));
        var writers = Enumerable.Range(0, Writers).Select(_ => Task.Run(async () =>
        {
            while (!end.IsCancellationRequested)
            {
                (await client.PostAsync("/api/v1/operations", Json("""{"kind":"observe","day":"2026-03-01","lot":"BIG","what":"stirred"}"""))).EnsureSuccessStatusCode();
                Interlocked.Increment(ref writes);
            }
        }));
        await Task.WhenAll([.. readers, .. writers]);
        double median;
        int count;
        lock (pages)
        {
            pages.Sort();
            (median, count) = (pages[pages.Count / 2], pages.Count);
        }
        report.Row("a lot's page of 2,000 entries, 20 read and 2 write without pause", Report.Time(median), $"server time, median of {count:N0} pages in 15 s with {writes:N0} entries written; clients on the same {Environment.ProcessorCount} cores", "≤ 30 ms");
    }

    private static void Record(OpenBook book, Operation operation)
    {
        if (book.Record(operation, "bench").Refusals is { Count: > 0 } refusals) throw new InvalidOperationException(refusals[0].Sentence.ToString());
    }

    private static StringContent Json(string text) => new(text, Encoding.UTF8, "application/json");
}
