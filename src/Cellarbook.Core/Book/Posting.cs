using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>
/// From one account to another, a positive quantity, a category (law 1). Liquid moves as volume; bottles move as count × nominal size; fruit by
/// weight; materials in the unit they are counted in. What was stated with it (strength, kind) belongs to the volume received, or to the whole stock that gives when no stock receives.
/// </summary>
public sealed record Posting(Account From, Account To, Category Category)
{
    // Kept small: a book holds millions of these. Liquid, weight or material, never two; one more than the hundredths, nil when unstated.
    private readonly long amount;
    private readonly int bottles;
    private readonly short strength;
    private readonly sbyte kind; // or the unit of a material

    /// <summary>Volume moved; for bottles count × size.</summary>
    public Volume Volume { get => IsFruit || Category.IsOfStores ? default : new(amount); init => amount = value.IsNil ? amount : value.Microlitres; }

    /// <summary>Bottles moved, on a bottled side.</summary>
    public BottleCount Bottles { get => new(bottles); init => bottles = checked((int)value.Bottles); }

    /// <summary>Nominal size of a bottle, on a bottled side: volume over count.</summary>
    public Volume BottleSize => bottles == 0 ? default : new(amount / bottles);

    /// <summary>Weight of fruit moved.</summary>
    public FruitWeight Weight { get => IsFruit ? new(amount) : default; init => amount = value.Grams == 0 ? amount : value.Grams; }

    /// <summary>Amount of material moved.</summary>
    public MaterialAmount Material { get => Category.IsOfStores ? new(amount) : default; init => amount = value.Units == 0 ? amount : value.Units; }

    /// <summary>What the material moved is counted in; null when no material is moved.</summary>
    public MaterialUnit? MaterialUnit { get => Category.IsOfStores && kind != 0 ? (MaterialUnit)(kind - 1) : null; init => kind = value is { } unit ? (sbyte)((int)unit + 1) : kind; }

    /// <summary>Strength stated with it.</summary>
    public Strength? Strength { get => strength == 0 ? null : new(strength - 1); init => strength = (short)(value is { } stated ? stated.Hundredths + 1 : 0); }

    /// <summary>Kind stated with it.</summary>
    public ProductKind? Kind { get => kind == 0 || Category.IsOfStores ? null : (ProductKind)(kind - 1); init => kind = value is { } stated ? (sbyte)((int)stated + 1) : kind; }

    /// <summary>True when this is a taken-back posting: accounts swapped, counted against the category it came with.</summary>
    public bool IsTakenBack { get; init; }

    private bool IsFruit => From.Section == Section.Fruit || To.Section == Section.Fruit;

    /// <summary>The same move the other way, as a take-back.</summary>
    public Posting TakenBack() => new(To, From, Category) { Volume = Volume, Bottles = Bottles, Weight = Weight, Material = Material, MaterialUnit = MaterialUnit, IsTakenBack = true };
}
