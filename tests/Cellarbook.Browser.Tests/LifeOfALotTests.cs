using System.Globalization;
using System.Text.RegularExpressions;
using Cellarbook.Core;
using Microsoft.Playwright;

namespace Cellarbook.Browser.Tests;

/// <summary>A whole life of a lot, written by forms alone, in each language with its own decimal mark: from an empty book to the statement on paper.</summary>
[Collection(InTheBrowser.Name)]
public sealed class LifeOfALotTests(Browsers browsers)
{
    [Theory]
    [InlineData(360, true, "en")]
    [InlineData(1440, true, "en")]
    [InlineData(360, false, "en")]
    [InlineData(360, false, "de")]
    public async Task From_an_empty_book_to_the_printed_statement(int width, bool script, string language)
    {
        await using var cellar = await RunningCellar.Empty();
        await using var window = await browsers.Open(cellar, width, script: script);
        var hand = new Hand(window.Page);
        Task Sees(ILocator where, string what) => Assertions.Expect(where).ToContainTextAsync(hand.Says(what));
        var page = window.Page;

        // Whose book it is, and a first vessel, as the empty book asks.
        await window.Go("/");
        await page.GetByLabel("A household").CheckAsync();
        await hand.Fill("Who writes in it?", "Mim");
        await hand.Choose("Language", language);
        if (language != "en") await hand.Choose("Decimals as", "true");
        await hand.Press("Open the book");
        hand.Language = language;
        await hand.Follow("Make a vessel");
        await hand.Fill("Code", "B1");
        await page.GetByLabel(hand.Says("Holds when full")).FillAsync("30");
        await hand.Press("Make it");
        await window.Go("/record/vessel");
        await hand.Fill("Code", "C1");
        await page.GetByLabel(hand.Says("Holds when full")).FillAsync("25");
        await hand.Press("Make it");

        // Must comes in, is pitched and read.
        await window.Go("/");
        await hand.Follow("Receive must or juice");
        await hand.Follow("must");
        await hand.Fill("Lot it becomes, or joins", "PEAR");
        await hand.Fill("How much", "23");
        await hand.Choose("Into (may stay empty)", "B1");
        await hand.Write(40);
        await hand.Follow("Pitch");
        await hand.Fill("Name on the packet", "House yeast");
        await hand.Fill("Amount (may stay empty)", "5");
        await hand.Write(40);
        foreach (var (ago, gravity, celsius) in new[] { (39, "1.080", "20"), (20, "1.010", "19"), (12, "0.996", "18"), (6, "0.996", "18") })
        {
            await window.Go("/record/measure?lot=PEAR&vessel=B1");
            await hand.Fill("Gravity or sugar", hand.Figure(gravity));
            await hand.Fill("Temperature", celsius);
            await hand.Write(ago);
        }

        // The ferment is over: racked off its lees, stated as wine, sulphited.
        await window.Go("/vessels/B1");
        await hand.Follow("Rack");
        await hand.Fill("Received", hand.Figure("22.4"));
        await hand.Choose("To", "C1");
        await page.GetByText(hand.Says("Fermentation is over"), new() { Exact = true }).ClickAsync();
        await page.GetByLabel(hand.Says("It is wine from now on")).CheckAsync();
        var proposed = await page.GetByLabel(hand.Says("Strength (may stay empty)"), new() { Exact = true }).First.InputValueAsync();
        Assert.InRange(double.Parse(proposed, new NumberFormatInfo { NumberDecimalSeparator = hand.Figure("."), NumberGroupSeparator = "" }), 10.5, 11.8);
        await hand.Write(5);
        await hand.Follow("Add");
        await hand.Fill("What", hand.Says("Potassium metabisulphite"));
        await hand.Fill("Amount or rate", hand.Figure("1.5"));
        await hand.Write(5);

        // Into bottles, with labels that say what is known.
        await window.Go("/lots/PEAR");
        await hand.Follow("Bottle");
        await hand.Fill("Code of the bottling", "PEAR-75");
        await hand.Fill("Full bottles", "29");
        await hand.Write(2);
        await window.Go("/bottles/PEAR-75");
        await hand.Follow("Print labels");
        await hand.Fill("How many", "4");
        await hand.Press("Show");
        await Assertions.Expect(page.Locator(".labels li")).ToHaveCountAsync(4);
        await Sees(page.Locator(".labels li").First, "Contains sulphites");

        // Two are drunk; it were three, so the entry is written again, and both stay.
        await window.Go("/bottles/PEAR-75");
        await hand.Follow("Take out");
        await hand.Choose("Where it went", "ownUse");
        await page.Locator("[name='lines[0].bottles']").FillAsync("2");
        var drunk = await hand.Write(1);
        await window.Go($"/record/correct?entry={drunk}");
        await hand.Follow("Write it again");
        await page.Locator("[name='lines[0].bottles']").FillAsync("3");
        await hand.Fill("Why it is corrected", "There were three of us");
        await hand.Write(null);
        await window.Go($"/book/{drunk}");
        await Sees(page.Locator("main"), "Stands instead");
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("There were three of us");

        // The statement balances, opens, and prints.
        await window.Go($"/statements?from={Day(41)}&to={Day(0)}");
        var text = await page.Locator("main").InnerTextAsync();
        foreach (var (line, litres, bottles) in new[] { ("Juice or must came in", "23", ""), ("Lees and solids of must", "0.6", ""), ("Became wine", "22.4", ""), ("Bottled", "21.75", "29"), ("Drunk by the household", "2.25", "3"), ("On hand at the end", "19.5", "26") })
            Assert.Matches($@"{Regex.Escape(hand.Says(line))}\s+{Regex.Escape(hand.Figure(litres))}\s+{bottles}", text);
        await page.EmulateMediaAsync(new() { Media = Media.Print });
        await Assertions.Expect(page.Locator("form").First).ToBeHiddenAsync();
        Assert.True((await page.PdfAsync(new() { Format = "A4" })).Length > 10_000);
        await page.EmulateMediaAsync(new() { Media = Media.Screen });

        // The lot's page tells its life, line by line.
        await window.Go("/lots/PEAR");
        await Assertions.Expect(page.Locator(".passbook tbody tr")).ToHaveCountAsync(9);
        await Assertions.Expect(page.Locator("svg.panel").First).ToBeVisibleAsync();
        await Assertions.Expect(page.Locator("svg.family")).ToContainTextAsync("PEAR-75");
        Assert.Empty(window.Faults);
    }

    private static string Day(int ago) => DateTime.UtcNow.AddDays(-ago).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>A hand that fills in, chooses, presses and writes, by the words of its language.</summary>
    private sealed class Hand(IPage page)
    {
        private const string Empty = " (may stay empty)";

        public string Language { get; set; } = Texts.Texts.English;

        /// <summary>What the program says there, given in English.</summary>
        public string Says(string english) => english.EndsWith(Empty, StringComparison.Ordinal)
            ? $"{Says(english[..^Empty.Length])} {Says(Empty[1..])}"
            : Texts.Texts.Say(Sentence.Seed(english), Language);

        /// <summary>A figure by the decimal mark of the language.</summary>
        public string Figure(string english) => Language == Texts.Texts.English ? english : english.Replace('.', ',');

        public Task Fill(string label, string text) => page.GetByLabel(Says(label), new() { Exact = true }).FillAsync(text);

        public Task Choose(string label, string value) => page.GetByLabel(Says(label), new() { Exact = true }).SelectOptionAsync(value);

        public Task Press(string name) => page.GetByRole(AriaRole.Button, new() { Name = Says(name), Exact = true }).ClickAsync();

        public Task Follow(string name) => page.GetByRole(AriaRole.Link, new() { Name = Says(name), Exact = true }).First.ClickAsync();

        /// <summary>Sets the day, writes, and waits until it stands in the book; gives the entry's number.</summary>
        public async Task<long> Write(int? ago)
        {
            if (ago is { } days) await page.GetByLabel(Says("Day"), new() { Exact = true }).FillAsync(Day(days));
            await Press("Write it");
            var heading = page.GetByRole(AriaRole.Heading, new() { Level = 1 });
            await Assertions.Expect(heading).ToHaveTextAsync(Says("Written"), new() { Timeout = 15_000 });
            return long.Parse(page.Url.Split('/')[^1], CultureInfo.InvariantCulture);
        }
    }
}
