using System.Net;
using Cellarbook.Core.Operations;
using Cellarbook.Forms;
using Xunit;

namespace Cellarbook.Tests.Forms;

/// <summary>Pages and API say the same: what a page writes into a fresh book is sealed like what a script writes into another.</summary>
public sealed class ParityTests
{
    [Fact]
    public async Task A_book_opened_and_a_vessel_made_by_pages_are_sealed_like_those_of_a_script()
    {
        await using var byPage = await FormHouse.Open();
        await using var byScript = await FormHouse.Open();
        var opened = await byPage.Fill("/start", "", ("Form.For", "household"), ("Form.Owner", "Ida"), ("Form.Name", "Ashlar Hill"), ("Form.TimeZone", "Etc/UTC"));
        Assert.Equal(HttpStatusCode.Redirect, opened.Status);
        var made = await byPage.Fill("/record/vessel", "", ("Code", "Cask 3/b"), ("Capacity", "27.5"), ("Name", "By the door"), ("Sort", "cask"), ("Location", "Scullery"));
        Assert.Equal(HttpStatusCode.Redirect, made.Status);
        var today = Cellarbook.Pages.Shared.Show.Iso(byPage.Book.Today);
        await byScript.Api($$"""{"kind":"premises","day":"{{today}}","name":"Ashlar Hill","regimes":["household"],"timeZone":"Etc/UTC","owner":"Ida"}""");
        await byScript.Api($$"""{"kind":"vessel","day":"{{today}}","code":"Cask 3/b","capacityLitres":27.5,"name":"By the door","sort":"cask","location":"Scullery"}""");
        foreach (var entry in new[] { 1L, 2L })
        {
            Assert.Equal(byScript.Content(entry), byPage.Content(entry));
            Assert.Equal(byScript.Sealed(entry), byPage.Sealed(entry));
        }
    }

    [Fact]
    public void Every_kind_of_operation_of_the_API_has_a_page_that_writes_it()
    {
        // Beside the forms of the index: the first question and Settings, a vessel's own page, the page of rules.
        string[] others = ["premises", "vessel", "limitSet"];
        Assert.Equal([], OperationJson.Kinds.Keys.Except(["imported"]).Except(FormIndex.All.Select(form => form.Kind)).Except(others));
    }
}
