using Cellarbook.Core.Quantities;
using Cellarbook.Forms;
using CsCheck;
using System.Globalization;
using System.Numerics;
using Xunit;

namespace Cellarbook.Tests.Forms;

/// <summary>Law 12: what is typed is read exactly or not at all; nothing is guessed, and a conversion rounds by a named rule only.</summary>
public sealed class FigureTests
{
    [Theory]
    [InlineData("22.4", "22.4")]
    [InlineData("22,4", "22.4")]
    [InlineData(" 22.40 ", "22.40")]
    [InlineData("1.050", "1.050")]
    [InlineData("0,750", "0.750")]
    [InlineData(",5", "0.5")]
    [InlineData("007", "7")]
    [InlineData("-2", "-2")]
    [InlineData("−2,5", "-2.5")]
    [InlineData("1234", "1234")]
    [InlineData("1234,567", "1234.567")]
    public void A_figure_is_read_with_comma_or_point(string typed, string read)
    {
        Assert.Null(Figure.Read(typed, comma: false, small: false, out var figure));
        Assert.Equal(read, figure.Text);
    }

    [Theory]
    [InlineData("1,234")]
    [InlineData("1.234,5")]
    [InlineData("1,234.5")]
    [InlineData("1.234.567")]
    [InlineData("1 234")]
    [InlineData("1'234")]
    public void A_figure_that_can_be_read_in_two_ways_is_refused(string typed) => Assert.NotNull(Figure.Read(typed, comma: false, small: false, out _));

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData(",")]
    [InlineData("5.")]
    [InlineData("12 L")]
    [InlineData("1e3")]
    [InlineData("½")]
    [InlineData("٣")]
    [InlineData("NaN")]
    [InlineData("11111111111111111111111111111111111111111")]
    public void What_is_no_figure_is_refused_with_a_sentence(string typed) => Assert.EndsWith(".", Figure.Read(typed, comma: false, small: false, out _)?.ToString(), StringComparison.Ordinal);

    [Fact]
    public void Whose_mark_is_the_comma_may_write_three_decimals_with_it_and_is_asked_about_the_point()
    {
        Assert.Null(Figure.Read("1,234", comma: true, small: false, out var figure));
        Assert.Equal("1.234", figure.Text);
        Assert.NotNull(Figure.Read("1.234", comma: true, small: false, out _));
    }

    [Fact]
    public void A_gravity_with_a_comma_is_in_no_doubt()
    {
        Assert.Null(Figure.Read("1,050", comma: false, small: true, out var figure));
        Assert.Equal("1.050", figure.Text);
    }

    [Theory]
    [InlineData("6", "US gal", "22.712471")] // 6 × 3.785411784 = 22.712470704
    [InlineData("5", "imp gal", "22.73045")] // 5 × 4.54609
    [InlineData("0.5", "imp gal", "2.273045")]
    [InlineData("500", "mL", "0.5")]
    [InlineData("1.5", "hL", "150")]
    [InlineData("22.40", "L", "22.40")]
    public void A_volume_converts_to_the_nearest_microlitre(string typed, string unit, string litres) => Assert.Equal(litres, Converted(Unit.Volumes, typed, unit));

    [Theory]
    [InlineData("2", "lb", "907.185")] // 907.18474 g
    [InlineData("1", "oz", "28.35")] // 28.349523125 g
    [InlineData("1.25", "kg", "1250")]
    public void A_mass_converts_to_the_nearest_milligram(string typed, string unit, string grams) => Assert.Equal(grams, Converted(Unit.Masses, typed, unit));

    [Theory]
    [InlineData("68", "20.0")]
    [InlineData("67", "19.4")]
    [InlineData("31", "-0.6")]
    [InlineData("32.0", "0.00")]
    [InlineData("-40", "-40.0")]
    public void Fahrenheit_keeps_one_decimal_more_so_that_the_reading_can_be_told_back(string typed, string celsius) => Assert.Equal(celsius, Converted(Unit.Temperatures, typed, "°F"));

    [Fact]
    public void Finer_than_the_book_counts_is_left_as_it_is_for_the_book_to_refuse() => Assert.Equal("0.0000005", Converted(Unit.Volumes, "0.0005", "mL"));

    [Fact]
    public void Reading_a_figure_never_throws_and_what_is_read_is_what_was_typed() =>
        Gen.Select(Gen.String[Gen.Char["0123456789.,-+ '−eE\u00a0x"], 0, 45], Gen.Bool, Gen.Bool).Sample(typed =>
        {
            var fault = Figure.Read(typed.Item1, typed.Item2, typed.Item3, out var figure);
            if (fault is not null) return fault.ToString().EndsWith('.');
            var plain = typed.Item1.Trim().Replace(',', '.').Replace('−', '-');
            return decimal.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var said)
                ? decimal.Parse(figure.Text, NumberStyles.Float, CultureInfo.InvariantCulture) == said
                : plain.Count(char.IsAsciiDigit) > 28;
        }, iter: 20_000);

    [Fact]
    public void Every_volume_converts_to_the_nearest_microlitre_half_up() =>
        Gen.Select(Gen.Long[0, 100_000_000], Gen.Int[0, 8], Gen.Bool.Select(us => us ? "US gal" : "imp gal")).Sample(drawn =>
        {
            var (digits, decimals, unit) = drawn;
            var figure = new Figure(digits, decimals);
            Assert.Equal(ExactNumber.Fault.None, Volume.ReadLitres(Unit.Volumes.First(known => known.Name == unit).Convert(figure), out var volume));
            // The same in other arithmetic: nanolitres of a gallon, both sides times 10^(decimals + 3) × 2.
            var gallon = unit == "US gal" ? 3_785_411_784L : 4_546_090_000L;
            var exact = 2 * digits * (BigInteger)gallon;
            var scale = BigInteger.Pow(10, decimals + 3);
            var booked = 2 * volume.Microlitres * scale;
            Assert.InRange(booked - exact, 1 - scale, scale);
        });

    private static string Converted(IReadOnlyList<Unit> units, string typed, string unit)
    {
        Assert.Null(Figure.Read(typed, comma: false, small: true, out var figure));
        return units.First(known => known.Name == unit).Convert(figure);
    }
}
