using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>A figure of the loss check with the entries behind it.</summary>
/// <param name="Name">"opening", "received", "produced", "gain" or "lost".</param>
/// <param name="Volume">How much.</param>
/// <param name="Entries">Numbers of the entries behind it, in book order; none for stock carried over from before the period.</param>
public sealed record LossFigure(string Name, Volume Volume, IReadOnlyList<long> Entries);

/// <summary>
/// What was lost of still wine in bulk over a period, beside what a regime allows for (percentages and source in the form's data file). A help to
/// see where one stands; the authority decides. The allowance is rounded down to a whole millilitre.
/// </summary>
public sealed class LossCheck
{
    private static readonly (string Name, string[] Lines)[] Moves = [("received", ["A7"]), ("produced", ["A2"]), ("gain", ["A9"]), ("lost", ["A29", "A30"])];

    private LossCheck(PlainStatement plain, IReadOnlyList<LossFigure> figures, Volume allowance)
    {
        Plain = plain;
        Figures = figures;
        Allowance = allowance;
    }

    /// <summary>The statement it is taken from.</summary>
    public PlainStatement Plain { get; }

    /// <summary>Opening, received, produced, gain, lost.</summary>
    public IReadOnlyList<LossFigure> Figures { get; }

    /// <summary>What may be lost: so many per cent of opening and received, and of what was produced.</summary>
    public Volume Allowance { get; }

    /// <summary>The figure of that name.</summary>
    public Volume this[string name] => Figures.Single(figure => figure.Name == name).Volume;

    /// <summary>True when more was lost than allowed.</summary>
    public bool IsOver => this["lost"] > Allowance;

    /// <summary>Builds it.</summary>
    public static LossCheck Build(Book.Book book, Period period)
    {
        var form = UsForm.Current;
        var plain = PlainStatement.Build(book, period, ClassScheme.Default);
        var opening = plain.Lines.Where(line => line.Direction == Direction.Opening && line.Section == Section.Bulk && form.LossClasses.Contains(line.Class))
            .Aggregate(Volume.None, (sum, line) => sum + line.Volume);
        var parts = PlainStatement.Behind(book, period, ClassScheme.Default).Where(part => part.Section == Section.Bulk && form.LossClasses.Contains(part.Class)).ToArray();
        var figures = new List<LossFigure> { new("opening", opening, Entries(parts.Where(part => part.Direction == Direction.Opening))) };
        foreach (var (name, lines) in Moves)
        {
            var behind = parts.Where(part => lines.Contains(part.Direction switch { Direction.In => part.Category.LineIn(Section.Bulk), Direction.Out => part.Category.LineOut(Section.Bulk), _ => "" })).ToArray();
            figures.Add(new(name, behind.Aggregate(Volume.None, (sum, part) => sum + part.Volume), Entries(behind)));
        }
        var stock = (Int128)(figures[0].Volume + figures[1].Volume).Microlitres * form.LossStockPercent;
        var made = (Int128)figures[2].Volume.Microlitres * form.LossProducedPercent;
        return new(plain, figures, Volume.OfMillilitres((long)Down(stock + made, 100 * 1000)));
    }

    private static IReadOnlyList<long> Entries(IEnumerable<Contribution> parts) => [.. parts.Select(part => part.Entry).Distinct()];

    private static Int128 Down(Int128 value, Int128 unit) => value >= 0 || value % unit == 0 ? value / unit : value / unit - 1;
}
