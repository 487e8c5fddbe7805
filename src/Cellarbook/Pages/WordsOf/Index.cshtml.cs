using Cellarbook.Core.Wording;
using Cellarbook.Forms;
using Cellarbook.Pages.Shared;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.WordsOf;

/// <summary>The terms of the field and of bookkeeping in plain words.</summary>
public sealed class IndexModel(House house, Texts.Texts texts) : PageModel
{
    /// <summary>The terms in the order of the reader's own language, each with the pages it is met on.</summary>
    public IReadOnlyList<(Term Term, string Name, IReadOnlyList<Tab> Met)> Terms =>
        [.. Term.All.Where(term => !(house.IsHousehold && term.IsOfTax)).Select(term => (term, texts[term.Name], (IReadOnlyList<Tab>)[.. term.Met.Select(Page).OfType<Tab>()]))
            .OrderBy(line => line.Item2, StringComparer.OrdinalIgnoreCase)];

    private static readonly Tab[] Others = [new("Round", "/round"), new("On hand", "/statements/stock"), new("Vessel", "/record/vessel")];

    /// <summary>A page with the name it goes by: a tab, a form of the index, or another; null for a form that this book's maker doesn't need.</summary>
    private Tab? Page(string path) => Tabs.All.Concat(Others).FirstOrDefault(tab => tab.Path == path)
        ?? (FormIndex.All.FirstOrDefault(form => "/record/" + form.Slug == path && !(house.IsHousehold && form.IsForLicensed)) is { } form ? new(form.Title, path) : null);
}
