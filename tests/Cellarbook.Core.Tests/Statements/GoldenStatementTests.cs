using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>The plain statement of the worked quarter as text, held against a file that was read over by hand.</summary>
public class GoldenStatementTests
{
    [Fact]
    public void The_plain_statement_of_the_worked_quarter_reads_as_it_did()
    {
        var text = new StringBuilder();
        foreach (var (from, to) in new[] { (new DateOnly(2025, 9, 1), new DateOnly(2025, 11, 30)), (new(2025, 10, 6), new(2025, 11, 11)) })
        {
            var plain = PlainStatement.Build(WorkedPeriodTests.Worked(), new(from, to), ClassScheme.Default);
            text.Append(plain.Stated).Append('\n');
            foreach (var line in plain.Lines)
                text.Append($"{line.Section.Word(),-8}{line.Class,-5}{line.Direction.ToString().ToLowerInvariant(),-8} {line.Category?.Code ?? "",-24}{Cellarbook.Core.Quantities.ExactNumber.WriteFixed(line.Volume.Microlitres, 6),14}{(line.Section == Section.Bottled ? $"{line.Bottles,6}" : "")}".TrimEnd()).Append('\n');
            foreach (var note in plain.Notes) text.Append("note: ").Append(note).Append('\n');
            text.Append('\n');
        }
        Assert.Equal(File.ReadAllText(Csv.DataFile("records/worked_quarter_plain.txt")).ReplaceLineEndings("\n"), text.ToString());
    }
}
