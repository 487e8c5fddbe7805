using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>Holds a book against a file of figures that another program computed from the same ledger; see data/records/README.md.</summary>
internal sealed class ExpectedFigures(string file, DateOnly first, DateOnly last)
{
    private readonly List<Dictionary<string, string>> rows = [.. Csv.Rows(file).Where(row => row["version"] == "final")];

    /// <summary>Figures of a kind.</summary>
    public int Count(string kind) => rows.Count(row => row["kind"] == kind);

    /// <summary>A month "2027-04", a quarter "2027-Q2" or "ALL".</summary>
    public Period Of(string period)
    {
        if (period == "ALL") return new(first, last);
        var year = int.Parse(period[..4], CultureInfo.InvariantCulture);
        var quarter = period[5] == 'Q';
        var from = new DateOnly(year, quarter ? (period[6] - '0') * 3 - 2 : int.Parse(period[5..], CultureInfo.InvariantCulture), 1);
        return new(from, from.AddMonths(quarter ? 3 : 1).AddDays(-1));
    }

    /// <summary>Every class line in mL, gallons and whole gallons, and no line more.</summary>
    public void HoldClassLines(Book.Book book)
    {
        foreach (var period in rows.Where(row => row["kind"] == "class_line").GroupBy(row => row["period"]))
        {
            var got = UsStatement.Build(book, Of(period.Key)).Figures
                .Select(figure => $"{figure.Section.Name} {figure.Class} {figure.Line.Line} {figure.Volume.Microlitres} µL {UsForm.Current.Gallons(figure.Volume)} {figure.WholeGallons} gal");
            var wanted = period.Select(row => $"{row["form"]} {row["class"]} {row["line"]} {row["volume_ml"]}{(row["volume_ml"] == "0" ? "" : "000")} µL {row["gal_5dp"]} {long.Parse(row["gal_form"], CultureInfo.InvariantCulture)} gal");
            Assert.Equal(wanted.Prepend(period.Key), got.Prepend(period.Key));
        }
    }

    /// <summary>What is left of every lot at the end of every month, and the bottles of every bottling.</summary>
    public void HoldLotClosings(Book.Book book)
    {
        foreach (var period in rows.Where(row => row["kind"] == "lot_closing").GroupBy(row => row["period"]))
        {
            var lines = LotStatement.Build(book, Of(period.Key).To, ClassScheme.Default).Lines;
            // That program counts the bottles of a bottling over all its classes.
            var bottles = lines.Where(line => line.Section == Section.Bottled).GroupBy(line => line.Lot).ToDictionary(lot => lot.Key, lot => lot.Sum(line => line.Bottles.Bottles));
            var got = lines.Select(line => $"{line.Section.ToString().ToUpperInvariant()} {line.Class} {line.Lot} {line.Volume.Microlitres} µL {(line.Section == Section.Bottled ? bottles[line.Lot] : "")}");
            var wanted = period.Select(row => $"{row["form"]} {row["class"]} {row["lot"]} {row["volume_ml"]}000 µL {row["count"]}");
            Assert.Equal(wanted.Order(StringComparer.Ordinal).Prepend(period.Key), got.Order(StringComparer.Ordinal).Prepend(period.Key));
        }
    }

    /// <summary>The year's losses beside what is allowed.</summary>
    public void HoldLossCheck(Book.Book book)
    {
        var check = LossCheck.Build(book, Of("ALL"));
        foreach (var row in rows.Where(row => row["kind"] == "loss_check"))
        {
            var volume = row["line"] == "allowance_3pct_6pct" ? check.Allowance : check[row["line"]];
            Assert.Equal((row["line"], long.Parse(row["volume_ml"], CultureInfo.InvariantCulture) * 1000), (row["line"], volume.Microlitres));
        }
    }
}
