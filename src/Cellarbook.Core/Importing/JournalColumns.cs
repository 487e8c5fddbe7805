using Cellarbook.Core.Book;

namespace Cellarbook.Core.Importing;

/// <summary>The columns of a journal file: any order, unknown ones refused. Listed with their meaning in api-docs/columns.md.</summary>
public sealed class JournalColumns
{
    /// <summary>Always needed.</summary>
    public static IReadOnlyList<string> Required { get; } = ["event_id", "date", "category", "volume_ml"];

    /// <summary>Needed where the category's stock sides need them, or optional.</summary>
    public static IReadOnlyList<string> Optional { get; } =
        ["row", "entered_on", "entered_by", "lot_from", "vessel_from", "lot_to", "vessel_to", "bottles", "bottle_ml", "abv_pct", "reverses", "document", "note", "from_account", "to_account"];

    private readonly Dictionary<string, int> at;

    private JournalColumns(Dictionary<string, int> at) => this.at = at;

    /// <summary>How many fields a row must have.</summary>
    public int Count => at.Count;

    /// <summary>Reads a head; says what is wrong with it.</summary>
    public static JournalColumns? Read(IReadOnlyList<string> head, List<Refusal> refusals)
    {
        var at = new Dictionary<string, int>(StringComparer.Ordinal);
        for (var i = 0; i < head.Count; i++)
        {
            var name = head[i].Trim().TrimStart('\uFEFF');
            if (!Required.Contains(name) && !Optional.Contains(name)) refusals.Add(new(RefusalCode.UnknownColumn, name, $"There is no column “{Operations.Names.Shown(name)}”. Known are {string.Join(", ", Required.Concat(Optional))}."));
            else if (!at.TryAdd(name, i)) refusals.Add(new(RefusalCode.UnknownColumn, name, $"Column {name} stands twice in the head."));
        }
        foreach (var name in Required)
            if (!at.ContainsKey(name)) refusals.Add(new(RefusalCode.MissingColumn, name, $"Column {name} is missing."));
        return refusals.Count == 0 ? new(at) : null;
    }

    /// <summary>True when the file has the column.</summary>
    public bool Has(string column) => at.ContainsKey(column);

    /// <summary>A field by column, without blanks around it; empty where the file has no such column.</summary>
    internal string Field(IReadOnlyList<string> fields, string column) => at.TryGetValue(column, out var i) ? fields[i].Trim() : "";
}
