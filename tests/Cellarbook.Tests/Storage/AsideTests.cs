using Cellarbook.Recording;
using Cellarbook.Tests.Forms;

namespace Cellarbook.Tests.Storage;

/// <summary>What is set aside for a while doesn't stay: a backup until it is fetched, a file until it is written.</summary>
public sealed class AsideTests
{
    [Fact]
    public void A_file_goes_an_hour_after_it_was_last_wanted_or_when_the_program_stops()
    {
        var clock = new HandClock();
        var asides = new Asides(clock);
        var (forgotten, wanted) = (Laid(asides), Laid(asides));
        clock.Pass(TimeSpan.FromMinutes(50));
        Assert.True(forgotten.IsThere);
        asides.Touch(wanted);
        clock.Pass(TimeSpan.FromMinutes(10));
        Assert.Equal((false, true), (forgotten.IsThere, wanted.IsThere));
        Assert.False(Directory.Exists(Path.GetDirectoryName(forgotten.Path)));
        asides.Dispose();
        Assert.False(wanted.IsThere);
    }

    [Fact]
    public void What_a_program_left_that_was_killed_goes_a_day_later_and_nobody_else_can_look_into_it()
    {
        var left = Laid(new Asides(new HandClock()));
        var folder = Path.GetDirectoryName(left.Path)!;
        if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(folder));
        var clock = new HandClock();
        using var next = new Asides(clock);
        clock.Pass(TimeSpan.FromMinutes(10));
        Assert.True(left.IsThere);
        Directory.SetLastWriteTimeUtc(folder, DateTime.UtcNow.AddHours(-25));
        clock.Pass(TimeSpan.FromMinutes(10));
        Assert.False(Directory.Exists(folder));
    }

    [Fact]
    public async Task A_backup_is_handed_out_once_and_removed_when_it_was_fetched()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        using var asides = new Asides(new HandClock());
        var works = new LongWork(house.Book, asides);
        var work = await works.Backup();
        using (var aside = works.HandOut(work)!)
        {
            Assert.True(aside.IsThere);
            Assert.Null(works.HandOut(work));
        }
        Assert.False(File.Exists(work.Backup!.Path));
    }

    [Fact]
    public async Task A_backup_that_nobody_fetched_is_not_handed_out_for_the_book_of_a_later_day()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var clock = new HandClock();
        using var asides = new Asides(clock);
        var works = new LongWork(house.Book, asides);
        var first = await works.Backup();
        await house.Api("""{"kind":"gauge","day":"2026-01-30","vessel":"V3","litres":41}""");
        // The one that the page said is ready is handed out as it is; asked for anew, it is made anew.
        Assert.Same(first, await works.Backup(ready: true));
        var second = await works.Backup();
        Assert.NotSame(first, second);
        Assert.Equal((false, true), (first.Backup!.IsThere, second.Backup!.IsThere));
        clock.Pass(TimeSpan.FromHours(1));
        Assert.False(second.Backup.IsThere);
        Assert.True((await works.Backup(ready: true)).Backup!.IsThere);
    }

    private static Aside Laid(Asides asides)
    {
        var aside = asides.Take("laid.txt");
        File.WriteAllText(aside.Path, "laid");
        return aside;
    }

    /// <summary>A clock that is moved by hand and rings its one timer.</summary>
    private sealed class HandClock : TimeProvider
    {
        private TimeSpan now;
        private Action? ring;

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp() => now.Ticks;

        public void Pass(TimeSpan more)
        {
            now += more;
            ring?.Invoke();
        }

        public override ITimer CreateTimer(TimerCallback callback, object? state, TimeSpan dueTime, TimeSpan period)
        {
            ring = () => callback(state);
            return new StillTimer();
        }
    }
}
