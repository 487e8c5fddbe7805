using System.Text.Json;
using System.Text.Json.Nodes;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;

namespace Cellarbook.Api;

/// <summary>Reads the short body of a vessel as the operation it is.</summary>
internal static class VesselJson
{
    public static Vessel? Read(ReadOnlyMemory<byte> bytes, string? changes, DateOnly today, List<Refusal> refusals)
    {
        JsonNode? body;
        try
        {
            body = JsonNode.Parse(bytes.Span, documentOptions: new() { MaxDepth = 16, AllowDuplicateProperties = false });
        }
        catch (JsonException)
        {
            body = null;
        }
        if (body is not JsonObject vessel)
        {
            refusals.Add(new(RefusalCode.Unreadable, "", "This is not one JSON object."));
            return null;
        }
        vessel["kind"] = "vessel";
        vessel["day"] ??= today.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
        if (changes is not null)
        {
            vessel["code"] ??= changes;
            vessel["changes"] = true;
        }
        return OperationJson.Read(JsonSerializer.SerializeToUtf8Bytes(vessel), refusals) as Vessel;
    }
}
