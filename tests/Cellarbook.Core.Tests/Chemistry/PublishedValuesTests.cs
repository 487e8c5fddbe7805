using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Truth of numbers: every row of data/chemistry agrees with its formula within its tolerance.</summary>
public class PublishedValuesTests
{
    public static IEnumerable<TheoryDataRow<CheckRow>> Rows => CheckRow.All.Select(row => new TheoryDataRow<CheckRow>(row) { TestDisplayName = row.ToString() });

    [Theory]
    [MemberData(nameof(Rows))]
    public void A_published_value_is_met_within_its_tolerance(CheckRow row)
    {
        double found = Quantities.ByName[row.Quantity](row);

        // A billionth of the tolerance for the last digit of the file, as 12.0065 and 0.0005 are no exact doubles.
        Assert.True(Math.Abs(found - row.Expected) <= row.Tolerance * (1 + 1e-9), $"{row}: expected {row.Expected} ± {row.Tolerance}, found {found:R}");
    }

    [Fact]
    public void All_745_rows_of_all_14_files_are_run_and_none_twice()
    {
        Assert.Equal(14, CheckRow.Files.Count);
        Assert.Equal(745, Rows.Count());
        Assert.Equal(745, CheckRow.All.Select(r => r.Id).Distinct().Count());
    }

    [Fact]
    public void Every_row_names_a_known_formula_its_source_and_how_far_it_was_checked()
    {
        Assert.Empty(CheckRow.All.Where(r => !Quantities.ByName.ContainsKey(r.Quantity)).Select(r => r.Id));
        Assert.Empty(CheckRow.All.Where(r => r.Source.Length == 0).Select(r => r.Id));
        Assert.Empty(CheckRow.All.Where(r => r.Verified is not ("text" or "derived" or "memory")).Select(r => r.Id));
    }

    [Fact]
    public void A_wrong_formula_would_be_caught_mass_percent_is_not_volume_percent()
    {
        // Guards the guard: the same rows must fail when strength by mass is taken for strength by volume.
        IEnumerable<CheckRow> rows = CheckRow.All.Where(r => r.Quantity == "r22_density_abv" && r["abv20"] is > 5 and < 95);
        Assert.All(rows, r => Assert.True(Math.Abs(Core.Chemistry.EthanolWater.KgPerCubicMetre(r["abv20"] / 100, r["t_c"]) - r.Expected) > r.Tolerance));
    }
}
