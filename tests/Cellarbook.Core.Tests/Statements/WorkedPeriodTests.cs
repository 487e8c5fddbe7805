using Cellarbook.Core.Tests.Importing;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>
/// The worked quarter: an invented three-month ledger with 225 figures computed by another program (decimal arithmetic, Python), 131 of them
/// re-added by two general-purpose ledgers. Every final figure must come out exact.
/// </summary>
public class WorkedPeriodTests
{
    private static readonly ExpectedFigures Expected = new("records/worked_period_expected.csv", new(2025, 9, 1), new(2025, 11, 30));

    public static Book.Book Worked() => ImportedBook.Of(ImportedBook.Worked).Book;

    [Fact]
    public void Every_class_line_agrees_in_volume_and_in_whole_gallons()
    {
        Assert.Equal(155, Expected.Count("class_line"));
        Expected.HoldClassLines(Worked());
    }

    [Fact]
    public void Every_lot_closes_with_what_is_left_and_every_bottling_with_its_bottles()
    {
        Assert.InRange(Expected.Count("lot_closing"), 30, 60);
        Expected.HoldLotClosings(Worked());
    }

    [Fact]
    public void The_loss_check_agrees()
    {
        Assert.Equal(6, Expected.Count("loss_check"));
        Expected.HoldLossCheck(Worked());
    }
}
