using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Mvc.ViewFeatures;

namespace Cellarbook.Pages.Shared;

/// <summary>What a page says when what it was asked for isn't there, and where to go on.</summary>
public sealed record MissingPage(Sentence Sentence, string Address, Sentence Text);

/// <summary>Answers 404 with a page.</summary>
public static class MissingPages
{
    /// <summary>A page that says so, with a way on.</summary>
    public static IActionResult Missing(this PageModel page, Sentence sentence, string address, Sentence text) => new ViewResult
    {
        ViewName = "/Pages/Shared/_Missing.cshtml",
        StatusCode = StatusCodes.Status404NotFound,
        ViewData = new ViewDataDictionary<MissingPage>(page.ViewData, new MissingPage(sentence, address, text)),
    };
}
