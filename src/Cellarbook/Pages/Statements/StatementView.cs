using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Pages.Statements;

/// <summary>One figure of a statement as a page shows it.</summary>
/// <param name="Text">What it is.</param>
/// <param name="Direction">Opening, in, out or closing.</param>
/// <param name="Category">Its kind; null on opening and closing.</param>
/// <param name="Volume">How much.</param>
/// <param name="Bottles">How many.</param>
public sealed record StatementRow(Sentence Text, Direction Direction, Category? Category, Volume Volume, BottleCount Bottles);

/// <summary>One column of a section: a class, or all of it for a household.</summary>
/// <param name="Section">Must, bulk or bottled.</param>
/// <param name="Class">Code of the class, for the entries behind a figure; null for all classes.</param>
/// <param name="Title">Its words.</param>
/// <param name="Rows">Opening, in, out, closing.</param>
public sealed record StatementBlock(Section Section, string? Class, Sentence Title, IReadOnlyList<StatementRow> Rows)
{
    /// <summary>All that came in, or went out: opening + in − out = closing, as a reader adds it up.</summary>
    public (Volume Volume, BottleCount Bottles) Sum(Direction direction) => Rows.Where(row => row.Direction == direction)
        .Aggregate((Volume.None, default(BottleCount)), (sum, row) => (sum.Item1 + row.Volume, sum.Item2 + row.Bottles));
}

/// <summary>A plain statement laid out for reading: by class, or for a household all wine of a section together.</summary>
public sealed record StatementView(IReadOnlyList<StatementBlock> Blocks)
{
    /// <summary>Lays it out.</summary>
    public static StatementView Of(PlainStatement plain, bool household) => new([.. plain.Lines
        .GroupBy(line => (line.Section, Class: household ? null : line.Class))
        .Select(group => new StatementBlock(group.Key.Section, group.Key.Class, Title(group.Key.Section, group.Key.Class), Rows([.. group], household)))]);

    /// <summary>Without classes, a change of class is no event.</summary>
    public static bool LeavesOut(Category? category, bool withoutClasses) => withoutClasses && category?.Code is "CLASS_CHANGE" or "CLASS_CHANGE_BOTTLED";

    private static Sentence Title(Section section, string? wine) => string.IsNullOrEmpty(wine) ? Words.Of(section) : $"{Words.Of(section)}, {ClassScheme.Default.Named(wine).Words}";

    private static IReadOnlyList<StatementRow> Rows(PlainLine[] lines, bool household)
    {
        var rows = new List<StatementRow>();
        foreach (var group in lines.GroupBy(line => (line.Direction, line.Category)).OrderBy(group => group.Key.Direction))
        {
            if (LeavesOut(group.Key.Category, household)) continue;
            var text = group.Key.Direction switch { Direction.Opening => Sentence.Of("On hand at the start"), Direction.Closing => "On hand at the end", _ => Words.Category(group.Key.Category!, household) };
            rows.Add(new(text, group.Key.Direction, group.Key.Category, group.Aggregate(Volume.None, (sum, line) => sum + line.Volume), group.Aggregate(default(BottleCount), (sum, line) => sum + line.Bottles)));
        }
        return rows;
    }
}
