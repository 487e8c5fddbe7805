using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;

namespace Cellarbook.Imports;

/// <summary>What a journal file holds.</summary>
/// <param name="Events">Its events in book order; none where it is refused.</param>
/// <param name="Refusals">What is the matter with it; empty when it can be read.</param>
public sealed record JournalRead(IReadOnlyList<Imported> Events, IReadOnlyList<Refusal> Refusals)
{
    /// <summary>Its rows, those below the head.</summary>
    public int Rows { get; init; }

    /// <summary>How many refusals there are besides those listed.</summary>
    public int RefusedBesides { get; init; }
}
