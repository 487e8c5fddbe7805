using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Wording;

/// <summary>A term of the field or of bookkeeping in plain words: a row of seed/screens/words.csv.</summary>
/// <param name="Code">Its code, such as "free-so2".</param>
/// <param name="Name">The term.</param>
/// <param name="Plain">What it means. Where a law defines the term, the law's words hold.</param>
/// <param name="Met">Paths of the pages it is met on.</param>
/// <param name="IsOfTax">True for a term that only a licensed maker's book uses.</param>
public sealed record Term(string Code, Sentence Name, Sentence Plain, IReadOnlyList<string> Met, bool IsOfTax)
{
    /// <summary>All of them, in the order of their English names.</summary>
    public static IReadOnlyList<Term> All { get; } =
        [.. Seed.Rows("seed/screens/words.csv").Select(Of).OrderBy(term => term.Name.ToString(), StringComparer.OrdinalIgnoreCase)];

    /// <summary>The terms that belong to a page.</summary>
    /// <param name="path">Its path: the page's own, or else that of the nearest page above it.</param>
    /// <param name="household">True to leave out those of tax.</param>
    public static IReadOnlyList<Term> On(string path, bool household)
    {
        for (var at = path.TrimEnd('/'); at.Length > 0; at = at[..at.LastIndexOf('/')])
            if (All.Where(term => term.Met.Contains(at) && !(household && term.IsOfTax)).ToArray() is { Length: > 0 } found) return found;
        return [];
    }

    private static Term Of(IReadOnlyDictionary<string, string> row) =>
        new(row["code"], Sentence.Seed(row["term"]), Sentence.Seed(row["plain"]), row["met"].Split(' ', StringSplitOptions.RemoveEmptyEntries), row["for"] == "licensed");
}
