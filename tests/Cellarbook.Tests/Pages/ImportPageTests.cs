using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Cellarbook.Accounts;
using Cellarbook.Imports;
using Cellarbook.Recording;
using Cellarbook.Tests.Api;
using Cellarbook.Tests.Storage;
using Microsoft.Extensions.DependencyInjection;

namespace Cellarbook.Tests.Pages;

/// <summary>A journal comes in by a page: chosen once, looked at, written once as it was looked at; by the same door as a script's.</summary>
public sealed partial class ImportPageTests
{
    private const string Here = "/settings/import";
    private const string Head = "event_id,date,category,volume_ml,lot_to,vessel_to\n";
    private const string Must = Head + "E1,2026-03-01,MUST_RECEIVED,23000,PEAR,B1\n";

    [Fact]
    public async Task A_file_is_looked_at_and_then_written_as_a_script_would()
    {
        await using var app = await House();
        var looked = await Choose(app, StoredBook.WorkedPeriod());
        foreach (var said in new[] { "This will be written", "journal.csv", "1\u00A0September\u00A02025 to 30\u00A0November\u00A02025", "RED24", "104" }) Assert.Contains(said, looked.Text, StringComparison.Ordinal);
        Assert.Equal(1, app.Book.Head.Number);

        var written = await Press(app, looked, "Write");
        Assert.Contains("<h2>Written</h2>", written.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Write it in the book", written.Text, StringComparison.Ordinal);
        await using var other = await House();
        Assert.Equal(201, (await other.Post("/api/v1/imports/journal", StoredBook.WorkedPeriod(), type: "text/csv")).Status);
        Assert.Equal(other.Book.Head.Number, app.Book.Head.Number);
        Assert.All(Enumerable.Range(2, (int)app.Book.Head.Number - 1), number => Assert.Equal(other.Book.Store.Read(number)!.InPlain, app.Book.Store.Read(number)!.InPlain));
        Assert.Equal("Ines", app.Book.Store.Read(2)!.Actor);

        // Its links lead to these entries alone, and to a statement of these days.
        await app.Does("""{"kind":"vessel","day":"2026-11-24","code":"V1","capacityLitres":30}""");
        var links = Links().Matches(written.Text).Select(link => link.Groups[1].Value).ToArray();
        Assert.Equal(["/book?first=2&last=" + (app.Book.Head.Number - 1), "/statements?from=2025-09-01&to=2025-11-30", "/lots"], links);
        var entries = await app.Http.GetStringAsync(links[0], TestContext.Current.CancellationToken);
        Assert.Contains($"href=\"/book/{app.Book.Head.Number - 1}\"", entries, StringComparison.Ordinal);
        Assert.DoesNotContain($"href=\"/book/{app.Book.Head.Number}\"", entries, StringComparison.Ordinal);
        Assert.Contains("On hand at the end", await app.Http.GetStringAsync(links[1], TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Pressed_twice_it_is_written_once_and_chosen_again_there_is_nothing_to_write()
    {
        await using var app = await House();
        var looked = await Choose(app, Must);
        var both = await Task.WhenAll(Press(app, looked, "Write"), Press(app, looked, "Write"));
        Assert.All(both, written => Assert.Contains("<h2>Written</h2>", written.Text, StringComparison.Ordinal));
        Assert.Contains("<h2>Written</h2>", (await Press(app, looked, "Write")).Text, StringComparison.Ordinal);
        Assert.Equal(2, app.Book.Head.Number);
        var again = await Choose(app, Must);
        Assert.Contains("Nothing to write", again.Text, StringComparison.Ordinal);
        await Press(app, looked with { Path = again.Path }, "Write");
        Assert.Equal(2, app.Book.Head.Number);
    }

    [Theory]
    [InlineData("")]
    [InlineData("event_id,date,category,volume_ml\n")]
    [InlineData("PK\u0003\u0004\0\u0001")]
    [InlineData("event_id;date;category;volume_ml\nE1;2026-03-01;MUST_RECEIVED;1000")]
    [InlineData(Head + "E1,2026-03-01,MUST_RECEIVED,1000,\"L1")]
    [InlineData(Head + "E1,2026-03-01,MUST_RECEIVED,\"1,5\",L1,")]
    [InlineData(Head + "E1,1.3.2026,MUST_RECEIVED,1000,L1,\nE2,2026-03-02,MAGIC,1000,L1,")]
    [InlineData(Head + "E1,2027-03-01,MUST_RECEIVED,1000,<script>alert(1)</script>,")]
    [InlineData("event_id,date,category,volume_ml,lot_from\nE1,2026-03-01,REMOVED_TAXPAID_BULK,1000,NONE\n")]
    public async Task A_bad_file_is_refused_in_the_words_a_script_gets_row_by_row_and_nothing_is_written(string text)
    {
        await using var app = await House();
        var (_, answer) = await app.Post("/api/v1/imports/journal?check=true", text, type: "text/csv");
        var looked = await Choose(app, text);
        foreach (var refusal in answer.GetProperty("refusals").EnumerateArray())
        {
            Assert.Contains(refusal.GetProperty("sentence").GetString()!, looked.Text, StringComparison.Ordinal);
            if (refusal.TryGetProperty("row", out var row) && row.ValueKind == JsonValueKind.Number) Assert.Contains($"Row {row}", looked.Text, StringComparison.Ordinal);
        }
        Assert.DoesNotContain("<script>", looked.Html, StringComparison.Ordinal);
        Assert.DoesNotContain("Write it in the book", looked.Text, StringComparison.Ordinal);
        await Press(app, looked, "Write");
        Assert.Equal(1, app.Book.Head.Number);
    }

    [Fact]
    public async Task Of_many_refusals_the_first_are_listed_and_the_others_counted()
    {
        await using var app = await House();
        // Said of many rows alike it stands once, with the first of them.
        var alike = await Choose(app, Head + string.Concat(Enumerable.Range(1, 130).Select(i => $"E{i},2026-03-01,MUST_RECEIVED,none,L1,\n")));
        Assert.Contains("Rows 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12 and 88 more<", alike.Text, StringComparison.Ordinal);
        Assert.Contains("30 more.", alike.Text, StringComparison.Ordinal);
        var apart = await Choose(app, Head + string.Concat(Enumerable.Range(1, 130).Select(i => $"E{i},2026-03-01,MUST_RECEIVED,{i} mL,L1,\n")));
        Assert.Contains("Row 50<", apart.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("Row 51<", apart.Text, StringComparison.Ordinal);
        Assert.Contains("80 more.", apart.Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_book_that_went_on_meanwhile_is_said_and_the_file_is_looked_at_anew_before_it_is_written()
    {
        await using var app = await House();
        var looked = await Choose(app, Must);
        await app.Does("""{"kind":"receive","day":"2026-02-01","what":"must","lot":"PEAR","litres":5}""");
        var told = await Press(app, looked, "Write");
        Assert.Contains("The book went on since you looked.", told.Text, StringComparison.Ordinal);
        Assert.Equal(2, app.Book.Head.Number);
        // The page of before writes nothing more; the one that tells does.
        Assert.Contains("The book went on since you looked.", (await Press(app, looked, "Write")).Text, StringComparison.Ordinal);
        Assert.Contains("<h2>Written</h2>", (await Press(app, told, "Write")).Text, StringComparison.Ordinal);
        Assert.Equal(3, app.Book.Head.Number);
    }

    [Fact]
    public async Task What_is_refused_for_the_books_sake_can_be_looked_at_again_without_choosing_it_again()
    {
        await using var app = await House();
        var looked = await Choose(app, "event_id,date,category,volume_ml,lot_from\nE1,2026-03-01,MUST_SPILLED,1000,PEAR\n");
        Assert.Contains("This can't be written", looked.Text, StringComparison.Ordinal);
        await app.Does("""{"kind":"receive","day":"2026-02-01","what":"must","lot":"PEAR","litres":5}""");
        Assert.Contains("This will be written", (await Press(app, looked, "Again")).Text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_is_no_longer_here_or_somebody_elses_is_asked_for_again_and_writes_nothing()
    {
        await using var app = await House();
        var desk = app.Services.GetRequiredService<JournalDesk>();
        var looked = await Choose(app, Must);
        Assert.Null(desk.Find(looked.Id, "Jost"));
        desk.Find(looked.Id, "")!.File.Dispose();
        foreach (var path in new[] { looked.Path, Here + "/0123456789abcdef0123456789abcdef" })
        {
            using var gone = await app.Http.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.Gone, gone.StatusCode);
            Assert.Contains("The file is no longer here", await gone.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
        Assert.Contains("The file is no longer here", (await Press(app, looked, "Write")).Text, StringComparison.Ordinal);
        // Whoever chooses another gives the first one up, and its copy with it.
        var first = await Choose(app, Must);
        var copy = desk.Find(first.Id, "")!.File;
        await Choose(app, Must);
        Assert.Null(desk.Find(first.Id, ""));
        Assert.False(copy.IsThere);
        Assert.Equal(1, app.Book.Head.Number);
    }

    [Fact]
    public async Task While_it_takes_long_the_page_says_how_far_it_is_and_asks_again()
    {
        await using var app = await House();
        var looked = await Choose(app, Must);
        var journal = app.Services.GetRequiredService<JournalDesk>().Find(looked.Id, "")!;
        using var end = new ManualResetEventSlim();
        foreach (var (stage, says) in new[] { (JournalStage.Reading, "700 rows so far."), (JournalStage.WorkingOut, "All 700 rows are read"), (JournalStage.Writing, "700 of 1 entries so far.") })
        {
            end.Reset();
            (journal.Stage, journal.Work) = (stage, new());
            journal.Work.Begin(_ => end.Wait());
            ((IProgress<int>)journal.Work).Report(700);
            using var answer = await app.Http.GetAsync(looked.Path, TestContext.Current.CancellationToken);
            Assert.Equal($"3; url={looked.Path}", Assert.Single(answer.Headers.GetValues("Refresh")));
            Assert.Contains(says, (await Told(answer)).Text, StringComparison.Ordinal);
            end.Set();
            await journal.Work.AMoment();
        }
        Assert.Contains("This will be written", await app.Http.GetStringAsync(looked.Path, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task No_file_and_a_file_too_large_are_said()
    {
        await using var app = await House();
        var page = await app.Http.GetStringAsync(Here, TestContext.Current.CancellationToken);
        using var none = new MultipartFormDataContent { { new StringContent(Token(page)), "__RequestVerificationToken" } };
        using var answer = await app.Http.PostAsync(Here, none, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("Choose a file first.", (await Told(answer)).Text, StringComparison.Ordinal);

        using var much = new MultipartFormDataContent { { new StringContent(Token(page)), "__RequestVerificationToken" }, { new ByteArrayContent(new byte[JournalUpload.MostBytes + (1 << 17)]), "file", "large.csv" } };
        using var refused = await app.Http.PostAsync(Here, much, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        Assert.Contains("A file has at most 150 MB.", (await Told(refused)).Text, StringComparison.Ordinal);
        // Nothing comes in from a form that this program didn't make.
        using var foreign = new MultipartFormDataContent { { new StringContent(Must), "file", "journal.csv" } };
        Assert.Equal(HttpStatusCode.BadRequest, (await app.Http.PostAsync(Here, foreign, TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task It_is_the_owners_to_do_as_it_is_for_scripts()
    {
        await using var app = await House();
        var accounts = new AccountsFile(app.Folder);
        accounts.SetPassword("Ines", Role.Owner, "three casks and a bung");
        foreach (var (role, status) in new[] { (Role.Owner, HttpStatusCode.OK), (Role.Hand, HttpStatusCode.Forbidden), (Role.Reader, HttpStatusCode.Forbidden) })
        {
            app.Http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", accounts.MakeToken(role.ToString(), role, new(2026, 11, 24)));
            Assert.Equal(status, (await app.Http.GetAsync(Here, TestContext.Current.CancellationToken)).StatusCode);
        }
    }

    private sealed record Shown(string Path, string Html)
    {
        public string Text => WebUtility.HtmlDecode(Html);

        public string Id => Path.Split('/')[^1];
    }

    private static async Task<RunningApp> House()
    {
        var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-11-24","regimes":["us"],"owner":"Ines","timeZone":"Etc/UTC"}""");
        return app;
    }

    /// <summary>Chooses a file and looks.</summary>
    private static async Task<Shown> Choose(RunningApp app, string text)
    {
        var page = await app.Http.GetStringAsync(Here);
        using var sent = new MultipartFormDataContent { { new StringContent(Token(page)), "__RequestVerificationToken" }, { new ByteArrayContent(Encoding.UTF8.GetBytes(text)), "file", "journal.csv" } };
        using var answer = await app.Http.PostAsync(Here, sent);
        return await Told(answer);
    }

    /// <summary>Presses a button of a page as it lies open.</summary>
    private static async Task<Shown> Press(RunningApp app, Shown page, string does)
    {
        var after = After().Match(page.Html) is { Success: true } shown ? shown.Groups[1].Value : "1";
        using var sent = new FormUrlEncodedContent([new("__RequestVerificationToken", Token(page.Html)), new("after", after)]);
        using var answer = await app.Http.PostAsync($"{page.Path}?handler={does}", sent);
        return await Told(answer);
    }

    private static async Task<Shown> Told(HttpResponseMessage answer) => new(answer.RequestMessage!.RequestUri!.AbsolutePath, await answer.Content.ReadAsStringAsync());

    private static string Token(string page) => Verification().Match(page).Groups[1].Value;

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex Verification();

    [GeneratedRegex("name=\"after\" value=\"(\\d+)\"")]
    private static partial Regex After();

    [GeneratedRegex("<a class=\"verb[^\"]*\" href=\"([^\"]+)\"")]
    private static partial Regex Links();
}
