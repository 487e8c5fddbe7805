using System.Diagnostics.CodeAnalysis;

namespace Cellarbook.Core.Book;

/// <summary>
/// A dictionary that can be forked: the fork sees what lies under it and keeps its own changes to itself until they are absorbed or dropped.
/// That is what makes a trial of an entry cheap.
/// </summary>
internal sealed class Layered<TKey, TValue>(Layered<TKey, TValue>? under = null) where TKey : notnull
{
    private Dictionary<TKey, TValue> own = [];

    /// <summary>Keys of this layer and those under it, each once.</summary>
    public IEnumerable<KeyValuePair<TKey, TValue>> Pairs
    {
        get
        {
            foreach (var pair in own) yield return pair;
            if (under is null) yield break;
            foreach (var pair in under.Pairs)
                if (!own.ContainsKey(pair.Key)) yield return pair;
        }
    }

    /// <summary>The keys alone.</summary>
    public IEnumerable<TKey> Keys => under is null ? own.Keys : Pairs.Select(pair => pair.Key);

    /// <summary>The values alone.</summary>
    public IEnumerable<TValue> Values => under is null ? own.Values : Pairs.Select(pair => pair.Value);

    public bool TryGet(TKey key, [MaybeNullWhen(false)] out TValue value) =>
        own.TryGetValue(key, out value) || (under is not null && under.TryGet(key, out value));

    public void Set(TKey key, TValue value) => own[key] = value;

    public Layered<TKey, TValue> Fork() => new(this);

    /// <summary>A copy on its own, with nothing under it.</summary>
    public Layered<TKey, TValue> Flat()
    {
        if (under is null) return new() { own = new(own) };
        var flat = under.Flat();
        flat.Absorb(this);
        return flat;
    }

    /// <summary>Takes over what a fork of this changed.</summary>
    public void Absorb(Layered<TKey, TValue> fork)
    {
        foreach (var (key, value) in fork.own) own[key] = value;
    }
}
