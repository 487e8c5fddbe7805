using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>
/// What lies in one stock account at a moment of book order. Never changed: each entry makes a new one, so that an older moment stays as it was.
/// An emptied place stays known, for what last lay there.
/// </summary>
public sealed record Place(Account Account)
{
    /// <summary>The volume that lies here; for bottles count × size.</summary>
    public Volume Volume { get; init; }

    /// <summary>Bottles that lie here.</summary>
    public BottleCount Bottles { get; init; }

    /// <summary>Nominal size of those bottles.</summary>
    public Volume BottleSize { get; init; }

    /// <summary>Weight of fruit that lies here.</summary>
    public FruitWeight Weight { get; init; }

    /// <summary>Material of one delivery that lies here.</summary>
    public MaterialAmount Material { get; init; }

    /// <summary>What is known of that delivery; null for wine and fruit.</summary>
    public Stores.DeliveryFacts? Delivery { get; init; }

    /// <summary>What was dosed into the wine that lies here; null when nothing was.</summary>
    public Carried? Carried { get; init; }

    /// <summary>The days on which what lies here became wine; not known for wine that came in as such.</summary>
    public ProducedDays Produced { get; init; }

    /// <summary>Kind and stated strength; when empty, of what last lay here.</summary>
    public Standing Standing { get; init; } = Standing.Unstated;

    /// <summary>True when the strength was worked out from wines that met, or from what went into a process, and not stated since.</summary>
    public bool StrengthIsMixed { get; init; }

    /// <summary>The last entry that changed the standing by mixing, and the standing before it.</summary>
    public MixMark? LastMix { get; init; }

    /// <summary>Origins of what lies here.</summary>
    public OriginMix Origin { get; init; } = OriginMix.Unstated;

    /// <summary>Readings, cultures and malolactic state of the wine that lies here.</summary>
    public WineNotes Notes { get; init; } = WineNotes.None;

    /// <summary>The day something first lay here.</summary>
    public DateOnly FirstDay { get; init; }

    /// <summary>The day of the last entry that touched it.</summary>
    public DateOnly LastDay { get; init; }

    /// <summary>True when nothing lies here.</summary>
    public bool IsEmpty => Volume.IsNil && Weight.Grams == 0 && Bottles.Bottles == 0 && Material.Units == 0;
}

/// <summary>Remembers what a place stood at before wines met in it.</summary>
public sealed record MixMark(long Entry, Standing Before);

/// <summary>From the first to the last day that parts of a wine were declared; nothing when that isn't known of every part.</summary>
public readonly record struct ProducedDays(DateOnly First, DateOnly Last)
{
    /// <summary>True when the days are known.</summary>
    public bool IsKnown => First != default;

    /// <summary>The days of two wines that meet.</summary>
    internal ProducedDays Meet(ProducedDays other) => !IsKnown || !other.IsKnown ? default : new(First < other.First ? First : other.First, Last > other.Last ? Last : other.Last);
}
