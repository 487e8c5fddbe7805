using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Statements;

/// <summary>What an opening or a closing is made of: lots or bottlings on hand at the end of a day (law 8).</summary>
public sealed class StockModel(OpenBook book) : PageModel
{
    private const int Most = 1000;

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

    /// <summary>Lots or bottlings.</summary>
    public IReadOnlyList<LotLine> Lines { get; private set; } = [];

    /// <summary>All of it.</summary>
    public Volume Volume { get; private set; }

    /// <summary>All bottles.</summary>
    public BottleCount Bottles { get; private set; }

    /// <summary>How many more lines there are.</summary>
    public int More { get; private set; }

    /// <summary>Finds them.</summary>
    public void OnGet()
    {
        if (On == default) On = book.Today;
        var of = Of;
        var all = book.Read(found => LotStatement.Build(found, On, ClassScheme.Default).Lines.Where(line => line.Section == of && (string.IsNullOrEmpty(Class) || line.Class == Class))
            .GroupBy(line => line.Lot).Select(group => group.First() with { Volume = group.Aggregate(Volume.None, (sum, line) => sum + line.Volume), Bottles = group.Aggregate(BottleCount.None, (sum, line) => sum + line.Bottles) }).ToArray());
        Volume = all.Aggregate(Volume.None, (sum, line) => sum + line.Volume);
        Bottles = all.Aggregate(BottleCount.None, (sum, line) => sum + line.Bottles);
        Lines = [.. all.Take(Most)];
        More = all.Length - Lines.Count;
    }
}
