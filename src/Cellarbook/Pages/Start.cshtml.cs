using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages;

/// <summary>The first question of an empty book.</summary>
public sealed class StartModel(OpenBook book, PreferencesFile preferences, House house) : PageModel
{
    /// <summary>The fields.</summary>
    [BindProperty]
    public PremisesForm Form { get; set; } = new();

    /// <summary>Shows them, the machine's time zone proposed.</summary>
    public IActionResult OnGet()
    {
        if (!house.IsNew) return Redirect("/");
        Form = PremisesForm.Of(null, preferences.Now);
        return Page();
    }

    /// <summary>Records the premises and keeps the preferences.</summary>
    public IActionResult OnPost()
    {
        if (string.IsNullOrWhiteSpace(Form.Owner)) Form.Wrong["Owner"] = "Say who writes in the book; a first name will do.";
        var operation = Form.Operation(book.Today);
        if (Form.Wrong.Count == 0) Form.Take(book.Record(operation, operation.Owner!, Form.Key).Refusals);
        else Form.Take(book.Record(operation, Form.Owner ?? "", check: true).Refusals);
        if (Form.Wrong.Count > 0) return Page();
        preferences.Save(Form.Over(preferences.Now));
        return Redirect("/");
    }
}
