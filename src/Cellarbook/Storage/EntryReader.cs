using System.Buffers.Text;
using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>
/// Reads the whole book in order of number, on one connection: rebuilds the entries and checks the chain on the way (law 10). What can't be
/// rebuilt ends the entries, but the chain is checked to its end all the same.
/// </summary>
internal sealed class EntryReader : IDisposable
{
    private const string EntrySql = "SELECT number, form, previous_hash, recorded_at, actor, key, day, event_id, takes_back, leaves_out, content, content_hash, hash FROM entry ORDER BY number";
    private const string PostingSql = "SELECT entry, line, deed, taken_back, category, from_account, to_account, volume_ul, bottles, bottle_ul, grams, strength, kind, material, unit FROM posting ORDER BY entry, line";

    private static readonly byte[][] Treatments = [.. Category.All.Where(category => category.MovesNothing).Select(category => JsonSerializer.SerializeToUtf8Bytes(category.Code))];

    private static readonly byte[] EnteredBy = "\"enteredBy\":\""u8.ToArray();

    private readonly SqliteConnection connection;
    private readonly Statement entries;
    private readonly Statement postings;
    private readonly Findings findings;
    private readonly HashedForm form = new();
    private readonly AccountText accounts = new();
    private readonly Contacts contacts;
    private readonly HashSet<int> blanked = [];
    private byte[] lastNamed = [];
    private readonly List<(int Deed, Posting Posting)> moves = [];
    private readonly byte[] last = new byte[HashedForm.HashBytes];
    private bool postingWaits;
    private bool spoilt;

    public EntryReader(SqliteConnection connection, Findings findings)
    {
        this.connection = connection;
        this.findings = findings;
        contacts = Storage.Contacts.Read(connection, findings);
        entries = new(connection, EntrySql);
        // A book from before the stores, as its backup is verified: no posting of it moves material.
        var hasStores = BookFile.Count(connection, "SELECT count(*) FROM pragma_table_info('posting') WHERE name = 'material'") > 0;
        postings = new(connection, hasStores ? PostingSql : PostingSql.Replace("material, unit", "0, NULL", StringComparison.Ordinal));
    }

    /// <summary>Entries read, rebuilt or not.</summary>
    public long Count { get; private set; }

    /// <summary>Postings read.</summary>
    public long Postings { get; private set; }

    /// <summary>Contacts read, each held against its salted hash.</summary>
    public long Contacts { get; private set; }

    /// <summary>Contacts of which only the salted hash is left.</summary>
    public long ContactsBlanked { get; private set; }

    /// <summary>The last entry read and its hash.</summary>
    public ChainHead End => new(Number, Convert.ToHexStringLower(last));

    /// <summary>All entries in order of number, as far as they can be rebuilt; checks the head at the end.</summary>
    public IEnumerable<Entry> Read(IProgress<int>? progress = null)
    {
        postingWaits = postings.Step();
        while (entries.Step())
        {
            var entry = Next();
            Count++;
            if (Count % 1_000 == 0) progress?.Report((int)Count);
            if (entry is not null && !spoilt) yield return entry;
        }
        CheckEnd();
    }

    public void Dispose()
    {
        entries.Dispose();
        postings.Dispose();
    }

    private Entry? Next()
    {
        var number = entries.Long(0);
        var expected = Number + 1;
        if (number != expected)
        {
            Spoil(expected, number > expected ? (Sentence)$"Entry {expected} is missing." : "Entries are numbered twice.");
        }
        Number = number;
        Span<byte> hash = stackalloc byte[HashedForm.HashBytes];
        var known = entries.Long(1) is >= 1 and <= HashedForm.Version;
        if (!known) Spoil(number, $"It is written in hashed form {entries.Long(1)}, which this program doesn't know.");
        if (!entries.Bytes(2).SequenceEqual(last)) findings.Add(number, "It doesn't follow the entry before it: an entry was changed, dropped or put in.");

        form.Clear();
        form.Text(entries.Bytes(6));
        form.Text(entries.Bytes(10));
        form.EndLine();
        ReadPostings(number);
        form.Sum(hash);
        if (known && !hash.SequenceEqual(entries.Bytes(11))) findings.Add(number, "Its content is not what was recorded: the day, the operation or a posting was changed, dropped or added.");

        form.Clear();
        form.Number(entries.Long(1));
        form.Number(number);
        form.Hash(entries.Bytes(2));
        form.Text(entries.Bytes(3));
        form.Text(entries.Bytes(4));
        TextOrNothing(5);
        TextOrNothing(7);
        form.Number(entries.IsNull(8) ? null : entries.Long(8));
        form.Number(entries.Long(9));
        form.Hash(entries.Bytes(11));
        form.EndLine();
        form.Sum(hash);
        var stored = entries.Bytes(12);
        if (known && !hash.SequenceEqual(stored)) findings.Add(number, "Its heading is not what was recorded: the moment, who, a key, an event id, what it takes back or a hash was changed.");
        last.AsSpan().Clear();
        stored[..Math.Min(stored.Length, last.Length)].CopyTo(last);
        if (spoilt) return null;
        try
        {
            return Rebuild(number);
        }
        catch (Exception fault) when (fault is JsonException or FormatException or OverflowException or ArgumentException)
        {
            Spoil(number, $"Its operation can't be read: {fault.Message}");
            return null;
        }
    }

    private long Number { get; set; }

    private void TextOrNothing(int column)
    {
        if (entries.IsNull(column)) form.Nothing();
        else form.Text(entries.Bytes(column));
    }

    private void ReadPostings(long number)
    {
        moves.Clear();
        for (; postingWaits && postings.Long(0) <= number; postingWaits = postings.Step())
        {
            Postings++;
            if (postings.Long(0) < number)
            {
                findings.Add(postings.Long(0), "A posting belongs to an entry that isn't there.");
                continue;
            }
            for (var i = 1; i <= 3; i++) form.Number(postings.Long(i));
            for (var i = 4; i <= 6; i++) form.Text(postings.Bytes(i));
            for (var i = 7; i <= 10; i++) form.Number(postings.Long(i));
            form.Number(postings.IsNull(11) ? null : postings.Long(11));
            if (postings.IsNull(12)) form.Nothing();
            else form.Text(postings.Bytes(12));
            // Either of the two shows what isn't nil, though a sound book has both or none.
            if (postings.Long(13) != 0 || !postings.IsNull(14))
            {
                form.Number(postings.Long(13));
                if (postings.IsNull(14)) form.Nothing();
                else form.Text(postings.Bytes(14));
            }
            form.EndLine();
            if (!spoilt) Move(number);
        }
    }

    private void Move(long number)
    {
        var (from, to, category) = (accounts.Account(postings.Bytes(5)), accounts.Account(postings.Bytes(6)), accounts.Category(postings.Bytes(4)));
        ProductKind? kind = postings.IsNull(12) ? null : AccountText.Kind(postings.Bytes(12));
        MaterialUnit? unit = postings.IsNull(14) ? null : AccountText.Unit(postings.Bytes(14));
        var deed = postings.Long(2);
        if (from is null || to is null || category is null || deed is < 0 or > int.MaxValue || postings.Long(8) is < 0 or > int.MaxValue || (kind is null && !postings.IsNull(12)) || (unit is null && !postings.IsNull(14)))
        {
            Spoil(number, $"Its posting {postings.Long(1)} names an account, category, kind or count that there is none of.");
            return;
        }
        moves.Add(((int)deed, new Posting(from, to, category)
        {
            Volume = new(postings.Long(7)),
            Bottles = new(postings.Long(8)),
            Weight = new(postings.Long(10)),
            Material = new(postings.Long(13)),
            MaterialUnit = unit,
            Strength = postings.IsNull(11) ? null : new Strength(checked((int)postings.Long(11))),
            Kind = kind,
            IsTakenBack = postings.Long(3) != 0,
        }));
    }

    private Entry? Rebuild(long number)
    {
        if (Day(entries.Bytes(6)) is not { } day)
        {
            Spoil(number, "Its day is none.");
            return null;
        }
        long? takesBack = entries.IsNull(8) ? null : entries.Long(8);
        if (takesBack < 1 || takesBack >= number)
        {
            Spoil(number, $"It takes back entry {takesBack}, which is not before it.");
            return null;
        }
        var leavesOut = entries.Long(9) != 0;
        var content = entries.Bytes(10);
        var isImported = content.StartsWith("{\"kind\":\"imported\""u8);
        var refers = entries.Long(1) >= HashedForm.WithContacts;
        var operation = !isImported || IsTreatment(content) ? JsonSerializer.Deserialize<Operation>(content, refers ? contacts.Options : OperationJson.Options) : null;
        if (refers && operation is null) CheckImported(content);
        if (contacts.TakeLost()) findings.Add(number, "It names somebody by a contact that isn't there, or isn't the one recorded.");
        if (operation is BlankContact { Contact: { } gone }) blanked.Add(gone);
        var deeds = isImported ? ImportedDeeds(number, day, (Imported?)operation, takesBack) : Deeds(number, operation!, leavesOut ? null : takesBack);
        if (moves.Count > 0 && moves[^1].Deed >= deeds.Length)
        {
            Spoil(number, "A posting belongs to a deed that it doesn't have.");
            return null;
        }
        return Entry.Stored(number, day, isImported ? null : operation, entries.Text(7), takesBack, leavesOut, deeds);
    }

    /// <summary>Deeds are numbered as they were proposed: what is taken back by postings first, then what is written.</summary>
    private Deed[] Deeds(long number, Operation operation, long? takesBack)
    {
        switch (operation)
        {
            case { IsAboutTheBook: true }:
                return [];
            case Correct correct:
                var writes = correct.Write ?? [];
                var first = takesBack is null ? 0 : 1;
                var deeds = new Deed[first + writes.Count];
                if (first == 1) deeds[0] = Deed.Stored(number, 0, correct.Day, correct.Time, null, MovesOf(0), takesBack);
                for (var i = first; i < deeds.Length; i++) deeds[i] = Deed.Stored(number, i, writes[i - first].Day, writes[i - first].Time, writes[i - first], MovesOf(i), null);
                return deeds;
            default:
                return [Deed.Stored(number, 0, operation.Day, operation.Time, operation, MovesOf(0), null)];
        }
    }

    /// <summary>Rows of an imported event are kept as stated and needed again only for treatments, which move nothing.</summary>
    private Deed[] ImportedDeeds(long number, DateOnly day, Imported? rows, long? takesBack)
    {
        if (rows is not null && !rows.Rows!.Any(row => Category.Find(row.Category) is { MovesNothing: true })) rows = null;
        if (takesBack is null) return [Deed.Stored(number, 0, day, null, rows, MovesOf(0), null)];
        var back = Deed.Stored(number, 0, day, null, null, MovesOf(0), takesBack);
        return moves.Exists(move => move.Deed == 1) || (rows is not null && rows.Rows!.Any(row => row.Reverses is null))
            ? [back, Deed.Stored(number, 1, day, null, rows, MovesOf(1), null)]
            : [back];
    }

    private Posting[] MovesOf(int deed)
    {
        var count = 0;
        foreach (var move in moves)
            if (move.Deed == deed) count++;
        if (count == 0) return [];
        var own = new Posting[count];
        count = 0;
        foreach (var move in moves)
            if (move.Deed == deed) own[count++] = move.Posting;
        return own;
    }

    private static bool IsTreatment(ReadOnlySpan<byte> content)
    {
        foreach (var code in Treatments)
            if (content.IndexOf(code) >= 0) return true;
        return false;
    }

    private static DateOnly? Day(ReadOnlySpan<byte> utf8) =>
        utf8.Length == 10 && utf8[4] == '-' && utf8[7] == '-' && Utf8Parser.TryParse(utf8[..4], out int year, out var y, 'D') && y == 4
        && Utf8Parser.TryParse(utf8[5..7], out int month, out var m, 'D') && m == 2 && Utf8Parser.TryParse(utf8[8..], out int day, out var d, 'D') && d == 2
        && year >= 1 && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month) ? new DateOnly(year, month, day) : null;

    /// <summary>An imported event that isn't rebuilt names nobody but who entered it; no other field of it can hold this text unescaped.</summary>
    private void CheckImported(ReadOnlySpan<byte> content)
    {
        if (content.IndexOf(EnteredBy) is var at && at < 0) return;
        var reference = content[(at + EnteredBy.Length)..];
        reference = reference[..Math.Max(0, reference.IndexOf((byte)'"'))];
        if (reference.SequenceEqual(lastNamed)) return;
        contacts.Name(reference);
        lastNamed = reference.ToArray();
    }

    /// <summary>A contact is named by an entry, and blanked by one.</summary>
    private void CheckContacts()
    {
        foreach (var contact in contacts.All)
        {
            if (!contacts.IsNamed(contact.Id)) findings.Add(null, $"Contact {contact.Id} is named by no entry: it was put in from outside.");
            if (contact.Text is null && !blanked.Contains(contact.Id)) findings.Add(null, $"The text of contact {contact.Id} is gone, but no entry blanked it.");
            if (contact.Text is not null && blanked.Contains(contact.Id)) findings.Add(null, $"Contact {contact.Id} was blanked, but a text stands there again.");
            if (contact.Text is null) ContactsBlanked++;
        }
        Contacts = contacts.All.Count;
    }

    private void CheckEnd()
    {
        if (!spoilt) CheckContacts();
        for (; postingWaits; postingWaits = postings.Step()) findings.Add(postings.Long(0), "A posting belongs to an entry that isn't there.");
        using var head = new Statement(connection, "SELECT number, hash FROM head WHERE id = 1");
        if (!head.Step()) findings.Add(null, "The head of the chain is missing.");
        else if (head.Long(0) != Number || !head.Bytes(1).SequenceEqual(last)) findings.Add(null, $"The head says that entry {head.Long(0)} is the last, with its hash; the chain ends otherwise, at entry {Number}. Entries were cut off, added or changed.");
    }

    private void Spoil(long number, Sentence sentence)
    {
        spoilt = true;
        findings.Add(number, sentence);
    }
}
