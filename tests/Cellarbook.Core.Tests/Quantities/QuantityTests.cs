using System.Globalization;
using System.Numerics;
using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Quantities;

/// <summary>Numbers are exact or refused; splits always add up.</summary>
public class QuantityTests
{
    private static readonly Gen<long> Any = Gen.OneOf(Gen.Long, Gen.Long[-2_000, 2_000], Gen.OneOf(long.MinValue, long.MaxValue, 0L));

    [Fact]
    public void A_count_of_units_written_is_read_again() =>
        Gen.Select(Any, Gen.Int[0, 12]).Sample((units, decimals) =>
        {
            foreach (var text in new[] { ExactNumber.Write(units, decimals), ExactNumber.WriteFixed(units, decimals), "+" + ExactNumber.Write(units, decimals), ExactNumber.Write(units, decimals) + "e0", $"{units}E-{decimals}" })
            {
                if (text.StartsWith("+-", StringComparison.Ordinal)) continue;
                Assert.Equal((ExactNumber.Fault.None, units), (ExactNumber.Read(text, decimals, out var again), again));
            }
        }, iter: 5_000);

    [Fact]
    public void What_is_finer_than_the_unit_is_refused_and_never_rounded() =>
        Gen.Select(Gen.Long[-1_000_000_000_000, 1_000_000_000_000], Gen.Int[0, 9], Gen.Int[1, 9]).Sample((units, decimals, digit) =>
        {
            var finer = ExactNumber.WriteFixed(units, decimals) + (decimals == 0 ? "." : "") + digit;
            Assert.Equal(ExactNumber.Fault.TooFine, ExactNumber.Read(finer, decimals, out _));
            // With noughts behind it is the same figure.
            Assert.Equal((ExactNumber.Fault.None, units), (ExactNumber.Read(ExactNumber.WriteFixed(units, decimals) + (decimals == 0 ? ".00" : "00"), decimals, out var again), again));
        }, iter: 5_000);

    [Fact]
    public void Reading_agrees_with_big_rational_arithmetic() =>
        Gen.Select(Gen.Long, Gen.Int[0, 25], Gen.Int[-30, 30], Gen.Int[0, 9]).Sample((digits, point, exponent, decimals) =>
        {
            var mantissa = Math.Abs((decimal)digits).ToString(CultureInfo.InvariantCulture).PadLeft(point + 1, '0');
            var text = (digits < 0 ? "-" : "") + mantissa[..^point] + (point > 0 ? "." + mantissa[^point..] : "") + "e" + exponent.ToString(CultureInfo.InvariantCulture);
            // digits × 10^(exponent − point + decimals), as a fraction.
            var power = exponent - point + decimals;
            var (top, bottom) = power >= 0 ? (digits * BigInteger.Pow(10, power), BigInteger.One) : (digits, BigInteger.Pow(10, -power));
            var wanted = top % bottom != 0 ? ExactNumber.Fault.TooFine : top / bottom > long.MaxValue || top / bottom < long.MinValue ? ExactNumber.Fault.TooLarge : ExactNumber.Fault.None;
            Assert.Equal(wanted, ExactNumber.Read(text, decimals, out var units));
            if (wanted == ExactNumber.Fault.None) Assert.Equal(top / bottom, units);
        }, iter: 5_000);

    [Theory]
    [InlineData("")]
    [InlineData("-")]
    [InlineData(".")]
    [InlineData("1,5")]
    [InlineData("1 000")]
    [InlineData(" 1")]
    [InlineData("1.2.3")]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("0x10")]
    [InlineData("1e")]
    [InlineData("1e1.5")]
    [InlineData("1L")]
    [InlineData("--1")]
    [InlineData("٣")]
    public void What_is_no_plain_number_is_none(string text) => Assert.Equal(ExactNumber.Fault.NotANumber, ExactNumber.Read(text, 6, out _));

    [Fact]
    public void Forty_digits_are_too_many() => Assert.Equal(ExactNumber.Fault.TooLarge, Volume.ReadLitres("1111111111222222222233333333334444444444", out _));

    [Fact]
    public void A_figure_has_a_most_and_the_most_itself_is_good()
    {
        Assert.Equal((ExactNumber.Fault.None, Volume.Most), (Volume.ReadLitres("1000000000", out var most), most));
        Assert.Equal(ExactNumber.Fault.TooLarge, Volume.ReadLitres("1000000000.000001", out _));
        Assert.Equal(ExactNumber.Fault.TooLarge, Volume.ReadMillilitres("-1000000000000.001", out _));
    }

    /// <summary>Texts made of what numbers are made of, and any text at all: a quantity or a fault, never an exception, and no text means two figures.</summary>
    [Fact]
    public void Any_text_is_a_quantity_or_a_fault() =>
        Gen.OneOf(Gen.String, Gen.String[Gen.Char["0123456789.-+eE,"], 0, 30], Gen.String[Gen.Char["0123456789"], 380, 420], Gen.String[Gen.Char["0123456789"], 1, 20]).Sample(text =>
        {
            ExactNumber.Fault[] faults = [Volume.ReadLitres(text, out var volume), Volume.ReadMillilitres(text, out _), Strength.ReadPercent(text, out var strength), Mass.ReadGrams(text, out _), FruitWeight.ReadKilograms(text, out _), Percent.Read(text, out _), Reading.Read(text, out var reading)];
            if (faults[0] == ExactNumber.Fault.None) Assert.Equal((ExactNumber.Fault.None, volume), (Volume.ReadLitres(volume.Litres, out var again), again));
            if (faults[2] == ExactNumber.Fault.None) Assert.InRange(strength.Hundredths, 0, 10_000);
            if (faults[6] == ExactNumber.Fault.None) Assert.True(double.IsFinite(reading.Value));
        }, iter: 2_000);

    [Fact]
    public void Law_7_the_parts_of_a_split_always_add_up_and_none_is_off_by_a_unit() =>
        Gen.Select(Gen.OneOf(Gen.Long[0, 100], Gen.Long[0, long.MaxValue]), Gen.OneOf(Gen.Long[0, 5], Gen.Long[0, 1_000_000_000_000]).Array[1, 12]).Sample((whole, weights) =>
        {
            if (weights.All(weight => weight == 0)) return;
            var parts = LargestRemainder.Split(whole, weights);
            var total = weights.Aggregate(BigInteger.Zero, (sum, weight) => sum + weight);
            Assert.Equal(whole, parts.Sum());
            for (var i = 0; i < parts.Length; i++)
            {
                var (floor, rest) = BigInteger.DivRem((BigInteger)whole * weights[i], total, out _) is var quotient ? (quotient, (BigInteger)whole * weights[i] - quotient * total) : default;
                Assert.True(parts[i] == floor || (parts[i] == floor + 1 && rest > 0), $"{parts[i]} for {floor} and {rest}/{total}");
                // Nobody with a larger remainder, or the same and earlier, went without.
                for (var j = 0; j < parts.Length; j++)
                {
                    var restOfOther = (BigInteger)whole * weights[j] % total;
                    if (parts[i] > floor && parts[j] == (BigInteger)whole * weights[j] / total) Assert.True(rest > restOfOther || (rest == restOfOther && i < j));
                }
            }
        }, iter: 3_000);

    [Fact]
    public void Law_7_ties_go_to_the_earlier_part() => Assert.Equal([4, 3, 3], LargestRemainder.Split(10, [1, 1, 1]));

    [Fact]
    public void Law_7_shares_of_mixed_origins_always_add_up_to_one()
    {
        var origin = Gen.Select(Gen.OneOf("Ambrosa", "Brunella", ""), Gen.OneOf("2024", "2025", ""), (variety, vintage) => new Origin(variety, vintage, "", ""));
        var mix = Gen.Select(origin, Gen.Long[0, 1_000], (one, weight) => (one, weight)).Array[1, 5].Select(parts => OriginMix.Of(parts));
        Gen.Select(mix, Gen.OneOf(Gen.Long[1, 10], Gen.Long[1, 1_000_000_000_000_000]), (one, microlitres) => (one, new Volume(microlitres))).Array[1, 8].Sample(parts =>
        {
            var met = OriginMix.Mix(parts);
            Assert.Equal(OriginMix.Whole, met.Shares.Sum(share => share.Parts));
            Assert.Equal(met.Shares.Select(share => share.Origin).Order(), met.Shares.Select(share => share.Origin));
            // Each within a unit of the exact share.
            var total = parts.Aggregate(BigInteger.Zero, (sum, part) => sum + part.Item2.Microlitres);
            foreach (var share in met.Shares)
            {
                var exact = parts.Aggregate(BigInteger.Zero, (sum, part) => sum + (BigInteger)part.Item2.Microlitres * part.one.Shares.Where(other => other.Origin == share.Origin).Sum(other => other.Parts));
                Assert.True(BigInteger.Abs(share.Parts * total - exact) <= total * 2, $"{share}");
            }
        }, iter: 2_000);
    }

    [Theory]
    [InlineData(10_000_000, 1200, 10_000_000, 1300, 1250)]
    [InlineData(10_000_000, 1200, 10_000_000, 1201, 1201)]
    [InlineData(1, 1, 2, 0, 0)]
    [InlineData(1, 0, 1, 1, 1)]
    public void Strengths_that_meet_round_half_up_to_a_hundredth(long one, int strong, long other, int weak, int met) =>
        Assert.Equal(met, (Alcohol.In(new(one), new(strong)) + Alcohol.In(new(other), new(weak))).StrengthIn(new(one + other)).Hundredths);

    [Fact]
    public void An_overflow_is_never_a_figure()
    {
        Assert.Throws<OverflowException>(() => new Volume(long.MaxValue) + new Volume(1));
        Assert.Throws<OverflowException>(() => -new Volume(long.MinValue));
        Assert.Throws<OverflowException>(() => new BottleCount(long.MaxValue) * new Volume(2));
    }
}
