using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization.Metadata;

namespace Cellarbook.Core.Operations;

/// <summary>
/// The fields of an operation that name somebody. The book keeps such a name as a contact beside the sealed content, which holds the contact's
/// number and the salted hash of its text; so the text can be blanked later without breaking the seal.
/// </summary>
public static class People
{
    /// <summary>What stands where a name was blanked.</summary>
    public const string Blanked = "(blanked)";

    /// <summary>The fields, by their names in JSON.</summary>
    public static IReadOnlySet<string> Fields { get; } = new HashSet<string>(StringComparer.Ordinal) { "supplier", "recipient", "destination", "witness", "doneBy", "enteredBy" };

    /// <summary>
    /// True when what is sent means what is kept. A name that was blanked since can't be held against anything, so it counts as the same.
    /// </summary>
    /// <param name="kept">The canonical text of what the book holds.</param>
    /// <param name="sent">The canonical text of what was sent.</param>
    public static bool SameMeaning(string kept, string sent) =>
        kept == sent || (kept.Contains(Blanked, StringComparison.Ordinal) && Same(JsonNode.Parse(kept), JsonNode.Parse(sent)));

    /// <summary>The same name, as far as it is still known.</summary>
    internal static bool SameName(string? kept, string? sent) => kept == sent || (kept == Blanked && sent is not null);

    /// <summary>Sends the names through a converter of the store's.</summary>
    internal static Action<JsonTypeInfo> Through(System.Text.Json.Serialization.JsonConverter<string> names) => info =>
    {
        if (!info.Type.IsAssignableTo(typeof(Operation))) return;
        foreach (var property in info.Properties)
            if (property.PropertyType == typeof(string) && Fields.Contains(property.Name)) property.CustomConverter = names;
    };

    private static bool Same(JsonNode? kept, JsonNode? sent)
    {
        if (kept is JsonObject one && sent is JsonObject other)
            return one.Count == other.Count && one.All(member => other.TryGetPropertyValue(member.Key, out var theirs)
                && (Fields.Contains(member.Key) && IsText(member.Value) && IsText(theirs) ? SameName((string?)member.Value, (string?)theirs) : Same(member.Value, theirs)));
        if (kept is JsonArray list && sent is JsonArray others) return list.Count == others.Count && list.Zip(others).All(pair => Same(pair.First, pair.Second));
        return JsonNode.DeepEquals(kept, sent);
    }

    private static bool IsText(JsonNode? node) => node?.GetValueKind() == JsonValueKind.String;
}
