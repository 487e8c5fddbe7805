using System.Globalization;
using System.Text;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Hosting;
using Cellarbook.Imports;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Builder;

namespace Cellarbook.Benchmarks;

/// <summary>
/// What a page takes to make and to send, of the demonstration book and of a cellar of 10,000 lots: time from request to last byte on this machine,
/// and bytes on the line.
/// </summary>
internal sealed class PagesBench(string folder, Report report)
{
    private const int Runs = 41;

    private const int Lots = 10_000;

    public async Task Run()
    {
        using (var book = new OpenBook(BookStore.Open(folder), DemoBook.Clock))
        {
            DemoBook.Fill(book);
            // The lot of which most is known has the longest page.
            var lot = book.Read(found => found.Now.Lots.ToArray()).MaxBy(code => book.Store.Search(new() { About = code, Count = 1_000 }).Entries.Count)!;
            await Measure(book, "page", [("Today", "/"), ($"the lot with most entries ({lot})", "/lots/" + Uri.EscapeDataString(lot)), ("the lots", "/lots"), ("the book", "/book"), ("a year's statement", "/statements?period=2026"), ("the form of a racking", "/record/rack")]);
        }
        await OfManyLots();
    }

    /// <summary>A cellar of so many lots, each in a vessel of its own, a third of them must, some of it bottled: the same pages.</summary>
    private async Task OfManyLots()
    {
        using var book = new OpenBook(BookStore.Open(Path.Combine(folder, "many")), DemoBook.Clock);
        Record(book, new Premises { Day = new(2026, 1, 1), Regimes = ["household"], Owner = "Ida" });
        using (var journal = new MemoryStream(Encoding.UTF8.GetBytes(Journal())))
            if (book.Import(today => JournalUpload.Read(journal, today), "bench", false).Refusals is { Count: > 0 } refusals) throw new InvalidOperationException(refusals[0].Sentence.ToString());
        for (var i = 1; i <= 300; i++) Record(book, new Measure { Day = new(2026, 11, 20), Lot = Lot(3 * i), Vessel = Vessel(3 * i), Gravity = new("1.020") });
        await Measure(book, $"{Lots:N0} lots",
        [
            ("Today", "/"), ("the lots", "/lots"), ("a lot looked for", "/lots?q=L05123"), ("a lot", "/lots/L05123"), ("the vessels", "/vessels"), ("a vessel", "/vessels/V05123"), ("labels of vessels", "/labels/vessels"), ("the bottles", "/bottles"),
            ("the book", "/book"), ("the book searched", "/book?q=L05123"), ("a month's statement", "/statements?period=2026-03"), ("the stock by lot", "/statements/stock?on=2026-11-01&section=bulk&class=A16"),
            ("the round", "/round"), ("the form of a racking", "/record/rack"), ("the form of a racking, from a vessel", "/record/rack?lot=L05123&vessel=V05123"), ("the form of an addition", "/record/add"), ("the form of a blend", "/record/blend"),
            ("the form of a stock-take", "/record/count"), ("many topped up", "/record/top-up-many"),
        ]);
    }

    private static string Journal()
    {
        var text = new StringBuilder("event_id,date,category,lot_from,vessel_from,lot_to,vessel_to,volume_ml,bottles,bottle_ml,abv_pct\n");
        for (var i = 1; i <= Lots; i++) text.Append(CultureInfo.InvariantCulture, $"R{i},{new DateOnly(2025, 1, 1).AddDays(i % 300):yyyy-MM-dd},MUST_RECEIVED,,,{Lot(i)},{Vessel(i)},{50_000 + i},,,\n");
        for (var i = 1; i <= Lots; i++)
            if (i % 3 > 0) text.Append(CultureInfo.InvariantCulture, $"P{i},{new DateOnly(2025, 12, 1).AddDays(i % 60):yyyy-MM-dd},PRODUCED,{Lot(i)},{Vessel(i)},{Lot(i)},{Vessel(i)},{50_000 + i},,,12.{i % 10}\n");
        for (var i = 1; i <= Lots; i++)
            if (i % 3 == 2) text.Append(CultureInfo.InvariantCulture, $"B{i},{new DateOnly(2026, 3, 1).AddDays(i % 60):yyyy-MM-dd},BOTTLED,{Lot(i)},{Vessel(i)},{Lot(i)}-75,,22500,30,750,\n");
        return text.ToString();
    }

    private static string Lot(int i) => string.Create(CultureInfo.InvariantCulture, $"L{i:D5}");

    private static string Vessel(int i) => string.Create(CultureInfo.InvariantCulture, $"V{i:D5}");

    private static void Record(OpenBook book, Operation operation)
    {
        if (book.Record(operation, "bench").Refusals is { Count: > 0 } refusals) throw new InvalidOperationException(refusals[0].Sentence.ToString());
    }

    private async Task Measure(OpenBook book, string of, (string Name, string Path)[] pages)
    {
        await using var app = Site.Build(["--applicationName=Cellarbook", "--urls=http://127.0.0.1:0", "--Logging:LogLevel:Default=Error"], _ => book, book.Folder);
        await app.StartAsync();
        using var browser = new HttpClient { BaseAddress = new(app.Urls.First()) };
        browser.DefaultRequestHeaders.AcceptEncoding.ParseAdd("br");
        using var plainly = new HttpClient { BaseAddress = browser.BaseAddress };
        foreach (var (name, path) in pages)
        {
            // A page that is kept for one state of the book is asked for with a word that nobody asked with before, so that it is made anew.
            var (bytes, run) = (0, 0);
            var anew = path + (path.Contains('?', StringComparison.Ordinal) ? "&" : "?") + "run=";
            var median = Timing.Median(Runs, () => bytes = browser.GetByteArrayAsync(anew + run++).GetAwaiter().GetResult().Length);
            var again = Timing.Median(Runs, () => bytes = browser.GetByteArrayAsync(path).GetAwaiter().GetResult().Length);
            var plain = (await plainly.GetByteArrayAsync(path)).Length;
            report.Row($"{of}: {name}", $"{Report.Time(median)} made anew, {Report.Time(again)} asked for again, {bytes / 1000.0:0.0} kB", $"{plain / 1000.0:0.0} kB unpacked", "≤ 30 ms, ≤ 60 kB");
        }
        await app.StopAsync();
    }
}
