using System.Net;
using System.Text.RegularExpressions;
using Xunit;

namespace Cellarbook.Tests.Forms;

/// <summary>What the book finds wrong stands at the input that said it, and the page goes there; also what only the fold can find (law 2).</summary>
public sealed class AtTheFieldTests
{
    /// <summary>The usual small cellar, a jug with a little wine and a jug with none.</summary>
    private static readonly string[] Cellar =
    [
        .. FormCases.Cellar(),
        """{"kind":"vessel","day":"2026-01-01","code":"Jug","capacityLitres":5}""", """{"kind":"vessel","day":"2026-01-01","code":"Pot","capacityLitres":5}""",
        """{"kind":"receive","day":"2026-01-02","what":"bulkWine","lot":"W3","vessel":"Jug","litres":2,"abv":12,"taxPaid":true}""",
    ];

    private static readonly (string Path, (string, string)[] Typed, string Field)[] MoreThanIsThere =
    [
        ("/record/rack?lot=W1&vessel=V3", [("sources[0].litres", "48"), ("targets[0].litres", "47"), ("targets[0].vessel", "V5")], "sources[0].litres"),
        ("/record/rack?lot=W1&vessel=V3", [("sources[0].litres", ""), ("targets[0].litres", "47"), ("losses[0].litres", "1"), ("targets[0].vessel", "V5")], "sources[0].litres"),
        ("/record/blend", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("sources[1]", "W2@V4"), ("sources[1].litres", "41"), ("targets[0].litres", "51"), ("targets[0].vessel", "V5"), ("targets[0].lot", "B1")], "sources[1].litres"),
        ("/record/blend-anew", [("sources[0]", "W1@V3"), ("sources[0].litres", "41"), ("targets[0].litres", "41"), ("targets[0].vessel", "V5")], "sources[0].litres"),
        ("/record/fortify", [("sources[0]", "W1@V3"), ("sources[0].litres", "41"), ("spiritLitres", "1"), ("spiritAbv", "96"), ("targets[0].litres", "41.9"), ("targets[0].vessel", "V5")], "sources[0].litres"),
        ("/record/sweeten", [("sources[0]", "W1@V3"), ("sources[0].litres", "41"), ("sweetenerLitres", "0.3"), ("targets[0].litres", "41"), ("targets[0].vessel", "V5")], "sources[0].litres"),
        ("/record/sweeten", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("must", "L1@V1"), ("must.litres", "24"), ("targets[0].litres", "34"), ("targets[0].vessel", "V5")], "must.litres"),
        ("/record/ameliorate", [("sources[0]", "W1@V3"), ("sources[0].litres", "41"), ("waterLitres", "1"), ("targets[0].litres", "42"), ("targets[0].vessel", "V5")], "sources[0].litres"),
        ("/record/sparkle", [("sources[0]", "W1@V3"), ("sources[0].litres", "41"), ("targets[0].litres", "41"), ("targets[0].vessel", "V5"), ("targets[0].lot", "S1")], "sources[0].litres"),
        ("/record/press?lot=L1&vessel=V1", [("sources[0].litres", "24"), ("targets[0].lot", "L1"), ("targets[0].litres", "20"), ("targets[0].vessel", "V5")], "sources[0].litres"),
        ("/record/crush", [("fruit[0].parcel", "Plums"), ("fruit[0].kilograms", "41"), ("targets[0].lot", "P1"), ("targets[0].litres", "28"), ("targets[0].vessel", "V5")], "fruit[0].kilograms"),
        ("/record/top-up", [("casks[0]", "W2@V4"), ("casks[0].litres", "3"), ("from", "W3@Jug")], "from"),
        ("/record/top-up", [("casks[0]", "W2@V4"), ("casks[0].litres", "41"), ("from", "W1@V3")], "casks[0].litres"),
        ("/record/top-up", [("casks[0]", "W2@V4"), ("casks[0].litres", "16"), ("fromBottles", "W1-75@A"), ("fromBottles.bottles", "22")], "fromBottles.bottles"),
        ("/record/top-up-many", [("casks[1].litres", "41"), ("fromWater", "true")], "casks[1].litres"),
        ("/record/bottle?lot=W2&vessel=V4", [("fills[0].bottling", "W2-75"), ("fills[0].bottles", "54")], "fills[0].bottles"),
        ("/record/bottle?lot=W2&vessel=V4", [("fills[0].bottling", "W2-75"), ("fills[0].bottles", "52"), ("losses[0].litres", "1.5")], "losses[0].litres"),
        ("/record/unbottle?bottling=W1-75", [("bottles", "21"), ("lot", "W1"), ("vessel", "V3")], "bottles"),
        ("/record/shelve?bottling=W1-75", [("toShelf", "B"), ("bottles", "21")], "bottles"),
        ("/record/lose?lot=W1&vessel=V3&as=spill", [("litres", "41")], "litres"),
        ("/record/lose?bottling=W1-75", [("bottles", "21")], "bottles"),
        ("/record/lose", [("as", "casualty"), ("parcel", "Plums"), ("kilograms", "41")], "kilograms"),
        ("/record/remove?bottling=W1-75&as=gift", [("lines[0].bottles", "21")], "lines[0].bottles"),
        ("/record/remove?as=ownUse", [("lines[0]", "W1-75@A"), ("lines[0].bottles", "1"), ("lines[100]", "W2@V4"), ("lines[100].litres", "41")], "lines[100].litres"),
        ("/record/measure?lot=W1&vessel=V3", [("gravity", "0.994"), ("sampleLitres", "41000")], "sampleLitres"),
        ("/record/declare?lot=L1&vessel=V1", [("litres", "1"), ("losses[0].litres", "23")], ""),
        ("/record/add?lot=W1&vessel=V3", [("items[0].material", "bentonite"), ("items[0].amount", "501")], "items[0].amount"),
        ("/record/add?lot=W1&vessel=V3", [("items[0].material", "bentonite"), ("items[0].amount", "501"), ("items[0].delivery", "D1")], "items[0].amount"),
        ("/record/take-from-stores", [("as", "cleaning"), ("items[0].material", "bentonite"), ("items[0].amount", "501")], "items[0].amount"),
        ("/record/mix", [("material", "slurry"), ("delivery", "S1"), ("amount", "1000"), ("amount:unit", "mL"), ("items[0].material", "bentonite"), ("items[0].amount", "501")], "items[0].amount"),
        ("/record/bottle?lot=W2&vessel=V4", [("fills[0].bottling", "W2-75"), ("fills[0].bottles", "52"), ("materials[0].material", "bentonite"), ("materials[0].amount", "501")], "materials[0].amount"),
    ];

    private static readonly (string Path, (string, string)[] Typed, string Field)[] MoreThanFits =
    [
        ("/record/receive?what=must", [("lot", "N1"), ("litres", "6"), ("vessel", "Pot")], "vessel"),
        ("/record/receive?what=bulkWine", [("lot", "N1"), ("litres", "6"), ("vessel", "Pot")], "vessel"),
        ("/record/receive?what=bulkWine", [("lot", "N1"), ("litres", "1"), ("vessel", "V4")], "vessel"),
        ("/record/make-up", [("lot", "K1"), ("vessel", "Pot"), ("bagLitres", "1"), ("markLitres", "23")], "vessel"),
        ("/record/start-kit", [("kit", "kit-white-23"), ("lot", "K7"), ("vessel", "Pot")], "vessel"),
        ("/record/crush", [("fruit[0].parcel", "Plums"), ("targets[0].lot", "P1"), ("targets[0].litres", "28"), ("targets[0].vessel", "Pot")], "targets[0].vessel"),
        ("/record/press?lot=L1&vessel=V1", [("targets[0].lot", "L1"), ("targets[0].litres", "15"), ("targets[0].vessel", "V5"), ("targets[1].lot", "L1P"), ("targets[1].litres", "6"), ("targets[1].vessel", "Pot")], "targets[1].vessel"),
        ("/record/add?lot=L1&vessel=V1", [("items[0].material", "Sugar"), ("items[0].amount", "1000"), ("items[0].riseLitres", "8"), ("items[0].riseBy", "sugar")], "items[0].riseLitres"),
        ("/record/rack?lot=W1&vessel=V3", [("targets[0].litres", "39"), ("targets[0].vessel", "Pot")], "targets[0].vessel"),
        ("/record/rack?lot=W1&vessel=V3", [("targets[0].litres", "39"), ("targets[0].vessel", "V4")], "targets[0].vessel"),
        ("/record/blend", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("targets[0].litres", "4"), ("targets[0].vessel", "Pot"), ("targets[1].litres", "6"), ("targets[1].vessel", "Jug"), ("targets[1].lot", "W3")], "targets[1].vessel"),
        ("/record/blend-anew", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("targets[0].litres", "9.9"), ("targets[0].vessel", "Pot")], "targets[0].vessel"),
        ("/record/fortify", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("spiritLitres", "1"), ("spiritAbv", "96"), ("targets[0].litres", "10.9"), ("targets[0].vessel", "Pot")], "targets[0].vessel"),
        ("/record/sweeten", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("sweetenerLitres", "0.3"), ("targets[0].litres", "10.3"), ("targets[0].vessel", "Pot")], "targets[0].vessel"),
        ("/record/ameliorate", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("waterLitres", "1"), ("targets[0].litres", "11"), ("targets[0].vessel", "Pot")], "targets[0].vessel"),
        ("/record/sparkle", [("sources[0]", "W1@V3"), ("sources[0].litres", "10"), ("targets[0].litres", "10"), ("targets[0].vessel", "Pot"), ("targets[0].lot", "S1")], "targets[0].vessel"),
        ("/record/gauge?vessel=V3", [("litres", "61")], "litres"),
        ("/record/declare?lot=L1&vessel=V1", [("litres", "31")], "litres"),
        ("/record/unbottle?bottling=W1-75", [("bottles", "8"), ("lot", "W1"), ("vessel", "Pot")], "vessel"),
        ("/record/count", [("document", "Sheet 1"), ("lines[0].litres", "31")], "lines[0].litres"),
    ];

    [Fact]
    public Task Law_2_more_than_is_there_stands_at_the_amount_of_each_form() => Each(MoreThanIsThere);

    [Fact]
    public Task Law_2_more_than_fits_stands_at_the_vessel_of_each_form() => Each(MoreThanFits);

    private static async Task Each((string Path, (string, string)[] Typed, string Field)[] cases)
    {
        await using var house = await FormHouse.Open(Cellar);
        var wrong = new List<string>();
        foreach (var (path, typed, field) in cases)
        {
            var answer = await house.Fill(path, "write", [.. typed, ("day", "2026-02-01")]);
            if (field.Length == 0)
            {
                Assert.Equal((path, HttpStatusCode.Redirect), (path, answer.Status));
                continue;
            }
            var id = "f-" + field.Replace('[', '-').Replace("]", "", StringComparison.Ordinal).Replace('.', '-');
            var at = Regex.Matches(answer.Html, "class=\"error\" id=\"([^\"]*)-error\"").Select(match => match.Groups[1].Value);
            var goes = Regex.Match(answer.Html, "<[^>]*autofocus[^>]*>").Value;
            if (answer.Status != HttpStatusCode.UnprocessableEntity || !at.SequenceEqual([id]) || !goes.Contains($"id=\"{id}\"", StringComparison.Ordinal)) wrong.Add($"{path} {field}: {answer.Status}, at {string.Join(", ", at)}, goes to {goes}");
        }
        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }
}
