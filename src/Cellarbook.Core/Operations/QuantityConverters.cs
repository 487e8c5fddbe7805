using System.Buffers.Text;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>A figure or day in JSON that can't be taken as it stands.</summary>
public sealed class QuantityException : JsonException
{
    /// <summary>With the code and sentence of the refusal it becomes at the border.</summary>
    public QuantityException(RefusalCode code, Sentence sentence) : base(sentence.ToString())
    {
        Code = code;
        Sentence = sentence;
    }

    /// <summary>The code.</summary>
    public RefusalCode Code { get; }

    /// <summary>The sentence.</summary>
    public Sentence Sentence { get; }
}

/// <summary>How typed quantities stand in JSON: plain decimal numbers, exact to the smallest unit; finer is refused, never rounded.</summary>
internal static class QuantityConverters
{
    private delegate ExactNumber.Fault ReadText<T>(ReadOnlySpan<char> text, out T value);

    public static IEnumerable<JsonConverter> All =>
    [
        new Number<Volume>("litres", Volume.ReadLitres, volume => volume.Litres),
        new Number<Millilitres>("millilitres", (ReadOnlySpan<char> text, out Millilitres value) => { var fault = Volume.ReadMillilitres(text, out var volume); value = new(volume); return fault; }, millilitres => millilitres.Text),
        new Number<Strength>("% vol between 0 and 100", Strength.ReadPercent, strength => strength.Percent),
        new Number<BottleCount>("whole bottles", (ReadOnlySpan<char> text, out BottleCount value) => { var fault = ExactNumber.Read(text, 0, out var units); value = new(units); return fault == ExactNumber.Fault.None && Math.Abs(units) > 1_000_000_000 ? ExactNumber.Fault.TooLarge : fault; }, bottles => bottles.ToString()),
        new Number<Mass>("grams", Mass.ReadGrams, mass => mass.Grams),
        new Number<FruitWeight>("kilograms", FruitWeight.ReadKilograms, weight => weight.Kilograms),
        new Number<Money>("an amount of money", Money.Read, money => money.Text),
        new Number<Percent>("per cent between 0 and 100", Percent.Read, percent => percent.Text),
        new Number<Reading>("the reading", Reading.Read, reading => reading.Text),
        new Days(),
        new Times(),
        new References(),
        new Word<ProductKind>(),
        new Word<Malolactic>(),
        new OneOrMore(),
    ];

    private sealed class Number<T>(Sentence what, ReadText<T> read, Func<T, string> write) : JsonConverter<T> where T : struct
    {
        public override T Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType != JsonTokenType.Number) throw new QuantityException(RefusalCode.NotANumber, $"Give {what} as a plain number with a point, such as 22.4.");
            var raw = reader.HasValueSequence ? Encoding.UTF8.GetString(System.Buffers.BuffersExtensions.ToArray(reader.ValueSequence)) : Encoding.UTF8.GetString(reader.ValueSpan);
            return read(raw, out var value) switch
            {
                ExactNumber.Fault.None => value,
                ExactNumber.Fault.TooFine => throw new QuantityException(RefusalCode.TooFine, $"{Names.Shown(raw)} is finer than the book counts ({what}). Round it yourself; the book never does."),
                ExactNumber.Fault.TooLarge => throw new QuantityException(RefusalCode.TooLargeNumber, $"{Names.Shown(raw)} is out of range for {what}."),
                _ => throw new QuantityException(RefusalCode.NotANumber, $"Give {what} as a plain number with a point, such as 22.4."),
            };
        }

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteRawValue(write(value), skipInputValidation: true);
    }

    private sealed class Days : JsonConverter<DateOnly>
    {
        public override DateOnly Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType == JsonTokenType.String && DateOnly.TryParseExact(reader.GetString(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) && day.Year >= 1900) return day;
            throw new QuantityException(RefusalCode.NoSuchDay, "There is no such day. Write it as \"2026-03-01\".");
        }

        public override void Write(Utf8JsonWriter writer, DateOnly value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
    }

    private sealed class Times : JsonConverter<TimeOnly>
    {
        public override TimeOnly Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType == JsonTokenType.String && TimeOnly.TryParseExact(reader.GetString(), ["HH:mm", "HH:mm:ss"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)) return time;
            throw new QuantityException(RefusalCode.NoSuchDay, "There is no such time. Write it as \"14:30\".");
        }

        public override void Write(Utf8JsonWriter writer, TimeOnly value, JsonSerializerOptions options) => writer.WriteStringValue(value.ToString(value.Second == 0 ? "HH:mm" : "HH:mm:ss", CultureInfo.InvariantCulture));
    }

    /// <summary>An entry by number, or by imported event id.</summary>
    private sealed class References : JsonConverter<EntryReference>
    {
        public override EntryReference Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType == JsonTokenType.String) return new(null, reader.GetString());
            if (reader.TokenType == JsonTokenType.Number && reader.TryGetInt64(out var number)) return new(number, null);
            throw new QuantityException(RefusalCode.UnknownEntry, "Give the number of the entry, or the id of the imported event.");
        }

        public override void Write(Utf8JsonWriter writer, EntryReference value, JsonSerializerOptions options)
        {
            if (value.Number is { } number) writer.WriteNumberValue(number);
            else writer.WriteStringValue(value.EventId);
        }
    }

    private sealed class Word<T> : JsonConverter<T> where T : struct, Enum
    {
        public override T Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType == JsonTokenType.String)
                foreach (var value in Enum.GetValues<T>())
                    if (JsonNamingPolicy.CamelCase.ConvertName(value.ToString()) == reader.GetString()) return value;
            throw new QuantityException(RefusalCode.UnknownWord, $"Use one of {string.Join(", ", Enum.GetNames<T>().Select(JsonNamingPolicy.CamelCase.ConvertName))}.");
        }

        public override void Write(Utf8JsonWriter writer, T value, JsonSerializerOptions options) => writer.WriteStringValue(JsonNamingPolicy.CamelCase.ConvertName(value.ToString()));
    }

    /// <summary>What a correction writes: one operation or several.</summary>
    private sealed class OneOrMore : JsonConverter<IReadOnlyList<Operation>>
    {
        public override IReadOnlyList<Operation>? Read(ref Utf8JsonReader reader, Type type, JsonSerializerOptions options)
        {
            if (reader.TokenType == JsonTokenType.StartArray) return JsonSerializer.Deserialize<Operation[]>(ref reader, options) is { Length: > 0 } several ? several : null;
            return JsonSerializer.Deserialize<Operation>(ref reader, options) is { } one ? [one] : null;
        }

        public override void Write(Utf8JsonWriter writer, IReadOnlyList<Operation> value, JsonSerializerOptions options)
        {
            if (value.Count == 1) JsonSerializer.Serialize(writer, value[0], options);
            else JsonSerializer.Serialize(writer, value.ToArray(), options);
        }
    }
}
