using Cellarbook.Core.Stores;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Stores;

/// <summary>What lies in store, by material and delivery.</summary>
public sealed class IndexModel(OpenBook book) : PageModel
{
    /// <summary>True to list deliveries of which nothing is left, too.</summary>
    [BindProperty(SupportsGet = true)]
    public bool UsedUp { get; set; }

    /// <summary>The deliveries.</summary>
    public IReadOnlyList<StoreLine> Lines { get; private set; } = [];

    /// <summary>Finds them.</summary>
    public void OnGet() => Lines = book.Read(found => StoreLine.All(found, book.Today, UsedUp));
}
