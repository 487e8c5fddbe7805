using System.Net;
using Cellarbook.Tests.Forms;

namespace Cellarbook.Tests.Pages;

/// <summary>The language of the pages is a preference: asked at the start and in Settings, shown, and kept until it is changed there.</summary>
public sealed class LanguageTests
{
    [Fact]
    public async Task German_chosen_in_settings_is_what_pages_say_and_stays_when_something_else_is_saved()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        Assert.Contains("<html lang=\"en\">", await house.Browser.GetStringAsync("/"), StringComparison.Ordinal);
        var saved = await house.Fill("/settings", "", ("Form.For", "household"), ("Form.Language", "de"));
        Assert.Equal(HttpStatusCode.Redirect, saved.Status);
        var today = await house.Browser.GetStringAsync("/");
        Assert.Contains("<html lang=\"de\">", today, StringComparison.Ordinal);
        Assert.Contains("<h1>Heute</h1>", today, StringComparison.Ordinal);
        await house.Fill("/settings", "", ("Form.For", "household"), ("Form.Volume", "Hectolitre"));
        Assert.Contains("<html lang=\"de\">", await house.Browser.GetStringAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_language_that_there_is_none_of_changes_nothing()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        await house.Fill("/settings", "", ("Form.For", "household"), ("Form.Language", "xx"));
        Assert.Contains("<html lang=\"en\">", await house.Browser.GetStringAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_first_question_asks_for_it_each_language_by_its_own_name()
    {
        await using var house = await FormHouse.Open();
        var start = await house.Browser.GetStringAsync("/start");
        Assert.Contains(">English</option>", start, StringComparison.Ordinal);
        Assert.Contains(">Deutsch</option>", start, StringComparison.Ordinal);
    }
}
