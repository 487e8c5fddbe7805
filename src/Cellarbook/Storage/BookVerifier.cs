using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>What a check of the whole book looked at and found.</summary>
/// <param name="Checked">What was checked, with how many.</param>
/// <param name="Findings">What is wrong, first thing first; empty when the book is sound.</param>
/// <param name="Head">The last entry and its hash, to be noted elsewhere; null when the file can't be read.</param>
public sealed record VerifyReport(IReadOnlyList<CheckedPart> Checked, IReadOnlyList<Finding> Findings, ChainHead? Head)
{
    /// <summary>True when nothing is wrong.</summary>
    public bool Sound => Findings.Count == 0;
}

/// <summary>A part of the book that was checked.</summary>
/// <param name="What">What.</param>
/// <param name="Count">How many of them.</param>
public sealed record CheckedPart(Sentence What, long Count);

/// <summary>Re-reads everything on a read-only connection of its own, beside a running server too (law 10).</summary>
internal static class BookVerifier
{
    /// <summary>Checks a file: its pages, schema and guards, chain and head, and the laws as far as a fold can break them.</summary>
    public static VerifyReport Verify(string path, IProgress<int>? progress = null)
    {
        var findings = new Findings();
        var done = new List<CheckedPart>();
        try
        {
            if (BookFile.Pending(path).Count > 0) findings.Add(null, Sentence.Verbatim(BookFaults.Sentence(BookFault.OlderBook, path)));
            using var connection = BookFile.OpenReadOnly(path);
            CheckPages(connection, findings, done);
            BookSchema.Check(connection, findings);
            done.Add(new("tables, indexes and guards", BookSchema.Expected.Count));
            var load = new LoadResult(() => BookFile.OpenReadOnly(path), findings, progress);
            var book = load.ToBook(null);
            done.Add(new("entries: hash of heading and content, number, place in the chain", load.EntriesRead));
            done.Add(new("postings: each in its entry's hash", load.PostingsRead));
            done.Add(new("contacts: each text against the salted hash that entries seal", load.ContactsRead));
            if (load.ContactsBlanked > 0) done.Add(new("contacts blanked: their text is gone, their salted hash stays", load.ContactsBlanked));
            done.Add(new("days folded: nothing below zero, no vessel over its capacity or with two lots, processes cleared", book.Pages.Count));
            return new(done, findings.List, load.Head);
        }
        catch (BookOpenException fault)
        {
            findings.Add(null, Sentence.Verbatim(fault.Message));
        }
        catch (SqliteException fault)
        {
            findings.Add(null, $"{BookFaults.Sentence(BookFaults.Of(fault), path)} {fault.Message}");
        }
        return new(done, findings.List, null);
    }

    /// <summary>Checks the chain alone, entries not folded.</summary>
    public static void CheckChain(SqliteConnection connection, Findings findings, IProgress<int>? progress = null)
    {
        using var reader = new EntryReader(connection, findings);
        foreach (var _ in reader.Read(progress)) continue;
    }

    private static void CheckPages(SqliteConnection connection, Findings findings, List<CheckedPart> done)
    {
        using (var statement = new Statement(connection, "PRAGMA integrity_check"))
            while (statement.Step())
                if (statement.Text(0) is { } said && said != "ok") findings.Add(null, $"The file is damaged: {said}");
        using (var statement = new Statement(connection, "PRAGMA foreign_key_check"))
            while (statement.Step()) findings.Add(null, $"A row of {statement.Text(0)} belongs to a row of {statement.Text(2)} that isn't there.");
        done.Add(new("pages of the file", BookFile.Count(connection, "PRAGMA page_count")));
    }
}
