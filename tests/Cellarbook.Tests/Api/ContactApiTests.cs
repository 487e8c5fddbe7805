using System.Text.Json;

namespace Cellarbook.Tests.Api;

/// <summary>Law 10 at the door: names are sent and shown in plain until one is blanked.</summary>
public class ContactApiTests
{
    private const string Sold = """{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"B1","bottles":1,"recipient":"Orla Finch","witness":"Tilda Marsh"}""";

    [Fact]
    public async Task A_name_blanked_is_shown_nowhere_any_more_and_the_same_request_still_gets_its_first_answer()
    {
        await using var app = await RunningApp.Start();
        await app.Does("""{"kind":"premises","day":"2026-01-01","regimes":["household"]}""");
        await app.Does("""{"kind":"receive","day":"2026-01-02","what":"bottledWine","bottling":"B1","bottles":12,"bottleMl":750}""");
        Assert.Equal(201, (await app.Post("/api/v1/operations", Sold, key: "gift")).Status);
        Assert.Equal("Orla Finch", (await app.Get("/api/v1/book/entries/3")).GetProperty("operation").GetProperty("recipient").GetString());
        Assert.Contains("Orla Finch", await app.Http.GetStringAsync("/book/3", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        var contact = (await app.Get("/api/v1/book/contacts")).EnumerateArray().Single(found => found.GetProperty("text").GetString() == "Orla Finch").GetProperty("contact").GetInt64();
        Assert.Contains($"?contact={contact}\">Orla Finch", await app.Http.GetStringAsync("/record/blank-contact", TestContext.Current.CancellationToken), StringComparison.Ordinal);

        await app.Does($$"""{"kind":"blankContact","day":"2026-07-01","contact":{{contact}},"reason":"Asked for"}""");
        foreach (var path in new[] { "/", "/book", "/book/3", "/book/4", "/bottles/B1", "/record/blank-contact", "/api/v1/book/entries", "/api/v1/book/entries/3", "/api/v1/book/contacts", "/api/v1/book/journal" })
            Assert.DoesNotContain("Orla", await app.Http.GetStringAsync(path, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("Tilda Marsh", await app.Http.GetStringAsync("/book/3", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        var blanked = (await app.Get("/api/v1/book/contacts")).EnumerateArray().Single(found => found.GetProperty("contact").GetInt64() == contact);
        Assert.Equal((true, JsonValueKind.Undefined), (blanked.GetProperty("blanked").GetBoolean(), blanked.TryGetProperty("text", out var text) ? text.ValueKind : JsonValueKind.Undefined));

        var (status, again) = await app.Post("/api/v1/operations", Sold, key: "gift");
        Assert.Equal((200, 3), (status, again.GetProperty("entry").GetInt64()));
        Assert.Equal(409, (await app.Post("/api/v1/operations", Sold.Replace("Tilda", "Hilda", StringComparison.Ordinal), key: "gift")).Status);
        Assert.Equal(422, (await app.Post("/api/v1/operations", $$"""{"kind":"blankContact","day":"2026-07-01","contact":{{contact}}}""")).Status);
        Assert.True((await app.Get("/api/v1/book/verify")).GetProperty("sound").GetBoolean());
        await app.Does(Sold);
    }
}
