using Cellarbook.Core.Passbook;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Vessels;

/// <summary>Every vessel with what lies in it.</summary>
public sealed class IndexModel(OpenBook book, EntryIndex index) : PageModel
{
    private const int Size = 100;

    /// <summary>Part of a code, name, sort, location or lot.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    /// <summary>True to list empty vessels only.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Free { get; set; }

    /// <summary>The vessels of this page.</summary>
    public IReadOnlyList<VesselLine> Vessels { get; private set; } = [];

    /// <summary>When something last went into those that are full.</summary>
    public Dictionary<string, LastTopped> Topped { get; } = new(StringComparer.Ordinal);

    /// <summary>When those that are empty were last cleaned.</summary>
    public Dictionary<string, LastCleaned> Cleaned { get; } = new(StringComparer.Ordinal);

    /// <summary>Which page of how many.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false, 0);

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1) => book.Read(found =>
    {
        var all = VesselLine.Codes(found).Select(code => VesselLine.Of(found, code)!).Where(Fits).ToList();
        Paging = new(Math.Clamp(number, 1, Math.Max(1, (all.Count + Size - 1) / Size)), Size, false, all.Count);
        Paging = Paging with { HasMore = Paging.Skip + Size < all.Count };
        Vessels = [.. all.Skip(Paging.Skip).Take(Size)];
        foreach (var vessel in Vessels)
        {
            if (LastTopped.Of(found, index, vessel.Code) is { } topped) Topped[vessel.Code] = topped;
            else if (LastCleaned.Of(found, index, vessel.Code) is { } cleaned) Cleaned[vessel.Code] = cleaned;
        }
        return 0;
    });

    private bool Fits(VesselLine vessel) => (!Free || vessel.Held.IsNil)
        && (string.IsNullOrWhiteSpace(Q) || new[] { vessel.Code, vessel.Name, vessel.Sort, vessel.Location, vessel.Lot }.Any(text => text?.Contains(Q.Trim(), StringComparison.OrdinalIgnoreCase) == true));
}
