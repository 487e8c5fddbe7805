namespace Cellarbook.Core.Quantities;

/// <summary>Splits a whole number in proportion so that the parts always add up (law 7).</summary>
public static class LargestRemainder
{
    /// <summary>
    /// Parts of <paramref name="whole"/> in proportion to <paramref name="weights"/>: each is first cut down to the whole unit, then the units
    /// left over go one each to the largest remainders, ties to the earlier part.
    /// </summary>
    /// <param name="whole">What is split; nil or more.</param>
    /// <param name="weights">One weight per part, nil or more, not all nil.</param>
    public static long[] Split(long whole, ReadOnlySpan<long> weights)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(whole);
        Int128 total = 0;
        foreach (var w in weights)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(w, nameof(weights));
            total += w;
        }
        if (total == 0) throw new ArgumentException("All weights are nil.", nameof(weights));

        var parts = new long[weights.Length];
        var remainders = new Int128[weights.Length];
        var left = whole;
        for (var i = 0; i < parts.Length; i++)
        {
            var (part, rest) = Int128.DivRem((Int128)whole * weights[i], total);
            parts[i] = (long)part;
            remainders[i] = rest;
            left -= parts[i];
        }
        for (; left > 0; left--)
        {
            var best = 0;
            for (var i = 1; i < parts.Length; i++)
                if (remainders[i] > remainders[best]) best = i;
            parts[best]++;
            remainders[best] = -1;
        }
        return parts;
    }
}
