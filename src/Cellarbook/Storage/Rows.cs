namespace Cellarbook.Storage;

/// <summary>A row of the table <c>entry</c>: the heading of an entry, its content and the hashes that chain it.</summary>
public sealed class EntryRow
{
    /// <summary>1, 2, 3 … without gaps.</summary>
    public long Number { get; set; }

    /// <summary>Version of the hashed form.</summary>
    public int Form { get; set; }

    /// <summary>Hash of the entry before; 32 zero bytes for the first.</summary>
    public required byte[] PreviousHash { get; set; }

    /// <summary>When it was recorded: UTC, ISO with milliseconds.</summary>
    public required string RecordedAt { get; set; }

    /// <summary>Who recorded it here.</summary>
    public required string Actor { get; set; }

    /// <summary>The key it was sent under, kept for ever; on the first entry of what was sent together.</summary>
    public string? Key { get; set; }

    /// <summary>The day it is filed under.</summary>
    public DateOnly Day { get; set; }

    /// <summary>The id it was imported under.</summary>
    public string? EventId { get; set; }

    /// <summary>The entry it takes back.</summary>
    public long? TakesBack { get; set; }

    /// <summary>True when the fold leaves that entry out.</summary>
    public bool LeavesOut { get; set; }

    /// <summary>The operation as canonical JSON.</summary>
    public required string Content { get; set; }

    /// <summary>Hash of day, operation and postings.</summary>
    public required byte[] ContentHash { get; set; }

    /// <summary>Hash of the heading, content hash included.</summary>
    public required byte[] Hash { get; set; }

    /// <summary>Its postings.</summary>
    public List<PostingRow> Postings { get; } = [];
}

/// <summary>A row of the table <c>posting</c>: one move of one deed of an entry.</summary>
public sealed class PostingRow
{
    /// <summary>The entry it belongs to.</summary>
    public long Entry { get; set; }

    /// <summary>Its place in the entry, from 0.</summary>
    public int Line { get; set; }

    /// <summary>The deed it belongs to, from 0.</summary>
    public int Deed { get; set; }

    /// <summary>True when it takes an earlier one back.</summary>
    public bool TakenBack { get; set; }

    /// <summary>Category code.</summary>
    public required string Category { get; set; }

    /// <summary>Account given from, such as BULK:L1:V1.</summary>
    public required string FromAccount { get; set; }

    /// <summary>Account put to.</summary>
    public required string ToAccount { get; set; }

    /// <summary>Microlitres.</summary>
    public long VolumeUl { get; set; }

    /// <summary>Bottles.</summary>
    public long Bottles { get; set; }

    /// <summary>Nominal size of a bottle in microlitres.</summary>
    public long BottleUl { get; set; }

    /// <summary>Grams of fruit.</summary>
    public long Grams { get; set; }

    /// <summary>Material in its own unit.</summary>
    public long Material { get; set; }

    /// <summary>What the material is counted in: mg, ul or pieces.</summary>
    public string? Unit { get; set; }

    /// <summary>Strength stated, in hundredths of a per cent by volume.</summary>
    public int? Strength { get; set; }

    /// <summary>Product kind stated: still, carbonated, sparkling or cider.</summary>
    public string? Kind { get; set; }
}

/// <summary>A row of the table <c>contact</c>: somebody named in entries, which refer to it by number and salted hash.</summary>
public sealed class ContactRow
{
    /// <summary>1, 2, 3 … without gaps.</summary>
    public long Id { get; set; }

    /// <summary>Salted hash of the text; stays when the text is blanked.</summary>
    public required byte[] Hash { get; set; }

    /// <summary>The salt; null when blanked.</summary>
    public byte[]? Salt { get; set; }

    /// <summary>The name; null when blanked.</summary>
    public string? Text { get; set; }
}

/// <summary>The one row of the table <c>head</c>: number and hash of the last entry, kept beside the chain so that a cut-off end is noticed.</summary>
public sealed class HeadRow
{
    /// <summary>Always 1.</summary>
    public int Id { get; set; }

    /// <summary>Number of the last entry; 0 for an empty book.</summary>
    public long Number { get; set; }

    /// <summary>Its hash; 32 zero bytes for an empty book.</summary>
    public required byte[] Hash { get; set; }
}
