using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Statements;

namespace Cellarbook.Exports;

/// <summary>Bottles of one bottling on one shelf at the end of a day.</summary>
public sealed record BottlesRow(string Bottling, string Shelf, string Class, Strength? Strength, Volume Size, BottleCount Bottles, DateOnly FilledOn, IReadOnlyList<string> Lots);

/// <summary>A posting of an entry, as a row of a list.</summary>
/// <param name="Entry">Number of the entry.</param>
/// <param name="Day">The day it happened.</param>
/// <param name="Time">The time, where given.</param>
/// <param name="Kind">The operation, such as "transfer", or "imported"; "takeBack" for postings that take an entry back.</param>
/// <param name="Posting">What it moved.</param>
/// <param name="LeftOutBy">The entry that took it back while its period was open; it then counts nowhere.</param>
/// <param name="Heading">Who wrote it, when, and the paper behind it.</param>
public sealed record EntryRow(long Entry, DateOnly Day, TimeOnly? Time, string Kind, Posting Posting, long? LeftOutBy, EntryHeading Heading);

/// <summary>What the book keeps beside an entry's postings. The host knows it from storage; what it doesn't know stays empty.</summary>
/// <param name="RecordedAt">The moment it was recorded.</param>
/// <param name="RecordedBy">Who recorded it.</param>
/// <param name="Document">The paper behind it.</param>
/// <param name="Note">Anything else that was noted.</param>
public sealed record EntryHeading(DateTimeOffset? RecordedAt, string? RecordedBy, string? Document, string? Note)
{
    /// <summary>What the operation itself says.</summary>
    public static EntryHeading Of(Entry entry) => new(null, entry.Operation?.EnteredBy, entry.Operation?.Document, entry.Operation?.Note);
}

/// <summary>What a statement says about itself.</summary>
/// <param name="Premises">Name of the household or premises; empty when none was given.</param>
/// <param name="Book">Which book: its name or folder, as the owner knows it.</param>
/// <param name="LastEntry">Number of the last entry when this was made.</param>
/// <param name="Hash">Hash of that entry: with it anybody can see later whether the book was changed before it.</param>
/// <param name="MadeAt">When this was made.</param>
/// <param name="TimeZone">The book's time zone.</param>
public sealed record AboutFacts(string Premises, string Book, long LastEntry, string Hash, DateTimeOffset MadeAt, string TimeZone)
{
    /// <summary>True to print on US letter paper, false on A4.</summary>
    public bool LetterPaper { get; init; }
}

/// <summary>
/// A period statement with all that goes beside it: filled once, then rendered as JSON, CSV, workbook and page, so that the four can't disagree.
/// </summary>
public sealed record StatementDocument
{
    /// <summary>The plain statement.</summary>
    public required PlainStatement Plain { get; init; }

    /// <summary>The US form of the same period; null when the plain statement was asked for.</summary>
    public UsStatement? Us { get; init; }

    /// <summary>Lots on the last day.</summary>
    public required IReadOnlyList<LotLine> Lots { get; init; }

    /// <summary>Bottles on the last day.</summary>
    public required IReadOnlyList<BottlesRow> Bottles { get; init; }

    /// <summary>Postings of the period, in book order, those left out last. Read anew each time; reads the book it came from.</summary>
    public required IEnumerable<EntryRow> Entries { get; init; }

    /// <summary>What it says about itself.</summary>
    public required AboutFacts About { get; init; }

    /// <summary>Remarks that stand beside the figures.</summary>
    public IReadOnlyList<Sentence> Notes => Us?.Notes ?? Plain.Notes;

    /// <summary>The name of the form in files and addresses.</summary>
    public string Form => Us is null ? "plain" : "us-5120-17";

    /// <summary>Makes one from a book.</summary>
    /// <param name="book">The book; nothing may be recorded while this is made and rendered.</param>
    /// <param name="asked">The period.</param>
    /// <param name="asUsForm">True for the US form, false for the plain statement.</param>
    /// <param name="about">What it says about itself.</param>
    /// <param name="headingOf">What storage knows of an entry; null: what its operation says.</param>
    public static StatementDocument Of(Book book, Period asked, bool asUsForm, AboutFacts about, Func<Entry, EntryHeading>? headingOf = null)
    {
        var us = asUsForm ? UsStatement.Build(book, asked) : null;
        var plain = us?.Plain ?? PlainStatement.Build(book, asked, ClassScheme.Default);
        var cellar = book.AsOf(asked.To);
        return new()
        {
            Plain = plain,
            Us = us,
            Lots = LotStatement.Build(book, asked.To, ClassScheme.Default).Lines,
            Bottles = DocumentRows.Bottles(cellar, ClassScheme.Default),
            Entries = DocumentRows.Entries(book, plain.Stated, headingOf ?? EntryHeading.Of),
            About = about,
        };
    }
}
