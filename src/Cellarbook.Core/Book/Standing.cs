using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>What kind of drink a wine is, whatever its strength.</summary>
public enum ProductKind : byte
{
    /// <summary>Still wine.</summary>
    Still,
    /// <summary>Wine with carbon dioxide put in.</summary>
    Carbonated,
    /// <summary>Wine with carbon dioxide of its own second fermentation.</summary>
    Sparkling,
    /// <summary>Cider, kept apart where a regime does so.</summary>
    Cider,
}

/// <summary>
/// Product kind and stated strength of the wine in a place or bottling; the strength may be unstated. Four bytes, because a book holds millions.
/// </summary>
public readonly record struct Standing
{
    /// <summary>Still wine of unstated strength.</summary>
    public static readonly Standing Unstated = new(ProductKind.Still, null);

    // One more than the hundredths, so that nil bytes mean unstated.
    private readonly short strength;

    /// <summary>A standing of a kind, with a strength or none.</summary>
    public Standing(ProductKind kind, Strength? strength)
    {
        Kind = kind;
        this.strength = (short)(strength is { } stated ? stated.Hundredths + 1 : 0);
    }

    /// <summary>The kind.</summary>
    public ProductKind Kind { get; }

    /// <summary>The strength, where stated.</summary>
    public Strength? Strength => strength == 0 ? null : new(strength - 1);

    /// <inheritdoc/>
    public override string ToString() => $"{Kind.ToString().ToLowerInvariant()}, {Strength?.ToString() ?? "strength not stated"}";
}
