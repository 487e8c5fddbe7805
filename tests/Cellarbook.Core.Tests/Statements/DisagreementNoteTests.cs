using Cellarbook.Core.Statements;
using Cellarbook.Core.Tests.Diary;
using Xunit;

namespace Cellarbook.Core.Tests.Statements;

public class DisagreementNoteTests
{
    [Fact]
    public void Law_4_a_statement_says_that_a_measurement_of_its_period_no_longer_agrees_and_only_then()
    {
        var check = new Check().Vessel("V1", "30")
            .On("2026-03-01").Does("""{"kind":"receive","what":"must","lot":"L1","vessel":"V1","litres":20}""")
            .On("2026-04-10").Does("""{"kind":"gauge","vessel":"V1","litres":19.5}""");
        Assert.DoesNotContain(Notes("2026-04-01"), Says);
        check.On("2026-03-20").Does("""{"kind":"lose","as":"spill","lot":"L1","vessel":"V1","litres":1}""");
        Assert.Contains(Notes("2026-04-01"), Says);
        Assert.DoesNotContain(Notes("2026-03-01"), Says);

        IReadOnlyList<Sentence> Notes(string first) => PlainStatement.Build(check.Book, new(DateOnly.Parse(first, System.Globalization.CultureInfo.InvariantCulture), DateOnly.Parse(first, System.Globalization.CultureInfo.InvariantCulture).AddMonths(1).AddDays(-1)), ClassScheme.Default).Notes;
        static bool Says(Sentence note) => note.ToString().Contains("no longer agrees", StringComparison.Ordinal);
    }
}
