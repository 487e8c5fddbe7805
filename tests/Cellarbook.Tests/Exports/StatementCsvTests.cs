using Cellarbook.Core.Statements;
using Cellarbook.Exports;
using Xunit;

namespace Cellarbook.Tests.Exports;

/// <summary>The CSV files: columns as promised, figures exact, text harmless.</summary>
public class StatementCsvTests
{
    private static string Golden(string name) => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "Exports", "golden", name));

    [Fact]
    public async Task The_worked_quarter_reads_as_it_always_did()
    {
        var book = Books.Worked();
        var plain = await Books.Text(stream => StatementCsv.WriteAsync(Books.Document(book, Books.Quarter, us: false), stream));
        var us = await Books.Text(stream => StatementCsv.WriteAsync(Books.Document(book, Books.Quarter, us: true), stream));
        var lots = await Books.Text(stream => StatementCsv.LotsAsync(Books.Document(book, Books.Quarter, us: false).Lots, stream));
        Assert.DoesNotContain("\n", plain.Replace("\r\n", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal(Golden("worked-quarter-plain.csv"), plain.ReplaceLineEndings("\n"));
        Assert.Equal(Golden("worked-quarter-us-5120-17.csv"), us.ReplaceLineEndings("\n"));
        Assert.Equal(Golden("worked-quarter-lots.csv"), lots.ReplaceLineEndings("\n"));
    }

    [Fact]
    public void The_golden_files_agree_with_the_figures_of_the_other_program()
    {
        var expected = CsvText.Rows(File.ReadAllText(CsvText.DataFile("worked_period_expected.csv"))).Where(row => row["version"] == "final" && row["period"] == "ALL").ToList();
        var us = CsvText.Rows(Golden("worked-quarter-us-5120-17.csv")).ToDictionary(row => (row["section"], row["class"], row["line"]));
        var lines = expected.Where(row => row["kind"] == "class_line").ToList();
        Assert.NotEmpty(lines);
        Assert.Equal(lines.Count, us.Count);
        foreach (var row in lines)
        {
            var got = us[(row["form"], row["class"], row["line"])];
            Assert.Equal(decimal.Parse(row["litres"]), decimal.Parse(got["litres"]));
            Assert.Equal((row["gal_5dp"], row["gal_form"]), (got["wine_gallons"], got["wine_gallons_whole"]));
        }
        var lots = CsvText.Rows(File.ReadAllText(CsvText.DataFile("worked_period_expected.csv"))).Where(row => row["kind"] == "lot_closing" && row["version"] == "final" && row["period"] == "2025-11").ToList();
        var golden = CsvText.Rows(Golden("worked-quarter-lots.csv"));
        Assert.Equal(lots.Where(row => row["volume_ml"] != "0").Select(row => $"{row["form"]} {row["class"]} {row["lot"]} {decimal.Parse(row["litres"]).ToString("0.###")} {row["count"]}").Order(StringComparer.Ordinal),
            golden.Select(row => $"{row["section"].ToUpperInvariant()} {row["class"]} {row["lot"]} {row["litres"]} {row["bottles"]}").Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Opening_and_in_less_out_is_the_closing_also_read_back_from_the_file()
    {
        foreach (var (book, period) in new[] { (Books.Worked(), Books.Quarter), (Books.Household(), new Period(new(2026, 4, 1), new(2026, 12, 31))) })
        {
            var rows = CsvText.Rows(await Books.Text(stream => StatementCsv.WriteAsync(Books.Document(book, period, us: false), stream)));
            Assert.NotEmpty(rows);
            foreach (var block in rows.GroupBy(row => (row["section"], row["class"])))
                foreach (var column in block.Key.Item1 == "bottled" ? new[] { "litres", "bottles" } : ["litres"])
                {
                    decimal Sum(string direction) => block.Where(row => row["direction"] == direction).Sum(row => decimal.Parse(row[column]));
                    Assert.Equal(Sum("closing"), Sum("opening") + Sum("in") - Sum("out"));
                }
        }
    }

    [Fact]
    public async Task Text_that_looks_like_a_formula_stays_text_and_figures_stay_figures()
    {
        var book = Books.Household();
        var csv = await Books.Text(stream => StatementCsv.EntriesAsync(Books.Document(book, new(new(2026, 1, 1), new(2026, 12, 31)), us: false).Entries, stream));
        var rows = CsvText.Rows(csv);
        Assert.Contains(rows, row => row["note"] == "'=1+1" && row["document"] == "'@x");
        Assert.Contains(rows, row => row["note"] == "'-2" && row["document"] == "00123" && row["bottles"] == "1");
        Assert.Contains(rows, row => row["note"] == "'+3" && row["document"] == "'\t4" && row["litres"] == "0.123456");
        Assert.Contains(rows, row => row["from"] == "MUST:007:V2");
        Assert.All(rows, row => Assert.DoesNotContain("'", row["litres"] + row["bottles"] + row["grams"], StringComparison.Ordinal));
        // A take-back is a negative figure, and no text.
        var worked = CsvText.Rows(await Books.Text(stream => StatementCsv.WriteAsync(Books.Document(Books.Worked(), new(new(2025, 11, 24), new(2025, 11, 24)), us: false), stream)));
        Assert.Contains(worked, row => (row["category"], row["direction"], row["litres"], row["bottles"]) == ("REMOVED_TAXPAID", "out", "-9", "-12"));
    }

    [Fact]
    public async Task What_was_taken_back_while_open_is_listed_last_and_says_so()
    {
        var rows = CsvText.Rows(await Books.Text(stream => StatementCsv.EntriesAsync(Books.Document(Books.Household(), new(new(2026, 1, 1), new(2026, 12, 31)), us: false).Entries, stream)));
        Assert.Equal(("9", "left out, taken back by entry 12", "3"), (rows[^1]["entry"], rows[^1]["state"], rows[^1]["bottles"]));
        Assert.Contains(rows, row => row["entry"] == "12" && row["day"] == "2026-05-20" && row["state"] == "" && row["bottles"] == "2");
    }
}
