using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>A bottling and what is left of it.</summary>
public sealed record BottlingLine(string Code, Volume Size, IReadOnlyList<string> Lots, DateOnly FirstDay, BottleCount Filled, IReadOnlyList<Place> Shelves)
{
    /// <summary>A bottling of the cellar; null for a code that none has.</summary>
    public static BottlingLine? Of(Cellar cellar, string code) => cellar.Bottling(code) is not { } facts ? null
        : new(code, facts.Size, [.. facts.Lots], facts.FirstDay, facts.Filled, [.. cellar.ShelvesOfBottling(code).Select(cellar.At)]);

    /// <summary>Bottles left.</summary>
    public BottleCount Left => Shelves.Aggregate(default(BottleCount), (sum, shelf) => sum + shelf.Bottles);

    /// <summary>Kind and strength of what is left, or of what last lay there.</summary>
    public Standing Standing => (Shelves.FirstOrDefault(shelf => !shelf.IsEmpty) ?? Shelves[0]).Standing;
}
