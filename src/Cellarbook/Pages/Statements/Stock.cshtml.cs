using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using LotLine = Cellarbook.Core.Statements.LotLine;

namespace Cellarbook.Pages.Statements;

/// <summary>What an opening or a closing is made of: lots or bottlings on hand at the end of a day (law 8).</summary>
public sealed class StockModel(OpenBook book) : PageModel
{
    private const int Size = 100;

    /// <summary>The day.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly On { get; set; }

    /// <summary>must, bulk or bottled.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Section { get; set; }

    /// <summary>Code of the class; empty for all.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Class { get; set; }

    /// <summary>The section asked for; bulk when none was.</summary>
    public Section Of => Section switch { "must" => Core.Book.Section.Must, "bottled" => Core.Book.Section.Bottled, _ => Core.Book.Section.Bulk };

    /// <summary>Lots or bottlings of this page.</summary>
    public IReadOnlyList<LotLine> Lines { get; private set; } = [];

    /// <summary>All of it.</summary>
    public Volume Volume { get; private set; }

    /// <summary>All bottles.</summary>
    public BottleCount Bottles { get; private set; }

    /// <summary>Which page of how many.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false, 0);

    /// <summary>How many lines stand on other pages.</summary>
    public int More { get; private set; }

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1)
    {
        if (On == default) On = book.Today;
        var lines = book.Read(found => LotStatement.Build(found, On, ClassScheme.Default, Of).Lines);
        var all = string.IsNullOrEmpty(Class) ? Together(lines) : [.. lines.Where(line => line.Class == Class)];
        foreach (var line in all) (Volume, Bottles) = (Volume + line.Volume, Bottles + line.Bottles);
        Paging = Paging.Of(number, Size, all.Count);
        Lines = [.. all.Skip(Paging.Skip).Take(Size)];
        More = all.Count - Lines.Count;
    }

    /// <summary>Lines of one name as one, whatever their classes.</summary>
    private static List<LotLine> Together(IReadOnlyList<LotLine> lines)
    {
        var together = new List<LotLine>(lines.Count);
        var at = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var line in lines)
            if (at.TryAdd(line.Lot, together.Count)) together.Add(line);
            else together[at[line.Lot]] = together[at[line.Lot]] with { Volume = together[at[line.Lot]].Volume + line.Volume, Bottles = together[at[line.Lot]].Bottles + line.Bottles };
        return together;
    }
}
