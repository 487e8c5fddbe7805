namespace Cellarbook.Core.Book;

/// <summary>
/// Where a posting takes from or puts to. A stock account is a section with the lot (or bottling, fruit parcel, material) and the place it lies in:
/// a vessel for must and bulk wine, a shelf for bottles, the delivery for a material. A counter-account has a name alone, such as "LOSS:SPILL".
/// </summary>
public sealed record Account
{
    /// <summary>The reserved place of what lies in no named vessel or on no named shelf.</summary>
    public const string Unplaced = "unplaced";

    /// <summary>The clearing account of processes.</summary>
    public static readonly Account Process = new(Section.Process, "PROC", "");

    /// <summary>Water that goes into must or wine.</summary>
    public static readonly Account Water = new(Section.None, "MAT:WATER", "");

    /// <summary>Sugar that goes into must.</summary>
    public static readonly Account Sugar = new(Section.None, "MAT:SUGAR", "");

    /// <summary>What wine is sweetened with.</summary>
    public static readonly Account Sweetener = new(Section.None, "MAT:SWEETENER", "");

    /// <summary>Spirit: what was received less what was used is on hand.</summary>
    public static readonly Account Spirit = new(Section.None, "MAT:SPIRIT", "");

    /// <summary>What a ferment shrinks by, or grows.</summary>
    public static readonly Account Shrinkage = new(Section.None, "LOSS:FERMENT", "");

    /// <summary>What evaporates.</summary>
    public static readonly Account Evaporation = new(Section.None, "LOSS:EVAPORATION", "");

    /// <summary>What wine and spirit, or a process, come out smaller by than what went in, or larger.</summary>
    public static readonly Account Contraction = new(Section.None, "LOSS:CONTRACTION", "");

    private const string UsedPrefix = "USED:";
    private const string UnknownPrefix = "NOBATCH:";

    private readonly int hash;

    private Account(Section section, string name, string place)
    {
        Section = section;
        Name = name;
        Place = place;
        hash = HashCode.Combine(section, string.GetHashCode(name, StringComparison.Ordinal), string.GetHashCode(place, StringComparison.Ordinal));
    }

    /// <summary>The section, or none for a counter-account.</summary>
    public Section Section { get; }

    /// <summary>The lot, bottling or fruit parcel; for a counter-account its whole name.</summary>
    public string Name { get; }

    /// <summary>The vessel or shelf; empty for a counter-account.</summary>
    public string Place { get; }

    /// <summary>True when the account holds stock.</summary>
    public bool IsStock => Section.IsStock();

    /// <summary>True when what comes from it is new to the cellar: from a supplier, or brought forward.</summary>
    public bool IsOutside => Begins("EXT:") || Begins("EQUITY:");

    /// <summary>True for water, sugar, sweetener and spirit, which join must or wine and are none.</summary>
    public bool IsMatter => Begins("MAT:");

    /// <summary>True for what is lost.</summary>
    public bool IsLoss => Begins("LOSS:");

    /// <summary>True for by-products: lees, marc.</summary>
    public bool IsByProduct => Begins("BYPRODUCT:");

    /// <summary>True for the difference that a count or a gauge found.</summary>
    public bool IsAdjustment => Begins("ADJ:");

    /// <summary>True for those to whom wine goes: buyers, guests, the family, the still.</summary>
    public bool IsTaker => Begins("OUT:");

    /// <summary>True when the place is a named vessel.</summary>
    public bool InVessel => Section is Section.Must or Section.Bulk && Place != Unplaced;

    /// <summary>Must of a lot in a vessel.</summary>
    public static Account Must(string lot, string vessel) => new(Section.Must, lot, vessel);

    /// <summary>Bulk wine of a lot in a vessel.</summary>
    public static Account Bulk(string lot, string vessel) => new(Section.Bulk, lot, vessel);

    /// <summary>Bottles of a bottling on a shelf.</summary>
    public static Account Bottled(string bottling, string shelf) => new(Section.Bottled, bottling, shelf);

    /// <summary>A parcel of fruit.</summary>
    public static Account Fruit(string parcel) => new(Section.Fruit, parcel, Unplaced);

    /// <summary>A material in store, of one delivery.</summary>
    public static Account Stores(string material, string delivery) => new(Section.Stores, material, delivery);

    /// <summary>Where a material goes that was put into wine: a counter-account that names the stock account it went into.</summary>
    public static Account UsedIn(Account wine) => Counter(UsedPrefix + wine);

    /// <summary>Where a material comes from whose batch nobody knows: a counter-account of that material.</summary>
    public static Account BatchUnknown(string material) => Counter(UnknownPrefix + material);

    /// <summary>The stock account that a material was put into; null for any other account.</summary>
    public Account? WineUsedIn
    {
        get
        {
            if (!Begins(UsedPrefix) || Name.Split(':') is not [_, var section, var name, var place]) return null;
            return section switch { "MUST" => Must(name, place), "BULK" => Bulk(name, place), "BOTTLED" => Bottled(name, place), _ => null };
        }
    }

    /// <summary>The material of a delivery, or of one whose batch is unknown; null for any other account.</summary>
    public string? Material => Section == Section.Stores ? Name : Begins(UnknownPrefix) ? Name[UnknownPrefix.Length..] : null;

    /// <summary>A counter-account by its name.</summary>
    public static Account Counter(string name) => new(Section.None, name, "");

    /// <summary>A stock account of any section.</summary>
    public static Account Stock(Section section, string name, string place) =>
        section.IsStock() ? new(section, name, place) : throw new ArgumentOutOfRangeException(nameof(section));

    private bool Begins(string prefix) => Section == Section.None && Name.StartsWith(prefix, StringComparison.Ordinal);

    /// <inheritdoc/>
    public bool Equals(Account? other) => ReferenceEquals(this, other)
        || (other is not null && hash == other.hash && Section == other.Section && Name == other.Name && Place == other.Place);

    /// <inheritdoc/>
    public override int GetHashCode() => hash;

    /// <summary>"BULK:L1:V1", "BOTTLED:L1-75:cellar", "LOSS:SPILL", "PROC".</summary>
    public override string ToString() => IsStock ? $"{Section.ToString().ToUpperInvariant()}:{Name}:{Place}" : Name;
}
