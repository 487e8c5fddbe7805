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
            all.Sort(Sort switch { "volume" => ByVolume, "day" => ByDay, _ => ByCode });
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

    private static int ByCode(LotLine a, LotLine b) => string.CompareOrdinal(a.Code, b.Code);

    private static int ByVolume(LotLine a, LotLine b) => b.Volume.CompareTo(a.Volume) is var order && order != 0 ? order : ByCode(a, b);

    private static int ByDay(LotLine a, LotLine b) => b.LastDay.CompareTo(a.LastDay) is var order && order != 0 ? order : ByCode(a, b);

    private bool Fits(LotLine lot)
    {
        if (Fits(lot.Code)) return true;
        foreach (var place in lot.Places)
        {
            if (Fits(place.Account.Place)) return true;
            foreach (var share in place.Origin.Shares)
                if (Fits(share.Origin.ToString())) return true;
        }
        return false;
    }
}
