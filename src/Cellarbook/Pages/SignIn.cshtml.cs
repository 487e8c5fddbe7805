using Cellarbook.Accounts;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages;

/// <summary>Asks for the password, and takes somebody out again.</summary>
public sealed class SignInModel(AccountsFile accounts, Tries tries) : PageModel
{
    /// <summary>What is the matter.</summary>
    public Sentence? Wrong { get; private set; }

    /// <summary>Where to go on.</summary>
    public string To { get; private set; } = "/";

    /// <summary>The name typed.</summary>
    public string? Name { get; private set; }

    /// <summary>True when several people can sign in.</summary>
    public bool AsksName => accounts.People.Count > 1;

    /// <summary>Asks.</summary>
    public IActionResult OnGet(string? to)
    {
        To = Within(to);
        return accounts.HasOwner ? Page() : Redirect("/");
    }

    /// <summary>Signs in, or says why not.</summary>
    public async Task<IActionResult> OnPostAsync(string? name, string? password, string? to)
    {
        (Name, To) = (name, Within(to));
        if (!accounts.HasOwner) return Redirect("/");
        if (!tries.Take(HttpContext))
        {
            Wrong = "Too many tries. Wait a minute.";
            Response.StatusCode = StatusCodes.Status429TooManyRequests;
            return Page();
        }
        if (accounts.Check(name, password) is not { } person)
        {
            Wrong = AsksName ? (Sentence)"Name and password don't belong together." : "That is not the password.";
            Response.StatusCode = StatusCodes.Status401Unauthorized;
            return Page();
        }
        await Accounts.SignIn.Enter(HttpContext, person);
        return LocalRedirect(To);
    }

    /// <summary>Signs out.</summary>
    public async Task<IActionResult> OnPostOutAsync()
    {
        await HttpContext.SignOutAsync();
        return Redirect(Accounts.SignIn.Page);
    }

    private string Within(string? to) => Url.IsLocalUrl(to) ? to! : "/";
}
