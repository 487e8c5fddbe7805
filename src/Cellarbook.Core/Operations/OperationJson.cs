using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Operations as JSON: what the API takes, what the book stores, what the hash covers. One canonical text per meaning: fields in a fixed order,
/// numbers without needless zeros, nothing that was left out.
/// </summary>
public static class OperationJson
{
    /// <summary>The operation kinds, by the word in "kind".</summary>
    public static IReadOnlyDictionary<string, Type> Kinds { get; } = new SortedDictionary<string, Type>(StringComparer.Ordinal)
    {
        ["open"] = typeof(Open), ["receive"] = typeof(Receive), ["makeUp"] = typeof(MakeUp), ["crush"] = typeof(Crush), ["press"] = typeof(Press),
        ["pitch"] = typeof(Pitch), ["measure"] = typeof(Measure), ["add"] = typeof(Add), ["deliver"] = typeof(Deliver), ["material"] = typeof(DescribeMaterial), ["takeFromStores"] = typeof(TakeFromStores), ["countStores"] = typeof(CountStores), ["mix"] = typeof(Mix), ["startKit"] = typeof(StartKit), ["observe"] = typeof(Observe), ["declareWine"] = typeof(DeclareWine),
        ["transfer"] = typeof(Transfer), ["topUp"] = typeof(TopUp), ["fortify"] = typeof(Fortify), ["sweeten"] = typeof(Sweeten), ["ameliorate"] = typeof(Ameliorate),
        ["blend"] = typeof(Blend), ["makeSparkling"] = typeof(MakeSparkling), ["gauge"] = typeof(Gauge), ["regauge"] = typeof(Regauge), ["bottle"] = typeof(Bottle),
        ["unbottle"] = typeof(Unbottle), ["shelve"] = typeof(Shelve), ["lose"] = typeof(Lose), ["remove"] = typeof(Remove), ["return"] = typeof(Return),
        ["takeAway"] = typeof(TakeAway), ["count"] = typeof(Count), ["correct"] = typeof(Correct), ["vessel"] = typeof(Vessel), ["premises"] = typeof(Premises),
        ["close"] = typeof(Close), ["describe"] = typeof(Describe), ["limitSet"] = typeof(StateLimits), ["blankContact"] = typeof(BlankContact), ["cost"] = typeof(Cost), ["imported"] = typeof(Imported),
    };

    private static readonly Dictionary<Type, string> Words = Kinds.ToDictionary(pair => pair.Value, pair => pair.Key);

    /// <summary>Settings that read and write operations.</summary>
    public static JsonSerializerOptions Options { get; } = Make(Polymorphic);

    /// <summary>The same settings with the names of people sent through a converter, for a store that keeps them apart.</summary>
    public static JsonSerializerOptions WithNames(JsonConverter<string> names) => Make(Polymorphic, People.Through(names));

    /// <summary>How quantities, days and words stand in JSON, for answers that hold them.</summary>
    public static IEnumerable<JsonConverter> Converters => QuantityConverters.All;

    /// <summary>The word of an operation's kind.</summary>
    public static string KindOf(Operation operation) => Words[operation.GetType()];

    /// <summary>The canonical text: the same for two bodies that mean the same.</summary>
    public static string Write(Operation operation) => JsonSerializer.Serialize(operation, Options);

    /// <summary>Reads what the book stored; a fault is a bug or a spoilt book.</summary>
    public static Operation Stored(string text) => JsonSerializer.Deserialize<Operation>(text, Options) ?? throw new JsonException("No operation.");

    /// <summary>Reads what somebody sent; says what is wrong with it.</summary>
    public static Operation? Read(ReadOnlySpan<byte> utf8, List<Refusal> refusals)
    {
        try
        {
            var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { MaxDepth = Options.MaxDepth });
            using var document = JsonDocument.ParseValue(ref reader);
            if (reader.BytesConsumed < utf8.Length && utf8[(int)reader.BytesConsumed..].ContainsAnyExcept(" \t\r\n"u8)) throw new JsonException("More follows after the operation.");
            return Read(document.RootElement, refusals);
        }
        catch (JsonException fault)
        {
            refusals.Add(new(RefusalCode.Unreadable, "", $"This is not one JSON object: {fault.Message.Split(" LineNumber")[0]}"));
            return null;
        }
    }

    /// <summary>Reads an operation from parsed JSON; says what is wrong with it.</summary>
    public static Operation? Read(JsonElement root, List<Refusal> refusals)
    {
        try
        {
            FieldCheck.Check(root, "", refusals);
            return refusals.Count > 0 ? null : root.Deserialize<Operation>(Options);
        }
        catch (QuantityException fault)
        {
            refusals.Add(new(fault.Code, Path(fault.Path), fault.Sentence));
        }
        catch (JsonException fault)
        {
            // A fault in a quantity is wrapped where a constructor or collection reads it.
            if (fault.InnerException is QuantityException inner) refusals.Add(new(inner.Code, Path(inner.Path ?? fault.Path), inner.Sentence));
            else refusals.Add(new(RefusalCode.Unreadable, Path(fault.Path), "This field holds something of another sort than it should."));
        }
        catch (InvalidOperationException)
        {
            // Half a character: JSON allows it to be written, but it is no text.
            refusals.Add(new(RefusalCode.Unreadable, "", "A text in it holds half a character. Write it anew."));
        }
        return null;
    }

    private static string Path(string? path) => path is null ? "" : path.TrimStart('$').TrimStart('.');

    private static JsonSerializerOptions Make(params ReadOnlySpan<Action<JsonTypeInfo>> modifiers)
    {
        var resolver = new DefaultJsonTypeInfoResolver();
        foreach (var modifier in modifiers) resolver.Modifiers.Add(modifier);
        var options = new JsonSerializerOptions
        {
            PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
            DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
            UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
            AllowOutOfOrderMetadataProperties = true,
            AllowDuplicateProperties = false,
            MaxDepth = 16,
            Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
            TypeInfoResolver = resolver,
        };
        foreach (var converter in QuantityConverters.All) options.Converters.Add(converter);
        options.MakeReadOnly();
        return options;
    }

    private static void Polymorphic(JsonTypeInfo info)
    {
        if (info.Type != typeof(Operation)) return;
        info.PolymorphismOptions = new JsonPolymorphismOptions { TypeDiscriminatorPropertyName = "kind", UnknownDerivedTypeHandling = JsonUnknownDerivedTypeHandling.FailSerialization };
        foreach (var (word, type) in Kinds) info.PolymorphismOptions.DerivedTypes.Add(new(type, word));
    }
}
