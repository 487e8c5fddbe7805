using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Noticing;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Vessels;

/// <summary>A vessel's page: what lies in it, what to do with it, what happened to it.</summary>
public sealed class VesselModel(OpenBook book, EntryIndex index, Notices notices, Told told) : PageModel
{
    private const int Size = 100;

    /// <summary>A line of its history.</summary>
    public sealed record Line(PlacedDeed Placed, string? Lot, Telling Telling, Sentence SmallPrint, Volume Change);

    /// <summary>The vessel.</summary>
    public VesselLine Vessel { get; private set; } = null!;

    /// <summary>What lies in it.</summary>
    public Place? Place { get; private set; }

    /// <summary>What stands out.</summary>
    public IReadOnlyList<Notice> Notices { get; private set; } = [];

    /// <summary>Its history, newest first.</summary>
    public IReadOnlyList<Line> Lines { get; private set; } = [];

    /// <summary>When it was last cleaned, and by whom, as far as noted.</summary>
    public LastCleaned? Cleaned { get; private set; }

    /// <summary>When wine or must last went into it.</summary>
    public LastTopped? Topped { get; private set; }

    /// <summary>Who wrote down that it was cleaned.</summary>
    public string? NotedBy => Cleaned is { } cleaned ? book.Store.Read(cleaned.Entry)?.Actor : null;

    /// <summary>Number of the last entry.</summary>
    public long Last { get; private set; }

    /// <summary>Which page of the history.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false);

    /// <summary>Opens the page of a vessel.</summary>
    /// <param name="code">Its code.</param>
    /// <param name="number">Which page of its history.</param>
    public IActionResult OnGet(string code, [FromQuery(Name = "page")] int number = 1)
    {
        var today = book.Today;
        var there = book.Read(found =>
        {
            if (VesselLine.Of(found, code) is not { } vessel) return false;
            Vessel = vessel;
            var hold = found.Now.Vessel(code);
            Place = hold.Accounts.IsEmpty ? null : found.Now.At(hold.Accounts[0]);
            if (vessel.Lot is { } lot) Notices = notices.Of(StandsOut.Of(found, index, lot, today, Habits.Usual).Where(finding => finding.Vessel == code));
            var history = BookOrder.Of(found, index.OfVessel(found, code), deed => Concerns(deed, code)).Reverse().ToArray();
            Cleaned = LastCleaned.Of(found, index, code);
            Topped = LastTopped.Of(found, index, code);
            Last = found.LastNumber;
            Paging = Paging.Of(number, Size, history.Length);
            Lines = [.. history.Skip(Paging.Skip).Take(Size).Select(placed => new Line(placed, LotOf(placed.Deed, code), told.Of(placed.Deed), Told.SmallPrint(placed.Deed.Operation), Change(placed.Deed, code)))];
            return true;
        });
        return there ? Page() : this.Missing($"There is no vessel {Names.Shown(code)}.", "/vessels", "All vessels");
    }

    private static bool Concerns(Deed deed, string vessel) =>
        (deed.Operation as NoteOperation)?.Vessel == vessel || deed.Postings.Any(posting => In(posting.From, vessel) || In(posting.To, vessel));

    private static string? LotOf(Deed deed, string vessel) =>
        deed.Postings.SelectMany(posting => new[] { posting.To, posting.From }).FirstOrDefault(account => In(account, vessel))?.Name ?? (deed.Operation as NoteOperation)?.Lot;

    private static Volume Change(Deed deed, string vessel) => deed.Postings.Aggregate(Volume.None, (sum, posting) =>
        sum + (In(posting.To, vessel) ? posting.Volume : Volume.None) - (In(posting.From, vessel) ? posting.Volume : Volume.None));

    private static bool In(Account account, string vessel) => account.InVessel && account.Place == vessel;
}
