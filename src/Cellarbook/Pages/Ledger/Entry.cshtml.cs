using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Pages.Shared;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Ledger;

/// <summary>An entry as written: what it says, what it moved, its seal, what became of it.</summary>
public sealed class EntryModel(OpenBook book, Told told, House house) : PageModel
{
    /// <summary>What an entry wrote of one operation.</summary>
    public sealed record Written(Telling Telling, Sentence SmallPrint, DateOnly Day, IReadOnlyList<Posting> Postings);

    /// <summary>The entry.</summary>
    public StoredEntry Stored { get; private set; } = null!;

    /// <summary>What it says; a correction says what it takes back and what it writes instead.</summary>
    public Telling Telling { get; private set; } = null!;

    /// <summary>What it wrote, one by one.</summary>
    public IReadOnlyList<Written> Writes { get; private set; } = [];

    /// <summary>The operation as it stands in the book.</summary>
    public Operation Operation { get; private set; } = null!;

    /// <summary>The entry that took this one back.</summary>
    public long? TakenBackBy { get; private set; }

    /// <summary>What the entry said that this one takes back.</summary>
    public IReadOnlyList<Telling> TookBack { get; private set; } = [];

    /// <summary>What the entry wrote that took this one back; empty where it wrote nothing instead.</summary>
    public IReadOnlyList<Telling> StandsInstead { get; private set; } = [];

    /// <summary>Why it was taken back.</summary>
    public string? WhyTakenBack { get; private set; }

    /// <summary>Lots it touched.</summary>
    public IReadOnlyList<string> Lots { get; private set; } = [];

    /// <summary>Vessels it touched.</summary>
    public IReadOnlyList<string> Vessels { get; private set; } = [];

    /// <summary>Bottlings it touched.</summary>
    public IReadOnlyList<string> Bottlings { get; private set; } = [];

    /// <summary>What is known to be wrong or worth knowing.</summary>
    public IReadOnlyList<Sentence> Flags { get; private set; } = [];

    /// <summary>True when a measurement in it no longer agrees.</summary>
    public bool NoLongerAgrees { get; private set; }

    /// <summary>True when it can be taken back.</summary>
    public bool CanBeCorrected { get; private set; }

    /// <summary>Number of the last entry, to turn the leaves.</summary>
    public long Last { get; private set; }

    /// <summary>When it was recorded, in the book's time zone.</summary>
    public string Recorded { get; private set; } = "";

    /// <summary>The hashed content, laid out for reading.</summary>
    public string Sealed { get; private set; } = "";

    /// <summary>Opens an entry.</summary>
    /// <param name="number">Its number.</param>
    /// <param name="show">How figures are written.</param>
    public IActionResult OnGet(long number, [FromServices] Show show)
    {
        if (book.Store.Read(number) is not { } stored) return this.Missing($"There is no entry {number}.", "/book", "The whole book");
        Stored = stored;
        Recorded = show.Moment(stored.RecordedAt, book.TimeZone);
        Operation = OperationJson.Stored(stored.InPlain);
        var imported = Operation is Imported;
        Telling = told.Of(imported ? null : Operation, stored.Postings);
        using (var content = JsonDocument.Parse(stored.Content)) Sealed = JsonSerializer.Serialize(content.RootElement, Laid);
        Touched();
        book.Read(found =>
        {
            Last = found.LastNumber;
            if (found.Find(number) is not { } entry) return 0;
            TakenBackBy = entry.TakenBackBy;
            var disagreements = found.DisagreementsOf(entry).ToArray();
            NoLongerAgrees = disagreements.Length > 0;
            Flags = [.. (entry.Operation?.Flags ?? []).Select(raised => Sentence.Verbatim(raised.Reason)),
                .. disagreements.Select(disagreement => Sentence.Of($"It measured {show.Volume(disagreement.Measured)} {Words.In(disagreement.Account.Place)}; after later changes the book holds {show.Volume(disagreement.Book)} there.")),
                .. found.UndosedBy(new(number)), .. found.ReleaseFlags(new(number)).Select(flag => flag.Sentence)];
            Writes = [.. entry.Deeds.Select(deed => new Written(imported ? new(deed.TakesBack is { } taken ? Sentence.Of($"Entry {taken} taken back") : Telling.What) : told.Of(deed), Told.SmallPrint(deed.Operation), deed.Day, deed.Postings))];
            if (found.Find(entry.TakesBack ?? 0) is { } before) TookBack = Tell(before);
            if (found.Find(entry.TakenBackBy ?? 0) is { } after) (StandsInstead, WhyTakenBack) = (Tell(after), (after.Operation as Correct)?.Reason);
            CanBeCorrected = entry.TakenBackBy is null && entry.Deeds.Any(deed => deed.TakesBack is null) && !(entry.IsImported && entry.TakesBack is not null);
            return 0;
        });
        return Page();
    }

    private Telling[] Tell(Entry entry) => [.. entry.Deeds.Where(deed => deed.TakesBack is null).Select(told.Of)];

    private void Touched()
    {
        var accounts = Stored.Postings.SelectMany(posting => new[] { posting.From, posting.To }).ToArray();
        var notes = (Operation is Correct { Write: { } written } ? written : [Operation]).OfType<NoteOperation>().ToArray();
        Lots = [.. accounts.Where(account => account.Section is Section.Must or Section.Bulk).Select(account => account.Name).Concat(notes.Select(note => note.Lot).OfType<string>()).Distinct()];
        Vessels = [.. accounts.Where(account => account.InVessel).Select(account => account.Place).Concat(notes.Select(note => note.Vessel).OfType<string>()).Concat(Operation is Vessel { Code: { } made } ? [made] : []).Where(vessel => vessel != Account.Unplaced).Distinct()];
        Bottlings = [.. accounts.Where(account => account.Section == Section.Bottled).Select(account => account.Name).Distinct()];
    }

    /// <summary>The other side of a posting, in words; where tax words are in place, with the account's own name.</summary>
    public Sentence Said(Account account) => Words.Account(account);

    /// <summary>True when accounts are shown by their names, too.</summary>
    public bool ShowsAccounts => !house.IsHousehold;

    private static readonly JsonSerializerOptions Laid = new() { WriteIndented = true, Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
}
