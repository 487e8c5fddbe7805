using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Bottles;

/// <summary>A bottling's page: what is left on which shelf, where the others went, what the label says.</summary>
public sealed class BottlingModel(OpenBook book, EntryIndex index, Told told, CostMemory costs) : PageModel
{
    private const int Size = 200;

    /// <summary>A line of its history.</summary>
    public sealed record Line(PlacedDeed Placed, Telling Telling, Sentence SmallPrint, BottleCount In, BottleCount Out, BottleCount Balance);

    /// <summary>The bottling.</summary>
    public BottlingLine Bottling { get; private set; } = null!;

    /// <summary>What to write on the label.</summary>
    public Core.Labels.BottleLabel Label { get; private set; } = null!;

    /// <summary>Where they came from and went, by kind.</summary>
    public LotAccount Account { get; private set; } = null!;

    /// <summary>What it cost; null where no price was ever stated.</summary>
    public Core.Costing.CostAccount? Cost { get; private set; }

    /// <summary>It held against its limits; null when no bottle is left.</summary>
    public LimitsView? Limits { get; private set; }

    /// <summary>Its lines, oldest first.</summary>
    public IReadOnlyList<Line> Lines { get; private set; } = [];

    /// <summary>Page 1 holds the newest lines.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false);

    /// <summary>Opens the page of a bottling.</summary>
    /// <param name="code">Its code.</param>
    /// <param name="number">Which page of its lines.</param>
    /// <param name="law">True to hold it against every law, too.</param>
    public IActionResult OnGet(string code, [FromQuery(Name = "page")] int number = 1, bool law = false)
    {
        var today = book.Today;
        var there = book.Read(found =>
        {
            if (BottlingLine.Of(found.Now, code) is not { } bottling) return false;
            Bottling = bottling;
            Label = Core.Labels.BottleLabel.Of(found, index, code)!;
            Account = LotAccount.OfBottling(found, index, code);
            Cost = costs.Of(found) is { } ledger ? Core.Costing.CostAccount.OfBottling(ledger, code) : null;
            Limits = LotLimits.OfBottling(found.Now, found.LimitsInForce(today, law), code) is { Places.Count: > 0 } limits ? new(limits, law, found.IsHousehold && !law ? $"{Links.Bottling(code)}?law=true" : null) : null;
            Build([.. BookOrder.Of(found, index.OfBottling(found, code), deed => deed.Postings.Any(posting => Is(posting.From) || Is(posting.To)))], number);
            return true;
        });
        return there ? Page() : this.Missing($"There is no bottling {Names.Shown(code)}.", "/bottles", "All bottles");
    }

    private void Build(PlacedDeed[] placed, int number)
    {
        var lines = new List<(PlacedDeed Placed, BottleCount In, BottleCount Out, BottleCount Balance)>();
        var balance = default(BottleCount);
        foreach (var deed in placed)
        {
            var (put, taken) = (default(BottleCount), default(BottleCount));
            foreach (var posting in deed.Deed.Postings)
            {
                if (Is(posting.From) == Is(posting.To)) continue;
                if (Is(posting.To)) put += posting.Bottles;
                else taken += posting.Bottles;
            }
            if (!deed.IsStruck) balance += put - taken;
            lines.Add((deed, put, taken, balance));
        }
        var pages = Math.Max(1, (lines.Count + Size - 1) / Size);
        number = Math.Clamp(number, 1, pages);
        Paging = new(number, Size, number < pages, lines.Count);
        var end = lines.Count - (number - 1) * Size;
        Lines = [.. lines.Take(end).Skip(Math.Max(0, end - Size)).Select(line => new Line(line.Placed, told.Of(line.Placed.Deed), Told.SmallPrint(line.Placed.Deed.Operation), line.In, line.Out, line.Balance))];
    }

    private bool Is(Account account) => account.Section == Section.Bottled && account.Name == Bottling.Code;
}
