using Cellarbook.Core.Quantities;
using Cellarbook.Pages.Shared;
using Cellarbook.Pages.Statements;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Tests.Pages;

/// <summary>Figures as a reader gets them: exact in litres, to three decimals in other units, in the mark that was asked for.</summary>
public sealed class ShowTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("cellarbook-show-").FullName;
    private readonly OpenBook book;

    public ShowTests() => book = new(BookStore.Open(folder), TimeProvider.System);

    private Show With(Preferences preferences)
    {
        var file = new PreferencesFile(book);
        file.Save(preferences);
        return new(file, new Cellarbook.Texts.Texts(file));
    }

    [Theory]
    [InlineData(22_400_000, VolumeUnit.Litre, "22.4", "22.4\u2007\u2007")]
    [InlineData(1, VolumeUnit.Litre, "0.000001", "0.000001")]
    [InlineData(0, VolumeUnit.Litre, "0", "0\u2008\u2007\u2007\u2007")]
    [InlineData(12_345_000_000, VolumeUnit.Litre, "12\u202F345", "12\u202F345\u2008\u2007\u2007\u2007")]
    [InlineData(-500_000, VolumeUnit.Litre, "-0.5", "−0.5\u2007\u2007")]
    [InlineData(23_000_000, VolumeUnit.Hectolitre, "0.23", "0.23\u2007")]
    [InlineData(3_785_411, VolumeUnit.UsGallon, "1", "1\u2008\u2007\u2007\u2007")]
    [InlineData(22_400_000, VolumeUnit.UsGallon, "5.917", "5.917")]
    [InlineData(4_546_090, VolumeUnit.ImperialGallon, "1", "1\u2008\u2007\u2007\u2007")]
    [InlineData(-22_400_000, VolumeUnit.UsGallon, "-5.917", "−5.917")]
    public void A_volume_in_each_unit(long microlitres, VolumeUnit unit, string figure, string cell)
    {
        var show = With(new() { Volume = unit });
        Assert.Equal((figure, cell), (show.Figure(new(microlitres)), System.Text.RegularExpressions.Regex.Replace(show.Cell(new(microlitres)).ToString()!, "<[^>]*>", "")));
    }

    [Fact]
    public void A_decimal_comma_reaches_every_figure()
    {
        var show = With(new() { DecimalComma = true, Temperature = TemperatureScale.Fahrenheit });
        Assert.Equal(["22,4\u00A0L", "12,5\u00A0%\u00A0vol", "1,050", "68,9\u00A0°F", "1,5\u00A0L", "62,5\u00A0%"],
            [show.Volume(Volume.OfMillilitres(22_400)), show.Strength(new Strength(1250)), show.Reading("1.050"), show.Temperature("20.5"), show.BottleSize(Volume.OfMillilitres(1_500)), show.Share(625_000_000_000)]);
    }

    [Fact]
    public void A_small_share_is_never_shown_as_none() => Assert.Equal("under\u00A00.1\u00A0%", With(new()).Share(1));

    [Fact]
    public void A_day_can_be_read_one_way_only() => Assert.Equal(("1\u00A0March\u00A02026", "1\u00A0Mar\u00A02026", "2026-03-01"), (With(new()).Day(new(2026, 3, 1)), With(new()).ShortDay(new(2026, 3, 1)), Show.Iso(new(2026, 3, 1))));

    [Fact]
    public void A_spoilt_preferences_file_costs_no_more_than_the_preferences()
    {
        File.WriteAllText(Path.Combine(folder, "preferences.json"), "{ \"volume\": \"bucketful\" ");
        Assert.Equal(new Preferences(), new PreferencesFile(book).Now);
    }

    [Fact]
    public void Preferences_lie_beside_the_book_and_are_no_entry()
    {
        With(new() { Volume = VolumeUnit.UsGallon });
        Assert.Equal(VolumeUnit.UsGallon, new PreferencesFile(book).Now.Volume);
        Assert.Equal(0, book.Read(found => found.LastNumber));
    }

    [Theory]
    [InlineData("2026-03", "2026-03-01 to 2026-03-31")]
    [InlineData("2024-02", "2024-02-01 to 2024-02-29")]
    [InlineData("2026-Q4", "2026-10-01 to 2026-12-31")]
    [InlineData("2026", "2026-01-01 to 2026-12-31")]
    [InlineData("2026-13", null)]
    [InlineData("2026-Q5", null)]
    [InlineData("2026-0x", null)]
    [InlineData("", null)]
    [InlineData(null, null)]
    public void A_period_is_a_month_a_quarter_or_a_year(string? choice, string? period) => Assert.Equal(period, Periods.Read(choice)?.ToString());

    public void Dispose()
    {
        book.Dispose();
        Directory.Delete(folder, recursive: true);
    }
}
