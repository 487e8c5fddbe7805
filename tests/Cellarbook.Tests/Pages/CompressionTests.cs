using System.Net;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace Cellarbook.Tests.Pages;

/// <summary>Pages are small on the line, and nothing secret is compressed beside what somebody else could put there.</summary>
public sealed class CompressionTests(DemoPages pages)
{
    [Fact]
    public async Task No_page_of_the_demonstration_book_is_heavier_than_60_kB_on_the_line()
    {
        var all = await pages.All;
        Assert.Contains(all, page => page.Path.StartsWith("/lots/", StringComparison.Ordinal) && page.IsCompressed);
        Assert.All(all, page => Assert.True(page.Bytes <= 60_000, $"{page.Path} has {page.Bytes} bytes"));
    }

    [Theory]
    [InlineData("/lots", null, true)]
    [InlineData("/api/v1/lots", null, true)]
    [InlineData("/lots?q=a", "same-origin", true)]
    [InlineData("/lots?q=a", "none", true)]
    [InlineData("/lots?q=a", "cross-site", false)]
    [InlineData("/lots?q=a", "same-site", false)]
    [InlineData("/settings", null, false)]
    [InlineData("/settings/people", "same-origin", false)]
    [InlineData("/sign-in", "same-origin", false)]
    public async Task What_another_page_could_weigh_is_sent_as_it_is(string path, string? from, bool compressed)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, path);
        if (from is not null) request.Headers.Add("Sec-Fetch-Site", from);
        using var answer = await pages.Browser.SendAsync(request);
        Assert.True(answer.StatusCode is HttpStatusCode.OK or HttpStatusCode.Redirect, $"{answer.StatusCode}");
        Assert.Equal(compressed, answer.Content.Headers.ContentEncoding.Contains("br"));
        if (compressed) Assert.Contains("Accept-Encoding", answer.Headers.Vary);
    }

    [Fact]
    public async Task A_forms_token_is_another_in_every_answer_from_its_first_letters_on()
    {
        // Data protection begins each with the same head of 20 bytes, then the key's and this message's own random ones.
        async Task<string> Token() => Regex.Match((await pages.Get("/record/vessel")).Html, "name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"").Groups[1].Value;
        var (first, second) = (await Token(), await Token());
        Assert.True(first.Length > 100 && second.Length > 100);
        var same = first.Zip(second).TakeWhile(pair => pair.First == pair.Second).Count();
        Assert.InRange(same, 0, 30);
        Assert.True(first.Skip(30).Zip(second.Skip(30)).Count(pair => pair.First == pair.Second) < 20);
    }

    /// <summary>Run from its sources the program lets a browser ask again each time, so that a changed sheet is seen; published, it sends what the build wrote down.</summary>
    [Fact]
    public async Task A_style_sheet_is_kept_a_year_under_a_name_that_changes_with_it_and_is_not_sent_twice()
    {
        var name = Regex.Match((await pages.Get("/")).Html, "href=\"/(ledger\\.[a-z0-9]+\\.css)\"").Groups[1].Value;
        using var written = JsonDocument.Parse(await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "Cellarbook.staticwebassets.endpoints.json"), TestContext.Current.CancellationToken));
        var published = written.RootElement.GetProperty("Endpoints").EnumerateArray().Where(asset => asset.GetProperty("Route").GetString() == name).ToArray();
        Assert.NotEmpty(published);
        Assert.All(published, asset => Assert.Contains(asset.GetProperty("ResponseHeaders").EnumerateArray(), header => header.GetProperty("Name").GetString() == "Cache-Control" && header.GetProperty("Value").GetString() == "max-age=31536000, immutable"));
        using var first = await pages.Browser.GetAsync("/" + name);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/" + name);
        request.Headers.IfNoneMatch.Add(first.Headers.ETag!);
        using var again = await pages.Browser.SendAsync(request);
        Assert.Equal((HttpStatusCode.OK, HttpStatusCode.NotModified), (first.StatusCode, again.StatusCode));
    }
}
