using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>
/// The worked quarter: an invented three-month ledger with 225 figures computed by another program (decimal arithmetic, Python), 131 of them
/// re-added by two general-purpose ledgers. Every final figure must come out exact.
/// </summary>
public class WorkedPeriodTests
{
    public static Book.Book Worked()
    {
        var book = new Book.Book();
        var trial = Csv.Import(book, File.ReadAllText(Csv.DataFile("records/worked_period.csv")));
        Assert.Empty(trial.Refusals);
        book.Accept(trial);
        return book;
    }

    private static Period Of(string period) => period switch
    {
        "ALL" => new(new(2025, 9, 1), new(2025, 11, 30)),
        _ => new(new(int.Parse(period[..4]), int.Parse(period[5..]), 1), new DateOnly(int.Parse(period[..4]), int.Parse(period[5..]), 1).AddMonths(1).AddDays(-1)),
    };

    [Fact]
    public void Every_class_line_agrees_in_volume_and_in_whole_gallons()
    {
        var book = Worked();
        var wanted = Csv.Rows("records/worked_period_expected.csv").Where(row => row["kind"] == "class_line" && row["version"] == "final").ToList();
        Assert.Equal(155, wanted.Count);
        foreach (var period in wanted.GroupBy(row => row["period"]))
        {
            var got = UsStatement.Build(book, Of(period.Key)).Figures.ToDictionary(figure => (figure.Section.Name, figure.Class, figure.Line.Line));
            foreach (var row in period)
            {
                var figure = got[(row["form"], row["class"], row["line"])];
                Assert.Equal((period.Key, row["line"], long.Parse(row["volume_ml"]) * 1000), (period.Key, figure.Line.Line, figure.Volume.Microlitres));
                Assert.Equal((period.Key, row["line"], long.Parse(row["gal_form"])), (period.Key, figure.Line.Line, figure.WholeGallons));
                Assert.Equal(row["gal_5dp"], UsForm.Current.Gallons(figure.Volume));
            }
            Assert.Equal(period.Count(), got.Count);
        }
    }
}
