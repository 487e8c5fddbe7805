using System.Diagnostics;
using System.Globalization;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Exports;
using Cellarbook.Imports;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Benchmarks;

/// <summary>A large generated history: importing it, opening it, stating a month of it, against SQLite and hledger.</summary>
internal sealed class HistoryBench(string folder, int rows, Report report)
{
    private const double Years = 28;
    private static readonly Period Month = new(new(2020, 5, 1), new(2020, 5, 31));
    // Days that are no calendar month are read from their postings every time.
    private static readonly Period Days = new(new(2020, 5, 1), new(2020, 5, 30));

    public void Run()
    {
        var data = Import(rows, Years);
        Open(data);
        var large = Statement(rows, data);
        // A tenth of the book in a tenth of the years: the month in the middle of both has the same size.
        var small = Statement(rows / 10, Import(rows / 10, Years / 10));
        report.Row("the days of that month when the book grows ten-fold", Report.Time(large.Milliseconds), $"{Report.Ratio(large.Milliseconds / large.Moves / (small.Milliseconds / small.Moves))} of {Report.Time(small.Milliseconds)}, per move ({small.Moves:N0} and {large.Moves:N0} moves)", "≤ 1.2 ×");
        Hledger();
    }

    private string Journal(int wanted, double years)
    {
        var path = Path.Combine(folder, $"journal-{wanted}.csv");
        if (File.Exists(path)) return path;
        using var writer = new StreamWriter(path);
        new CellarGenerator(7).Write(writer, wanted, (int)(years * 365), Month.From.AddDays((int)(-years * 365 * 0.86)));
        return path;
    }

    private string Import(int wanted, double years)
    {
        var path = Journal(wanted, years);
        var data = Path.Combine(folder, $"book-{wanted}");
        GC.Collect();
        var (time, result) = Timing.Once(() =>
        {
            using var book = new OpenBook(BookStore.Open(data), TimeProvider.System);
            using var stream = File.OpenRead(path);
            return book.Import(today => JournalUpload.Read(stream, today), "bench", check: false);
        });
        if (result.Refusals.Count > 0) throw new InvalidOperationException(result.Refusals[0].Sentence.ToString());
        var bare = BareImport(Path.Combine(data, "book.db"));
        report.Row($"importing {wanted:N0} rows", $"{Report.Time(time)} ({wanted / time * 1000:N0} rows/s)", $"{Report.Ratio(bare / time)} of the rate of bare prepared inserts ({Report.Time(bare)})", "≥ 0.25 ×");
        if (wanted != rows) return data;
        var peak = ServedProgram.Run(Path.Combine(folder, "import-alone"), "import", path);
        // Like with like: whole processes on both sides, the runtime in both.
        var (size, cellar) = (new FileInfo(path).Length, Opened(data));
        report.Row("peak memory of that import, a process of its own", $"{peak >> 20:N0} MB", $"4 × the file of {size >> 20:N0} MB and the program with that book opened, {cellar >> 20:N0} MB, are {(4 * size + cellar) >> 20:N0} MB; {Cellar(data) >> 20:N0} MB of that are the book's objects", "≤ 4 × the file + the cellar");
        return data;
    }

    /// <summary>Working set of the program once it has opened the book and answers.</summary>
    private static long Opened(string data)
    {
        using var program = ServedProgram.Serve(data);
        Thread.Sleep(100);
        return program.Peak;
    }

    /// <summary>Bytes of the book's objects alone.</summary>
    private static long Cellar(string data)
    {
        var before = GC.GetTotalMemory(forceFullCollection: true);
        using var book = new OpenBook(BookStore.Open(data), TimeProvider.System);
        var after = GC.GetTotalMemory(forceFullCollection: true);
        GC.KeepAlive(book);
        return after - before;
    }

    /// <summary>The same rows of the same tables, prepared, in one transaction, without guards or hashing.</summary>
    private double BareImport(string book)
    {
        using var source = Bare.Open(book);
        var entries = Bare.Rows(source, "SELECT * FROM entry ORDER BY number");
        var postings = Bare.Rows(source, "SELECT * FROM posting ORDER BY entry, line");
        var file = Path.Combine(folder, $"bare-{Guid.NewGuid():N}.db");
        using var target = Bare.EmptyLike(book, file);
        var watch = Stopwatch.StartNew();
        Bare.Run(target, "BEGIN");
        using (var insertEntry = Bare.Insert(target, "entry", entries[0].Length))
            foreach (var row in entries) Bare.Run(insertEntry, row);
        using (var insertPosting = Bare.Insert(target, "posting", postings[0].Length))
            foreach (var row in postings) Bare.Run(insertPosting, row);
        Bare.Run(target, "COMMIT");
        return watch.Elapsed.TotalMilliseconds;
    }

    private void Open(string data)
    {
        var (time, _) = Timing.Once(() =>
        {
            using var book = new OpenBook(BookStore.Open(data), TimeProvider.System);
            return book.Read(found => found.LastNumber);
        });
        using var connection = Bare.Open(Path.Combine(data, "book.db"));
        var reading = Timing.Median(3, () =>
        {
            foreach (var table in new[] { "entry", "posting" })
            {
                using var command = connection.CreateCommand();
                command.CommandText = $"SELECT * FROM {table}";
                using var reader = command.ExecuteReader();
                while (reader.Read())
                    for (var i = 0; i < reader.FieldCount; i++) _ = reader.GetValue(i);
            }
        });
        report.Row($"opening a book of {rows:N0} postings, chain checked", Report.Time(time), $"{Report.Ratio(time / reading)} of reading the rows ({Report.Time(reading)})", "≤ 3 ×");
    }

    private (double Milliseconds, int Moves) Statement(int wanted, string data)
    {
        using var book = new OpenBook(BookStore.Open(data), TimeProvider.System);
        book.Read(found => UsStatement.Build(found, Month));
        var remembered = Timing.Median(200, () => book.Read(found => UsStatement.Build(found, Month)));
        var time = Timing.Median(200, () => book.Read(found => UsStatement.Build(found, Days)));
        var parts = book.Read(found => Core.Statements.PlainStatement.Behind(found, Days, Core.Statements.ClassScheme.Default).Count);
        var sqlite = GroupBy(Path.Combine(data, "book.db"));
        GC.Collect();
        report.Row($"a month's statement from {wanted:N0} postings, read anew", $"{Report.Time(time)} ({parts:N0} moves); {Report.Time(remembered)} when the calendar month is remembered", $"{Report.Ratio(time / sqlite)} of SQLite's GROUP BY over that month's postings ({Report.Time(sqlite)})", "≤ 1 ×");
        return (time, parts);
    }

    /// <summary>SQLite alone: that month's postings summed by category and account, with the best covering index.</summary>
    private double GroupBy(string book)
    {
        var file = Path.Combine(folder, $"group-{Guid.NewGuid():N}.db");
        using var connection = Bare.Open(file);
        Bare.Run(connection, $"ATTACH '{book}' AS book");
        Bare.Run(connection, "CREATE TABLE p AS SELECT e.day, p.category, p.from_account, p.to_account, p.volume_ul, p.bottles FROM book.posting p JOIN book.entry e ON e.number = p.entry");
        Bare.Run(connection, "CREATE INDEX covering ON p(day, category, from_account, to_account, volume_ul, bottles)");
        return Timing.Median(50, () =>
        {
            using var command = connection.CreateCommand();
            command.CommandText = "SELECT category, substr(from_account, 1, 4), substr(to_account, 1, 4), sum(volume_ul), sum(bottles) FROM p WHERE day BETWEEN '2020-05-01' AND '2020-05-31' GROUP BY 1, 2, 3";
            using var reader = command.ExecuteReader();
            while (reader.Read())
                for (var i = 0; i < reader.FieldCount; i++) _ = reader.GetValue(i);
        });
    }

    /// <summary>The whole history added up: by us from the book in memory, by hledger from the exported journal (of a tenth of it).</summary>
    private void Hledger()
    {
        var data = Path.Combine(folder, $"book-{rows / 10}");
        using var book = new OpenBook(BookStore.Open(data), TimeProvider.System);
        var journal = Path.Combine(folder, "book.journal");
        using (var writer = new StreamWriter(journal)) book.Read(found => { JournalText.Write(found, writer); return 0; });
        var (hledger, text) = Timing.Once(() =>
        {
            using var process = Process.Start(new ProcessStartInfo("hledger", ["-f", journal, "balance", "--depth", "1", "-N", "--flat", "^BULK", "^MUST", "^BOTTLED"]) { RedirectStandardOutput = true })!;
            var output = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return output;
        });
        var whole = book.Read(found => new Period(found.FirstDay!.Value, found.Pages[^1].Day));
        var (first, _) = Timing.Once(() => book.Read(found => PlainStatement.Build(found, whole, ClassScheme.Default)));
        var ours = Timing.Median(5, () => book.Read(found => PlainStatement.Build(found, whole, ClassScheme.Default)));
        var bulk = book.Read(found => found.Now.Places.Where(place => place.Account.Section == Core.Book.Section.Bulk).Aggregate(Volume.None, (sum, place) => sum + place.Volume));
        var same = text.Contains(bulk.Microlitres.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal) ? "same figures" : "FIGURES DIFFER";
        report.Row($"the whole history of {rows / 10:N0} postings", $"{Report.Time(ours)}; {Report.Time(first)} the first time after a start", $"{hledger / ours:N0} × ({hledger / first:N0} × the first time) faster than hledger on the journal ({Report.Time(hledger)}), {same}", "≥ 1,000 ×, same figures");
    }
}
