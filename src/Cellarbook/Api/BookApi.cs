using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Exports;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Api;

/// <summary>The book itself: what it is, its entries, its journal, its soundness.</summary>
public static class BookApi
{
    /// <summary>What the book is.</summary>
    public sealed record BookAnswer(string? Name, IReadOnlyList<string> Regimes, string TimeZone, bool TimeZoneAssumed, string? Owner, long Entries, string Hash, DateOnly? FirstDay, DateOnly? ClosedThrough, DateOnly Today, bool Sound);

    /// <summary>What verify found.</summary>
    public sealed record VerifyAnswer(bool Sound, IReadOnlyList<CheckedAnswer> Checked, IReadOnlyList<FindingAnswer> Findings);

    /// <summary>Something that was checked, and how many.</summary>
    public sealed record CheckedAnswer(string What, long Count);

    /// <summary>A page of entries; next is null on the last.</summary>
    public sealed record EntriesAnswer(IReadOnlyList<OperationAnswer> Entries, long? Next);

    /// <summary>Somebody named in entries; without a text, it was blanked.</summary>
    public sealed record ContactAnswer(int Contact, string? Text, bool Blanked);

    /// <summary>Something that is wrong.</summary>
    public sealed record FindingAnswer(long? Entry, string Sentence);

    /// <summary>Maps the endpoints.</summary>
    public static void Map(RouteGroupBuilder api)
    {
        var group = api.MapGroup("/book");
        group.MapGet("", Summary).WithName("book").WithSummary("What the book is: premises, regimes, time zone, last entry and its hash.");
        group.MapGet("/entries", Entries).WithName("entries").WithSummary("Entries, newest first, by page; q searches text, category and account what was posted.")
            .WithDescription("The answer's next is what to give as beyond for the next page.").Produces<EntriesAnswer>();
        group.MapGet("/entries/{number:long}", (long number, OpenBook book) => book.Store.Read(number) is { } entry ? TypedResults.Ok(OperationAnswer.Of(entry, [.. FlagsOf(book, number), .. book.Read(found => found.ReleaseFlags(new(number)))], whole: true)) : Problem.NotFound(RefusalCode.UnknownEntry, "number", $"There is no entry {number}."))
            .WithName("entry").WithSummary("An entry as written, with its postings, hash and flags.").Produces<OperationAnswer>().ProducesProblem(StatusCodes.Status404NotFound);
        group.MapGet("/contacts", (OpenBook book) => TypedResults.Ok(book.Store.Contacts.Select(contact => new ContactAnswer(contact.Id, contact.Text, contact.Text is null)).ToArray()))
            .WithName("contacts").WithSummary("Names of people in entries, by number, as far as they were not blanked.")
            .WithDescription("Entries refer to them by number and salted hash. Record blankContact to remove a name for good; the seal of the entries holds.");
        group.MapGet("/journal", Journal)
            .WithName("journal").WithSummary("The whole book as a plain-text journal that hledger and ledger read, running balances asserted.").Produces<string>(contentType: "text/plain");
        group.MapGet("/verify", (OpenBook book) => Verify(book)).WithName("verify").WithSummary("Read everything again: chain, laws, guards.").Produces<VerifyAnswer>();
    }

    private static Microsoft.AspNetCore.Http.HttpResults.Ok<BookAnswer> Summary(OpenBook book)
    {
        var (zone, today) = (book.TimeZone.Id, book.Today);
        return TypedResults.Ok(book.Read(found => new BookAnswer(found.Premises?.Name, found.Premises?.Regimes ?? [], zone, found.Premises?.TimeZone is null, found.Premises?.Owner,
            found.LastNumber, book.Head.Hash, found.FirstDay, found.ClosedThrough, today, book.IsSound)));
    }

    /// <summary>Written aside while the book stands still, then sent: a slow reader holds nothing up.</summary>
    private static Microsoft.AspNetCore.Http.HttpResults.FileStreamHttpResult Journal(OpenBook book)
    {
        var aside = new FileStream(Path.Combine(Path.GetTempPath(), $"cellarbook-{Guid.NewGuid():N}.journal"), FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None, 1 << 16, FileOptions.DeleteOnClose);
        book.Read(found =>
        {
            using var writer = new StreamWriter(aside, leaveOpen: true);
            JournalText.Write(found, writer);
            return true;
        });
        aside.Position = 0;
        return TypedResults.File(aside, "text/plain; charset=utf-8");
    }

    private static IResult Verify(OpenBook book)
    {
        var report = book.Store.Verify();
        return TypedResults.Ok(new VerifyAnswer(report.Sound && book.IsSound, [.. report.Checked.Select(found => new CheckedAnswer(found.What.ToString(), found.Count))],
            [.. report.Findings.Concat(book.Findings).Distinct().Select(finding => new FindingAnswer(finding.Entry, finding.Sentence.ToString()))]));
    }

    private static IResult Entries(OpenBook book, string? q, string? from, string? to, string? category, string? account, long? beyond, int take = 50)
    {
        var refusals = new List<Refusal>();
        var query = new BookQuery { Text = q, From = Ask.Day(from, "from", refusals), To = Ask.Day(to, "to", refusals), Category = category, Account = account, Beyond = beyond, Count = Math.Clamp(take, 1, 500) };
        if (refusals.Count > 0) return Problem.Of(refusals);
        var page = book.Store.Search(query);
        return TypedResults.Ok(new EntriesAnswer([.. page.Entries.Select(entry => OperationAnswer.Of(entry, FlagsOf(book, entry.Number), whole: true))], page.Next));
    }

    /// <summary>Flags are worked out anew: what was raised with the entry, and measurements that no longer agree.</summary>
    internal static IReadOnlyList<Flag> FlagsOf(OpenBook book, long number) => book.Read<IReadOnlyList<Flag>>(found =>
    {
        var flags = new List<Flag>();
        if (found.Find(number) is not { } entry) return flags;
        if (entry.TakenBackBy is { } by) flags.Add(new("taken_back", $"Taken back by entry {by}."));
        foreach (var raised in entry.Operation?.Flags ?? []) flags.Add(new(raised.Code, Sentence.Verbatim(raised.Reason)));
        foreach (var disagreement in found.DisagreementsOf(entry)) flags.Add(new("no_longer_agrees", $"Measured {disagreement.Measured} in {disagreement.Account.Place}; the book now holds {disagreement.Book} there after it."));
        flags.AddRange(found.UndosedBy(new(number)).Select(sentence => new Flag("dose_taken_out", sentence)));
        return flags;
    });
}
