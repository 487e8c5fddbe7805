using Cellarbook.Core.Labels;
using Cellarbook.Core.Passbook;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Bottles;

/// <summary>A sheet of labels for the bottles of a bottling, and what each line rests on.</summary>
public sealed class LabelsModel(OpenBook book, EntryIndex index) : PageModel
{
    /// <summary>Labels of the usual sheet.</summary>
    public const int Usual = 15;

    /// <summary>The most labels on a page.</summary>
    public const int Most = 300;

    /// <summary>The label.</summary>
    public BottleLabel Label { get; private set; } = null!;

    /// <summary>How many to print.</summary>
    public int Count { get; private set; }

    /// <summary>Another name for this print alone; nothing is written by it.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Called { get; set; }

    /// <summary>The name to print.</summary>
    public string Name => string.IsNullOrWhiteSpace(Called) ? Label.Name ?? Label.Bottling : Called.Trim();

    /// <summary>The mark to print, told apart from the rest of the label.</summary>
    public string Mark => Label.LotMark is { } mark ? mark : "L " + Label.Bottling;

    /// <summary>True unless a measurement says that it needn't be said.</summary>
    public bool SaysSulphites => Label.Sulphites is not false;

    /// <summary>Draws them.</summary>
    /// <param name="code">The bottling.</param>
    /// <param name="count">How many.</param>
    public IActionResult OnGet(string code, int count = Usual)
    {
        Count = Math.Clamp(count, 1, Most);
        if (book.Read(found => BottleLabel.Of(found, index, code)) is not { } label) return this.Missing($"There is no bottling {Core.Operations.Names.Shown(code)}.", "/bottles", "All bottles");
        Label = label;
        return Page();
    }
}
