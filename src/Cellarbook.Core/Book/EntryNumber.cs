namespace Cellarbook.Core.Book;

/// <summary>The number of an entry.</summary>
public readonly record struct EntryNumber(long Number)
{
    /// <inheritdoc/>
    public override string ToString() => Number.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
