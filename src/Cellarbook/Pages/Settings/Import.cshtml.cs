using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Operations;
using Cellarbook.Imports;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Settings;

/// <summary>A journal comes in from a file: chosen, looked at, written.</summary>
[TakesFile(JournalUpload.MostBytes, "/settings/import?large=true")]
public sealed class ImportModel(OpenBook book, JournalDesk desk, House house, Show show) : PageModel
{
    /// <summary>Of refusals and flags so many are listed.</summary>
    public const int Listed = 50;

    private const string Here = "/settings/import";
    private const int Named = 12;

    /// <summary>The file that waits; null where one is to be chosen.</summary>
    public WaitingJournal? Journal { get; private set; }

    /// <summary>What is the matter with what was sent.</summary>
    public Sentence? Wrong { get; private set; }

    /// <summary>True when the file that was asked for is no longer here.</summary>
    public bool IsGone { get; private set; }

    /// <summary>Columns every file has.</summary>
    public static string Required => string.Join(", ", JournalColumns.Required);

    /// <summary>Columns it may have.</summary>
    public static string Optional => string.Join(", ", JournalColumns.Optional);

    /// <summary>A file of two rows.</summary>
    public static string Example => """
        event_id,date,category,volume_ml,lot_from,vessel_from,lot_to,vessel_to,note
        1,2025-09-20,MUST_RECEIVED,23000,,,PEAR,B1,from the garden
        2,2025-10-18,MUST_SOLIDS_REMOVED,600,PEAR,B1,,,
        """;

    /// <summary>Kinds of movement that a file may hold, by code.</summary>
    public IEnumerable<(string Code, Sentence Says)> Kinds => Category.All.Where(category => !category.IsOfStores).Select(category => (category.Code, Words.Category(category, house.IsHousehold))).OrderBy(kind => kind.Code, StringComparer.Ordinal);

    /// <summary>Shows what there is to choose, or how it stands with a file.</summary>
    public void OnGet(string? id, bool large = false)
    {
        if (large) Refuse(JournalUpload.TooLarge.Sentence);
        if (id is null) return;
        if (Found(id)) AskAgain();
        else
        {
            IsGone = true;
            Response.StatusCode = StatusCodes.Status410Gone;
        }
    }

    /// <summary>Takes a file and looks at it.</summary>
    public async Task<IActionResult> OnPostAsync(IFormFile? file)
    {
        if (file is null) return Refused("Choose a file first.");
        if (file.Length > JournalUpload.MostBytes) return Refused(JournalUpload.TooLarge.Sentence);
        var journal = await desk.Take(Names.Shown(Path.GetFileName(file.FileName)), async path =>
        {
            await using var stream = new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.None, 1 << 16, useAsync: true);
            await file.CopyToAsync(stream, HttpContext.RequestAborted);
        }, Person, book.ActorOf(User));
        return Redirect($"{Here}/{journal.Id}");
    }

    /// <summary>Writes what was looked at.</summary>
    public async Task<IActionResult> OnPostWriteAsync(string id, long after)
    {
        if (Found(id)) await desk.Write(Journal!, after);
        return Redirect($"{Here}/{id}");
    }

    /// <summary>Looks once more.</summary>
    public async Task<IActionResult> OnPostAgainAsync(string id)
    {
        if (Found(id)) await desk.LookAgain(Journal!);
        return Redirect($"{Here}/{id}");
    }

    /// <summary>What is refused: the rows that it is said of, the column, the sentence that a script gets. What is said of many rows is said once.</summary>
    public IEnumerable<(Sentence? Rows, string Column, Sentence Says, int Count)> Told(ImportResult refused) => refused.Refusals.GroupBy(refusal => (refusal.Path, refusal.Sentence.ToString(), refusal.Row is null)).Select(alike =>
    {
        var rows = alike.Select(refusal => refusal.Row).OfType<int>().Select(row => show.Number(row)).ToArray();
        var said = rows.Length == 0 ? null : rows.Length == 1 ? (Sentence)$"Row {rows[0]}" : $"Rows {Few(rows)}";
        return (said, alike.Key.Path, alike.First().Sentence, alike.Count());
    });

    /// <summary>Codes in a row, the first few of many.</summary>
    public Sentence Few(IReadOnlyList<string> codes)
    {
        var shown = codes.Take(Named).Select(Sentence.Verbatim).ToList();
        if (codes.Count > Named) shown.Add($"{show.Number(codes.Count - Named)} more");
        return Sentence.List(shown);
    }

    private string Person => User.Identity?.Name ?? "";

    private bool Found(string id) => (Journal = desk.Find(id, Person)) is not null;

    /// <summary>While it goes on, the page is asked for again every few seconds, without script.</summary>
    private void AskAgain()
    {
        if (!Journal!.Work.IsOver) Response.Headers["Refresh"] = $"3; url={Here}/{Journal.Id}";
    }

    private PageResult Refused(Sentence wrong)
    {
        Refuse(wrong);
        return Page();
    }

    private void Refuse(Sentence wrong) => (Wrong, Response.StatusCode) = (wrong, StatusCodes.Status422UnprocessableEntity);
}
