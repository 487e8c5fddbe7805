using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Forms;

/// <summary>
/// What was filled in, by its place in the operation, before it becomes one. Lines left empty fall out; the paths
/// the book then speaks of are brought back to the lines they were typed in.
/// </summary>
public sealed partial class Slip
{
    private readonly Dictionary<string, JsonNode> values = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> typed = new(StringComparer.Ordinal);
    private readonly HashSet<string> along = new(StringComparer.Ordinal);

    /// <summary>What can't be read as it stands, by input.</summary>
    public List<Refusal> Faults { get; } = [];

    /// <summary>True when something is filled in there.</summary>
    public bool Has(string path) => values.ContainsKey(path);

    /// <summary>The text filled in, or null.</summary>
    public string? Text(string path) => values.TryGetValue(path, out var node) && node.GetValueKind() == JsonValueKind.String ? node.GetValue<string>() : null;

    /// <summary>
    /// The volume filled in, for working out what follows from it. Null where there is none, where it is finer than the book counts, and beyond a
    /// million hectolitres, which is a slip of the pen that the book is left to speak of.
    /// </summary>
    public Volume? Litres(string path) => values.TryGetValue(path, out var node) && Volume.ReadLitres(node.ToJsonString(), out var volume) == ExactNumber.Fault.None && Math.Abs(volume.Microlitres) <= 100_000_000_000_000 ? volume : null;

    /// <summary>True when somebody ticked it.</summary>
    public bool IsTicked(string path) => values.TryGetValue(path, out var node) && node.GetValueKind() == JsonValueKind.True;

    /// <summary>Fills in a text.</summary>
    public void Put(string path, string text, bool goesAlong = false) => Set(path, JsonValue.Create(text), goesAlong);

    /// <summary>Fills in a volume.</summary>
    public void Put(string path, Volume volume) => PutNumber(path, volume.Litres);

    /// <summary>Fills in yes or no.</summary>
    public void Put(string path, bool yes) => Set(path, JsonValue.Create(yes), false);

    /// <summary>Fills in a number by its invariant text, decimals kept.</summary>
    public void PutNumber(string path, string number) => Set(path, JsonNode.Parse(number)!, false);

    /// <summary>Fills in an object with nothing said in it.</summary>
    public void PutEmpty(string path) => Set(path, new JsonObject(), true);

    /// <summary>Fills in whatever JSON an earlier operation held there.</summary>
    public void PutJson(string path, JsonNode node) => Set(path, node.DeepClone(), false);

    /// <summary>Remembers how a converted figure was typed.</summary>
    public void Remember(string path, string asTyped) => typed[path] = asTyped;

    /// <summary>Takes out a field and all fields below it.</summary>
    /// <param name="path">Where.</param>
    /// <param name="itself">True to leave what is below it.</param>
    public void Drop(string path, bool itself = false)
    {
        foreach (var known in values.Keys.Where(known => known == path || (!itself && (known.StartsWith(path + ".", StringComparison.Ordinal) || known.StartsWith(path + "[", StringComparison.Ordinal)))).ToArray())
        {
            values.Remove(known);
            typed.Remove(known);
        }
    }

    /// <summary>How many lines of a list have something filled in.</summary>
    public IEnumerable<int> Lines(string list) => UsedLines().TryGetValue(list, out var used) ? used : [];

    /// <summary>The operation as JSON.</summary>
    public JsonObject Build(string kind)
    {
        var root = new JsonObject { ["kind"] = kind };
        var used = UsedLines();
        foreach (var (path, node) in values)
            if (Place(path, used) is { } final) Insert(root, final, node.DeepClone());
        var kept = new JsonObject();
        foreach (var (path, text) in typed)
            if (Place(path, used) is { } final) kept[final] = text;
        if (kept.Count > 0) root["typed"] = kept;
        return root;
    }

    /// <summary>Where a path of the operation stood in the form, before empty lines fell out.</summary>
    public string Original(string path)
    {
        var used = UsedLines();
        var text = new System.Text.StringBuilder();
        var at = 0;
        foreach (Match match in Bracket().Matches(path))
        {
            text.Append(path, at, match.Index - at);
            var line = int.Parse(match.ValueSpan[1..^1], CultureInfo.InvariantCulture);
            var original = used.TryGetValue(text.ToString(), out var lines) && line < lines.Count ? lines.ElementAt(line) : line;
            text.Append(CultureInfo.InvariantCulture, $"[{original}]");
            at = match.Index + match.Length;
        }
        return text.Append(path, at, path.Length - at).ToString();
    }

    /// <summary>The vessel that an amount at this path was to come out of; null where it was none, as with bottles and stores.</summary>
    public string? VesselDrawnFrom(string path)
    {
        var end = path.LastIndexOf('.');
        var (line, leaf) = end < 0 ? ("", path) : (path[..end], path[(end + 1)..]);
        // Bottles are filled, and wine is lost on the line, out of the one vessel that the whole is about.
        var vessel = line.StartsWith("fills[", StringComparison.Ordinal) || line.StartsWith("losses[", StringComparison.Ordinal) ? "vessel"
            : leaf is "bottles" or "kilograms" || line.StartsWith("items[", StringComparison.Ordinal) || line.StartsWith("materials[", StringComparison.Ordinal) ? null
            : leaf is "from" or "vessel" ? path + (leaf == "from" ? ".vessel" : "") : Field.Join(Original(line), "vessel");
        return vessel is not null && Text(vessel) is { } code && code != Account.Unplaced ? code : null;
    }

    private void Set(string path, JsonNode node, bool goesAlong)
    {
        values[path] = node;
        if (goesAlong) along.Add(path);
        else along.Remove(path);
    }

    private Dictionary<string, SortedSet<int>> UsedLines()
    {
        var used = new Dictionary<string, SortedSet<int>>(StringComparer.Ordinal);
        foreach (var path in values.Keys.Where(path => !along.Contains(path)))
            foreach (Match match in Bracket().Matches(path))
            {
                var list = path[..match.Index];
                if (!used.TryGetValue(list, out var lines)) used.Add(list, lines = []);
                lines.Add(int.Parse(match.ValueSpan[1..^1], CultureInfo.InvariantCulture));
            }
        return used;
    }

    /// <summary>Where a path stands once empty lines are gone; null when its own line is one of them.</summary>
    private static string? Place(string path, Dictionary<string, SortedSet<int>> used)
    {
        var text = new System.Text.StringBuilder();
        var at = 0;
        foreach (Match match in Bracket().Matches(path))
        {
            if (!used.TryGetValue(path[..match.Index], out var lines)) return null;
            var line = lines.ToList().IndexOf(int.Parse(match.ValueSpan[1..^1], CultureInfo.InvariantCulture));
            if (line < 0) return null;
            text.Append(path, at, match.Index - at).Append(CultureInfo.InvariantCulture, $"[{line}]");
            at = match.Index + match.Length;
        }
        return text.Append(path, at, path.Length - at).ToString();
    }

    private static void Insert(JsonObject root, string path, JsonNode node)
    {
        var here = root;
        var steps = path.Split('.');
        for (var i = 0; i < steps.Length; i++)
        {
            var bracket = steps[i].IndexOf('[', StringComparison.Ordinal);
            var name = bracket < 0 ? steps[i] : steps[i][..bracket];
            if (bracket < 0 && i == steps.Length - 1)
            {
                if (node is not JsonObject { Count: 0 } || here[name] is not JsonObject) here[name] = node;
                return;
            }
            if (bracket < 0)
            {
                if (here[name] is not JsonObject) here[name] = new JsonObject();
                here = (JsonObject)here[name]!;
                continue;
            }
            if (here[name] is not JsonArray list) here[name] = list = [];
            var line = int.Parse(steps[i].AsSpan(bracket + 1, steps[i].Length - bracket - 2), CultureInfo.InvariantCulture);
            while (list.Count <= line) list.Add((JsonNode)new JsonObject());
            if (i == steps.Length - 1)
            {
                list[line] = node;
                return;
            }
            here = (JsonObject)list[line]!;
        }
    }

    [GeneratedRegex(@"\[\d{1,4}\]")]
    private static partial Regex Bracket();
}
