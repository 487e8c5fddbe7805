namespace Cellarbook.Core.Book;

/// <summary>
/// Why something was not recorded: a stable code, where it stands in what was sent, and a sentence that says what is the matter and what to do.
/// </summary>
/// <param name="Code">One of <see cref="RefusalCode"/>.</param>
/// <param name="Path">The field, such as "sources[0].litres"; empty when it is about the whole.</param>
/// <param name="Sentence">For the person who typed it.</param>
public sealed record Refusal(RefusalCode Code, string Path, Sentence Sentence)
{
    /// <summary>Row of an imported file, counted from 1 below the head; null elsewhere.</summary>
    public int? Row { get; init; }

    /// <summary>Entries that stand in the way, by number.</summary>
    public IReadOnlyList<long> Entries { get; init; } = [];
}
