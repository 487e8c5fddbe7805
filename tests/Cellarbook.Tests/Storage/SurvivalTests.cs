using System.Diagnostics;
using System.Globalization;
using System.Runtime.CompilerServices;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Storage;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 9: what was acknowledged is kept, what was not is not there in part, whatever happens on the way.</summary>
public sealed class SurvivalTests
{
    private const string ChildFolder = "CELLARBOOK_TEST_CHILD_FOLDER";
    private const string ChildStops = "CELLARBOOK_TEST_CHILD_STOPS";
    private const int BatchSize = 400;

    /// <summary>Started with a folder in its environment, this assembly isn't a test but a program that records until it is killed.</summary>
    [ModuleInitializer]
    internal static void RecordUntilKilled()
    {
        if (Environment.GetEnvironmentVariable(ChildFolder) is not { } folder) return;
        var store = BookStore.Open(folder);
        if (Environment.GetEnvironmentVariable(ChildStops) is not null)
        {
            store.Append(Samples(store.Head().Number, 20_000), "child", null, StoredBook.Moment, new Midway());
            return;
        }
        while (true)
        {
            Console.WriteLine(store.Append(Samples(store.Head().Number, 1), "child", null, StoredBook.Moment).Number);
            Console.WriteLine(store.Append(Samples(store.Head().Number, BatchSize), "child", null, StoredBook.Moment).Number);
        }
    }

    /// <summary>Says that it is in the middle of recording, and waits there.</summary>
    private sealed class Midway : IProgress<int>
    {
        public void Report(int value)
        {
            Console.WriteLine(value);
            Thread.Sleep(Timeout.Infinite);
        }
    }

    /// <summary>Readings after the last number; they move nothing, so any number of them is a good book.</summary>
    private static List<Entry> Samples(long last, int count) =>
        [.. Enumerable.Range(1, count).Select(i => new Observe { Day = new(2026, 5, 1), Note = $"reading {last + i}" })
            .Select((operation, i) => Entry.Stored(last + 1 + i, operation.Day, operation, null, null, false, [Deed.Stored(last + 1 + i, 0, operation.Day, null, operation, [], null)]))];

    private static Process StartChild(string folder, bool stops)
    {
        // The assembly's own program beside it: the test host has other arguments in mind.
        var dll = typeof(SurvivalTests).Assembly.Location;
        var start = new ProcessStartInfo(Path.ChangeExtension(dll, OperatingSystem.IsWindows() ? ".exe" : null)) { RedirectStandardOutput = true };
        start.Environment[ChildFolder] = folder;
        if (stops) start.Environment[ChildStops] = "1";
        return Process.Start(start)!;
    }

    [Fact]
    public async Task Killed_while_recording_again_and_again_nothing_acknowledged_is_lost()
    {
        using var stored = new StoredBook();
        stored.Close();
        var random = new Random(7);
        var before = 0L;
        for (var turn = 0; turn < 5; turn++)
        {
            using var child = StartChild(stored.Folder, stops: false);
            var acknowledged = long.Parse(child.StandardOutput.ReadLine()!, CultureInfo.InvariantCulture);
            var killer = Task.Run(() =>
            {
                Thread.Sleep(random.Next(50, 400));
                child.Kill();
            });
            while (child.StandardOutput.ReadLine() is { } line && long.TryParse(line, CultureInfo.InvariantCulture, out var number)) acknowledged = number;
            await killer;
            child.WaitForExit();
            stored.Open();
            var found = stored.Store.Head().Number;
            Assert.InRange(found, acknowledged, acknowledged + BatchSize);
            // A batch is there whole or not at all.
            Assert.Contains((found - before) % (BatchSize + 1), new long[] { 0, 1 });
            Assert.True(stored.Store.Verify().Sound);
            before = found;
            stored.Close();
        }
        Assert.True(before > 1000, $"only {before} entries were recorded");
    }

    [Fact]
    public void Killed_in_the_middle_of_recording_nothing_of_it_is_there()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var head = stored.Store.Head();
        stored.Close();
        using var child = StartChild(stored.Folder, stops: true);
        Assert.Equal("10000", child.StandardOutput.ReadLine());
        child.Kill();
        child.WaitForExit();
        stored.Open();
        Assert.Equal(head, stored.Store.Head());
        Assert.True(stored.Store.Verify().Sound);
        stored.Record("""{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"L1-75","bottles":1}""");
    }

    [Fact]
    public void On_a_full_disk_nothing_is_half_recorded_and_the_next_good_entry_is()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var head = stored.Store.Head();
        var connection = stored.Store.Connection;
        var pages = BookFile.Count(connection, "PRAGMA page_count");
        StoredBook.Run(connection, $"PRAGMA max_page_count = {pages + 20}");
        foreach (var _ in Enumerable.Range(0, 2))
        {
            var refused = Assert.Throws<BookWriteException>(() => stored.Store.Append(Samples(head.Number, 5_000), "m.k.", "big", StoredBook.Moment));
            Assert.Equal("disk_full", refused.Code);
            Assert.Contains("nothing was half recorded", refused.Message, StringComparison.Ordinal);
            Assert.Equal(head, stored.Store.Head());
        }
        Assert.Null(stored.Store.FindKey("big"));
        stored.Record("""{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"L1-75","bottles":1}""");
        StoredBook.Run(connection, "PRAGMA max_page_count = 1000000");
        stored.Store.Append(Samples(stored.Store.Head().Number, 5_000), "m.k.", "big", StoredBook.Moment);
        Assert.True(stored.Store.Verify().Sound);
        Assert.Equal(11, stored.Store.FindKey("big")!.Number);
    }

    [Fact]
    public void On_a_disk_that_is_really_full_what_was_acknowledged_is_kept_and_recording_goes_on_when_there_is_room_again()
    {
        using var stored = new StoredBook(empty: true);
        using var disk = SmallDisk.Over(stored.Folder, megabytes: 4);
        stored.Open().LiveALittle();
        var filler = Path.Combine(stored.Folder, "filler");
        using (var file = File.Create(filler))
        {
            try
            {
                for (var block = new byte[4096]; ;) { file.Write(block); file.Flush(); }
            }
            catch (IOException)
            {
                // Full. A little room is given back, for some entries.
                file.SetLength(Math.Max(0, file.Length - 200_000));
            }
        }
        var acknowledged = stored.Store.Head();
        BookWriteException? refused = null;
        for (var turns = 0; refused is null && turns < 5_000; turns++)
        {
            try { acknowledged = stored.Store.Append(Samples(acknowledged.Number, 5), "m.k.", null, StoredBook.Moment); }
            catch (BookWriteException fault) { refused = fault; }
        }
        Assert.Equal("disk_full", refused?.Code);
        Assert.True(acknowledged.Number > 9, "nothing was recorded before the disk was full");
        Assert.Equal(acknowledged, stored.Store.Head());
        Assert.Equal("disk_full", Assert.Throws<BookWriteException>(() => stored.Store.Append(Samples(acknowledged.Number, 500), "m.k.", null, StoredBook.Moment)).Code);
        Assert.True(stored.Store.Verify().Sound);
        File.Delete(filler);
        Assert.Equal(acknowledged.Number + 1, stored.Store.Append(Samples(acknowledged.Number, 1), "m.k.", null, StoredBook.Moment).Number);
        stored.Close();
        stored.Open();
        Assert.Equal(acknowledged.Number + 1, stored.Store.Head().Number);
        stored.Close();
    }

    [Fact]
    public void A_book_that_another_program_writes_to_is_waited_for_and_then_refused()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        StoredBook.Run(stored.Store.Connection, "PRAGMA busy_timeout = 50");
        using var other = stored.Bare();
        StoredBook.Run(other, "BEGIN IMMEDIATE");
        Assert.Equal("locked", Assert.Throws<BookWriteException>(() => stored.Store.Append(Samples(9, 1), "m.k.", null, StoredBook.Moment)).Code);
        StoredBook.Run(other, "ROLLBACK");
        Assert.Equal(10, stored.Store.Append(Samples(9, 1), "m.k.", null, StoredBook.Moment).Number);
    }

    [Fact]
    public void A_key_is_kept_for_ever_with_what_was_recorded_under_it()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Close();
        stored.Open();
        var found = stored.Store.FindKey("gravity-1")!;
        Assert.Equal((4L, "m.k.", StoredBook.Moment, "gravity-1"), (found.Number, found.Actor, found.RecordedAt, found.Key));
        Assert.IsType<Measure>(OperationJson.Stored(found.InPlain));
        Assert.Null(stored.Store.FindKey("gravity-2"));
        // The door looks first; should it fail to, the book refuses.
        Assert.Throws<InvalidOperationException>(() => stored.Store.Append(Samples(9, 1), "m.k.", "gravity-1", StoredBook.Moment));
        Assert.Equal(10, stored.Store.Append(Samples(9, 1), "m.k.", "gravity-2", StoredBook.Moment).Number);
    }

    [Fact]
    public void An_entry_out_of_turn_is_a_fault_of_the_program_and_changes_nothing()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        Assert.Throws<InvalidOperationException>(() => stored.Store.Append(Samples(10, 1), "m.k.", null, StoredBook.Moment));
        Assert.Throws<InvalidOperationException>(() => stored.Store.Append([.. Samples(9, 1), .. Samples(9, 1)], "m.k.", null, StoredBook.Moment));
        Assert.Throws<InvalidOperationException>(() => stored.Store.Append([Entry.Stored(10, new(2026, 1, 1), null, null, null, false, [])], "m.k.", null, StoredBook.Moment));
        Assert.Equal(9, stored.Store.Head().Number);
        Assert.Equal(10, stored.Store.Append(Samples(9, 1), "m.k.", null, StoredBook.Moment).Number);
    }

    [Fact]
    public async Task Readers_see_whole_entries_while_others_are_recorded()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        using var end = new CancellationTokenSource();
        var reader = Task.Run(() =>
        {
            var reads = 0;
            for (; !end.IsCancellationRequested; reads++)
            {
                var page = stored.Store.Search(new() { Count = 5 });
                Assert.Equal(5, page.Entries.Count);
                Assert.All(page.Entries.Zip(page.Entries.Skip(1)), pair => Assert.Equal(pair.First.PreviousHash, pair.Second.Hash));
            }
            return reads;
        });
        for (var i = 0; i < 100; i++) stored.Store.Append(Samples(stored.Store.Head().Number, 3), "m.k.", null, StoredBook.Moment);
        await end.CancelAsync();
        Assert.True(await reader > 0);
        Assert.True(stored.Store.Verify().Sound);
    }
}
