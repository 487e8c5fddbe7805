using Cellarbook.Core.Limits;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>A limit set is read whole or refused whole, with the rows to blame.</summary>
public class LimitSetReaderTests
{
    private const string Head = "substances,basis,kind,value,unit,colour,sugar,product,case,harvest,from,to,source,seen,note\n";

    private static readonly LimitSet About = new() { Code = "buyer", Name = "Buyer", Kind = "buyer", Who = "Example Cellars", Rows = [] };

    private static LimitSetRead Read(string rows, string head = Head) => LimitSetReader.Read(head + rows, About);

    [Fact]
    public void The_sets_that_travel_with_the_program_are_whole_and_cite_their_sources()
    {
        Assert.Equal(["eu", "eu-organic", "oiv", "uk", "us", "codex"], LawSets.All.Select(set => set.Code));
        Assert.Equal(364, LawSets.All.Sum(set => set.Rows.Count));
        Assert.All(LawSets.All.SelectMany(set => set.Rows), row => Assert.True(row.Source.Length > 0 && (!row.Seen || row.SeenAt.Length > 0), $"{row.Number} {row.Source}"));
        // 270 texts were read, 94 rows are from memory.
        Assert.Equal((270, 94), (LawSets.All.Sum(set => set.Rows.Count(row => row.Seen)), LawSets.All.Sum(set => set.Rows.Count(row => !row.Seen))));
        // What isn't compared says its rule in words.
        Assert.All(LawSets.All.SelectMany(set => set.Rows).Where(row => !row.IsCompared && row.Kind != LimitKind.NoCap), row => Assert.NotEmpty(row.Note));
    }

    [Fact]
    public void A_buyers_set_is_read()
    {
        var read = Read("so2,total_measured,max,100,mg/L,red,,,,,,,letter of 3 May,text,\nvolatile-acidity,total_measured,max,12,meq/L,,,,,,,,letter of 3 May,text,\n");
        Assert.Empty(read.Faults);
        Assert.Equal(2, read.Set!.Rows.Count);
        Assert.Equal("Example Cellars", read.Set.Who);
    }

    [Theory]
    [InlineData("so2,total_measured,max,100,mg/L,red,,,,,,,,text,\n", 1, "source")]
    [InlineData("so3,total_measured,max,100,mg/L,red,,,,,,,letter,text,\n", 1, "substances")]
    [InlineData("so2,measured,max,100,mg/L,red,,,,,,,letter,text,\n", 1, "basis")]
    [InlineData("so2,total_measured,most,100,mg/L,red,,,,,,,letter,text,\n", 1, "kind")]
    [InlineData("so2,total_measured,max,100,mg,red,,,,,,,letter,text,\n", 1, "unit")]
    [InlineData("so2,total_measured,max,-1,mg/L,red,,,,,,,letter,text,\n", 1, "value")]
    [InlineData("so2,total_measured,max,99999999999,mg/L,red,,,,,,,letter,text,\n", 1, "value")]
    [InlineData("so2,total_measured,max,,mg/L,red,,,,,,,letter,text,\n", 1, "value")]
    [InlineData("so2,total_measured,prohibited,0,mg/L,red,,,,,,,letter,text,\n", 1, "value")]
    [InlineData("so2,total_measured,rule,,,red,,,,,,,letter,text,\n", 1, "note")]
    [InlineData("so2,total_measured,max,100,mg/L,blue,,,,,,,letter,text,\n", 1, "colour")]
    [InlineData("so2,total_measured,max,100,mg/L,,5,,,,,,letter,text,\n", 1, "sugar")]
    [InlineData("so2,total_measured,max,100,mg/L,,<5 <6,,,,,,letter,text,\n", 1, "sugar")]
    [InlineData("so2,total_measured,max,100,mg/L,,,fizzy,,,,,letter,text,\n", 1, "product")]
    [InlineData("so2,total_measured,max,100,mg/L,,,,,21,,,letter,text,\n", 1, "harvest")]
    [InlineData("so2,total_measured,max,100,mg/L,,,,,2022-2021,,,letter,text,\n", 1, "harvest")]
    [InlineData("so2,total_measured,max,100,mg/L,,,,,,2026-02-30,,letter,text,\n", 1, "from")]
    [InlineData("so2,total_measured,max,100,mg/L,,,,,,2026-02-01,2026-01-01,letter,text,\n", 1, "to")]
    [InlineData("so2,total_measured,max,100,mg/L,,,,,,,,letter,perhaps,\n", 1, "seen")]
    [InlineData("so2,total_measured,increment,50,mg/L,,,,,,,,letter,text,\n", 1, "case")]
    [InlineData("copper,residual,max,5,meq/L,,,,,,,,letter,text,\n", 1, "value")]
    public void A_row_that_says_nonsense_is_named_with_its_column(string rows, int row, string column)
    {
        var read = Read(rows);
        Assert.Null(read.Set);
        Assert.Contains(read.Faults, fault => fault.Row == row && fault.Column == column);
    }

    [Fact]
    public void Rows_that_overlap_are_refused()
    {
        var read = Read("so2,total_measured,max,150,mg/L,red,<5,,,,,,letter,text,\nso2,total_measured,max,200,mg/L,red,>=4,,,,,,letter,text,\n");
        Assert.Null(read.Set);
        Assert.Contains(read.Faults, fault => fault.Row == 2 && fault.Sentence.Contains("row 1", StringComparison.Ordinal));
    }

    [Fact]
    public void Bands_that_leave_a_gap_are_refused()
    {
        Assert.Contains(Read("so2,total_measured,max,150,mg/L,red,<5,,,,,,letter,text,\nso2,total_measured,max,200,mg/L,red,>5,,,,,,letter,text,\n").Faults, fault => fault.Sentence.Contains("gap", StringComparison.Ordinal));
        Assert.Empty(Read("so2,total_measured,max,150,mg/L,red,<5,,,,,,letter,text,\nso2,total_measured,max,200,mg/L,red,>=5,,,,,,letter,text,\n").Faults);
        Assert.Contains(Read("so2,total_measured,max,150,mg/L,red,,,,,,2024-12-28,letter,text,\nso2,total_measured,max,200,mg/L,red,,,,,2024-12-30,,letter,text,\n").Faults, fault => fault.Column == "from");
        Assert.Contains(Read("lead,total_measured,max,0.2,mg/kg,,,,,2001-2015,,,letter,text,\nlead,total_measured,max,0.15,mg/kg,,,,,2017-,,,letter,text,\n").Faults, fault => fault.Column == "harvest");
    }

    [Theory]
    [InlineData("")]
    [InlineData("substances,basis\n")]
    [InlineData("substances,basis,kind,value,unit,source,seen,whatever\nso2,total_measured,max,1,mg/L,x,text,\n")]
    [InlineData("substances,basis,kind,value,unit,source,seen,seen\nso2,total_measured,max,1,mg/L,x,text,text\n")]
    [InlineData("substances,basis,kind,value,unit,source\nso2,total_measured,max,1,mg/L,x\n")]
    [InlineData("substances,basis,kind,value,unit,source,seen\nso2,total_measured,max,1,mg/L,x\n")]
    [InlineData("substances,basis,kind,value,unit,source,seen\nso2,total_measured,max,1,mg/L,\"x,text\n")]
    [InlineData("substances,basis,kind,value,unit,source,seen\nso2,total_measured,max,1,mg/L,\"x\"y,text\n")]
    [InlineData("PK\u0003\u0004\0\0")]
    public void A_broken_file_is_refused_and_says_where(string text)
    {
        var read = LimitSetReader.Read(text, About);
        Assert.Null(read.Set);
        Assert.NotEmpty(read.Faults);
        Assert.All(read.Faults, fault => Assert.True(fault.Row >= 0 && fault.Sentence.Length > 10));
    }
}
