using System.Globalization;
using System.Text;
using Cellarbook.Core.Book;
using Microsoft.EntityFrameworkCore;

namespace Cellarbook.Storage;

/// <summary>Reads entries a page at a time, through EF.</summary>
internal static class BookReading
{
    /// <summary>One page of what is looked for.</summary>
    public static BookPage Search(BookContext context, Contacts contacts, BookQuery query)
    {
        IQueryable<EntryRow> rows = context.Entries;
        if (query.From is { } from) rows = rows.Where(row => row.Day >= from);
        if (query.To is { } to) rows = rows.Where(row => row.Day <= to);
        if (query.Text is { Length: > 0 } text)
        {
            var pattern = $"%{Escaped(text)}%";
            // In JSON a quote and a backslash stand escaped.
            var inJson = $"%{Escaped(text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal))}%";
            // Names of people stand beside the content, which holds references to them.
            var named = contacts.ReferencesTo(text);
            rows = rows.Where(row => EF.Functions.Like(row.Content, inJson, "!") || named.Any(reference => row.Content.Contains(reference)) || EF.Functions.Like(row.EventId!, pattern, "!") || EF.Functions.Like(row.Actor, pattern, "!"));
        }
        if (query.Category is { Length: > 0 } category) rows = rows.Where(row => row.Postings.Any(posting => posting.Category == category));
        if (query.Account is { Length: > 0 } account)
        {
            var between = $":{account}:";
            rows = rows.Where(row => row.Postings.Any(posting => (":" + posting.FromAccount + ":").Contains(between) || (":" + posting.ToAccount + ":").Contains(between)));
        }
        if (query.About is { Length: > 0 } about)
        {
            var between = $":{about}:";
            var named = System.Text.Json.JsonSerializer.Serialize(about, Plain);
            string lot = $"\"lot\":{named}", vessel = $"\"vessel\":{named}", bottling = $"\"bottling\":{named}", code = $"\"code\":{named}";
            rows = rows.Where(row => row.Content.Contains(lot) || row.Content.Contains(vessel) || row.Content.Contains(bottling) || row.Content.Contains(code)
                || row.Postings.Any(posting => (":" + posting.FromAccount + ":").Contains(between) || (":" + posting.ToAccount + ":").Contains(between)));
        }
        if (query.Person is { Length: > 0 } person)
        {
            var pattern = $"%{Escaped(person)}%";
            var references = contacts.ReferencesTo(person);
            var done = $"%\"doneBy\":\"{Escaped(person.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal))}%";
            rows = rows.Where(row => EF.Functions.Like(row.Actor, pattern, "!") || EF.Functions.Like(row.Content, done, "!") || references.Any(reference => row.Content.Contains(reference)));
        }
        if (query.Numbers is { } numbers) rows = rows.Where(row => numbers.Contains(row.Number));
        if (query.FirstNumber is { } first) rows = rows.Where(row => row.Number >= first);
        if (query.LastNumber is { } last) rows = rows.Where(row => row.Number <= last);
        if (query.Beyond is { } beyond) rows = query.NewestFirst ? rows.Where(row => row.Number < beyond) : rows.Where(row => row.Number > beyond);
        rows = query.NewestFirst ? rows.OrderByDescending(row => row.Number) : rows.OrderBy(row => row.Number);
        var found = rows.Take(query.Count + 1).Include(row => row.Postings.OrderBy(posting => posting.Line)).ToList();
        var entries = found.Take(query.Count).Select(row => Stored(row, contacts)).ToList();
        return new(entries, found.Count > query.Count ? entries[^1].Number : null);
    }

    private static readonly System.Text.Json.JsonSerializerOptions Plain = new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The entry of that number, or null.</summary>
    public static StoredEntry? Read(BookContext context, Contacts contacts, long number) =>
        context.Entries.Where(row => row.Number == number).Include(row => row.Postings.OrderBy(posting => posting.Line)).SingleOrDefault() is { } row ? Stored(row, contacts) : null;

    private static string Escaped(string text)
    {
        var escaped = new StringBuilder(text.Length);
        foreach (var c in text)
        {
            if (c is '%' or '_' or '!') escaped.Append('!');
            escaped.Append(c);
        }
        return escaped.ToString();
    }

    private static StoredEntry Stored(EntryRow row, Contacts contacts) => new()
    {
        Number = row.Number,
        Form = row.Form,
        PreviousHash = Convert.ToHexStringLower(row.PreviousHash),
        RecordedAt = DateTimeOffset.TryParse(row.RecordedAt, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var moment) ? moment : default,
        Actor = row.Actor,
        Key = row.Key,
        Day = row.Day,
        EventId = row.EventId,
        TakesBack = row.TakesBack,
        LeavesOut = row.LeavesOut,
        Content = row.Content,
        InPlain = contacts.InPlain(row.Form, row.Content),
        ContentHash = Convert.ToHexStringLower(row.ContentHash),
        Hash = Convert.ToHexStringLower(row.Hash),
        Postings = [.. row.Postings.Select(Posting).OfType<Posting>()],
    };

    /// <summary>The posting of a row; null in a spoilt book where it names nothing we know, which verify reports.</summary>
    private static Posting? Posting(PostingRow row) =>
        AccountText.Read(row.FromAccount) is { } from && AccountText.Read(row.ToAccount) is { } to && Category.Find(row.Category) is { } category
            ? new(from, to, category)
            {
                Volume = new(row.VolumeUl),
                Bottles = new(row.Bottles),
                Weight = new(row.Grams),
                Material = new(row.Material),
                MaterialUnit = row.Unit is null ? null : AccountText.Unit(System.Text.Encoding.UTF8.GetBytes(row.Unit)),
                Strength = row.Strength is { } hundredths ? new(hundredths) : null,
                Kind = row.Kind is null ? null : AccountText.Kind(Encoding.UTF8.GetBytes(row.Kind)),
                IsTakenBack = row.TakenBack,
            }
            : null;
}
