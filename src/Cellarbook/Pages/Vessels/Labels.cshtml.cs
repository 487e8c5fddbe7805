using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Vessels;

/// <summary>A sheet of labels for vessels, each with a code that opens the vessel's page.</summary>
public sealed class LabelsModel(OpenBook book, PreferencesFile preferences) : PageModel
{
    private const int Size = 60;

    /// <summary>One label.</summary>
    public sealed record Label(VesselLine Vessel, string Address, QrSquare Square);

    /// <summary>Part of a code, name, sort or location.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    /// <summary>Where the labels lead.</summary>
    public SiteAddress Address => SiteAddress.Of(preferences.Now, Request);

    /// <summary>The labels of this page.</summary>
    public IReadOnlyList<Label> Labels { get; private set; } = [];

    /// <summary>Which page of how many.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false, 0);

    /// <summary>Draws them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1)
    {
        var vessels = book.Read<VesselLine[]>(found => [.. VesselLine.Codes(found).Where(code => found.Vessels.ContainsKey(code)).Select(code => VesselLine.Of(found, code)!).Where(Fits)]);
        Paging = Paging.Of(number, Size, vessels.Length);
        Labels = [.. vessels.Skip(Paging.Skip).Take(Size).Select(vessel => (vessel, address: Address.Whole + Links.Vessel(vessel.Code))).Select(pair => new Label(pair.vessel, pair.address, QrSquare.Of(pair.address)))];
    }

    private bool Fits(VesselLine vessel) => string.IsNullOrWhiteSpace(Q)
        || new[] { vessel.Code, vessel.Name, vessel.Sort, vessel.Location }.Any(text => text?.Contains(Q.Trim(), StringComparison.OrdinalIgnoreCase) == true);
}
