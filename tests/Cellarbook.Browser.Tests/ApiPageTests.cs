using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>The page that describes the API is the program's own, too.</summary>
[Collection(InTheBrowser.Name)]
public sealed class ApiPageTests(Browsers browsers)
{
    [Fact]
    public async Task The_page_of_the_API_shows_its_operations_and_asks_nothing_of_the_outside()
    {
        await using var window = await browsers.Open(browsers.Demo);
        await window.Go("/api-docs");
        await Assertions.Expect(window.Page.GetByText("Record any operation.").First).ToBeVisibleAsync();
        // Opened further, it still asks nobody else.
        await window.Page.Mouse.WheelAsync(0, 4_000);
        await window.Page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        Assert.DoesNotContain(window.Faults, fault => fault.StartsWith("outside:", StringComparison.Ordinal));
        Assert.DoesNotContain(window.Faults, fault => fault.StartsWith("script:", StringComparison.Ordinal));
        Assert.DoesNotContain(window.Faults, fault => fault.Contains("Content Security Policy", StringComparison.Ordinal));
    }
}
