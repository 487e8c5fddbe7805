using System.Text;
using System.Text.Json.Nodes;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Tests.Diary;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Operations;

/// <summary>Operations as JSON: one canonical text per meaning, and whatever is sent is an operation or a refusal, never an exception.</summary>
public class OperationJsonTests
{
    private static readonly string[] Examples = [.. EveryKindTests.Examples.Select(row => row.Data.Item2).Select(json => json.Contains("\"day\"", StringComparison.Ordinal) ? json : json.Replace("{\"kind\"", "{\"day\":\"2026-03-05\",\"kind\"", StringComparison.Ordinal))];

    private static (Operation? Operation, List<Refusal> Refusals) Read(string json) => Read(Encoding.UTF8.GetBytes(json));

    private static (Operation? Operation, List<Refusal> Refusals) Read(byte[] utf8)
    {
        var refusals = new List<Refusal>();
        var operation = OperationJson.Read(utf8, refusals);
        // One of the two, never both and never neither.
        Assert.Equal(operation is null, refusals.Count > 0);
        Assert.All(refusals, refusal => Assert.False(string.IsNullOrWhiteSpace(refusal.Sentence.ToString())));
        return (operation, refusals);
    }

    [Theory]
    [InlineData("""{"kind":"gauge","day":"2026-03-05","vessel":"T1","litres":22.4}""", """{"litres":22.400000,"vessel":"T1","kind":"gauge","day":"2026-03-05"}""")]
    [InlineData("""{"kind":"gauge","day":"2026-03-05","vessel":"T1","litres":2240}""", """ { "kind": "gauge", "day": "2026-03-05", "vessel": "T\u0031", "litres": 2.24E3, "note": null } """)]
    [InlineData("""{"kind":"correct","day":"2026-03-05","takesBack":3,"reason":"x","write":{"kind":"gauge","day":"2026-03-05","vessel":"T1","litres":1}}""", """{"kind":"correct","day":"2026-03-05","takesBack":3,"reason":"x","write":[{"kind":"gauge","day":"2026-03-05","vessel":"T1","litres":1}]}""")]
    public void Two_bodies_that_mean_the_same_are_one_text(string one, string other) =>
        Assert.Equal(OperationJson.Write(Read(one).Operation!), OperationJson.Write(Read(other).Operation!));

    [Fact]
    public void A_reading_keeps_the_decimals_it_was_read_to() =>
        Assert.Contains("\"gravity\":1.050", OperationJson.Write(Read("""{"kind":"measure","day":"2026-03-05","lot":"L1","gravity":1.050}""").Operation!), StringComparison.Ordinal);

    [Theory]
    [InlineData("", RefusalCode.Unreadable, "")]
    [InlineData("null", RefusalCode.Unreadable, "")]
    [InlineData("[]", RefusalCode.Unreadable, "")]
    [InlineData("{}", RefusalCode.Missing, "kind")]
    [InlineData("""{"kind":7}""", RefusalCode.Missing, "kind")]
    [InlineData("""{"kind":"gauge"}""", RefusalCode.Missing, "day")]
    [InlineData("""{"kind":"gauge","day":"2026-03-05"} {}""", RefusalCode.Unreadable, "")]
    [InlineData("""{"kind":"gauge","day":"2026-03-05","vessel":"A","vessel":"B"}""", RefusalCode.Unreadable, "vessel")]
    [InlineData("""{"kind":"gauge","kind":"lose","day":"2026-03-05"}""", RefusalCode.Unreadable, "kind")]
    [InlineData("""{"kind":"gauge","day":"2026-03-05","vessel":{"code":"A"}}""", RefusalCode.Unreadable, "vessel")]
    [InlineData("""{"kind":"gauge","day":"2026-03-05","estimated":"yes"}""", RefusalCode.Unreadable, "estimated")]
    [InlineData("""{"kind":"gauge","day":null}""", RefusalCode.NoSuchDay, "day")]
    [InlineData("""{"kind":"gauge","day":"2026-03-05","time":"25:00"}""", RefusalCode.NoSuchDay, "time")]
    [InlineData("""{"kind":"transfer","day":"2026-03-05","sources":[null]}""", RefusalCode.Unreadable, "sources[0]")]
    [InlineData("""{"kind":"transfer","day":"2026-03-05","sources":[{"lot":"L1","litre":1}]}""", RefusalCode.UnknownField, "sources[0].litre")]
    [InlineData("""{"kind":"transfer","day":"2026-03-05","sources":[{"lot":"L1","litres":"1"}]}""", RefusalCode.NotANumber, "sources[0].litres")]
    [InlineData("""{"kind":"correct","day":"2026-03-05","takesBack":1.5,"reason":"x"}""", RefusalCode.UnknownEntry, "takesBack")]
    [InlineData("""{"kind":"correct","day":"2026-03-05","takesBack":1,"reason":"x","write":[null]}""", RefusalCode.Unreadable, "write[0]")]
    [InlineData("""{"kind":"correct","day":"2026-03-05","takesBack":1,"reason":"x","write":{"kind":"gauge","vessel":"T1","litres":1}}""", RefusalCode.Missing, "write.day")]
    [InlineData("""{"kind":"correct","day":"2026-03-05","takesBack":1,"reason":"x","write":{"kind":"imported","day":"2026-03-05"}}""", RefusalCode.UnknownKind, "write.kind")]
    [InlineData("""{"kind":"observe","day":"2026-03-05","lot":"\uD800","what":"taste"}""", RefusalCode.Unreadable, "")]
    [InlineData("""{"kind":"observe","day":"2026-03-05","\uDC00":"x","what":"taste"}""", RefusalCode.Unreadable, "")]
    [InlineData("""{"kind":"regauge","day":"2026-03-05","lot":"L1","abv":100.01}""", RefusalCode.TooLargeNumber, "abv")]
    [InlineData("""{"kind":"regauge","day":"2026-03-05","lot":"L1","product":"Still"}""", RefusalCode.UnknownWord, "product")]
    [InlineData("""{"kind":"remove","day":"2026-03-05","as":"sold","bottling":"B","bottles":1.5}""", RefusalCode.TooFine, "bottles")]
    public void What_is_wrong_is_said_with_its_place(string json, RefusalCode code, string path)
    {
        var first = Read(json).Refusals[0];
        Assert.Equal((code, path), (first.Code, first.Path));
    }

    [Fact]
    public void Deep_nesting_and_bytes_that_are_no_text_are_refused()
    {
        Read(string.Concat(Enumerable.Repeat("""{"kind":"correct","day":"2026-03-05","takesBack":1,"reason":"x","write":""", 500)) + "null" + new string('}', 500));
        Read(new string('[', 100_000));
        Read([0x7B, 0x22, 0x6B, 0x69, 0x6E, 0x64, 0x22, 0x3A, 0x22, 0xFF, 0xFE, 0x22, 0x7D]);
        Read([0xFF, 0xFE, 0x7B, 0x00, 0x7D, 0x00]);
    }

    [Fact]
    public void Whatever_is_sent_is_an_operation_or_refusals() =>
        Gen.String.Sample(text => Read(text), iter: 2_000);

    /// <summary>Good bodies with one or two of their values, names or lists spoilt.</summary>
    [Fact]
    public void A_good_body_spoilt_is_an_operation_or_refusals_and_never_breaks_the_book()
    {
        var book = Cellars.Stocked().Book;
        var spoilt = Gen.OneOf("null", "true", "-1", "0", "1e400", "-1e-400", "9223372036854.775807", "1000000000", "\"\"", "\"\\uD800\"", "\"M1\"", "\"W1\"", "\"V1\"", "\"unplaced\"", "\"2026-03-05\"", "[]", "{}", "[null]", "[{}]", "[[]]", "{\"kind\":\"gauge\"}", "\"" + new string('x', 5000) + "\"");
        Gen.Select(Gen.Int[0, Examples.Length - 1], Gen.Int[0, 200], spoilt, Gen.Int[0, 3], Gen.Int[0, 200], spoilt).Sample((which, at, value, more, at2, value2) =>
        {
            var json = Spoil(Examples[which], at, value);
            if (more == 0 && !value.Contains("uD800", StringComparison.Ordinal)) json = Spoil(json, at2, value2);
            if (Read(json).Operation is not { } operation) return;
            // What is read is written and read again the same, and the book can judge it.
            Assert.Equal(OperationJson.Write(operation), OperationJson.Write(OperationJson.Stored(OperationJson.Write(operation))));
            var trial = book.Propose(operation, new(2030, 1, 1));
            Assert.All(trial.Refusals, refusal => Assert.False(string.IsNullOrWhiteSpace(refusal.Sentence.ToString())));
        }, iter: 3_000);
    }

    /// <summary>Puts a raw JSON value in the place of the n-th value of a body.</summary>
    private static string Spoil(string json, int n, string value)
    {
        // A body spoilt once may no longer be JSON that can be taken apart; then it is sent as it is.
        JsonNode? root;
        try { root = JsonNode.Parse(json); }
        catch (System.Text.Json.JsonException) { return json; }
        var places = new List<(JsonNode Parent, string? Name, int Index)>();
        Collect(root, places);
        if (places.Count == 0) return json;
        var (parent, name, index) = places[n % places.Count];
        const string Mark = "SPOILT-HERE";
        if (parent is JsonObject body) body[name!] = Mark;
        else ((JsonArray)parent)[index] = Mark;
        return root!.ToJsonString().Replace($"\"{Mark}\"", value, StringComparison.Ordinal);
    }

    private static void Collect(JsonNode? node, List<(JsonNode, string?, int)> places)
    {
        if (node is JsonObject body)
            foreach (var (name, value) in body)
            {
                places.Add((node, name, 0));
                Collect(value, places);
            }
        else if (node is JsonArray list)
            for (var i = 0; i < list.Count; i++)
            {
                places.Add((node, null, i));
                Collect(list[i], places);
            }
    }
}
