using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>
/// From one account to another, a positive quantity, a category (law 1). Liquid moves as volume; bottles move as count × nominal size; fruit by
/// weight. What was stated with it (strength, kind) belongs to the volume received, or to the whole stock that gives when no stock receives.
/// </summary>
public sealed record Posting(Account From, Account To, Category Category)
{
    /// <summary>Volume moved; for bottles count × size.</summary>
    public Volume Volume { get; init; }

    /// <summary>Bottles moved, on a bottled side.</summary>
    public BottleCount Bottles { get; init; }

    /// <summary>Nominal size of a bottle, on a bottled side.</summary>
    public Volume BottleSize { get; init; }

    /// <summary>Weight of fruit moved.</summary>
    public FruitWeight Weight { get; init; }

    /// <summary>Strength stated with it.</summary>
    public Strength? Strength { get; init; }

    /// <summary>Kind stated with it.</summary>
    public ProductKind? Kind { get; init; }

    /// <summary>True when this is a taken-back posting: accounts swapped, counted against the category it came with.</summary>
    public bool IsTakenBack { get; init; }

    /// <summary>The same move the other way, as a take-back.</summary>
    public Posting TakenBack() => new(To, From, Category) { Volume = Volume, Bottles = Bottles, BottleSize = BottleSize, Weight = Weight, IsTakenBack = true };
}
