using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Imports;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Benchmarks;

/// <summary>One entry through the door of a book of 100,000 entries: at the end, a month back, a year back.</summary>
internal sealed class RecordingBench(string folder, Report report)
{
    private const int Entries = 104_000;

    public void Run()
    {
        var data = Path.Combine(folder, "recording");
        using var book = new OpenBook(BookStore.Open(data), TimeProvider.System);
        var path = Path.Combine(folder, "recording.csv");
        using (var writer = new StreamWriter(path)) new CellarGenerator(11).Write(writer, Entries, 14 * 365, new(2010, 1, 1));
        using (var stream = File.OpenRead(path))
            if (book.Import(today => JournalUpload.Read(stream, today), "bench", false).Refusals is { Count: > 0 } refusals) throw new InvalidOperationException(refusals[0].Sentence.ToString());
        var last = book.Read(found => found.Pages[^1].Day);
        Record(book, last, "receive", Volume.OfLitres(1_000_000));

        var end = Timing.Median(300, () => Record(book, last, "lose", Volume.OfMillilitres(100)));
        var bare = BareRecord(Path.Combine(data, "book.db"));
        report.Row("recording one entry at the end of 100,000, real disk", Report.Time(end), $"{Report.Ratio(end / bare)} of a bare prepared insert of the same rows with the same sync ({Report.Time(bare)})", "≤ 1.5 ×");
        foreach (var (days, word, budget) in new[] { (30, "a month", "≤ 50 ms"), (365, "a year", "≤ 300 ms") })
            report.Row($"recording one entry back-dated by {word}", Report.Time(Timing.Median(20, () => Record(book, last.AddDays(-days), "receive", Volume.OfLitres(1)))), "", budget);
    }

    private static void Record(OpenBook book, DateOnly day, string kind, Volume volume)
    {
        Operation operation = kind == "lose"
            ? new Lose { Day = day, As = "spill", Lot = "BENCH", Litres = volume }
            : new Receive { Day = day, What = "must", Lot = "BENCH", Litres = volume };
        if (book.Record(operation, "bench").Refusals is { Count: > 0 } refusals) throw new InvalidOperationException(refusals[0].Sentence.ToString());
    }

    private double BareRecord(string bookFile)
    {
        using var source = Bare.Open(bookFile);
        var entry = Bare.Rows(source, "SELECT * FROM entry ORDER BY number DESC LIMIT 1")[0];
        var posting = Bare.Rows(source, "SELECT * FROM posting ORDER BY entry DESC LIMIT 1")[0];
        using var target = Bare.EmptyLike(bookFile, Path.Combine(folder, "bare-record.db"));
        Bare.Run(target, "INSERT INTO head VALUES (1, 0, zeroblob(32))");
        using var insertEntry = Bare.Insert(target, "entry", entry.Length);
        using var insertPosting = Bare.Insert(target, "posting", posting.Length);
        var number = 0L;
        entry[8] = DBNull.Value;
        return Timing.Median(300, () =>
        {
            number++;
            (entry[0], posting[0]) = (number, number);
            Bare.Run(target, "BEGIN IMMEDIATE");
            Bare.Run(insertEntry, entry);
            Bare.Run(insertPosting, posting);
            Bare.Run(target, $"UPDATE head SET number = {number}");
            Bare.Run(target, "COMMIT");
        });
    }
}
