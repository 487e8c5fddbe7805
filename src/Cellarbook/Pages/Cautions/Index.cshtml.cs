using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Cautions;

/// <summary>The usual cautions with their figures and sources.</summary>
public sealed class IndexModel : PageModel
{
    /// <summary>A hazard as a heading.</summary>
    public Sentence Heading(string hazard) => Sentence.Seed(char.ToUpperInvariant(hazard[0]) + hazard[1..]);

    /// <summary>A source as a sentence.</summary>
    public Sentence Said(Sentence source) => $"Source: {source}.";
}
