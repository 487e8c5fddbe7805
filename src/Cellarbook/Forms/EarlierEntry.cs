using System.Text.Json;
using System.Text.Json.Nodes;
using Cellarbook.Core.Operations;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Forms;

/// <summary>An operation written before, laid out by path so that a form can show it filled in and write it again.</summary>
public sealed class EarlierEntry
{
    private readonly SortedDictionary<string, JsonNode> values = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> typed = new(StringComparer.Ordinal);

    /// <summary>Lays out an operation.</summary>
    public EarlierEntry(long number, Operation operation)
    {
        Number = number;
        Kind = OperationJson.KindOf(operation);
        var root = JsonNode.Parse(OperationJson.Write(operation))!.AsObject();
        foreach (var (path, text) in operation.Typed ?? new Dictionary<string, string>()) typed[path] = text;
        root.Remove("kind");
        root.Remove("typed");
        Lay("", root);
    }

    /// <summary>Number of the entry.</summary>
    public long Number { get; }

    /// <summary>Kind of its operation.</summary>
    public string Kind { get; }

    /// <summary>How many lines a list has.</summary>
    public int Lines(string list) => values.Keys.Where(path => path.StartsWith(list + "[", StringComparison.Ordinal)).Select(path => path[(list.Length + 1)..path.IndexOf(']', list.Length)]).Distinct().Count();

    /// <summary>What a field held, as it stands in the form; null where it held nothing.</summary>
    public string? Value(Field field, Show show) => field.Kind switch
    {
        FieldKind.Figure => Figure(field, show)?.Text,
        FieldKind.Place => Pair(field.Path, "lot", "vessel"),
        FieldKind.Shelf => Pair(field.Path, "bottling", "shelf"),
        FieldKind.Tick => values.Keys.Any(path => path == field.Name || path.StartsWith(field.Name + ".", StringComparison.Ordinal)) ? "true" : null,
        _ => values.TryGetValue(field.Name, out var node) ? node.ToString() : null,
    };

    /// <summary>The unit a field's figure was typed in.</summary>
    public string? Unit(Field field, Show show) => Figure(field, show)?.Unit;

    /// <summary>What no field of the form shows, by path. A field whose unit decides what it fills shows one of them.</summary>
    public IEnumerable<KeyValuePair<string, JsonNode>> Unasked(IReadOnlyList<Field> fields)
    {
        var shown = fields.Where(field => field.Kind == FieldKind.Figure).Select(field => PathOf(field)).ToHashSet(StringComparer.Ordinal);
        return values.Where(pair => !shown.Contains(pair.Key) && !fields.Any(field => field.Kind != FieldKind.Figure && field.Fills(pair.Key)));
    }

    private string? PathOf(Field field) => field.Units.Select(unit => unit.Leaf is null ? field.Name : Field.Join(field.Path, unit.Leaf)).FirstOrDefault(values.ContainsKey);

    private (string Text, string? Unit)? Figure(Field field, Show show)
    {
        if (PathOf(field) is not { } path) return null;
        if (typed.TryGetValue(path, out var asTyped) && asTyped.IndexOf(' ', StringComparison.Ordinal) is > 0 and var blank) return (asTyped[..blank], asTyped[(blank + 1)..]);
        return (show.Mark(values[path].ToString()), field.Units.First(unit => unit.IsOwn && (unit.Leaf is null || path == Field.Join(field.Path, unit.Leaf))).Name);
    }

    private string? Pair(string path, string first, string second)
    {
        if (!values.TryGetValue(Field.Join(path, first), out var name)) return null;
        return values.TryGetValue(Field.Join(path, second), out var place) ? $"{name}{FieldReading.At}{place}" : name.ToString();
    }

    private void Lay(string path, JsonNode node)
    {
        if (node is JsonObject { Count: > 0 } many)
            foreach (var (name, inner) in many) Lay(Field.Join(path, name), inner!);
        else if (node is JsonArray list)
            for (var i = 0; i < list.Count; i++) Lay($"{path}[{i}]", list[i]!);
        else values[path] = node;
    }
}
