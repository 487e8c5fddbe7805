using Cellarbook.Core.Book;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Noticing;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages;

/// <summary>What stands out across all lots, each with its next action; in a new book, the first steps.</summary>
public sealed class TodayModel(OpenBook book, EntryIndex index, Notices notices, EntryLines lines, Show show) : PageModel
{
    private const int Most = 40;

    /// <summary>A first step in a new book.</summary>
    public sealed record Step(Sentence Title, Sentence Why, bool Done, IReadOnlyList<(Sentence Word, string Address)> Verbs);

    /// <summary>True to show everything that stands out, however much.</summary>
    [BindProperty(SupportsGet = true)]
    public bool All { get; set; }

    /// <summary>Today in the book's time zone.</summary>
    public DateOnly Today { get; private set; }

    /// <summary>What is wrong with the book itself.</summary>
    public IReadOnlyList<Sentence> FindingsOfBook { get; private set; } = [];

    /// <summary>The first steps, until all are done.</summary>
    public IReadOnlyList<Step>? Steps { get; private set; }

    /// <summary>What lies in the cellar, in a sentence.</summary>
    public Sentence Stock { get; private set; } = "";

    /// <summary>What stands out.</summary>
    public IReadOnlyList<Notice> Notices { get; private set; } = [];

    /// <summary>How many more stand out than are shown.</summary>
    public int More { get; private set; }

    /// <summary>True when something is fermenting.</summary>
    public bool Ferments { get; private set; }

    /// <summary>The newest entries.</summary>
    public IReadOnlyList<EntryLine> Recent { get; private set; } = [];

    /// <summary>Looks at the book.</summary>
    public void OnGet()
    {
        Today = book.Today;
        FindingsOfBook = [.. book.Findings.Select(finding => finding.Sentence).Take(5)];
        book.Read(found =>
        {
            var all = StandsOut.Find(found, index, Today, Habits.Usual);
            Notices = notices.Of(all, All ? int.MaxValue : Most, out var more);
            More = more;
            Stock = InWords(found.Now);
            var moved = found.Pages.Count > 0;
            // Only a book of a few entries is asked whether it is still being started.
            if (!moved || found.LastNumber < 12)
            {
                var noted = found.Pages.Any(page => page.Deeds.Any(deed => deed.Operation is Core.Operations.NoteOperation));
                if (!moved || !noted) Steps = FirstSteps(found, moved, noted);
            }
            return 0;
        });
        Recent = lines.Newest(new() { Count = 8 }).Lines;
    }

    private static IReadOnlyList<Step> FirstSteps(Book found, bool moved, bool noted) =>
    [
        new("1. A vessel", "Anything that holds wine in bulk: a bucket, a carboy, a tank, a cask. Give it a short code that you can write on it.", found.Vessels.Count > 0 || found.Now.Vessels.Any(), [("Make a vessel", Links.VesselForm())]),
        new("2. A lot", "A body of must or wine with a code of its own: what you start now, or what lies in the cellar already.", moved, [("Receive must or juice", Links.Record("receive")), ("Make up a kit", Links.Record("make-up")), ("Bring stock forward", Links.Record("open"))]),
        new("3. A first reading", "Gravity and temperature, with the day. From then on this page tells what stands out.", noted, [("Read", Links.Record("measure"))]),
    ];

    private Sentence InWords(Cellar cellar)
    {
        var (must, wine, bottles, fruit) = (Volume.None, Volume.None, BottleCount.None, default(FruitWeight));
        foreach (var place in cellar.Places)
            switch (place.Account.Section)
            {
                case Section.Must: must += place.Volume; break;
                case Section.Bulk: wine += place.Volume; break;
                case Section.Bottled: bottles += place.Bottles; break;
                case Section.Fruit: fruit += place.Weight; break;
            }
        Ferments = must.IsPositive;
        var parts = new List<Sentence>();
        if (fruit.Grams > 0) parts.Add($"{show.Weight(fruit)} of fruit");
        if (must.IsPositive) parts.Add($"{show.Volume(must)} of must");
        if (wine.IsPositive) parts.Add($"{show.Volume(wine)} of wine in bulk");
        if (bottles.IsPositive) parts.Add(Sentence.Verbatim(show.Bottles(bottles)));
        return parts.Count == 0 ? Sentence.Of("The cellar is empty.") : $"In the cellar: {Sentence.List(parts)}.";
    }
}
