using System.Collections.Immutable;

namespace Cellarbook.Core.Book;

/// <summary>What is known of the malolactic fermentation.</summary>
public enum Malolactic
{
    /// <summary>Nothing said.</summary>
    Unknown,
    /// <summary>Not wanted in this wine.</summary>
    Unwanted,
    /// <summary>Under way.</summary>
    UnderWay,
    /// <summary>Done, by a test the entry names.</summary>
    Done,
}

/// <summary>
/// What was read of, pitched into and done to the wine in a place. It belongs to the wine and follows it: into an empty place whole; where
/// wines meet, cultures join and readings lapse, because a reading of one part is no reading of the mix.
/// </summary>
public sealed record WineNotes
{
    /// <summary>Nothing noted.</summary>
    public static readonly WineNotes None = new();

    /// <summary>Latest value of each measure, with the entry that read it.</summary>
    public ImmutableSortedDictionary<string, NotedReading> Readings { get; init; } = ImmutableSortedDictionary<string, NotedReading>.Empty;

    /// <summary>The gravity read before the latest one, to tell whether it falls.</summary>
    public NotedReading? GravityBefore { get; init; }

    /// <summary>Entries of additions made to this wine, in book order.</summary>
    public ImmutableList<long> Additions { get; init; } = [];

    /// <summary>Names of cultures pitched.</summary>
    public ImmutableSortedSet<string> Cultures { get; init; } = [];

    /// <summary>Malolactic state.</summary>
    public Malolactic Malolactic { get; init; }

    /// <summary>Colour as last stated: white, rosé, red; null when not stated, or when wines of different colours met.</summary>
    public string? Colour { get; init; }

    /// <summary>Schemes, cases, zone and type as stated.</summary>
    public StatedFacts Facts { get; init; } = StatedFacts.None;

    /// <summary>What the must read when sugar first went in, by the reading's name; null where nothing was read, it was pitched already, or none went in.</summary>
    public (string Name, NotedReading Reading)? ReadBeforeSugar { get; init; }

    /// <summary>What a must reads that no yeast was pitched into; null where nothing was read.</summary>
    internal (string Name, NotedReading Reading)? ReadUnfermented
    {
        get
        {
            foreach (var name in Cultures.IsEmpty ? MustReadings : [])
                if (Readings.TryGetValue(name, out var reading)) return (name, reading);
            return null;
        }
    }

    private static readonly string[] MustReadings = ["gravity", "oechsle", "brix"];

    /// <summary>What the packets allow of which something is in this wine, by code.</summary>
    public ImmutableList<Limits.LimitSet> Packets { get; init; } = [];

    /// <summary>With what one more packet allows.</summary>
    internal WineNotes Holding(Limits.LimitSet packet) => Packets.Contains(packet) ? this : this with { Packets = Ordered(Packets.Add(packet)) };

    private static ImmutableList<Limits.LimitSet> Ordered(IEnumerable<Limits.LimitSet> packets) => [.. packets.OrderBy(packet => packet.Code, StringComparer.Ordinal)];

    /// <summary>Entries of both, each once: in time that grows with their number, because in a solera every cask has them all.</summary>
    private static ImmutableList<long> Joined(ImmutableList<long> one, ImmutableList<long> other)
    {
        if (ReferenceEquals(one, other) || other.IsEmpty) return one;
        if (one.IsEmpty) return other;
        var known = new HashSet<long>(one);
        var more = other.Where(entry => !known.Contains(entry)).ToArray();
        return more.Length == 0 ? one : one.AddRange(more);
    }

    /// <summary>The notes of wines that meet.</summary>
    public WineNotes Meet(WineNotes other)
    {
        if (ReferenceEquals(this, other)) return this;
        if (ReferenceEquals(other, None) && ReferenceEquals(this, None)) return None;
        return new WineNotes
        {
            Readings = Readings.RemoveRange(Readings.Where(pair => !other.Readings.TryGetValue(pair.Key, out var theirs) || theirs != pair.Value).Select(pair => pair.Key)),
            GravityBefore = GravityBefore == other.GravityBefore ? GravityBefore : null,
            Additions = Joined(Additions, other.Additions),
            Cultures = Cultures.Union(other.Cultures),
            Malolactic = Malolactic == other.Malolactic ? Malolactic : Malolactic.Unknown,
            Colour = Colour == other.Colour ? Colour : null,
            Facts = Facts.Meet(other.Facts),
            ReadBeforeSugar = ReadBeforeSugar == other.ReadBeforeSugar ? ReadBeforeSugar : null,
            Packets = other.Packets.TrueForAll(Packets.Contains) ? Packets : Ordered(Packets.Union(other.Packets)),
        };
    }
}

/// <summary>A reading as noted: the figure as the operation states it, and where it stands in the book.</summary>
/// <param name="Text">The figure in the unit of its name, such as "1.050".</param>
/// <param name="Entry">Number of the entry.</param>
/// <param name="Day">Day of the reading.</param>
public sealed record NotedReading(string Text, long Entry, DateOnly Day);
