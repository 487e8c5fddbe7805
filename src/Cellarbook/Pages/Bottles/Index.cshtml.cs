using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;

namespace Cellarbook.Pages.Bottles;

/// <summary>Every bottling with what is left of it, found by part of its code, lot or shelf.</summary>
public sealed class IndexModel(OpenBook book) : ListPage
{
    /// <summary>The bottlings of this page, the newest first.</summary>
    public IReadOnlyList<BottlingLine> Bottlings { get; private set; } = [];

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1) => book.Read(found =>
    {
        var all = found.Now.Bottlings.Select(bottling => BottlingLine.Of(found.Now, bottling.Code)!)
            .Where(bottling => Fits(bottling.Code) || bottling.Lots.Any(Fits) || bottling.Shelves.Any(shelf => Fits(shelf.Account.Place))).ToList();
        LeaveOut(all, bottling => !bottling.Left.IsPositive);
        all.Sort((a, b) => b.FirstDay.CompareTo(a.FirstDay) is var c && c != 0 ? c : string.CompareOrdinal(a.Code, b.Code));
        Bottlings = Turn(all, number);
        return 0;
    });
}
