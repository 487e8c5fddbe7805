using Cellarbook.Cli;
using Cellarbook.Imports;
using Cellarbook.Storage;
using Cellarbook.Tests.Storage;

namespace Cellarbook.Tests.Cli;

/// <summary>Long work says now and then how far it is; short work says nothing.</summary>
public sealed class GoingTests
{
    [Fact]
    public void A_line_comes_every_three_seconds_and_says_how_far()
    {
        var clock = new HandClock();
        using var lines = new StringWriter { NewLine = "\n" };
        using var going = new Going(lines, clock);
        var rows = going.Counting("rows read", () => "40 % of the file");
        rows.Report(1_000);
        Assert.Equal("", lines.ToString());
        rows.Report(120_000);
        clock.Pass(3);
        going.Now("working through the entries");
        clock.Pass(3);
        going.Counting("entries written", 50_000).Report(20_000);
        clock.Pass(3);
        going.Done();
        clock.Pass(3);
        Assert.Equal("… 3 s: 120,000 rows read, 40 % of the file\n… 6 s: working through the entries\n… 9 s: 20,000 entries written, of 50,000\n", lines.ToString());
    }

    [Fact]
    public void Reading_a_file_checking_a_book_copying_it_and_putting_a_copy_in_its_place_tell_what_they_count()
    {
        var rows = new Told();
        var csv = "event_id,date,category,lot_from,lot_to,volume_ml\n" + string.Concat(Enumerable.Range(1, 2_500).Select(i => $"E{i},2026-03-01,RACKED,A,A,1\n"));
        JournalUpload.Read(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(csv)), new(2026, 4, 1), rows);
        Assert.Equal([0, 1_000, 2_000], rows.Counts);

        using var stored = new StoredBook();
        for (var i = 0; i < 1_001; i++) stored.Record($$"""{"kind":"vessel","day":"2026-03-01","code":"Jar {{i}}","capacityLitres":5}""");
        var (read, copied, opened, restored) = (new Told(), new Told(), new Told(), new Told());
        Assert.True(stored.Store.Verify(read).Sound);
        stored.Store.Backup(Path.Combine(stored.Folder, "backup.db"), copied);
        using var store = BookStore.Open(stored.Folder, readOnly: true);
        using var book = new Cellarbook.Recording.OpenBook(store, TimeProvider.System, opened);
        using var other = new StoredBook(empty: true);
        BookStore.Restore(Path.Combine(stored.Folder, "backup.db"), other.Folder, restored);
        Assert.All(new[] { read, copied, opened, restored }, told => Assert.Equal([1_000], told.Counts));
    }

    private sealed class Told : IProgress<int>
    {
        public List<int> Counts { get; } = [];

        public void Report(int value) => Counts.Add(value);
    }

    /// <summary>A clock that is moved by hand and rings its one timer.</summary>
    private sealed class HandClock : TimeProvider
    {
        private long seconds;
        private Action? ring;

        public override long TimestampFrequency => 1;

        public override long GetTimestamp() => seconds;

        public void Pass(int more)
        {
            seconds += more;
            ring?.Invoke();
        }

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            Assert.Equal((TimeSpan.FromSeconds(3), TimeSpan.FromSeconds(3)), (dueTime, period));
            ring = () => callback(state);
            return new StillTimer();
        }
    }
}
