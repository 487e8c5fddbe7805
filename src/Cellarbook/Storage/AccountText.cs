using System.Diagnostics.CodeAnalysis;
using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Storage;

/// <summary>
/// Accounts, categories and kinds as they stand in the table <c>posting</c>: a stock account as SECTION:name:place, any other by its name.
/// Names hold no colon. Keeps one object for each text, so that a million postings share a few hundred accounts.
/// </summary>
internal sealed class AccountText
{
    private readonly Dictionary<byte[], Account> accounts = new(Utf8Comparer.Instance);
    private readonly Dictionary<byte[], Category> categories = new(Utf8Comparer.Instance);
    private readonly Dictionary<byte[], Account>.AlternateLookup<ReadOnlySpan<byte>> accountsBySpan;
    private readonly Dictionary<byte[], Category>.AlternateLookup<ReadOnlySpan<byte>> categoriesBySpan;

    public AccountText()
    {
        foreach (var category in Core.Book.Category.All) categories.Add(Encoding.UTF8.GetBytes(category.Code), category);
        accountsBySpan = accounts.GetAlternateLookup<ReadOnlySpan<byte>>();
        categoriesBySpan = categories.GetAlternateLookup<ReadOnlySpan<byte>>();
    }

    /// <summary>The account of that text; null when it is none.</summary>
    public Account? Account(ReadOnlySpan<byte> utf8)
    {
        if (accountsBySpan.TryGetValue(utf8, out var account)) return account;
        if ((account = Read(Encoding.UTF8.GetString(utf8))) is not null) accounts.Add(utf8.ToArray(), account);
        return account;
    }

    /// <summary>The category of that code; null when there is none.</summary>
    public Category? Category(ReadOnlySpan<byte> utf8) => categoriesBySpan.TryGetValue(utf8, out var category) ? category : null;

    /// <summary>Reads an account as <see cref="Account.ToString"/> writes it; null when it is none.</summary>
    public static Account? Read(string text)
    {
        var parts = text.Split(':');
        var section = parts[0] switch
        {
            "MUST" => Section.Must,
            "BULK" => Section.Bulk,
            "BOTTLED" => Section.Bottled,
            "FRUIT" => Section.Fruit,
            "STORES" => Section.Stores,
            _ => Section.None,
        };
        if (section != Section.None) return parts.Length == 3 && parts[1].Length > 0 && parts[2].Length > 0 ? Core.Book.Account.Stock(section, parts[1], parts[2]) : null;
        return text == Core.Book.Account.Process.Name ? Core.Book.Account.Process : text.Length > 0 ? Core.Book.Account.Counter(text) : null;
    }

    /// <summary>The stored word of a material's unit.</summary>
    public static ReadOnlySpan<byte> Word(MaterialUnit unit) => unit switch
    {
        MaterialUnit.Milligrams => "mg"u8,
        MaterialUnit.Microlitres => "ul"u8,
        MaterialUnit.Pieces => "pieces"u8,
        _ => throw new ArgumentOutOfRangeException(nameof(unit)),
    };

    /// <summary>The unit of a stored word; null when it is none.</summary>
    public static MaterialUnit? Unit(ReadOnlySpan<byte> word)
    {
        foreach (var unit in Enum.GetValues<MaterialUnit>())
            if (word.SequenceEqual(Word(unit))) return unit;
        return null;
    }

    /// <summary>The stored word of a kind.</summary>
    public static ReadOnlySpan<byte> Word(ProductKind kind) => kind switch
    {
        ProductKind.Still => "still"u8,
        ProductKind.Carbonated => "carbonated"u8,
        ProductKind.Sparkling => "sparkling"u8,
        ProductKind.Cider => "cider"u8,
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>The kind of a stored word; null when it is none.</summary>
    public static ProductKind? Kind(ReadOnlySpan<byte> word)
    {
        foreach (var kind in Enum.GetValues<ProductKind>())
            if (word.SequenceEqual(Word(kind))) return kind;
        return null;
    }

    private sealed class Utf8Comparer : IEqualityComparer<byte[]>, IAlternateEqualityComparer<ReadOnlySpan<byte>, byte[]>
    {
        public static readonly Utf8Comparer Instance = new();

        public bool Equals(byte[]? x, byte[]? y) => x.AsSpan().SequenceEqual(y);

        public int GetHashCode([DisallowNull] byte[] obj) => GetHashCode(obj.AsSpan());

        public bool Equals(ReadOnlySpan<byte> alternate, byte[] other) => alternate.SequenceEqual(other);

        public int GetHashCode(ReadOnlySpan<byte> alternate)
        {
            var hash = new HashCode();
            hash.AddBytes(alternate);
            return hash.ToHashCode();
        }

        public byte[] Create(ReadOnlySpan<byte> alternate) => alternate.ToArray();
    }
}
