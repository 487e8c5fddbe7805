using Cellarbook.Api;
using Cellarbook.Core.Book;
using Cellarbook.Core.Limits;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Additions;

/// <summary>The additions register: who added what, when, out of which batch, and how it stood to its limit.</summary>
public sealed class IndexModel(OpenBook book) : PageModel
{
    private const int Most = 1_000;

    /// <summary>The lot asked for.</summary>
    public string? Lot { get; private set; }

    /// <summary>First day asked for.</summary>
    public DateOnly? From { get; private set; }

    /// <summary>Last day asked for.</summary>
    public DateOnly? To { get; private set; }

    /// <summary>What can't be read of what was asked.</summary>
    public Sentence? Wrong { get; private set; }

    /// <summary>The newest rows, newest first.</summary>
    public IReadOnlyList<AdditionRow> Rows { get; private set; } = [];

    /// <summary>How many rows more there are.</summary>
    public int More { get; private set; }

    /// <summary>Every lot, for choosing.</summary>
    public IReadOnlyList<string> Lots { get; private set; } = [];

    /// <summary>What was asked, for the addresses of the files.</summary>
    public string Query => string.Join('&', new[] { ("lot", Lot), ("from", From is { } first ? Shared.Show.Iso(first) : null), ("to", To is { } last ? Shared.Show.Iso(last) : null) }.Where(pair => !string.IsNullOrEmpty(pair.Item2)).Select(pair => $"{pair.Item1}={Uri.EscapeDataString(pair.Item2!)}"));

    /// <summary>Finds them.</summary>
    public void OnGet(string? lot, string? from, string? to)
    {
        var refusals = new List<Refusal>();
        Lot = lot.OrNull();
        (From, To) = (Ask.Day(from, "from", refusals), Ask.Day(to, "to", refusals));
        Lots = book.Read<IReadOnlyList<string>>(found => [.. found.Now.Lots.Order(StringComparer.Ordinal)]);
        if (Lot is not null && !Lots.Contains(Lot)) refusals.Add(new(RefusalCode.UnknownLot, "lot", $"There is no lot {Core.Operations.Names.Shown(Lot)}."));
        if (From > To) refusals.Add(new(RefusalCode.NoSuchDay, "to", "The period ends before it begins."));
        if (refusals.Count > 0) { Wrong = refusals[0].Sentence; return; }
        var all = AdditionsApi.Rows(book, Lot, From, To).Rows;
        Rows = [.. all.Reverse().Take(Most)];
        More = all.Count - Rows.Count;
    }
}
