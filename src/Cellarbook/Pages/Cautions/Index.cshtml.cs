using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Cautions;

/// <summary>The usual cautions with their figures and sources.</summary>
public sealed class IndexModel : PageModel
{
    /// <summary>A hazard as a heading.</summary>
    public string Heading(string hazard) => char.ToUpperInvariant(hazard[0]) + hazard[1..];

    /// <summary>A source as a sentence.</summary>
    public string Said(string source) => Heading(source) + ".";
}
