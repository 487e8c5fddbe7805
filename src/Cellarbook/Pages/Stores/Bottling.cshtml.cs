using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Stores;

/// <summary>What is in a bottling: every delivery of material, and every receipt of must and wine.</summary>
public sealed class BottlingModel(OpenBook book) : PageModel
{
    /// <summary>The trace.</summary>
    public BottleTrace Trace { get; private set; } = null!;

    /// <summary>To the nearest millilitre, half up: about is no finer.</summary>
    public static Volume Nearest(Volume about) => Volume.OfMillilitres((about.Microlitres + 500) / 1_000);

    /// <summary>Opens the trace of a bottling.</summary>
    /// <param name="code">Its code.</param>
    public IActionResult OnGet(string code)
    {
        if (book.Read(found => BottleTrace.Of(found, code)) is not { } trace) return this.Missing($"There is no bottling {Names.Shown(code)}.", "/bottles", "All bottles");
        Trace = trace;
        return Page();
    }
}
