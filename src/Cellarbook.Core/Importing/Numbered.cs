namespace Cellarbook.Core.Importing;

/// <summary>Things of a file by number, one copy each, because they come again and again; number nil is nothing.</summary>
/// <param name="nothing">What stands at nil.</param>
/// <param name="comparer">Which are the same.</param>
internal sealed class Numbered<T>(T nothing, IEqualityComparer<T>? comparer = null)
    where T : class
{
    private readonly Dictionary<T, int> numbers = new(comparer) { [nothing] = 0 };
    private readonly List<T> all = [nothing];

    public IReadOnlyList<T> All => all;

    public int Count => all.Count;

    public T this[int number] => all[number];

    /// <summary>The number of one, met before or not; nil for null.</summary>
    public int Of(T? one)
    {
        if (one is null) return 0;
        if (numbers.TryGetValue(one, out var known)) return known;
        numbers.Add(one, all.Count);
        all.Add(one);
        return all.Count - 1;
    }
}
