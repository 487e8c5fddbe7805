using System.Text.Json;
using System.Text.Json.Serialization;

namespace Cellarbook.Api;

/// <summary>A sentence in an answer of the API: English, as a text.</summary>
internal sealed class SentenceJson : JsonConverter<Sentence>
{
    public override Sentence Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options) => Sentence.Verbatim(reader.GetString() ?? "");

    public override void Write(Utf8JsonWriter writer, Sentence value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString());
}
