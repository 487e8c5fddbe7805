using Cellarbook.Core.Operations;
using Cellarbook.Hosting;
using Cellarbook.Recording;
using Cellarbook.Storage;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;
using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Text;
using Xunit;

namespace Cellarbook.Tests.Forms;

/// <summary>The program serving a fresh book in a folder of its own, with a browser that knows no script.</summary>
public sealed partial class FormHouse : IAsyncDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("cellarbook-forms-").FullName;
    private readonly WebApplication app;

    private FormHouse()
    {
        Book = new(BookStore.Open(folder), TimeProvider.System);
        app = Site.Build(["--urls", "http://127.0.0.1:0", "--applicationName", "Cellarbook", "--Logging:Console:LogLevel:Default", "None"], _ => Book, folder);
    }

    public OpenBook Book { get; }

    public HttpClient Browser { get; private set; } = null!;

    /// <summary>The addresses that the program answers.</summary>
    public IEnumerable<RoutePattern> Routes => ((IEndpointRouteBuilder)app).DataSources.SelectMany(source => source.Endpoints).OfType<RouteEndpoint>().Select(endpoint => endpoint.RoutePattern);

    public static async Task<FormHouse> Open(params string[] operations)
    {
        var house = new FormHouse();
        await house.app.StartAsync();
        house.Browser = new(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = new(house.app.Urls.First()) };
        foreach (var operation in operations) await house.Api(operation);
        return house;
    }

    /// <summary>Sends an operation through the API and answers the entry's content as stored.</summary>
    public async Task<string> Api(string json)
    {
        using var body = new StringContent(json, Encoding.UTF8, "application/json");
        using var answer = await Browser.PostAsync("/api/v1/operations", body);
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return Content(JsonDocument.Parse(text).RootElement.GetProperty("entry").GetInt64());
    }

    public string Content(long entry) => Book.Store.Read(entry)!.InPlain;

    /// <summary>What an entry moves, posting by posting.</summary>
    public IReadOnlyList<string> Postings(long entry) => Book.Read<string[]>(book => [.. book.Find(entry)!.Deeds.SelectMany(deed => deed.Postings.Select(posting => $"{deed.Day:yyyy-MM-dd} {deed.Time} {posting}"))]);

    /// <summary>The hash of an entry's content; null where it names people, who are sealed with salts drawn by lot.</summary>
    public string? Sealed(long entry) => Book.Store.Read(entry) is { } stored && stored.Content == stored.InPlain ? stored.ContentHash : null;

    public long LastNumber => Book.Read(book => book.LastNumber);

    /// <summary>Opens a form, fills it in and presses a button.</summary>
    public async Task<FormAnswer> Fill(string path, string does, params (string Name, string Value)[] typed)
    {
        var page = await Browser.GetStringAsync(path);
        return await Press(path, page, does, typed);
    }

    /// <summary>The same with whatever fields there are.</summary>
    public async Task<FormAnswer> Fill(string path, string does, (string Name, string Value)[] typed, bool mayLack)
    {
        var page = await Browser.GetStringAsync(path);
        return await Press(path, page, does, [.. typed.Where(field => !mayLack || page.Contains($"name=\"{field.Name}\"", StringComparison.Ordinal))]);
    }

    /// <summary>Fills in a form that lies open and presses a button.</summary>
    public async Task<FormAnswer> Press(string path, string page, string does, params (string Name, string Value)[] typed)
    {
        var fields = Fields(page);
        foreach (var (name, value) in typed)
        {
            Assert.True(fields.ContainsKey(name) || name.EndsWith(":unit", StringComparison.Ordinal) || page.Contains($"name=\"{name}\"", StringComparison.Ordinal), $"There is no field {name} on {path}: {string.Join(", ", fields.Keys)}");
            fields[name] = value;
        }
        fields["does"] = does;
        using var body = new FormUrlEncodedContent(fields);
        using var answer = await Browser.PostAsync(path, body);
        return new(answer.StatusCode, answer.Headers.Location?.ToString(), WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync()), await answer.Content.ReadAsStringAsync());
    }

    /// <summary>What a browser would send of a form as it stands: hidden and typed inputs, chosen options, ticked boxes.</summary>
    public static Dictionary<string, string> Fields(string page)
    {
        var fields = new Dictionary<string, string>(StringComparer.Ordinal);
        var form = page[page.IndexOf("<form", StringComparison.Ordinal)..page.IndexOf("</form>", StringComparison.Ordinal)];
        foreach (Match input in Input().Matches(form))
        {
            var tag = input.Value;
            if (Attribute(tag, "name") is not { } name || (Attribute(tag, "type") == "checkbox" && !tag.Contains("checked", StringComparison.Ordinal))) continue;
            fields[name] = Attribute(tag, "value") ?? "";
        }
        foreach (Match area in TextArea().Matches(form)) fields[Attribute(area.Value, "name")!] = WebUtility.HtmlDecode(area.Groups[1].Value).TrimStart('\n');
        foreach (Match select in Select().Matches(form))
        {
            var options = Option().Matches(select.Value).ToArray();
            var chosen = options.FirstOrDefault(option => option.Groups[1].Value.Contains("selected", StringComparison.Ordinal)) ?? options.FirstOrDefault();
            if (chosen is not null) fields[Attribute(select.Value, "name")!] = Attribute(chosen.Groups[1].Value, "value") ?? WebUtility.HtmlDecode(chosen.Groups[2].Value.Trim());
        }
        return fields;
    }

    public async ValueTask DisposeAsync()
    {
        Browser.Dispose();
        await app.DisposeAsync();
        Book.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    /// <summary>The canonical text of an operation, as the API reads it.</summary>
    public static string Canonical(string json) => OperationJson.Write(OperationJson.Read(Encoding.UTF8.GetBytes(json), [])!);

    private static string? Attribute(string tag, string name) => Regex.Match(tag, $"\\s{name}=\"([^\"]*)\"") is { Success: true } match ? WebUtility.HtmlDecode(match.Groups[1].Value) : null;

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Input();

    [GeneratedRegex("<textarea[^>]*>(.*?)</textarea>", RegexOptions.Singleline)]
    private static partial Regex TextArea();

    [GeneratedRegex("<select.*?</select>", RegexOptions.Singleline)]
    private static partial Regex Select();

    [GeneratedRegex("<option([^>]*)>(.*?)</option>", RegexOptions.Singleline)]
    private static partial Regex Option();
}

/// <summary>What came back from a form.</summary>
public sealed record FormAnswer(HttpStatusCode Status, string? Location, string Text, string Html)
{
    /// <summary>The entry written; fails where none was.</summary>
    public long Entry
    {
        get
        {
            Assert.True(Status == HttpStatusCode.Redirect, Regex.Match(Text, "<div class=\"refused\".*?</div>", RegexOptions.Singleline).Value is { Length: > 0 } refused ? refused : Text);
            return long.Parse(Location!.Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture);
        }
    }
}
