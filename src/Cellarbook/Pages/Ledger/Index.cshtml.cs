using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Ledger;

/// <summary>Every entry, newest first, found by words, days and kinds.</summary>
public sealed class IndexModel(OpenBook book, EntryLines lines, House house, Show show) : PageModel
{
    private const int Size = 50;

    /// <summary>Any word of an entry.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Q { get; set; }

    /// <summary>The first day.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly? From { get; set; }

    /// <summary>The last day.</summary>
    [BindProperty(SupportsGet = true)]
    public DateOnly? To { get; set; }

    /// <summary>Code of a kind of movement.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Category { get; set; }

    /// <summary>Code of a lot, vessel or bottling.</summary>
    [BindProperty(SupportsGet = true)]
    public string? About { get; set; }

    /// <summary>Part of the name of a person.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Person { get; set; }

    /// <summary>"corrected" for what was taken back and what did it, "remarkable" for what carries a flag or no longer agrees; else all.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Only { get; set; }

    /// <summary>Number of the first entry of a run, such as an import.</summary>
    [BindProperty(SupportsGet = true, Name = "first")]
    public long? FirstNumber { get; set; }

    /// <summary>Number of its last entry.</summary>
    [BindProperty(SupportsGet = true, Name = "last")]
    public long? LastNumber { get; set; }

    /// <summary>True when more than words is asked for.</summary>
    public bool IsNarrowed => Asked.Keys.Any(name => name is not ("q" or "first" or "last"));

    /// <summary>Kinds to choose from, by their words.</summary>
    public IReadOnlyList<Category> Categories => [.. Core.Book.Category.All.OrderBy(category => show.T[Words.Category(category, house.IsHousehold)], StringComparer.OrdinalIgnoreCase)];

    /// <summary>The entries of this page.</summary>
    public IReadOnlyList<EntryLine> Entries { get; private set; } = [];

    /// <summary>Number of the last entry in the book.</summary>
    public long Last { get; private set; }

    /// <summary>Entries older than this number; none: the newest.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Beyond { get; set; }

    /// <summary>Where the next, older page begins; null on the last.</summary>
    public long? Next { get; private set; }

    /// <summary>What was asked for, to go on with it from page to page.</summary>
    public Dictionary<string, string> Asked => new (string Name, string? Value)[] { ("q", Q), ("from", From is { } first ? Show.Iso(first) : null), ("to", To is { } last ? Show.Iso(last) : null), ("category", Category), ("about", About), ("person", Person), ("only", Only), ("first", FirstNumber?.ToString(CultureInfo.InvariantCulture)), ("last", LastNumber?.ToString(CultureInfo.InvariantCulture)) }
        .Where(pair => !string.IsNullOrEmpty(pair.Value)).ToDictionary(pair => pair.Name, pair => pair.Value!);

    /// <summary>Finds them.</summary>
    public void OnGet()
    {
        Last = book.Read(found => found.LastNumber);
        (Entries, Next) = lines.Newest(new()
        {
            Text = Q.OrNull(),
            From = From,
            To = To,
            Category = string.IsNullOrEmpty(Category) ? null : Category,
            About = About.OrNull(),
            Person = Person.OrNull(),
            Numbers = Marked(),
            FirstNumber = FirstNumber,
            LastNumber = LastNumber,
            Beyond = Beyond,
            Count = Size,
        });
    }

    private long[]? Marked() => Only switch
    {
        "corrected" => book.Read<long[]>(found => [.. found.Entries.Where(entry => entry.TakenBackBy is not null || entry.TakesBack is not null).Select(entry => entry.Number)]),
        "remarkable" => book.Read<long[]>(found => [.. found.Disagreements.Select(disagreement => disagreement.Entry).Concat(found.Entries.Where(entry => entry.Operation is { Flags.Count: > 0 }).Select(entry => entry.Number)).Distinct()]),
        _ => null,
    };
}
