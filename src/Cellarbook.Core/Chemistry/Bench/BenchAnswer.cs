namespace Cellarbook.Core.Chemistry;

/// <summary>What a calculator answers: explained results, and a refusal for each figure it can't give.</summary>
/// <param name="Results">Numbers that can be opened.</param>
/// <param name="Refusals">Why a figure is missing; when there are no results, why the whole is refused.</param>
public sealed record BenchAnswer(IReadOnlyList<Explained> Results, IReadOnlyList<BenchRefusal> Refusals)
{
    /// <summary>True when nothing could be answered.</summary>
    public bool IsRefused => Results.Count == 0;

    /// <summary>The result of that name, or null.</summary>
    public Explained? Find(string name)
    {
        foreach (Explained result in Results)
        {
            if (string.Equals(result.Name, name, StringComparison.Ordinal))
            {
                return result;
            }
        }

        return null;
    }
}
