using System.Globalization;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Limits;

/// <summary>Substances are data with a source; amounts and doses are exact.</summary>
public class SubstanceTests
{
    [Fact]
    public void Every_substance_says_where_it_is_from()
    {
        Assert.Equal(Substances.All.Count, Substances.All.Select(substance => substance.Code).Distinct().Count());
        Assert.All(Substances.All, substance =>
        {
            Assert.Matches("^[a-z][a-z0-9]*(-[a-z0-9]+)*$", substance.Code);
            Assert.NotEmpty(substance.Name);
            Assert.NotEmpty(substance.Source);
            Assert.Contains(substance.Role, new[] { "additive", "processing-aid", "both", "sugar", "spirit", "water", "measure", "practice" });
        });
    }

    [Fact]
    public void A_reading_that_stands_for_a_substance_is_one_that_can_be_taken()
    {
        var names = typeof(Measure).GetProperties().Select(property => char.ToLowerInvariant(property.Name[0]) + property.Name[1..]).ToHashSet();
        Assert.All(Substances.All.Where(substance => substance.Reading.Length > 0), substance => Assert.Contains(substance.Reading, names));
        Assert.Equal("so2", Substances.OfReading("totalSo2MgPerLitre")?.Code);
        Assert.Null(Substances.OfReading("vaGramsPerLitre"));
        Assert.Null(Substances.OfReading("ph"));
    }

    [Theory] // Active content per gram as product tables print it, to 0.1 mg (computed from IUPAC atomic weights; 1 / 0.66686 for chalk).
    [InlineData("potassium-metabisulphite", "so2", "576.3")]
    [InlineData("potassium-sorbate", "sorbic-acid", "746.4")]
    [InlineData("copper-sulphate-pentahydrate", "copper", "254.5")]
    [InlineData("dap", "yan", "212.1")]
    [InlineData("malic-acid", "acidification-tartaric", "1119.3")]
    [InlineData("lactic-acid", "acidification-tartaric", "833.1")]
    [InlineData("dmdc", "methanol", "477.9")]
    [InlineData("calcium-carbonate", "deacidification-tartaric", "1499.6")]
    public void A_gram_of_a_product_counts_as_so_much(string product, string other, string milligrams) =>
        Assert.Equal(milligrams, decimal.Round(Substances.Counted(Substances.Find(product)!, new(1_000_000_000)).Single(pair => pair.Substance.Code == other).Amount.Nanograms / 1e6m, 1).ToString("0.0", CultureInfo.InvariantCulture));

    [Fact]
    public void A_dose_is_read_and_written_in_three_units()
    {
        Assert.Equal(ExactNumber.Fault.None, Dose.ReadGramsPerHectolitre("1.5", out var dose));
        Assert.Equal(("15", "0.015", "1.5"), (dose.MilligramsPerLitre, dose.GramsPerLitre, dose.GramsPerHectolitre));
        Assert.Equal(ExactNumber.Fault.TooFine, Dose.ReadMilligramsPerLitre("0.0000001", out _));
    }

    [Fact]
    public void A_dose_into_a_volume_and_back_is_the_same_dose() =>
        Gen.Select(Gen.Long[0, 10_000_000_000], Gen.Int[1, 100_000]).Sample((dose, litres) =>
            Assert.Equal(dose, SubstanceAmount.In(new(dose), Volume.OfLitres(litres)).PerLitre(Volume.OfLitres(litres)).NanogramsPerLitre));
}
