using Cellarbook.Accounts;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Settings;

/// <summary>The owner's password, other people, tokens for scripts.</summary>
public sealed class PeopleModel(AccountsFile accounts, Tries tries, House house, OpenBook book) : PageModel
{
    /// <summary>Who there is.</summary>
    public AccountsFile Accounts => accounts;

    /// <summary>What is the matter.</summary>
    public Sentence? Wrong { get; private set; }

    /// <summary>True after something was kept.</summary>
    public bool Saved { get; private set; }

    /// <summary>A token just made, shown once.</summary>
    public string? NewToken { get; private set; }

    /// <summary>What a role may do.</summary>
    public static Sentence Says(Role role) => role switch
    {
        Role.Owner => "everything",
        Role.Hand => "record what is done",
        _ => "look, and change nothing",
    };

    /// <summary>Shows them.</summary>
    public void OnGet(bool saved = false) => Saved = saved;

    /// <summary>Keeps the owner's password and signs the owner in with it.</summary>
    public async Task<IActionResult> OnPostOwnerAsync(string? current, string? password, string? again)
    {
        var owner = accounts.People.FirstOrDefault(person => person.Role == Role.Owner);
        if (owner is not null && !tries.Take(HttpContext)) return Refused("Too many tries. Wait a minute.");
        if (owner is not null && accounts.Check(owner.Name, current) is null) return Refused("The password until now is another.");
        if (password != again) return Refused("The two passwords differ. Type it again.");
        if (accounts.SetPassword(owner?.Name ?? house.Owner, Role.Owner, password) is { } fault) return Refused(fault);
        await Cellarbook.Accounts.SignIn.Enter(HttpContext, accounts.People.First(person => person.Role == Role.Owner));
        return Redirect("/settings/people?saved=true");
    }

    /// <summary>Keeps somebody else's password.</summary>
    public IActionResult OnPostPerson(string? name, Role role, string? password)
    {
        if (!accounts.HasOwner) return Refused("Give the owner a password first.");
        if (role == Role.Owner || accounts.People.Any(person => person.Role == Role.Owner && string.Equals(person.Name, name?.Trim(), StringComparison.OrdinalIgnoreCase))) return Refused("There is one owner; give somebody else another name.");
        return accounts.SetPassword(name, role, password) is { } fault ? Refused(fault) : Redirect("/settings/people?saved=true");
    }

    /// <summary>Takes somebody out.</summary>
    public IActionResult OnPostRemove(string name)
    {
        accounts.Remove(name);
        return Redirect("/settings/people?saved=true");
    }

    /// <summary>Makes a token and shows it once.</summary>
    public IActionResult OnPostToken(string? name, Role role)
    {
        if (!accounts.HasOwner) return Refused("Give the owner a password first.");
        if (string.IsNullOrWhiteSpace(name) || name.Length > AccountsFile.Longest) return Refused("Say what the token is for.");
        NewToken = accounts.MakeToken(name.Trim(), role, book.Today);
        return Page();
    }

    /// <summary>Ends a token.</summary>
    public IActionResult OnPostEndToken(string name)
    {
        accounts.RemoveToken(name);
        return Redirect("/settings/people?saved=true");
    }

    private PageResult Refused(Sentence sentence)
    {
        Wrong = sentence;
        Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        return Page();
    }
}
