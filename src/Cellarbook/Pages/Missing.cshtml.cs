using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages;

/// <summary>What is shown for an address without a page, or a form that came without its seal.</summary>
[IgnoreAntiforgeryToken]
public sealed class MissingModel : PageModel
{
    /// <summary>True when there is no such page.</summary>
    public bool IsGone => HttpContext.Response.StatusCode is StatusCodes.Status404NotFound or StatusCodes.Status200OK;

    /// <summary>Shows it.</summary>
    public void OnGet()
    {
    }

    /// <summary>Shows it after a form.</summary>
    public void OnPost()
    {
    }
}
