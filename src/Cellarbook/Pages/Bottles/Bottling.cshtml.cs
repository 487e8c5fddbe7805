using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Bottles;

/// <summary>A bottling's page: what is left on which shelf, where the others went, what the label says.</summary>
public sealed class BottlingModel(OpenBook book, EntryIndex index, Told told) : PageModel
{
    private const int Size = 200;

    /// <summary>A line of its history.</summary>
    public sealed record Line(PlacedDeed Placed, Telling Telling, string SmallPrint, BottleCount In, BottleCount Out, BottleCount Balance);

    /// <summary>Bottles that came or went in one way, with the entries behind them.</summary>
    public sealed record Way(Category Category, BottleCount Bottles, IReadOnlyList<long> Entries);

    /// <summary>The bottling.</summary>
    public BottlingLine Bottling { get; private set; } = null!;

    /// <summary>What the label says, as last stated.</summary>
    public (string? LotMark, string? Name, Strength? Abv) Label { get; private set; }

    /// <summary>Where they came from.</summary>
    public IReadOnlyList<Way> In { get; private set; } = [];

    /// <summary>Where they went.</summary>
    public IReadOnlyList<Way> Out { get; private set; } = [];

    /// <summary>Its lines, oldest first.</summary>
    public IReadOnlyList<Line> Lines { get; private set; } = [];

    /// <summary>Page 1 holds the newest lines.</summary>
    public Paging Paging { get; private set; } = new(1, Size, false);

    /// <summary>Opens the page of a bottling.</summary>
    /// <param name="code">Its code.</param>
    /// <param name="number">Which page of its lines.</param>
    public IActionResult OnGet(string code, [FromQuery(Name = "page")] int number = 1)
    {
        var there = book.Read(found =>
        {
            if (BottlingLine.Of(found.Now, code) is not { } bottling) return false;
            Bottling = bottling;
            Build([.. BookOrder.Of(found, index.OfBottling(found, code), deed => deed.Postings.Any(posting => Is(posting.From) || Is(posting.To)))], number);
            return true;
        });
        return there ? Page() : this.Missing($"There is no bottling {Names.Shown(code)}.", "/bottles", "All bottles");
    }

    private void Build(PlacedDeed[] placed, int number)
    {
        var lines = new List<(PlacedDeed Placed, BottleCount In, BottleCount Out, BottleCount Balance)>();
        var (ins, outs) = (new Dictionary<Category, (BottleCount, List<long>)>(), new Dictionary<Category, (BottleCount, List<long>)>());
        var balance = default(BottleCount);
        foreach (var deed in placed)
        {
            var (put, taken) = (default(BottleCount), default(BottleCount));
            foreach (var posting in deed.Deed.Postings)
            {
                if (Is(posting.From) == Is(posting.To)) continue;
                var receives = Is(posting.To);
                if (receives) put += posting.Bottles;
                else taken += posting.Bottles;
                if (deed.IsStruck) continue;
                // What was taken back counts against the side it came with.
                var sums = receives != posting.IsTakenBack ? ins : outs;
                var (bottles, entries) = sums.GetValueOrDefault(posting.Category, (default, []));
                if (entries.Count == 0 || entries[^1] != deed.Entry.Number) entries.Add(deed.Entry.Number);
                sums[posting.Category] = (posting.IsTakenBack ? bottles - posting.Bottles : bottles + posting.Bottles, entries);
            }
            if (!deed.IsStruck)
            {
                balance += put - taken;
                Mark(deed.Deed.Operation);
            }
            lines.Add((deed, put, taken, balance));
        }
        In = [.. ins.Where(pair => pair.Value.Item1.Bottles != 0).Select(pair => new Way(pair.Key, pair.Value.Item1, pair.Value.Item2))];
        Out = [.. outs.Where(pair => pair.Value.Item1.Bottles != 0).OrderByDescending(pair => pair.Value.Item1).Select(pair => new Way(pair.Key, pair.Value.Item1, pair.Value.Item2))];
        var pages = Math.Max(1, (lines.Count + Size - 1) / Size);
        number = Math.Clamp(number, 1, pages);
        Paging = new(number, Size, number < pages, lines.Count);
        var end = lines.Count - (number - 1) * Size;
        Lines = [.. lines.Take(end).Skip(Math.Max(0, end - Size)).Select(line => new Line(line.Placed, told.Of(line.Placed.Deed), Told.SmallPrint(line.Placed.Deed.Operation), line.In, line.Out, line.Balance))];
    }

    private void Mark(Operation? operation)
    {
        if (operation is Bottle bottle && bottle.Fills?.FirstOrDefault(fill => fill.Bottling == Bottling.Code) is { } filled)
            Label = (filled.LotMark ?? Label.LotMark, filled.LabelName ?? Label.Name, filled.LabelAbv ?? Label.Abv);
        else if (operation is Shelve shelve) Label = (shelve.LotMark ?? Label.LotMark, shelve.LabelName ?? Label.Name, shelve.LabelAbv ?? Label.Abv);
        else if (operation is Receive { LotMark: { } mark }) Label = Label with { LotMark = mark };
    }

    private bool Is(Account account) => account.Section == Section.Bottled && account.Name == Bottling.Code;
}
