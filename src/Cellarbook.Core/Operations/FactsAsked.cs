using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Facts;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Facts that an authority asks for with a category ("must_carry"), held against what the operation says. A missing one is reported, never a
/// reason to refuse. Which field holds which fact is data: seed/records/facts_asked.csv; facts it doesn't list follow from the postings.
/// </summary>
public static class FactsAsked
{
    private static readonly Dictionary<string, (string[][] Fields, string Asked)> ByFact = Seed.Rows("seed/records/facts_asked.csv")
        .ToDictionary(row => row["fact"], row => (row["fields"].Split('|').Select(way => way.Split('&')).ToArray(), row["asked"]), StringComparer.Ordinal);

    /// <summary>What is asked for with these postings and not said, each once.</summary>
    public static IReadOnlyList<Flag> Missing(Operation operation, IEnumerable<Posting> postings)
    {
        var facts = postings.Select(posting => posting.Category).Distinct().SelectMany(category => category.MustCarry).Distinct().Where(ByFact.ContainsKey).ToArray();
        if (facts.Length == 0) return [];
        using var document = JsonDocument.Parse(OperationJson.Write(operation));
        var said = new HashSet<string>(StringComparer.Ordinal);
        Collect(document.RootElement, said);
        return [.. facts.Where(fact => !ByFact[fact].Fields.Any(way => way.All(said.Contains))).Select(fact => new Flag("fact_missing", $"For the record, {ByFact[fact].Asked} is asked for and not given."))];
    }

    private static void Collect(JsonElement element, HashSet<string> said)
    {
        if (element.ValueKind == JsonValueKind.Array)
            foreach (var item in element.EnumerateArray()) Collect(item, said);
        if (element.ValueKind != JsonValueKind.Object) return;
        foreach (var member in element.EnumerateObject())
        {
            said.Add(member.Name);
            Collect(member.Value, said);
        }
    }
}
