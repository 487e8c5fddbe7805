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

/// <summary>Product kind and stated strength of the wine in a place or bottling; the strength may be unstated.</summary>
public readonly record struct Standing(ProductKind Kind, Strength? Strength)
{
    /// <summary>Still wine of unstated strength.</summary>
    public static readonly Standing Unstated = new(ProductKind.Still, null);

    /// <inheritdoc/>
    public override string ToString() => $"{Kind.ToString().ToLowerInvariant()}, {Strength?.ToString() ?? "strength not stated"}";
}
