using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Microsoft.Data.Sqlite;
using SQLitePCL;

namespace Cellarbook.Storage;

/// <summary>Number and hash of the last entry.</summary>
/// <param name="Number">Its number; 0 for an empty book.</param>
/// <param name="Hash">Its hash in lower-case hexadecimal; zeros for an empty book.</param>
public sealed record ChainHead(long Number, string Hash);

/// <summary>Writes entries with prepared commands, one transaction for what belongs together: all or nothing (law 9).</summary>
internal sealed class EntryWriter : IDisposable
{
    private readonly SqliteConnection connection;
    private readonly Contacts contacts;
    private readonly Statement begin, commit, rollback, readHead, moveHead, insertEntry, insertPosting, insertContact, blankContact;
    private readonly HashedForm form = new();
    private readonly ArrayBufferWriter<byte> content = new(1024);
    private readonly Utf8JsonWriter json;
    private readonly Dictionary<Account, byte[]> accounts = [];
    private readonly Dictionary<Category, byte[]> categories = [];
    private readonly byte[] previous = new byte[HashedForm.HashBytes];

    public EntryWriter(SqliteConnection connection, Contacts contacts)
    {
        this.connection = connection;
        this.contacts = contacts;
        begin = new(connection, "BEGIN IMMEDIATE");
        commit = new(connection, "COMMIT");
        rollback = new(connection, "ROLLBACK");
        readHead = new(connection, "SELECT number, hash FROM head WHERE id = 1");
        moveHead = new(connection, "UPDATE head SET number = ?1, hash = ?2 WHERE id = 1");
        insertEntry = new(connection, "INSERT INTO entry (number, form, previous_hash, recorded_at, actor, key, day, event_id, takes_back, leaves_out, content, content_hash, hash) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)");
        insertPosting = new(connection, "INSERT INTO posting (entry, line, deed, taken_back, category, from_account, to_account, volume_ul, bottles, bottle_ul, grams, strength, kind, material, unit) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15)");
        insertContact = new(connection, "INSERT INTO contact (id, hash, salt, text) VALUES (?1, ?2, ?3, ?4)");
        blankContact = new(connection, "UPDATE contact SET salt = NULL, text = NULL WHERE id = ?1");
        json = new(content, new JsonWriterOptions { Encoder = OperationJson.Options.Encoder, MaxDepth = OperationJson.Options.MaxDepth, SkipValidation = true });
    }

    /// <summary>The head of the chain as stored.</summary>
    public ChainHead Head()
    {
        var number = ReadHead(previous);
        return new(number, Convert.ToHexStringLower(previous));
    }

    /// <summary>Writes them; throws with nothing written.</summary>
    public ChainHead Append(IReadOnlyList<Entry> entries, string actor, string? key, DateTimeOffset recordedAt, IProgress<int>? progress)
    {
        begin.Run();
        try
        {
            var number = ReadHead(previous);
            var heading = new Heading(Encoding.UTF8.GetBytes(recordedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture)), Encoding.UTF8.GetBytes(actor), key is null ? null : Encoding.UTF8.GetBytes(key));
            var written = 0;
            foreach (var entry in entries)
            {
                if (entry.Number != ++number) throw new InvalidOperationException($"Entry {entry.Number} can't follow entry {number - 1}.");
                // The key stands on the first entry of what was sent together.
                Write(entry, written == 0 ? heading : heading with { Key = null });
                if (++written % 10_000 == 0) progress?.Report(written);
            }
            moveHead.Bind(1, number);
            moveHead.BindBlob(2, previous);
            moveHead.Run();
            foreach (var contact in contacts.Fresh) Insert(contact);
            commit.Run();
            contacts.Keep();
            // A blanking is sent by itself.
            if (entries is [{ Operation: BlankContact { Contact: { } id } }]) contacts.Blank(id);
            return new(number, Convert.ToHexStringLower(previous));
        }
        catch
        {
            insertEntry.Reset();
            insertPosting.Reset();
            insertContact.Reset();
            blankContact.Reset();
            contacts.Forget();
            // A full disk may have rolled it back already.
            if (raw.sqlite3_get_autocommit(connection.Handle) == 0) rollback.Run();
            throw;
        }
    }

    public void Dispose()
    {
        foreach (var statement in new[] { begin, commit, rollback, readHead, moveHead, insertEntry, insertPosting, insertContact, blankContact }) statement.Dispose();
        json.Dispose();
    }

    private long ReadHead(Span<byte> hash)
    {
        try
        {
            if (!readHead.Step()) throw new InvalidOperationException("The head of the chain is missing.");
            readHead.Bytes(1).CopyTo(hash);
            return readHead.Long(0);
        }
        finally
        {
            readHead.Reset();
        }
    }

    private void Write(Entry entry, Heading heading)
    {
        content.ResetWrittenCount();
        json.Reset();
        JsonSerializer.Serialize(json, entry.Operation ?? throw new InvalidOperationException($"Entry {entry.Number} has no operation to store."), contacts.Options);
        Span<byte> day = stackalloc byte[10];
        entry.Day.TryFormat(day, out _, "O", CultureInfo.InvariantCulture);
        byte[]? eventId = entry.EventId is null ? null : Encoding.UTF8.GetBytes(entry.EventId);

        Span<byte> contentHash = stackalloc byte[HashedForm.HashBytes];
        form.Clear();
        form.Text(day);
        form.Text(content.WrittenSpan);
        form.EndLine();
        var line = 0;
        foreach (var deed in entry.Deeds)
            foreach (var posting in deed.Postings) Put(posting, deed.Index, line++);
        form.Sum(contentHash);

        Span<byte> hash = stackalloc byte[HashedForm.HashBytes];
        form.Clear();
        form.Number(HashedForm.Version);
        form.Number(entry.Number);
        form.Hash(previous);
        form.Text(heading.RecordedAt);
        form.Text(heading.Actor);
        Put(heading.Key);
        Put(eventId);
        form.Number(entry.TakesBack);
        form.Number(entry.LeavesOut ? 1 : 0);
        form.Hash(contentHash);
        form.EndLine();
        form.Sum(hash);

        insertEntry.Bind(1, entry.Number);
        insertEntry.Bind(2, HashedForm.Version);
        insertEntry.BindBlob(3, previous);
        insertEntry.Bind(4, heading.RecordedAt);
        insertEntry.Bind(5, heading.Actor);
        if (heading.Key is null) insertEntry.BindNull(6);
        else insertEntry.Bind(6, heading.Key);
        insertEntry.Bind(7, day);
        if (eventId is null) insertEntry.BindNull(8);
        else insertEntry.Bind(8, eventId);
        insertEntry.Bind(9, entry.TakesBack);
        insertEntry.Bind(10, entry.LeavesOut ? 1 : 0);
        insertEntry.Bind(11, content.WrittenSpan);
        insertEntry.BindBlob(12, contentHash);
        insertEntry.BindBlob(13, hash);
        insertEntry.Run();
        hash.CopyTo(previous);

        line = 0;
        foreach (var deed in entry.Deeds)
            foreach (var posting in deed.Postings) Insert(entry.Number, posting, deed.Index, line++);
        if (entry.Operation is not BlankContact { Contact: { } blanked }) return;
        blankContact.Bind(1, blanked);
        blankContact.Run();
    }

    private void Insert(Contacts.Row contact)
    {
        insertContact.Bind(1, contact.Id);
        insertContact.BindBlob(2, contact.Hash);
        insertContact.BindBlob(3, contact.Salt);
        insertContact.Bind(4, contact.Text);
        insertContact.Run();
    }

    private void Put(byte[]? text)
    {
        if (text is null) form.Nothing();
        else form.Text(text);
    }

    private void Put(Posting posting, int deed, int line)
    {
        form.Number(line);
        form.Number(deed);
        form.Number(posting.IsTakenBack ? 1 : 0);
        form.Text(Utf8(posting.Category));
        form.Text(Utf8(posting.From));
        form.Text(Utf8(posting.To));
        form.Number(posting.Volume.Microlitres);
        form.Number(posting.Bottles.Bottles);
        form.Number(posting.BottleSize.Microlitres);
        form.Number(posting.Weight.Grams);
        form.Number(posting.Strength?.Hundredths);
        if (posting.Kind is { } kind) form.Text(AccountText.Word(kind));
        else form.Nothing();
        if (posting.MaterialUnit is { } unit)
        {
            form.Number(posting.Material.Units);
            form.Text(AccountText.Word(unit));
        }
        form.EndLine();
    }

    private void Insert(long entry, Posting posting, int deed, int line)
    {
        insertPosting.Bind(1, entry);
        insertPosting.Bind(2, line);
        insertPosting.Bind(3, deed);
        insertPosting.Bind(4, posting.IsTakenBack ? 1 : 0);
        insertPosting.Bind(5, Utf8(posting.Category));
        insertPosting.Bind(6, Utf8(posting.From));
        insertPosting.Bind(7, Utf8(posting.To));
        insertPosting.Bind(8, posting.Volume.Microlitres);
        insertPosting.Bind(9, posting.Bottles.Bottles);
        insertPosting.Bind(10, posting.BottleSize.Microlitres);
        insertPosting.Bind(11, posting.Weight.Grams);
        insertPosting.Bind(12, posting.Strength?.Hundredths);
        if (posting.Kind is { } kind) insertPosting.Bind(13, AccountText.Word(kind));
        else insertPosting.BindNull(13);
        insertPosting.Bind(14, posting.Material.Units);
        if (posting.MaterialUnit is { } unit) insertPosting.Bind(15, AccountText.Word(unit));
        else insertPosting.BindNull(15);
        insertPosting.Run();
    }

    private byte[] Utf8(Category category)
    {
        if (!categories.TryGetValue(category, out var utf8)) categories.Add(category, utf8 = Encoding.UTF8.GetBytes(category.Code));
        return utf8;
    }

    private byte[] Utf8(Account account)
    {
        if (accounts.TryGetValue(account, out var utf8)) return utf8;
        var text = account.ToString();
        // What is written must be read back as the same account.
        if (AccountText.Read(text) != account) throw new InvalidOperationException($"The account “{text}” can't be stored.");
        accounts.Add(account, utf8 = Encoding.UTF8.GetBytes(text));
        return utf8;
    }

    /// <summary>What the entries of one call share.</summary>
    private sealed record Heading(byte[] RecordedAt, byte[] Actor, byte[]? Key);
}
