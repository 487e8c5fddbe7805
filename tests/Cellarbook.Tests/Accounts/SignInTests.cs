using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Cellarbook.Accounts;
using Cellarbook.Tests.Api;

namespace Cellarbook.Tests.Accounts;

/// <summary>A book on one machine asks nobody; with a password everybody signs in, and nobody does more than they may.</summary>
public partial class SignInTests
{
    private const string Password = "three casks and a bung";
    private const string Premises = """{"kind":"premises","day":"2026-11-24","regimes":["household"],"owner":"Ines","timeZone":"Europe/Vienna"}""";
    private const string Vessel = """{"kind":"vessel","day":"2026-11-24","code":"V1","capacityLitres":30}""";

    [Theory]
    [InlineData("http://127.0.0.1:5080", true)]
    [InlineData("http://localhost:5080", true)]
    [InlineData("http://[::1]:5080", true)]
    [InlineData("http://127.3.2.1", true)]
    [InlineData("http://0.0.0.0:5080", false)]
    [InlineData("http://*:5080", false)]
    [InlineData("http://+:5080", false)]
    [InlineData("http://[::]:5080", false)]
    [InlineData("http://192.168.1.7:5080", false)]
    [InlineData("http://cellar.local", false)]
    [InlineData("unix:/tmp/cellar.sock", false)]
    [InlineData("nonsense", false)]
    public void An_address_that_others_reach_wants_a_password_first(string address, bool alone)
    {
        Assert.Equal(alone, Listening.IsLoopback(address));
        var refusal = Listening.Refusal(["http://127.0.0.1:5080", address], hasOwner: false);
        if (alone) Assert.Null(refusal);
        else Assert.Contains("Give it one first", refusal, StringComparison.Ordinal);
        Assert.Null(Listening.Refusal([address], hasOwner: true));
    }

    [Fact]
    public async Task On_this_machine_alone_nobody_has_to_sign_in()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        Assert.Equal(HttpStatusCode.OK, (await app.Http.GetAsync("/")).StatusCode);
        // A page of another site that calls itself by a name that leads here reads nothing.
        Assert.Equal(HttpStatusCode.Forbidden, await Status(app.Http, HttpMethod.Get, "/", ("Host", "cellar.example")));
        Assert.Equal(HttpStatusCode.Forbidden, await Status(app.Http, HttpMethod.Get, "/api/v1/lots", ("X-Forwarded-For", "203.0.113.7")));
    }

    [Fact]
    public async Task A_page_of_another_site_writes_nothing()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        var before = app.Book.Read(book => book.LastNumber);
        Assert.Equal(HttpStatusCode.Forbidden, await Status(app.Http, HttpMethod.Post, "/api/v1/operations", ("Origin", "http://evil.example")));
        Assert.Equal(HttpStatusCode.Forbidden, await Status(app.Http, HttpMethod.Post, "/api/v1/operations", ("Sec-Fetch-Site", "cross-site")));
        Assert.Equal(before, app.Book.Read(book => book.LastNumber));
        Assert.Equal(HttpStatusCode.Created, await Status(app.Http, HttpMethod.Post, "/api/v1/operations", ("Sec-Fetch-Site", "same-origin")));
    }

    [Fact]
    public async Task With_a_password_pages_lead_to_the_sign_in_and_the_api_says_so()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        Assert.Null(new AccountsFile(app.Folder).SetPassword("Ines", Role.Owner, Password));
        using var browser = Browser(app);
        var asked = await browser.GetAsync("/lots?q=a");
        Assert.Equal("/sign-in?to=%2Flots%3Fq%3Da", asked.Headers.Location?.ToString());
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/health")).StatusCode);
        var api = await browser.GetAsync("/api/v1/lots");
        Assert.Equal(HttpStatusCode.Unauthorized, api.StatusCode);
        Assert.Contains("\"code\":\"sign_in_needed\"", (await api.Content.ReadAsStringAsync()).Replace(" ", "", StringComparison.Ordinal), StringComparison.Ordinal);

        Assert.Equal(HttpStatusCode.Unauthorized, (await SignIn(browser, "Ines", "wrong")).StatusCode);
        var entered = await SignIn(browser, "Ines", Password, "/lots?q=a");
        Assert.Equal("/lots?q=a", entered.Headers.Location?.ToString());
        var cookie = Assert.Single(entered.Headers.GetValues("Set-Cookie"), cookie => cookie.StartsWith("cellarbook=", StringComparison.Ordinal));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=lax", cookie, StringComparison.OrdinalIgnoreCase);
        var lots = await browser.GetAsync("/lots");
        Assert.Equal(HttpStatusCode.OK, lots.StatusCode);
        Assert.True(lots.Headers.CacheControl?.NoStore);
        // A cookie alone writes nothing: its owner may not have meant it.
        Assert.Equal(HttpStatusCode.Forbidden, await Status(browser, HttpMethod.Post, "/api/v1/operations"));
        Assert.Equal(HttpStatusCode.Created, await Status(browser, HttpMethod.Post, "/api/v1/operations", ("Sec-Fetch-Site", "same-origin")));
        Assert.Equal("Ines", app.Book.Store.Read(app.Book.Read(book => book.LastNumber))!.Actor);

        // Another password ends the sign-ins made with this one.
        Assert.Null(new AccountsFile(app.Folder).SetPassword("Ines", Role.Owner, Password + "!"));
        Assert.Equal(HttpStatusCode.Redirect, (await browser.GetAsync("/lots")).StatusCode);
    }

    [Fact]
    public async Task A_sign_in_leads_nowhere_else()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        new AccountsFile(app.Folder).SetPassword("Ines", Role.Owner, Password);
        using var browser = Browser(app);
        Assert.Equal("/", (await SignIn(browser, "Ines", Password, "https://evil.example/")).Headers.Location?.ToString());
        Assert.Equal("/", (await SignIn(browser, "Ines", Password, "//evil.example/")).Headers.Location?.ToString());
    }

    [Fact]
    public async Task After_five_tries_a_minute_even_the_right_password_waits()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        new AccountsFile(app.Folder).SetPassword("Ines", Role.Owner, Password);
        using var browser = Browser(app);
        for (var i = 0; i < 5; i++) Assert.Equal(HttpStatusCode.Unauthorized, (await SignIn(browser, "Ines", "guess " + i)).StatusCode);
        Assert.Equal(HttpStatusCode.TooManyRequests, (await SignIn(browser, "Ines", Password)).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/sign-in")).StatusCode);
    }

    [Fact]
    public async Task A_vessel_made_on_its_page_is_written_by_who_is_signed_in()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        var accounts = new AccountsFile(app.Folder);
        accounts.SetPassword("Ines", Role.Owner, Password);
        accounts.SetPassword("Jost", Role.Hand, Password + " Jost");
        using var hand = Browser(app);
        await SignIn(hand, "Jost", Password + " Jost");
        var token = Verification().Match(await hand.GetStringAsync("/record/vessel")).Groups[1].Value;
        var made = await hand.PostAsync("/record/vessel", new FormUrlEncodedContent([new("Key", "a-key-of-this-test"), new("Code", "V7"), new("Capacity", "30"), new("__RequestVerificationToken", token)]));
        Assert.Equal("/vessels/V7", made.Headers.Location?.ToString());
        Assert.Equal("Jost", app.Book.Store.Read(app.Book.Read(book => book.LastNumber))!.Actor);
    }

    [Fact]
    public async Task A_hand_records_a_reader_looks_and_the_rest_is_the_owners()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        var accounts = new AccountsFile(app.Folder);
        accounts.SetPassword("Ines", Role.Owner, Password);
        accounts.SetPassword("Jost", Role.Hand, Password + " Jost");
        accounts.SetPassword("Rosa", Role.Reader, Password + " Rosa");
        using var hand = Browser(app);
        using var reader = Browser(app);
        await SignIn(hand, "jost", Password + " Jost");
        await SignIn(reader, "Rosa", Password + " Rosa");
        Assert.Equal(HttpStatusCode.Created, await Status(hand, HttpMethod.Post, "/api/v1/operations", ("Sec-Fetch-Site", "same-origin")));
        Assert.Equal("Jost", app.Book.Store.Read(app.Book.Read(book => book.LastNumber))!.Actor);
        Assert.Equal(HttpStatusCode.Forbidden, await Status(reader, HttpMethod.Post, "/api/v1/operations", ("Sec-Fetch-Site", "same-origin")));
        Assert.Equal(HttpStatusCode.OK, (await reader.GetAsync("/vessels/V1")).StatusCode);
        foreach (var path in new[] { "/settings", "/settings/people", "/record/close" })
        {
            Assert.Equal(HttpStatusCode.Forbidden, (await hand.GetAsync(path)).StatusCode);
            Assert.Equal(HttpStatusCode.Forbidden, (await reader.GetAsync(path)).StatusCode);
        }
        Assert.Equal(HttpStatusCode.Forbidden, await Status(hand, HttpMethod.Post, "/api/v1/imports/journal", ("Sec-Fetch-Site", "same-origin")));
    }

    [Fact]
    public async Task A_script_comes_with_a_token()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        var accounts = new AccountsFile(app.Folder);
        accounts.SetPassword("Ines", Role.Owner, Password);
        var token = accounts.MakeToken("scale", Role.Hand, new(2026, 11, 24));
        Assert.DoesNotContain(token, File.ReadAllText(accounts.Path), StringComparison.Ordinal);
        app.Http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        await app.Does(Vessel);
        Assert.Equal("scale", app.Book.Store.Read(app.Book.Read(book => book.LastNumber))!.Actor);
        Assert.Equal(HttpStatusCode.Forbidden, await Status(app.Http, HttpMethod.Post, "/api/v1/imports/journal"));
        accounts.RemoveToken("scale");
        Assert.Equal(HttpStatusCode.Unauthorized, (await app.Http.GetAsync("/api/v1/lots")).StatusCode);
        app.Http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", "cb_0");
        Assert.Equal(HttpStatusCode.Unauthorized, (await app.Http.GetAsync("/api/v1/lots")).StatusCode);
    }

    [Fact]
    public async Task The_owner_gives_the_password_in_settings()
    {
        await using var app = await RunningApp.Start();
        await app.Does(Premises);
        using var browser = Browser(app);
        Assert.Contains("at least 10 characters", await Said(browser, "Owner", ("name", "Ines"), ("password", "short"), ("again", "short")), StringComparison.Ordinal);
        Assert.Contains("differ", await Said(browser, "Owner", ("name", "Ines"), ("password", Password), ("again", "another one here")), StringComparison.Ordinal);
        Assert.False(new AccountsFile(app.Folder).HasOwner);
        await Said(browser, "Owner", ("name", "Ines"), ("password", Password), ("again", Password));
        Assert.Equal("Ines", Assert.Single(new AccountsFile(app.Folder).People).Name);
        // Whoever gave it is signed in with it, and to change it says it again.
        Assert.Contains("is another", await Said(browser, "Owner", ("name", "Ines"), ("current", "not it at all"), ("password", "a new password"), ("again", "a new password")), StringComparison.Ordinal);
        var made = await Said(browser, "Token", ("name", "backup"), ("role", "Reader"));
        Assert.Matches("cb_[0-9a-f]{64}", made);
    }

    [Fact]
    public void The_file_of_accounts_is_for_nobody_else_to_read()
    {
        var folder = Directory.CreateTempSubdirectory("cellarbook-accounts-").FullName;
        try
        {
            var accounts = new AccountsFile(folder);
            Assert.NotNull(accounts.SetPassword("Ines", Role.Owner, "short"));
            Assert.False(accounts.HasOwner);
            accounts.SetPassword("Ines", Role.Owner, Password);
            Assert.DoesNotContain(Password, File.ReadAllText(accounts.Path), StringComparison.Ordinal);
            if (!OperatingSystem.IsWindows()) Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(accounts.Path));
            Assert.NotNull(accounts.Check(null, Password));
            Assert.Null(accounts.Check("Ines", Password + " "));
            accounts.Remove("Ines");
            Assert.True(accounts.HasOwner);
            // A file that can't be read lets nobody in.
            File.WriteAllText(accounts.Path, "{");
            Assert.ThrowsAny<Exception>(() => accounts.HasOwner);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static HttpClient Browser(RunningApp app) => new(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = app.Http.BaseAddress };

    private static async Task<HttpResponseMessage> SignIn(HttpClient browser, string name, string password, string to = "/")
    {
        var page = await browser.GetStringAsync("/sign-in?to=" + Uri.EscapeDataString(to));
        return await browser.PostAsync("/sign-in", new FormUrlEncodedContent([new("name", name), new("password", password), new("to", to), new("__RequestVerificationToken", Verification().Match(page).Groups[1].Value)]));
    }

    private static async Task<string> Said(HttpClient browser, string handler, params (string Name, string Value)[] typed)
    {
        var page = await browser.GetStringAsync("/settings/people");
        var answer = await browser.PostAsync("/settings/people?handler=" + handler, new FormUrlEncodedContent([.. typed.Select(pair => KeyValuePair.Create(pair.Name, pair.Value)), new("__RequestVerificationToken", Verification().Match(page).Groups[1].Value)]));
        return await answer.Content.ReadAsStringAsync();
    }

    private static async Task<HttpStatusCode> Status(HttpClient client, HttpMethod method, string path, params (string Name, string Value)[] headers)
    {
        using var request = new HttpRequestMessage(method, path);
        if (method == HttpMethod.Post) request.Content = new StringContent(Vessel, Encoding.UTF8, "application/json");
        foreach (var (name, value) in headers) request.Headers.TryAddWithoutValidation(name, value);
        return (await client.SendAsync(request)).StatusCode;
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\"[^>]*value=\"([^\"]+)\"")]
    private static partial Regex Verification();
}
