using Cellarbook.Core.Book;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Lots;

/// <summary>Every lot, found and sorted, a hundred on a page.</summary>
public sealed class IndexModel(OpenBook book) : PageModel
{
    private const int Size = 100;

    /// <summary>What to find: part of a code, a vessel or an origin.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    /// <summary>True to list lots of which nothing is left in bulk, too.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Gone { get; set; }

    /// <summary>code, volume or day.</summary>
    [BindProperty(SupportsGet = true)]
    public string Sort { get; set; } = "code";

    /// <summary>The lots of this page.</summary>
    public IReadOnlyList<LotLine> Lots { get; private set; } = [];

    /// <summary>Lots that fit but are used up and not shown.</summary>
    public int UsedUp { get; private set; }

    /// <summary>Which page of how many.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false, 0);

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1)
    {
        if (Sort is not ("volume" or "day")) Sort = "code";
        book.Read(found =>
        {
            var all = found.Now.Lots.Select(code => LotLine.Of(found.Now, code)!).Where(Fits).ToList();
            UsedUp = all.Count(lot => lot.IsEmpty);
            if (!Gone) all.RemoveAll(lot => lot.IsEmpty);
            all.Sort((a, b) => (Sort switch { "volume" => b.Volume.CompareTo(a.Volume), "day" => b.LastDay.CompareTo(a.LastDay), _ => 0 }) is var c && c != 0 ? c : string.CompareOrdinal(a.Code, b.Code));
            Paging = new(Math.Clamp(number, 1, Math.Max(1, (all.Count + Size - 1) / Size)), Size, false, all.Count);
            Paging = Paging with { HasMore = Paging.Skip + Size < all.Count };
            Lots = [.. all.Skip(Paging.Skip).Take(Size)];
            return 0;
        });
    }

    /// <summary>The largest share of origin, in words; empty when unstated.</summary>
    public static Sentence Origin(LotLine lot)
    {
        if (lot.IsEmpty) return "";
        var shares = lot.Origin.Shares;
        var largest = shares.MaxBy(share => share.Parts).Origin;
        return largest == Core.Book.Origin.Unstated && shares.Length == 1 ? Sentence.Empty : shares.Length == 1 ? Sentence.Verbatim(largest.ToString()) : $"mostly {largest}";
    }

    private bool Fits(LotLine lot) => string.IsNullOrWhiteSpace(Q) || Has(lot.Code)
        || lot.Places.Any(place => Has(place.Account.Place) || place.Origin.Shares.Any(share => Has(share.Origin.ToString())));

    private bool Has(string text) => text.Contains(Q!.Trim(), StringComparison.OrdinalIgnoreCase);
}
