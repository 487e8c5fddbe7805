using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.LotFigures;
using Cellarbook.Core.Operations;
using Xunit;

namespace Cellarbook.Core.Tests.LotFigures;

/// <summary>A diary written line by line in the API's own JSON, for the tests of derived figures.</summary>
internal sealed class FiguresDiary
{
    private static readonly DateOnly Today = new(2027, 1, 31);

    public Core.Book.Book Book { get; } = new();

    /// <summary>Makes vessels of a hectolitre.</summary>
    public FiguresDiary Vessels(params string[] codes)
    {
        foreach (var code in codes) Write($$"""{"kind":"vessel","day":"2026-01-01","code":"{{code}}","name":"{{code}}","capacityLitres":100}""");
        return this;
    }

    /// <summary>Writes an entry on a day; the rest of the body is JSON without the braces.</summary>
    public FiguresDiary On(string day, string body) => Write($$"""{"day":"{{day}}",{{body}}}""");

    /// <summary>The figures of a lot that lies in one place.</summary>
    public PlaceFigures Figures(string lot, DateOnly? on = null) => Assert.Single(PlaceFigures.OfLot(Book, lot, on)!);

    /// <summary>What would be proposed when declaring a lot that lies in one place.</summary>
    public StrengthProposal Proposal(string lot) => StrengthProposal.For(Book, Assert.Single(Book.Now.PlacesOfLot(lot)));

    private FiguresDiary Write(string json)
    {
        var refusals = new List<Refusal>();
        var operation = OperationJson.Read(Encoding.UTF8.GetBytes(json), refusals);
        Assert.Empty(refusals);
        var trial = Book.Propose(operation!, Today);
        Assert.True(trial.IsGood, string.Join(" ", trial.Refusals.Select(refusal => refusal.Sentence)));
        Book.Accept(trial);
        return this;
    }
}
