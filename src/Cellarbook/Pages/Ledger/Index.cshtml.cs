using Cellarbook.Core.Book;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Ledger;

/// <summary>Every entry, newest first, found by words, days and kinds.</summary>
public sealed class IndexModel(OpenBook book, EntryLines lines, House house) : PageModel
{
    private const int Size = 50;

    /// <summary>Any word of an entry.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    /// <summary>The first day.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly? From { get; set; }

    /// <summary>The last day.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly? To { get; set; }

    /// <summary>Code of a kind of movement.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Category { get; set; }

    /// <summary>Kinds to choose from, by their words.</summary>
    public IReadOnlyList<Category> Categories => [.. Core.Book.Category.All.OrderBy(category => Words.Category(category, house.IsHousehold), StringComparer.OrdinalIgnoreCase)];

    /// <summary>The entries of this page.</summary>
    public IReadOnlyList<EntryLine> Entries { get; private set; } = [];

    /// <summary>Number of the last entry in the book.</summary>
    public long Last { get; private set; }

    /// <summary>Which page.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false);

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1)
    {
        Last = book.Read(found => found.LastNumber);
        Paging = new(Math.Clamp(number, 1, 1_000_000), Size, false);
        var found = lines.Newest(new()
        {
            Text = string.IsNullOrWhiteSpace(Q) ? null : Q.Trim(),
            From = From,
            To = To,
            Category = string.IsNullOrEmpty(Category) ? null : Category,
            Skip = Paging.Skip,
            Take = Size + 1,
        });
        Entries = [.. found.Take(Size)];
        Paging = Paging with { HasMore = found.Count > Size };
    }
}
