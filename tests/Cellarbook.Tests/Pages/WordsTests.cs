using System.Net;
using Cellarbook.Core.Wording;
using Cellarbook.Tests.Forms;

namespace Cellarbook.Tests.Pages;

/// <summary>Each term that pages use can be looked up, and each page leads to its own.</summary>
public sealed class WordsTests
{
    [Fact]
    public async Task Every_term_leads_to_the_pages_it_is_met_on_and_each_of_them_back()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar("us"));
        var words = WebUtility.HtmlDecode(await house.Browser.GetStringAsync("/words"));
        Assert.Equal(Term.All.Count, Term.All.Select(term => term.Code).Distinct().Count());
        foreach (var term in Term.All)
        {
            Assert.Contains($"<div id=\"{term.Code}\">", words, StringComparison.Ordinal);
            Assert.Contains(term.Plain.ToString(), words, StringComparison.Ordinal);
            Assert.NotEmpty(term.Met);
        }
        foreach (var path in Term.All.SelectMany(term => term.Met).Distinct())
        {
            Assert.Contains($"<a href=\"{path}\">", words, StringComparison.Ordinal);
            var page = await house.Browser.GetStringAsync(path);
            Assert.All(Term.All.Where(term => term.Met.Contains(path)), term => Assert.Contains($"href=\"/words#{term.Code}\"", page, StringComparison.Ordinal));
        }
        Assert.Contains("href=\"/words#passbook\"", await house.Browser.GetStringAsync("/lots/W1"), StringComparison.Ordinal);
        Assert.Contains("href=\"/words\"", await house.Browser.GetStringAsync("/"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_households_words_are_free_of_tax()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        Assert.DoesNotMatch("(?i)\\b(in bond|tax|duty|excise|wine gallon|class )", WebUtility.HtmlDecode(await house.Browser.GetStringAsync("/words")).Replace("class=", "", StringComparison.Ordinal));
        Assert.DoesNotContain("/words#tax-class", await house.Browser.GetStringAsync("/statements"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_page_below_a_page_has_its_terms() => Assert.Equal(Term.On("/lots", household: true), Term.On("/lots/A/B", household: true));
}
