using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;

namespace Cellarbook.Pages.Shared;

/// <summary>Until somebody has said whose book it is, every page leads to the first question.</summary>
public sealed class FirstQuestion(House house) : IResourceFilter
{
    /// <inheritdoc/>
    public void OnResourceExecuting(ResourceExecutingContext context)
    {
        if (house.IsNew && !context.HttpContext.Request.Path.StartsWithSegments("/start") && !context.HttpContext.Request.Path.StartsWithSegments(Accounts.SignIn.Page)) context.Result = new RedirectResult("/start");
    }

    /// <inheritdoc/>
    public void OnResourceExecuted(ResourceExecutedContext context)
    {
    }
}
