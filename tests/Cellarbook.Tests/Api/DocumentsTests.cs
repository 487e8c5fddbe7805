using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Cellarbook.Api;
using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Statements;

namespace Cellarbook.Tests.Api;

/// <summary>What api-docs/ says is what the program does.</summary>
public partial class DocumentsTests
{
    private static string Root { get; } = FindRoot();

    [Fact]
    public async Task Every_worked_operation_answers_as_the_document_says()
    {
        await using var app = await RunningApp.Start();
        var path = Path.Combine(Root, "api-docs/operations.md");
        var text = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        var blocks = Blocks().Matches(text);
        // With CELLARBOOK_REWRITE set the answers are written anew instead of compared; what changed is for a person to judge.
        var rewritten = Environment.GetEnvironmentVariable("CELLARBOOK_REWRITE") is null ? null : text;
        var kinds = new HashSet<string>();
        for (var i = 0; i < blocks.Count; i += 2)
        {
            Assert.Equal(("request", "answer"), (blocks[i].Groups[1].Value, blocks[i + 1].Groups[1].Value));
            var (status, answer) = await app.Post("/api/v1/operations", blocks[i].Groups[2].Value);
            Assert.True(status == 201, $"{answer} for {blocks[i].Groups[2].Value}");
            var got = JsonNode.Parse(answer.GetRawText())!.AsObject();
            foreach (var varies in new[] { "hash", "recordedAt", "actor", "cautions" }) got.Remove(varies);
            var wanted = JsonNode.Parse(blocks[i + 1].Groups[2].Value)!;
            if (rewritten is not null) rewritten = rewritten.Replace(blocks[i].Value + "\n\n" + blocks[i + 1].Value, blocks[i].Value + "\n\n```json answer\n" + Plain(got) + "\n```", StringComparison.Ordinal);
            else Assert.True(JsonNode.DeepEquals(wanted, got), $"answered {got.ToJsonString()} to {blocks[i].Groups[2].Value}");
            kinds.Add(got["kind"]!.GetValue<string>());
        }
        if (rewritten is not null) await File.WriteAllTextAsync(path, rewritten, TestContext.Current.CancellationToken);
        Assert.Equal(OperationJson.Kinds.Keys.Where(kind => kind != "imported"), kinds.Order(StringComparer.Ordinal));
    }

    /// <summary>An answer as it stands in the document: short things on one line, each posting on its own.</summary>
    private static string Plain(JsonObject answer)
    {
        string One(JsonNode? node) => node switch
        {
            JsonObject pairs => "{" + string.Join(", ", pairs.Select(pair => $"\"{pair.Key}\": {One(pair.Value)}")) + "}",
            JsonArray items => "[" + string.Join(", ", items.Select(One)) + "]",
            null => "null",
            _ => node.ToJsonString(new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }),
        };
        string Rows(JsonNode? list) => list is JsonArray { Count: > 0 } items ? "[\n    " + string.Join(",\n    ", items.Select(One)) + "\n  ]" : "[]";
        var head = new[] { "entry", "day", "kind" };
        return "{\n  " + string.Join(", ", head.Select(name => $"\"{name}\": {One(answer[name])}"))
            + string.Concat(answer.Where(pair => !head.Contains(pair.Key)).Select(pair => $",\n  \"{pair.Key}\": {(pair.Value is JsonArray ? Rows(pair.Value) : One(pair.Value))}")) + "\n}";
    }

    [Fact]
    public void Every_refusal_stands_in_the_document_in_order_of_precedence_with_status_and_remedy()
    {
        var rows = File.ReadLines(Path.Combine(Root, "api-docs/refusals.md")).Where(line => line.StartsWith("| `", StringComparison.Ordinal))
            .Select(line => line.Trim('|', ' ').Split('|').Select(cell => cell.Trim()).ToArray()).ToArray();
        Assert.Equal(Enum.GetValues<RefusalCode>().Select(code => ($"`{Problem.CodeOf(code)}`", Problem.StatusOf(code).ToString(System.Globalization.CultureInfo.InvariantCulture))), rows.Select(row => (row[0], row[1])));
        Assert.All(rows, row => Assert.True(row[2].Length > 5 && row[3].Length > 5, row[0]));
    }

    [Fact]
    public void Every_column_category_and_class_stands_in_the_document()
    {
        var text = File.ReadAllText(Path.Combine(Root, "api-docs/columns.md"));
        Assert.All(JournalColumns.Required.Concat(JournalColumns.Optional).Concat(Category.All.Select(category => category.Code)).Concat(ClassScheme.Default.Classes.Select(wine => wine.Code)).Concat(Cellarbook.Exports.AdditionsFile.Columns).Concat(Core.Limits.LimitSetReader.Columns),
            name => Assert.Contains($"`{name}`", text, StringComparison.Ordinal));
    }

    [Fact]
    public async Task The_committed_description_of_the_API_is_the_one_the_program_gives()
    {
        await using var app = await RunningApp.Start();
        var given = await app.Http.GetStringAsync("/api-docs/openapi.json", TestContext.Current.CancellationToken);
        var committed = await File.ReadAllTextAsync(Path.Combine(Root, "api-docs/openapi.json"), TestContext.Current.CancellationToken);
        Assert.True(JsonNode.DeepEquals(JsonNode.Parse(committed), JsonNode.Parse(given)), "api-docs/openapi.json is not what the program gives; build src/Cellarbook and commit the file.");
        foreach (var path in JsonDocument.Parse(given).RootElement.GetProperty("paths").EnumerateObject())
            Assert.All(path.Value.EnumerateObject(), operation => Assert.True(operation.Value.TryGetProperty("operationId", out _) && operation.Value.TryGetProperty("summary", out _), path.Name));
        // What gives files too describes its JSON and each of them.
        foreach (var path in new[] { "/api/v1/statements/period", "/api/v1/additions" })
            Assert.Equal(["application/json", AlsoAs.Csv, AlsoAs.Xlsx], JsonDocument.Parse(given).RootElement.GetProperty("paths").GetProperty(path).GetProperty("get").GetProperty("responses").GetProperty("200").GetProperty("content").EnumerateObject().Select(content => content.Name));
    }

    [Fact]
    public void The_commands_of_the_README_are_those_of_the_program()
    {
        var text = File.ReadAllText(Path.Combine(Root, "README.md"));
        Assert.Contains("dotnet run --project src/Cellarbook -- --demo", text, StringComparison.Ordinal);
        Assert.All(new[] { "backup", "restore", "verify", "import" }, command => Assert.Contains($"-- {command}", text, StringComparison.Ordinal));
        Assert.True(File.Exists(Path.Combine(Root, "tests/run.sh")));
    }

    private static string FindRoot()
    {
        var folder = AppContext.BaseDirectory;
        while (!File.Exists(Path.Combine(folder, "Cellarbook.sln"))) folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("No project root above the tests.");
        return folder;
    }

    [GeneratedRegex("```json (request|answer)\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Blocks();
}
