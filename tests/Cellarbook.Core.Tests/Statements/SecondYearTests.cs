using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Tests.Diary;
using Cellarbook.Core.Tests.Importing;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>
/// A year of a quite different cellar: sparkling wine and cider, casualties, all 65 categories, take-backs, places. Made by a generator and
/// computed by another program (see data/records/README.md); every final figure must come out exact.
/// </summary>
public class SecondYearTests
{
    private static readonly ExpectedFigures Expected = new("records/second_year_expected.csv", new(2027, 1, 1), new(2027, 12, 31));

    private static Book.Book Year() => ImportedBook.Of(ImportedBook.SecondYear).Book;

    [Fact]
    public void The_year_holds_what_it_is_to_prove()
    {
        var rows = Csv.Rows("records/second_year.csv");
        Assert.Equal(65, rows.Select(row => row["category"]).Distinct().Count());
        Assert.Equal(["A16", "B21", "C24", "D_CARB", "E_SPKL", "F_CIDER"], rows.SelectMany(row => new[] { row["from_account"], row["to_account"] }).Where(account => account.Contains(':') && account.StartsWith('B'))
            .Where(account => !account.StartsWith("BYPRODUCT", StringComparison.Ordinal)).Select(account => account.Split(':')[1]).Distinct().Order(StringComparer.Ordinal));
        Assert.Equal(12, rows.Where(row => row["reverses"].Length > 0).Select(row => row["event_id"]).Distinct().Count());
        Assert.Contains(rows, row => row["from_account"] == "LOSS:CONTRACTION" && row["reverses"].Length == 0);
        Assert.Contains(rows, row => row["from_account"] == "LOSS:FERMENT" && row["reverses"].Length == 0);
        Assert.Contains(rows, row => row["vessel_from"].StartsWith('K'));
    }

    [Fact]
    public void Every_class_line_agrees_in_volume_and_in_whole_gallons()
    {
        Assert.InRange(Expected.Count("class_line"), 1000, 2000);
        Expected.HoldClassLines(Year());
    }

    [Fact]
    public void Every_lot_closes_with_what_is_left_and_every_bottling_with_its_bottles()
    {
        Assert.Equal(283, Expected.Count("lot_closing"));
        Expected.HoldLotClosings(Year());
    }

    [Fact]
    public void The_loss_check_agrees()
    {
        Assert.Equal(6, Expected.Count("loss_check"));
        Expected.HoldLossCheck(Year());
    }

    [Fact]
    public void Every_place_holds_what_the_generators_own_mixing_says_at_the_strength_it_says()
    {
        var places = Year().Now.Places.Where(place => !place.IsEmpty && place.Account.Section != Section.Must).ToDictionary(place => (place.Account.Section.Word(), place.Account.Name, place.Account.Place));
        var rows = Csv.Rows("records/second_year_strengths.csv");
        Assert.Equal(rows.Count, places.Count);
        foreach (var row in rows)
        {
            var place = places[(row["section"], row["lot"], row["place"])];
            Assert.Equal((row["lot"], long.Parse(row["volume_ml"], CultureInfo.InvariantCulture) * 1000, long.Parse(row["bottles"], CultureInfo.InvariantCulture)), (row["lot"], place.Volume.Microlitres, place.Bottles.Bottles));
            if (row["sure"] == "1") Assert.Equal((row["lot"], row["strength_hundredths"]), (row["lot"], place.Standing.Strength?.Hundredths.ToString(CultureInfo.InvariantCulture) ?? ""));
        }
    }
}
