using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Settings;

/// <summary>Whose book it is, how figures are read, where the book lies, whether it is sound, a backup.</summary>
public sealed class IndexModel(OpenBook book, PreferencesFile preferences, House house, LongWork works) : PageModel
{
    /// <summary>The fields.</summary>
    [BindProperty]
    public PremisesForm Form { get; set; } = new();

    /// <summary>True after they were kept.</summary>
    public bool Saved { get; private set; }

    /// <summary>What verify found, when asked.</summary>
    public VerifyReport? Report { get; private set; }

    /// <summary>The folder the book lies in.</summary>
    public string Folder => book.Folder;

    /// <summary>Number of the last entry.</summary>
    public long Last { get; private set; }

    /// <summary>Its hash, to be noted elsewhere.</summary>
    public string Hash { get; private set; } = "";

    /// <summary>The last day of the closed period.</summary>
    public DateOnly? ClosedThrough { get; private set; }

    /// <summary>What was found at start.</summary>
    public IReadOnlyList<Sentence> Findings => [.. book.Findings.Select(finding => finding.Sentence).Take(20)];

    /// <summary>Shows what holds now.</summary>
    public void OnGet(bool saved = false)
    {
        Saved = saved;
        Fill();
    }

    /// <summary>Records changed premises and keeps the preferences.</summary>
    public IActionResult OnPost()
    {
        if (string.IsNullOrWhiteSpace(Form.Owner)) Form.Wrong["Owner"] = "Say who writes in the book; a first name will do.";
        var operation = Form.Operation(book.Today);
        var now = house.Premises;
        var same = now is not null && now.Name == operation.Name && now.Owner == operation.Owner && now.TimeZone == operation.TimeZone && now.Currency == operation.Currency && now.MaterialCost == operation.MaterialCost && (now.Regimes ?? []).SequenceEqual(operation.Regimes ?? []);
        if (!same || Form.Wrong.Count > 0) Form.Take(book.Record(operation, book.ActorOf(User), Form.Wrong.Count == 0 ? Form.Key : null, check: Form.Wrong.Count > 0).Refusals);
        if (Form.Wrong.Count == 0)
        {
            preferences.Save(Form.Over(preferences.Now));
            return Redirect("/settings?saved=true");
        }
        Look();
        return Page();
    }

    /// <summary>Where a phone finds this program.</summary>
    public SiteAddress Address => SiteAddress.Of(preferences.Now, Request);

    /// <summary>What is the matter with the address typed.</summary>
    public Sentence? AddressFault { get; private set; }

    /// <summary>Keeps the address that labels of vessels open.</summary>
    public IActionResult OnPostAddress(string? address)
    {
        if (string.IsNullOrWhiteSpace(address))
        {
            preferences.Save(preferences.Now with { Address = null });
            return Redirect("/settings?saved=true#address");
        }
        if (SiteAddress.Read(address, out var whole) is { } fault)
        {
            AddressFault = fault;
            Fill();
            return Page();
        }
        preferences.Save(preferences.Now with { Address = whole });
        return Redirect("/settings?saved=true#address");
    }

    /// <summary>Reads everything again: chain, laws, guards.</summary>
    public async Task OnPostVerify()
    {
        var work = await works.Check();
        Fill();
        Tell(work);
    }

    /// <summary>How far a check or a backup is that takes longer than a moment.</summary>
    public void OnGetWork(bool backup)
    {
        Fill();
        if (works.Last(backup) is { } work) Tell(work);
    }

    /// <summary>A backup, opened and verified, as a download. Once it is sent it is removed.</summary>
    public async Task<IActionResult> OnPostBackup(bool ready = false)
    {
        while (true)
        {
            var work = await works.Backup(ready);
            if (work.Backup is null)
            {
                Fill();
                Tell(work);
                return Page();
            }
            // Pressed twice, the second press gets a backup of its own.
            if (works.HandOut(work) is not { } aside) continue;
            Response.RegisterForDispose(aside);
            return File(new FileStream(aside.Path, FileMode.Open, FileAccess.Read, FileShare.Read, 1 << 16), "application/octet-stream", $"cellarbook-{Show.Iso(book.Today)}.db");
        }
    }

    /// <summary>Shows what was done; while it goes on, the page is asked for again every few seconds, without script.</summary>
    private void Tell(Work work)
    {
        Work = work;
        Report = work.Report;
        if (!work.IsOver) Response.Headers["Refresh"] = $"3; url=/settings?handler=Work&backup={(work.IsBackup ? "true" : "false")}";
    }

    /// <summary>A check or backup on its way, or done.</summary>
    public Work? Work { get; private set; }

    private void Fill()
    {
        Form = PremisesForm.Of(house.Premises, preferences.Now);
        ModelState.Clear();
        Look();
    }

    private void Look()
    {
        ClosedThrough = book.Read(found => found.ClosedThrough);
        (Last, Hash) = (book.Head.Number, book.Head.Hash);
    }
}
