using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>
/// A picture of every page of the demonstration book, on a phone and at a table. With CELLARBOOK_SCREENS they are kept in that folder (tests/screens.sh);
/// in any case each page has to come out whole: no error, nothing empty, no file too heavy for a repository.
/// </summary>
[Collection(InTheBrowser.Name)]
public sealed class PicturesTests(Browsers browsers)
{
    private static readonly (string Name, string Path)[] Pages =
    [
        ("today", "/"), ("lots", "/lots"), ("lot", "/lots/P26"), ("lot-family", "/lots/R24#kin"), ("vessels", "/vessels"), ("vessel", "/vessels/D2"), ("vessel-labels", "/labels/vessels"), ("round", "/round"),
        ("bottles", "/bottles"), ("bottling", "/bottles/C25-75"), ("bottle-labels", "/labels/bottles/C25-75"), ("stores", "/stores"), ("book", "/book"), ("entry", "/book/128"), ("statement", "/statements?period=2026"), ("statement-form", "/statements?period=2026&form=us-5120-17"),
        ("write", "/record"), ("rack", "/record/rack?lot=R26&vessel=T3"), ("read", "/record/measure?lot=Q26&vessel=E1"), ("top-up-many", "/record/top-up-many"), ("bottle", "/record/bottle?lot=W26&vessel=T1"), ("correct", "/record/correct?entry=128"),
        ("bench", "/bench"), ("additions", "/additions"), ("rules", "/rules"), ("cautions", "/cautions"), ("settings", "/settings"), ("import", "/settings/import"),
    ];

    [Theory]
    [InlineData("phone", 360, 740, 1f)]
    [InlineData("table", 1440, 900, 0.6f)]
    public async Task Every_page_makes_a_picture(string where, int width, int height, float scale)
    {
        var kept = Environment.GetEnvironmentVariable("CELLARBOOK_SCREENS");
        await using var window = await browsers.Open(browsers.Demo, width, scale: scale);
        await window.Page.SetViewportSizeAsync(width, height);
        foreach (var (name, path) in Pages)
        {
            var answer = await window.Page.GotoAsync(path);
            // A jump within a page answers nothing; what is not the same page must be there.
            Assert.True(answer is null or { Status: 200 }, $"{path} answers {answer?.Status}");
            var picture = await window.Page.ScreenshotAsync();
            Assert.InRange(picture.Length, 4_000, 200_000);
            if (kept is { Length: > 0 }) await File.WriteAllBytesAsync(Path.Combine(Directory.CreateDirectory(kept).FullName, $"{name}-{where}.png"), picture, TestContext.Current.CancellationToken);
        }
        Assert.Empty(window.Faults);
    }
}
