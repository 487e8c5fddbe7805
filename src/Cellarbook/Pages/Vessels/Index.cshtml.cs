using Cellarbook.Core.Passbook;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;

namespace Cellarbook.Pages.Vessels;

/// <summary>Every vessel with what lies in it, found by part of its code, name, sort, location or lot.</summary>
public sealed class IndexModel(OpenBook book, EntryIndex index) : ListPage
{
    /// <summary>True to list empty vessels only.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Free { get; set; }

    /// <summary>The vessels of this page.</summary>
    public IReadOnlyList<VesselLine> Vessels { get; private set; } = [];

    /// <summary>When something last went into those that are full.</summary>
    public Dictionary<string, LastTopped> Topped { get; } = new(StringComparer.Ordinal);

    /// <summary>When those that are empty were last cleaned.</summary>
    public Dictionary<string, LastCleaned> Cleaned { get; } = new(StringComparer.Ordinal);

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1) => book.Read(found =>
    {
        var all = VesselLine.Codes(found).Where(code => IsAll || Fits(VesselLine.Of(found, code)!)).ToList();
        Vessels = [.. Turn(all, number).Select(code => VesselLine.Of(found, code)!)];
        foreach (var vessel in Vessels)
        {
            if (LastTopped.Of(found, index, vessel.Code) is { } topped) Topped[vessel.Code] = topped;
            else if (LastCleaned.Of(found, index, vessel.Code) is { } cleaned) Cleaned[vessel.Code] = cleaned;
        }
        return 0;
    });

    private bool IsAll => !Free && string.IsNullOrWhiteSpace(Q);

    private bool Fits(VesselLine vessel) => (!Free || vessel.Held.IsNil) && (Fits(vessel.Code) || Fits(vessel.Name) || Fits(vessel.Sort) || Fits(vessel.Location) || Fits(vessel.Lot));
}
