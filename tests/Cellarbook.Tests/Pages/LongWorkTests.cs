using System.Net;
using Cellarbook.Recording;
using Cellarbook.Tests.Forms;

namespace Cellarbook.Tests.Pages;

/// <summary>A check and a backup of the whole book, asked for on a page: of a small book they answer at once, of a large one the page says how far they are.</summary>
public sealed class LongWorkTests
{
    [Fact]
    public async Task A_small_book_is_checked_and_handed_out_while_one_waits()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var settings = await house.Browser.GetStringAsync("/settings", TestContext.Current.CancellationToken);
        var check = await house.Press("/settings?handler=Verify", settings, "");
        Assert.Equal(HttpStatusCode.OK, check.Status);
        Assert.Contains("The book is sound", check.Text, StringComparison.Ordinal);
        var backup = await house.Press("/settings?handler=Backup", settings, "");
        Assert.StartsWith("SQLite format 3", backup.Html, StringComparison.Ordinal);
        // Handed out, it is done with: the next one is made anew.
        Assert.StartsWith("SQLite format 3", (await house.Press("/settings?handler=Backup", settings, "")).Html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_check_asked_for_twice_is_made_once_and_counts_how_far_it_is()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        using var asides = new Asides(TimeProvider.System);
        var works = new LongWork(house.Book, asides);
        Assert.Null(works.Last(isBackup: false));
        var (first, second) = (works.Check(), works.Check());
        var work = await first;
        Assert.True(work.IsOver && work.Report!.Sound, work.Fault);
        Assert.True((await second).IsOver);
        Assert.Same(works.Last(isBackup: false), await second);
        ((IProgress<int>)work).Report(7);
        Assert.Equal(7, work.Done);
    }
}
