using Cellarbook.Tests.Forms;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;
using Microsoft.Extensions.DependencyInjection;

namespace Cellarbook.Tests.Pages;

/// <summary>No address that a person may cut short or mistype is answered with a fault of the program.</summary>
public sealed class AddressTests
{
    [Fact]
    public async Task An_address_cut_short_before_its_last_part_is_answered()
    {
        await using var house = await FormHouse.Open(FormCases.Cellar());
        var cut = house.Routes.Where(route => route.PathSegments.Count > 1 && route.Parameters.Any(part => part.IsCatchAll))
            .Select(route => "/" + string.Join('/', route.PathSegments.SkipLast(1).Select(segment => string.Concat(segment.Parts.Select(part => part is RoutePatternLiteralPart literal ? literal.Content : "x"))))).Distinct().ToArray();
        Assert.True(cut.Length >= 8, string.Join(' ', cut));
        foreach (var path in cut.SelectMany(path => new[] { path, path + "/" }))
        {
            using var answer = await house.Browser.GetAsync(path);
            Assert.True((int)answer.StatusCode < 500, $"{path} is answered with {(int)answer.StatusCode}");
        }
    }
}
