using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>So much of a material, from a delivery or none named.</summary>
public sealed record MaterialUse
{
    /// <summary>The material, by its code or name.</summary>
    public string? Material { get; init; }

    /// <summary>The delivery; left out: the oldest in store; "unknown" for none in the book.</summary>
    public string? Delivery { get; init; }

    /// <summary>Weight, of what is counted in grams.</summary>
    public Mass? Grams { get; init; }

    /// <summary>Volume, of what is counted in millilitres.</summary>
    public Millilitres? Millilitres { get; init; }

    /// <summary>Pieces, of what is counted so.</summary>
    public Reading? Pieces { get; init; }

    internal SaidAmount Said => new(Grams, Millilitres, Pieces, null, null);

    /// <summary>The material, how much of it, and the field that says so, for a volume that isn't a rate's; null, and refused, when that can't be told.</summary>
    internal (Material Material, MaterialAmount Amount, string At)? Find(Deciding deciding, string path, bool mayBeNil = false)
    {
        if (deciding.MaterialOf(Material, path) is not { } material) return null;
        if (Said.Says) return Said.Of(deciding, material, Volume.None, path, mayBeNil) is { } amount ? (material, amount, Deciding.Join(path, Said.Leaf)) : null;
        deciding.Refuse(Book.RefusalCode.Missing, Deciding.Join(path, material.UnitWord), "Say how much.");
        return null;
    }
}
