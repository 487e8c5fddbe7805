using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Forms;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Record;

/// <summary>An entry just written: what it did, and what sensibly comes next.</summary>
public sealed class WrittenModel(Desk desk) : PageModel
{
    /// <summary>The entry.</summary>
    public Entry Entry { get; private set; } = null!;

    /// <summary>What it moved, in words.</summary>
    public IReadOnlyList<Sentence> Moves { get; private set; } = [];

    /// <summary>What is remarkable about it.</summary>
    public IReadOnlyList<string> Flags { get; private set; } = [];

    /// <summary>The entry it takes back.</summary>
    public long? TakesBack => Entry.TakesBack;

    /// <summary>The lot it was about, where there is one.</summary>
    public string? Lot { get; private set; }

    /// <summary>The vessel it ended in, where there is one.</summary>
    public string? Vessel { get; private set; }

    /// <summary>Forms that sensibly come next.</summary>
    public IReadOnlyList<FormEntry> Next { get; private set; } = [];

    /// <summary>Lot, vessel or bottling, carried on to the next form.</summary>
    public QueryString Carry { get; private set; }

    /// <summary>A code in a path: its slashes stay what they are.</summary>
    public static string InPath(string code) => string.Join('/', code.Split('/').Select(Uri.EscapeDataString));

    /// <summary>Shows it.</summary>
    public IActionResult OnGet(long entry)
    {
        if (desk.Book.Read(book => book.Find(entry)) is not { } found) return RedirectToPage("/Record/Index");
        Entry = found;
        var postings = found.Deeds.SelectMany(deed => deed.Postings).ToArray();
        Moves = [.. postings.Select(posting => PostingWords.Say(posting, desk.Show))];
        // Peeked at, not taken: they are there again when the page is loaded again, until another entry is written.
        Flags = TempData.Peek(FormPage.Remarks) is string[] { Length: > 0 } remarks && remarks[0] == entry.ToString(System.Globalization.CultureInfo.InvariantCulture) ? remarks[1..] : [];
        var told = postings.SelectMany(posting => new[] { posting.To, posting.From }).ToArray();
        var ends = told.FirstOrDefault(account => account.Section is Section.Must or Section.Bulk);
        var operation = found.Operation is Correct { Write: [var one] } ? one : found.Operation;
        (Lot, Vessel) = ends is not null ? (ends.Name, ends.InVessel ? ends.Place : null) : operation switch
        {
            NoteOperation note => (note.Lot, note.Vessel),
            _ => (null, null),
        };
        var bottling = told.FirstOrDefault(account => account.Section == Section.Bottled)?.Name;
        if (operation is not null && FormIndex.FormFor(operation) is { } form) Next = [.. form.Next.Select(slug => FormIndex.Find(slug)!)];
        Carry = QueryString.Create(new KeyValuePair<string, string?>[] { new("lot", Lot), new("vessel", Vessel == Account.Unplaced ? null : Vessel), new("bottling", bottling) }.Where(pair => pair.Value is not null));
        return Page();
    }
}
