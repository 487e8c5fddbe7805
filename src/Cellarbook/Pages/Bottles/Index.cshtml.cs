using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Bottles;

/// <summary>Every bottling with what is left of it.</summary>
public sealed class IndexModel(OpenBook book) : PageModel
{
    private const int Size = 100;

    /// <summary>Part of a code, lot or shelf.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    /// <summary>True to list bottlings of which no bottle is left, too.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Gone { get; set; }

    /// <summary>The bottlings of this page, the newest first.</summary>
    public IReadOnlyList<BottlingLine> Bottlings { get; private set; } = [];

    /// <summary>Bottlings that fit but are used up and not shown.</summary>
    public int UsedUp { get; private set; }

    /// <summary>Which page of how many.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false, 0);

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1) => book.Read(found =>
    {
        var all = found.Now.Bottlings.Select(bottling => BottlingLine.Of(found.Now, bottling.Code)!).Where(Fits).ToList();
        UsedUp = all.Count(bottling => !bottling.Left.IsPositive);
        if (!Gone) all.RemoveAll(bottling => !bottling.Left.IsPositive);
        all.Sort((a, b) => b.FirstDay.CompareTo(a.FirstDay) is var c && c != 0 ? c : string.CompareOrdinal(a.Code, b.Code));
        Paging = new(Math.Clamp(number, 1, Math.Max(1, (all.Count + Size - 1) / Size)), Size, false, all.Count);
        Paging = Paging with { HasMore = Paging.Skip + Size < all.Count };
        Bottlings = [.. all.Skip(Paging.Skip).Take(Size)];
        return 0;
    });

    private bool Fits(BottlingLine bottling) => string.IsNullOrWhiteSpace(Q)
        || bottling.Lots.Append(bottling.Code).Concat(bottling.Shelves.Select(shelf => shelf.Account.Place)).Any(text => text.Contains(Q.Trim(), StringComparison.OrdinalIgnoreCase));
}
