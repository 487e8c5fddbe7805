namespace Cellarbook.Storage;

/// <summary>Something wrong with a stored book.</summary>
/// <param name="Entry">The entry it is about; null when it is about the whole.</param>
/// <param name="Sentence">What was found.</param>
public sealed record Finding(long? Entry, Sentence Sentence)
{
    /// <inheritdoc/>
    public override string ToString() => Entry is { } number ? $"Entry {number}: {Sentence}" : Sentence.ToString();
}

/// <summary>What was found, as far as it is worth listing; the rest is counted.</summary>
internal sealed class Findings
{
    private const int MostListed = 100;
    private readonly List<Finding> list = [];

    /// <summary>The findings listed.</summary>
    public IReadOnlyList<Finding> List => list;

    /// <summary>True when something was found.</summary>
    public bool Any => list.Count > 0;

    /// <summary>Adds one.</summary>
    public void Add(long? entry, Sentence sentence)
    {
        // A book that is read again says the same again.
        if (list.Count <= MostListed && list.Contains(new(entry, sentence))) return;
        if (list.Count < MostListed) list.Add(new(entry, sentence));
        else if (list.Count == MostListed) list.Add(new(null, $"More than {MostListed} faults were found; the rest is not listed."));
    }
}
