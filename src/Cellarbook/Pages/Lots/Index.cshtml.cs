using Cellarbook.Core.Book;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;

namespace Cellarbook.Pages.Lots;

/// <summary>Every lot, found by part of its code, a vessel or an origin, and sorted; used up is one of which nothing is left in bulk.</summary>
public sealed class IndexModel(OpenBook book) : ListPage
{
    /// <summary>code, volume or day.</summary>
    [BindProperty(SupportsGet = true)]
    public string Sort { get; set; } = "code";

    /// <summary>The lots of this page.</summary>
    public IReadOnlyList<LotLine> Lots { get; private set; } = [];

    /// <summary>Finds them.</summary>
    /// <param name="number">Which page.</param>
    public void OnGet([FromQuery(Name = "page")] int number = 1)
    {
        if (Sort is not ("volume" or "day")) Sort = "code";
        book.Read(found =>
        {
            var all = found.Now.Lots.Select(code => LotLine.Of(found.Now, code)!).Where(Fits).ToList();
            LeaveOut(all, lot => lot.IsEmpty);
            all.Sort((a, b) => (Sort switch { "volume" => b.Volume.CompareTo(a.Volume), "day" => b.LastDay.CompareTo(a.LastDay), _ => 0 }) is var c && c != 0 ? c : string.CompareOrdinal(a.Code, b.Code));
            Lots = Turn(all, number);
            return 0;
        });
    }

    /// <summary>The largest share of origin, in words; empty when unstated.</summary>
    public static Sentence Origin(LotLine lot)
    {
        if (lot.IsEmpty) return "";
        var shares = lot.Origin.Shares;
        var largest = shares.MaxBy(share => share.Parts).Origin;
        return largest == Core.Book.Origin.Unstated && shares.Length == 1 ? Sentence.Empty : shares.Length == 1 ? Sentence.Verbatim(largest.ToString()) : $"mostly {largest}";
    }

    private bool Fits(LotLine lot) => Fits([lot.Code, .. lot.Places.SelectMany(place => place.Origin.Shares.Select(share => share.Origin.ToString()).Append(place.Account.Place))]);
}
