using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Shared;

/// <summary>A list that is looked through, a hundred on a page.</summary>
public abstract class ListPage : PageModel
{
    private const int Size = 100;

    /// <summary>What to find; nothing finds all.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    /// <summary>True to list what is used up, too.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Gone { get; set; }

    /// <summary>How many fit but are used up and not shown.</summary>
    public int UsedUp { get; private set; }

    /// <summary>Which page of how many.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false, 0);

    /// <summary>True when a text holds what is looked for, or nothing is.</summary>
    protected bool Fits(string? text) => string.IsNullOrWhiteSpace(Q) || text?.Contains(Q.Trim(), StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Takes away what is used up, unless that is wanted, and counts it.</summary>
    protected void LeaveOut<T>(List<T> all, Predicate<T> isUsedUp)
    {
        UsedUp = all.Count(line => isUsedUp(line));
        if (!Gone) all.RemoveAll(isUsedUp);
    }

    /// <summary>The lines of one page.</summary>
    /// <param name="all">All that were found, in order.</param>
    /// <param name="number">Which page; one beyond the last is the last.</param>
    protected IReadOnlyList<T> Turn<T>(List<T> all, int number)
    {
        Paging = Paging.Of(number, Size, all.Count);
        return [.. all.Skip(Paging.Skip).Take(Size)];
    }
}
