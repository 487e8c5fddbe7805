using Cellarbook.Core.Book;
using Cellarbook.Core.LotFigures;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Bench;

/// <summary>The derived figures of a lot, place by place: what the bench makes of its diary.</summary>
public sealed class LotModel(OpenBook book, Shared.Show show) : PageModel
{
    /// <summary>The lot.</summary>
    public string Code { get; private set; } = "";

    /// <summary>Its places that hold something.</summary>
    public IReadOnlyList<PlaceFigures> Places { get; private set; } = [];

    /// <summary>Works them out as the book stands.</summary>
    public IActionResult OnGet(string code)
    {
        // A slash inside a code may come escaped; no code holds a per cent sign.
        code = Uri.UnescapeDataString(code);
        if (book.Read(found => PlaceFigures.OfLot(found, code)) is not { } places) return NotFound();
        (Code, Places) = (code, places);
        return Page();
    }

    /// <summary>"Wine in V1", "Must, in no vessel".</summary>
    public static Sentence Heading(Account account) =>
        $"{(account.Section == Section.Must ? Sentence.Of("Must") : "Wine")} {Shared.Words.In(account.Place)}";

    /// <summary>A text of the bench with the reader's own decimal mark.</summary>
    public string Marked(Sentence text) => Decimals.Marked(show.T[text], show);
}
