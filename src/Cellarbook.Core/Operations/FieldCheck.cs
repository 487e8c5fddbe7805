using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Cellarbook.Core.Book;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Looks through a body before it is read: unknown kinds and fields, fields named twice and texts that are too long get a path of their own.
/// </summary>
internal static class FieldCheck
{
    /// <summary>The longest text in a field.</summary>
    public const int LongestText = 4_000;

    public static void Check(JsonElement element, string path, List<Refusal> refusals)
    {
        if (element.ValueKind != JsonValueKind.Object)
        {
            refusals.Add(new(RefusalCode.Unreadable, path, "An operation is a JSON object."));
            return;
        }
        if (!element.TryGetProperty("kind", out var kind) || kind.ValueKind != JsonValueKind.String)
        {
            refusals.Add(new(RefusalCode.Missing, Deciding.Join(path, "kind"), $"Say what was done: one of {KindList}."));
            return;
        }
        if (!OperationJson.Kinds.TryGetValue(kind.GetString()!, out var type) || type == typeof(Imported))
        {
            refusals.Add(new(RefusalCode.UnknownKind, Deciding.Join(path, "kind"), $"“{Names.Shown(kind.GetString()!)}” is no operation. Use one of {KindList}."));
            return;
        }
        Members(element, type, path, refusals);
        if (!element.TryGetProperty("day", out _)) refusals.Add(new(RefusalCode.Missing, Deciding.Join(path, "day"), "Give the day it happened."));
    }

    private static string KindList => string.Join(", ", OperationJson.Kinds.Keys.Where(word => word != "imported"));

    private static void Members(JsonElement element, Type type, string path, List<Refusal> refusals)
    {
        var info = OperationJson.Options.GetTypeInfo(type);
        if (info.Kind != JsonTypeInfoKind.Object) return;
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var member in element.EnumerateObject())
        {
            var at = Deciding.Join(path, member.Name);
            if (!seen.Add(member.Name)) refusals.Add(new(RefusalCode.Unreadable, at, "This field stands twice."));
            var property = info.Properties.FirstOrDefault(property => property.Name == member.Name);
            if (property is not null) Value(member.Value, property.PropertyType, at, refusals);
            else if (member.Name != "kind" || !type.IsAssignableTo(typeof(Operation)))
                refusals.Add(new(RefusalCode.UnknownField, at, $"There is no field “{Names.Shown(member.Name)}” here. Check the spelling; known are {string.Join(", ", info.Properties.Select(known => known.Name))}."));
        }
    }

    private static void Value(JsonElement value, Type type, string path, List<Refusal> refusals)
    {
        if (value.ValueKind == JsonValueKind.String && value.GetString()!.Length > LongestText) refusals.Add(new(RefusalCode.TooLarge, path, $"A text has at most {LongestText} characters."));
        var item = type.IsGenericType && type.GetGenericTypeDefinition() == typeof(IReadOnlyList<>) ? type.GetGenericArguments()[0] : null;
        if (value.ValueKind == JsonValueKind.Array && item is not null)
        {
            var i = 0;
            foreach (var element in value.EnumerateArray())
            {
                if (element.ValueKind == JsonValueKind.Null) refusals.Add(new(RefusalCode.Unreadable, $"{path}[{i}]", "An empty place stands in this list. Leave it out."));
                Value(element, item, $"{path}[{i++}]", refusals);
            }
            return;
        }
        if (value.ValueKind != JsonValueKind.Object) return;
        var inner = item ?? type;
        if (inner == typeof(Operation)) Check(value, path, refusals);
        else Members(value, Nullable.GetUnderlyingType(inner) ?? inner, path, refusals);
    }
}
