using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Importing;

/// <summary>
/// Which way shrinkage and contraction run. What a file tells is kept only where the event itself would not tell it, so that the same event reads
/// the same with and without account columns.
/// </summary>
internal static class EventDirections
{
    private const string Contraction = "PROCESS_CONTRACTION";

    /// <summary>Rows of one event with the direction kept only where it is news.</summary>
    public static IReadOnlyList<ImportedRow> Settled(ImportedRow[] rows)
    {
        for (var i = 0; i < rows.Length; i++)
        {
            if (rows[i].Backwards is not { } told) continue;
            // Taken back, it runs against what it takes back; else a contraction brings the process to nil, and a lot tells the rest.
            var natural = rows[i].Category == Contraction ? BringsToNilBackwards(rows) : false;
            if (rows[i].Reverses is not null || told == natural) rows[i] = rows[i] with { Backwards = null };
        }
        return rows;
    }

    /// <summary>True when the row runs against its category.</summary>
    public static bool Backwards(ImportedRow row, bool contractionBackwards) => row.Backwards ?? (row.Category == Contraction && contractionBackwards);

    /// <summary>True when a contraction must put into the process to bring it to nil: more was measured out than went in.</summary>
    public static bool BringsToNilBackwards(IEnumerable<ImportedRow> rows)
    {
        var net = Volume.None;
        foreach (var row in rows)
        {
            if (row.Category == Contraction || row.Reverses is not null || row.VolumeMl is not { } volume) continue;
            var category = Category.Of(row.Category);
            if (category.To.IsProcess) net += volume.Volume;
            else if (category.From.IsProcess) net -= volume.Volume;
        }
        return net < Volume.None;
    }
}
