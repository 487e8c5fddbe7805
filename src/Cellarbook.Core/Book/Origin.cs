using System.Collections.Immutable;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>Where wine came from, as far as stated: any of variety, vintage, place of growth and purchase. All empty is "unstated".</summary>
public sealed record Origin(string Variety, string Vintage, string Place, string Purchase) : IComparable<Origin>
{
    /// <summary>Nothing stated: a share like any other.</summary>
    public static readonly Origin Unstated = new("", "", "", "");

    /// <inheritdoc/>
    public int CompareTo(Origin? other)
    {
        if (other is null) return 1;
        var c = string.CompareOrdinal(Variety, other.Variety);
        if (c == 0) c = string.CompareOrdinal(Vintage, other.Vintage);
        if (c == 0) c = string.CompareOrdinal(Place, other.Place);
        return c != 0 ? c : string.CompareOrdinal(Purchase, other.Purchase);
    }

    /// <inheritdoc/>
    public override string ToString() => this == Unstated
        ? "unstated"
        : string.Join(" ", new[] { Variety, Vintage, Place, Purchase }.Where(part => part.Length > 0));
}

/// <summary>One origin's part of a wine, in 10⁻¹² of the whole.</summary>
public readonly record struct OriginShare(Origin Origin, long Parts);

/// <summary>The origins of a wine; the shares add up to one, always (law 7).</summary>
public sealed class OriginMix
{
    /// <summary>One, in the unit of shares.</summary>
    public const long Whole = 1_000_000_000_000;

    /// <summary>All of it unstated.</summary>
    public static readonly OriginMix Unstated = new([new(Origin.Unstated, Whole)]);

    private OriginMix(ImmutableArray<OriginShare> shares) => Shares = shares;

    /// <summary>The shares, in the order of their origins.</summary>
    public ImmutableArray<OriginShare> Shares { get; }

    /// <summary>A mix from weights, such as percentages or grams; they needn't add up to anything.</summary>
    public static OriginMix Of(IEnumerable<(Origin Origin, long Weight)> parts)
    {
        var sums = new SortedDictionary<Origin, long>();
        foreach (var (origin, weight) in parts) sums[origin] = checked(sums.GetValueOrDefault(origin) + weight);
        var origins = sums.Where(pair => pair.Value > 0).ToArray();
        if (origins.Length == 0) return Unstated;
        var split = LargestRemainder.Split(Whole, [.. origins.Select(pair => pair.Value)]);
        return new([.. origins.Select((pair, i) => new OriginShare(pair.Key, split[i])).Where(share => share.Parts > 0)]);
    }

    /// <summary>The mix of volumes that meet: weighted by volume, split by largest remainder.</summary>
    public static OriginMix Mix(IReadOnlyList<(OriginMix Mix, Volume Volume)> parts)
    {
        if (parts.Count == 0) return Unstated;
        var first = parts[0].Mix;
        if (parts.All(part => ReferenceEquals(part.Mix, first) || part.Mix.Shares.AsSpan().SequenceEqual(first.Shares.AsSpan()))) return first;

        // Weights are volume × share; 128 bits hold them, and are scaled down together only when 63 bits would not.
        var sums = new SortedDictionary<Origin, Int128>();
        foreach (var (mix, volume) in parts)
            foreach (var share in mix.Shares)
                sums[share.Origin] = sums.GetValueOrDefault(share.Origin) + (Int128)volume.Microlitres * share.Parts;
        Int128 total = 0;
        foreach (var sum in sums.Values) total += sum;
        if (total == 0) return first;
        var weights = new long[sums.Count];
        var shift = 0;
        while ((total >> shift) > long.MaxValue) shift++;
        var i = 0;
        foreach (var sum in sums.Values) weights[i++] = (long)(sum >> shift);
        var split = LargestRemainder.Split(Whole, weights);
        i = 0;
        return new([.. sums.Keys.Select(origin => new OriginShare(origin, split[i++])).Where(share => share.Parts > 0)]);
    }
}
