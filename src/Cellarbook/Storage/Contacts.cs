using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using Cellarbook.Core.Operations;
using Microsoft.Data.Sqlite;

namespace Cellarbook.Storage;

/// <summary>A name of somebody in entries.</summary>
/// <param name="Id">Its number: 1, 2, 3 … in the order the names were first written.</param>
/// <param name="Text">The name; null when it was blanked.</param>
public sealed record Contact(int Id, string? Text);

/// <summary>
/// The names of people that entries refer to, by number and salted hash (<see cref="HashedForm"/>, version 2): one for each text, with a salt of
/// its own. Content holds the reference "number:hash". Safe for use by several threads.
/// </summary>
internal sealed class Contacts
{
    /// <summary>Bytes of a salt.</summary>
    public const int SaltBytes = 16;

    private readonly Lock gate = new();
    private readonly List<Row> rows = [];
    private readonly Dictionary<string, Row> byText = new(StringComparer.Ordinal);
    private readonly HashedForm form = new();
    private readonly HashSet<int> named = [];
    private bool lost;
    private int stored;

    public Contacts() => Options = OperationJson.WithNames(new Names(this));

    /// <summary>Settings that write names as references and read them back as names.</summary>
    public JsonSerializerOptions Options { get; }

    /// <summary>All of them, by number.</summary>
    public IReadOnlyList<Contact> All
    {
        get { lock (gate) return [.. rows.Take(stored).Select(row => new Contact(row.Id, row.Text))]; }
    }

    /// <summary>True for a contact whose text is there.</summary>
    public bool Knows(int id)
    {
        lock (gate) return id >= 1 && id <= stored && rows[id - 1].Text is not null;
    }

    /// <summary>Reads them from a book and holds each text against its salted hash. A book of the first tables has none.</summary>
    public static Contacts Read(SqliteConnection connection, Findings? findings = null)
    {
        var contacts = new Contacts();
        if (BookFile.Count(connection, "SELECT count(*) FROM sqlite_master WHERE type = 'table' AND name = 'contact'") == 0) return contacts;
        using var statement = new Statement(connection, "SELECT id, hash, salt, text FROM contact ORDER BY id");
        while (statement.Step())
        {
            var row = new Row((int)Math.Min(statement.Long(0), int.MaxValue), statement.Bytes(1).ToArray(), statement.IsNull(2) ? null : statement.Bytes(2).ToArray(), statement.Text(3));
            if (row.Id != contacts.rows.Count + 1)
            {
                findings?.Add(null, $"Contact {contacts.rows.Count + 1} is missing.");
                while (contacts.rows.Count + 1 < row.Id && contacts.rows.Count < 1_000_000) contacts.rows.Add(new(contacts.rows.Count + 1, [], null, null));
            }
            if (row.Text is null != row.Salt is null || (row.Text is not null && !contacts.Hash(row.Salt!, row.Text).AsSpan().SequenceEqual(row.Hash)))
                findings?.Add(null, $"The text of contact {row.Id} is not what was recorded: it was changed from outside.");
            contacts.rows.Add(row);
            if (row.Text is not null) contacts.byText[row.Text] = row;
        }
        contacts.stored = contacts.rows.Count;
        return contacts;
    }

    /// <summary>Contacts that names written since the last <see cref="Keep"/> made.</summary>
    public IReadOnlyList<Row> Fresh
    {
        get { lock (gate) return [.. rows.Skip(stored)]; }
    }

    /// <summary>The fresh ones are stored.</summary>
    public void Keep()
    {
        lock (gate) stored = rows.Count;
    }

    /// <summary>The fresh ones could not be stored.</summary>
    public void Forget()
    {
        lock (gate)
        {
            foreach (var row in rows.Skip(stored)) byText.Remove(row.Text!);
            rows.RemoveRange(stored, rows.Count - stored);
        }
    }

    /// <summary>Salt and text are gone.</summary>
    public void Blank(int id)
    {
        lock (gate)
        {
            var row = rows[id - 1];
            if (row.Text is not null) byText.Remove(row.Text);
            rows[id - 1] = row with { Salt = null, Text = null };
        }
    }

    /// <summary>Content as it is sealed, with its names in plain.</summary>
    public string InPlain(int version, string content) => version < HashedForm.WithContacts || !Mentions(Encoding.UTF8.GetBytes(content))
        ? content
        : OperationJson.Write(JsonSerializer.Deserialize<Operation>(content, Options)!);

    /// <summary>References to contacts whose text holds this one; for searching content.</summary>
    public IReadOnlyList<string> ReferencesTo(string text)
    {
        lock (gate) return [.. rows.Take(stored).Where(row => row.Text?.Contains(text, StringComparison.OrdinalIgnoreCase) == true).Select(row => row.Reference)];
    }

    /// <summary>The contact a reference names, if it is there with that hash.</summary>
    private Row? Find(ReadOnlySpan<byte> reference)
    {
        if (!Utf8Parser.TryParse(reference, out int id, out var digits) || digits + 1 >= reference.Length || reference[digits] != ':') return null;
        lock (gate) return id >= 1 && id <= rows.Count && reference[(digits + 1)..].SequenceEqual(Encoding.UTF8.GetBytes(Convert.ToHexStringLower(rows[id - 1].Hash))) ? rows[id - 1] : null;
    }

    /// <summary>The name behind a reference; takes note that it was named, or that it leads nowhere.</summary>
    public string Name(ReadOnlySpan<byte> reference)
    {
        var row = Find(reference);
        lock (gate)
        {
            if (row is null) lost = true;
            else named.Add(row.Id);
        }
        return row is null ? Lost : row.Text ?? People.Blanked;
    }

    /// <summary>True for a contact that was named since these were read.</summary>
    public bool IsNamed(int id)
    {
        lock (gate) return named.Contains(id);
    }

    /// <summary>True when a reference led nowhere since this was last asked.</summary>
    public bool TakeLost()
    {
        lock (gate)
        {
            var was = lost;
            lost = false;
            return was;
        }
    }

    private static bool Mentions(ReadOnlySpan<byte> content)
    {
        foreach (var field in Fields)
            if (content.IndexOf(field) >= 0) return true;
        return false;
    }

    private static readonly byte[][] Fields = [.. People.Fields.Select(field => Encoding.UTF8.GetBytes($"\"{field}\":\""))];

    private string Reference(string text)
    {
        lock (gate)
        {
            if (!byText.TryGetValue(text, out var row))
            {
                var salt = RandomNumberGenerator.GetBytes(SaltBytes);
                rows.Add(row = new(rows.Count + 1, Hash(salt, text), salt, text));
                byText.Add(text, row);
            }
            return row.Reference;
        }
    }

    private byte[] Hash(byte[] salt, string text)
    {
        form.Clear();
        form.Hash(salt);
        form.Text(Encoding.UTF8.GetBytes(text));
        form.EndLine();
        var hash = new byte[HashedForm.HashBytes];
        form.Sum(hash);
        return hash;
    }

    /// <summary>A row of the table <c>contact</c>.</summary>
    public sealed record Row(int Id, byte[] Hash, byte[]? Salt, string? Text)
    {
        /// <summary>What stands for it in content.</summary>
        public string Reference { get; } = $"{Id}:{Convert.ToHexStringLower(Hash)}";
    }

    private sealed class Names(Contacts contacts) : JsonConverter<string>
    {
        public override string Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) =>
            contacts.Name(reader.ValueSpan);

        public override void Write(Utf8JsonWriter writer, string value, JsonSerializerOptions options) => writer.WriteStringValue(contacts.Reference(value));
    }

    /// <summary>What stands for a reference to nothing, which verify finds.</summary>
    private const string Lost = "(lost)";
}
