using System.Buffers.Text;
using System.Security.Cryptography;

namespace Cellarbook.Storage;

/// <summary>
/// The hashed form of an entry, version 2. A text in UTF-8 of fields separated by a tab, a newline after each line. A whole number stands in
/// decimal, a text as its length in bytes, a colon and itself, a hash in lower-case hexadecimal, and what is null as "-"; so no two entries
/// share a form.
/// <code>
/// content hash = SHA-256 of:  day ⇥ operation ⏎, then for each posting in order:
///   line ⇥ deed ⇥ taken_back ⇥ category ⇥ from_account ⇥ to_account ⇥ volume_ul ⇥ bottles ⇥ bottle_ul ⇥ grams ⇥ strength ⇥ kind ⏎
///   and before the ⏎, where the posting moves material:  ⇥ material ⇥ unit
/// hash = SHA-256 of:
///   form ⇥ number ⇥ previous_hash ⇥ recorded_at ⇥ actor ⇥ key ⇥ event_id ⇥ takes_back ⇥ leaves_out ⇥ content_hash ⏎
/// salted hash of a contact = SHA-256 of:  salt ⇥ text ⏎
/// </code>
/// The operation is the canonical JSON as stored. In it the fields that name somebody (supplier, recipient, destination, witness, doneBy,
/// enteredBy) hold a contact's number, a colon and its salted hash; salt and text stand in the table <c>contact</c> and may be blanked. In
/// version 1 those fields hold the text itself and no posting moves material; all else is the same. The previous hash of the first entry is 32 zero bytes. Every column of entry and posting is covered:
/// those not named here are the hashes themselves and the number of the entry a posting belongs to, which decides whose content it counts in.
/// </summary>
internal sealed class HashedForm
{
    /// <summary>The version this program writes, and the newest it can check.</summary>
    public const int Version = 2;

    /// <summary>The first version whose content refers to contacts.</summary>
    public const int WithContacts = 2;

    /// <summary>Bytes of a hash.</summary>
    public const int HashBytes = 32;

    private byte[] buffer = new byte[4096];
    private int length;

    /// <summary>Forgets what was put in.</summary>
    public void Clear() => length = 0;

    /// <summary>A whole number, then a tab.</summary>
    public void Number(long number)
    {
        Room(21);
        Utf8Formatter.TryFormat(number, buffer.AsSpan(length), out var written);
        length += written;
        buffer[length++] = (byte)'\t';
    }

    /// <summary>A whole number or nothing, then a tab.</summary>
    public void Number(long? number)
    {
        if (number is { } value) Number(value);
        else Nothing();
    }

    /// <summary>A text, then a tab.</summary>
    public void Text(ReadOnlySpan<byte> utf8)
    {
        Room(utf8.Length + 22);
        Utf8Formatter.TryFormat(utf8.Length, buffer.AsSpan(length), out var written);
        length += written;
        buffer[length++] = (byte)':';
        utf8.CopyTo(buffer.AsSpan(length));
        length += utf8.Length;
        buffer[length++] = (byte)'\t';
    }

    /// <summary>What is null, then a tab.</summary>
    public void Nothing()
    {
        Room(2);
        buffer[length++] = (byte)'-';
        buffer[length++] = (byte)'\t';
    }

    /// <summary>A hash, then a tab.</summary>
    public void Hash(ReadOnlySpan<byte> hash)
    {
        Room(hash.Length * 2 + 1);
        Convert.TryToHexStringLower(hash, buffer.AsSpan(length), out var written);
        length += written;
        buffer[length++] = (byte)'\t';
    }

    /// <summary>Ends a line: the last tab becomes a newline.</summary>
    public void EndLine() => buffer[length - 1] = (byte)'\n';

    /// <summary>The hash of all that was put in since <see cref="Clear"/>.</summary>
    public void Sum(Span<byte> hash) => SHA256.HashData(buffer.AsSpan(0, length), hash);

    /// <summary>What was put in, for those who want to read it.</summary>
    public ReadOnlySpan<byte> Written => buffer.AsSpan(0, length);

    private void Room(int bytes)
    {
        if (length + bytes > buffer.Length) Array.Resize(ref buffer, Math.Max(buffer.Length * 2, length + bytes));
    }
}
