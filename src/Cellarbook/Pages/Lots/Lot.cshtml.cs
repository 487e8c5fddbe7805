using Cellarbook.Core.Book;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;
using LotAccount = Cellarbook.Core.Statements.LotAccount;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Noticing;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Lots;

/// <summary>A lot's page: what it is and needs, where it lies, its curve, its passbook, its small account, its kin.</summary>
public sealed class LotModel(OpenBook book, EntryIndex index, Notices notices, Told told, Show show, CostMemory costs) : PageModel
{
    private const int Size = 200;

    /// <summary>A line of the passbook, told.</summary>
    public sealed record Line(PassbookLine Entry, Telling Telling, Sentence SmallPrint)
    {
        /// <summary>Number of the entry.</summary>
        public long Number => Entry.Placed.Entry.Number;
    }

    /// <summary>A bottling of this lot.</summary>
    public sealed record Bottling(string Code, Volume Size, BottleCount Filled, BottleCount Left);

    /// <summary>The lot.</summary>
    public LotLine Lot { get; private set; } = null!;

    /// <summary>Its state in a sentence or two.</summary>
    public IReadOnlyList<Sentence> State { get; private set; } = [];

    /// <summary>What stands out of it.</summary>
    public IReadOnlyList<Notice> Notices { get; private set; } = [];

    /// <summary>Places, the worst first: must before wine, what stands out before what doesn't.</summary>
    public IReadOnlyList<Place> Places { get; private set; } = [];

    /// <summary>What its readings come to, place by place.</summary>
    public IReadOnlyList<Core.LotFigures.PlaceFigures> Figures { get; private set; } = [];

    /// <summary>Gravity and temperature.</summary>
    public Curve? Curve { get; private set; }

    /// <summary>Lines of this page of the passbook, oldest first.</summary>
    public IReadOnlyList<Line> Lines { get; private set; } = [];

    /// <summary>The balance before them.</summary>
    public Volume Before { get; private set; }

    /// <summary>Where it came from and went, by kind.</summary>
    public LotAccount Account { get; private set; } = null!;

    /// <summary>Its ancestors and descendants; null where it stands alone.</summary>
    public FamilyDrawing? Family { get; private set; }

    /// <summary>What it cost; null where no price was ever stated.</summary>
    public Core.Costing.CostAccount? Cost { get; private set; }

    /// <summary>Its bottlings.</summary>
    public IReadOnlyList<Bottling> Bottlings { get; private set; } = [];

    /// <summary>Page 1 holds the newest lines.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false);

    /// <summary>It held against its limits.</summary>
    public LimitsView? Limits { get; private set; }

    /// <summary>The one vessel it lies in, for forms; null when there are several or none.</summary>
    public string? Vessel => Lot.Places is [{ Account: { InVessel: true } account }] ? account.Place : null;

    /// <summary>True while some of it is must.</summary>
    public bool IsMust => Lot.Places.Any(place => place.Account.Section == Section.Must);

    /// <summary>True when some of it is wine.</summary>
    public bool IsWine => Lot.Places.Any(place => place.Account.Section == Section.Bulk);

    /// <summary>Opens the page of a lot.</summary>
    /// <param name="code">Its code.</param>
    /// <param name="number">Which page of the passbook.</param>
    /// <param name="law">True to hold it against every law, too.</param>
    public IActionResult OnGet(string code, [FromQuery(Name = "page")] int number = 1, bool law = false)
    {
        var today = book.Today;
        var there = book.Read(found =>
        {
            if (LotLine.Of(found.Now, code) is not { } lot) return false;
            Lot = lot;
            Notices = notices.Of(StandsOut.Of(found, index, code, today, Habits.Usual));
            Places = [.. lot.Places.OrderBy(place => place.Account.Section).ThenBy(place => Notices.Any(notice => notice.Finding.Vessel == place.Account.Place) ? 0 : 1).ThenBy(place => place.Account.Place, StringComparer.Ordinal)];
            Figures = Core.LotFigures.PlaceFigures.OfLot(found, code) ?? [];
            Limits = lot.IsEmpty ? null : new(LotLimits.OfLot(found.Now, found.LimitsInForce(today, law), code), law, found.IsHousehold && !law ? $"{Links.Lot(code)}?law=true" : null);
            State = Sentences(found, lot, today);
            var passbook = LotPassbook.Of(found, index, code);
            Family = FamilyDrawing.Of(LotFamily.Of(found, index, code), code);
            Account = LotAccount.OfLot(found, index, code);
            Cost = costs.Of(found) is { } ledger ? Core.Costing.CostAccount.OfLot(ledger, code) : null;
            Curve = Curve.Of(passbook.Lines, show);
            Turn(passbook.Lines, number);
            Bottlings = [.. found.Now.Bottlings.Where(bottling => bottling.Lots.Contains(code)).OrderBy(bottling => bottling.FirstDay).ThenBy(bottling => bottling.Code, StringComparer.Ordinal)
                .Select(bottling => new Bottling(bottling.Code, bottling.Size, bottling.Filled, found.Now.ShelvesOfBottling(bottling.Code).Aggregate(default(BottleCount), (sum, shelf) => sum + found.Now.At(shelf).Bottles)))];
            return true;
        });
        // What was bottled is asked for by its code, too: additions and notices name it like a lot.
        if (!there && book.Read(found => found.Now.Bottlings.Any(bottling => bottling.Code == code))) return Redirect(Links.Bottling(code));
        return there ? Page() : this.Missing($"There is no lot {Core.Operations.Names.Shown(code)}.", "/lots", "All lots");
    }

    private void Turn(IReadOnlyList<PassbookLine> lines, int number)
    {
        var pages = Math.Max(1, (lines.Count + Size - 1) / Size);
        number = Math.Clamp(number, 1, pages);
        var end = lines.Count - (number - 1) * Size;
        var start = Math.Max(0, end - Size);
        Paging = new(number, Size, number < pages, lines.Count);
        Before = start == 0 ? Volume.None : lines[start - 1].Balance;
        Lines = [.. lines.Skip(start).Take(end - start).Select(line => new Line(line, told.Of(line.Placed.Deed), Told.SmallPrint(line.Placed.Deed.Operation)))];
    }

    private List<Sentence> Sentences(Book found, LotLine lot, DateOnly today)
    {
        if (lot.IsEmpty) return [$"Nothing is left of it in bulk since {show.Day(lot.LastDay)}."];
        var sentences = new List<Sentence>();
        foreach (var stage in lot.Places.GroupBy(place => place.Account.Section).OrderBy(group => group.Key))
        {
            var volume = show.Volume(stage.Aggregate(Volume.None, (sum, place) => sum + place.Volume));
            var where = stage.Count() > 3 ? Sentence.Of($"in {stage.Count()} places") : Words.In([.. stage.Select(place => place.Account.Place)]);
            sentences.Add(stage.Key == Section.Must ? Sentence.Of($"{volume} of must {where}.") : $"{volume} of wine {where}, {Strength(lot)}.");
        }
        if (IsMust && Notices.All(notice => notice.Finding.Read is null) && GravityRun.Of(found, index, lot.Code, Habits.Usual) is { Last: { } last } run)
            sentences.Add(run.SteadyDays > 0 ? Sentence.Of($"Gravity has stood at {show.Reading(last.Text)} for {show.Days(run.SteadyDays)}, last read {Words.Ago(last.Day, today)}.")
                : run.Reads.Count > 1 && run.Reads[^2].Gravity > last.Gravity ? Sentence.Of($"Gravity is still falling: {show.Reading(last.Text)}, read {Words.Ago(last.Day, today)}.") : $"Gravity was {show.Reading(last.Text)}, read {Words.Ago(last.Day, today)}.");
        if (Notices.Count == 0) sentences.Add($"Last entry {Words.Ago(lot.LastDay, today)}. Nothing stands out.");
        return sentences;
    }

    private Sentence Strength(LotLine lot)
    {
        if (lot.Strength is not { } strength) return Words.StrengthNotStated;
        return lot.Places.Any(place => place.StrengthIsMixed) || lot.Places.Select(place => place.Standing.Strength).Distinct().Count() > 1 ? Sentence.Of($"{show.Strength(strength)} mixed") : $"{show.Strength(strength)} as stated";
    }

}
