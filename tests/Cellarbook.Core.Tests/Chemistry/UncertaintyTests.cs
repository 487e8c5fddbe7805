using Cellarbook.Core.Chemistry;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>A reading's own uncertainty is carried to the result.</summary>
public class UncertaintyTests
{
    [Fact]
    public void Two_readings_of_a_thousandth_and_the_rule_make_a_third_of_a_percent()
    {
        // 131.25 x √2 x 0.001 = 0.186; with 0.3 for the rule 0.353 (same figures as rows T12 and T14).
        BenchAnswer answer = BenchCalculators.Find("strength-from-gravities")!.Answer(BenchInputs.None.With("originalGravity", 1.090).With("finalGravity", 0.995).With("factor", "eu")
            .With("originalGravityUncertainty", 0.001).With("finalGravityUncertainty", 0.001));
        Explained linear = answer.Find("abvLinear")!;
        Assert.Equal(0.3528, linear.Uncertainty!.Value, 0.0005);
        Assert.Contains("Original gravity 20/20 ± 0.001 SG", linear.UncertaintyBasis?.ToString(), StringComparison.Ordinal);
        Assert.Equal("12.5 ± 0.4 % vol", linear.ToString());
    }

    [Fact]
    public void Without_given_uncertainties_the_customary_one_is_shown_as_assumed()
    {
        Explained linear = BenchCalculators.Find("strength-from-gravities")!.Answer(BenchInputs.None.With("originalGravity", 1.090).With("finalGravity", 0.995).With("factor", "eu")).Find("abvLinear")!;
        Assert.Equal(0.5, linear.Uncertainty);
        Assert.StartsWith("assumed", linear.UncertaintyBasis?.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Half_a_degree_matters_little_at_20_and_more_in_warm_must()
    {
        static double U(double celsius) => BenchCalculators.Find("hydrometer-must")!.Answer(BenchInputs.None.With("gravity", 1.090).With("celsius", celsius).With("calibrationCelsius", 20)
            .With("glass", "sodaLime").With("celsiusUncertainty", 0.5)).Find("gravity")!.Uncertainty!.Value;
        Assert.InRange(U(10), 0.00005, 0.0002);
        Assert.True(U(30) > U(10));
    }

    [Fact]
    public void An_uncertainty_that_leads_out_of_the_method_is_not_hidden()
    {
        // Near the top of the table one side is still inside: its one-sided change is used.
        BenchAnswer oneSided = BenchCalculators.Find("potential-strength")!.Answer(BenchInputs.None.With("sugarGramsPerLitre", 400).With("factor", "eu").With("sugarGramsPerLitreUncertainty", 2));
        Assert.Equal(2 / 16.83, oneSided.Find("potentialAbv")!.Uncertainty!.Value, 1e-6);

        BenchAnswer lost = BenchCalculators.Find("german-natural-strength")!.Answer(BenchInputs.None.With("oechsle", 95).With("oechsleUncertainty", 0.5));
        Assert.Null(lost.Find("naturalAbv")!.Uncertainty);
        Assert.StartsWith("cannot say", lost.Find("naturalAbv")!.UncertaintyBasis?.ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(-0.001)]
    [InlineData(double.NaN)]
    [InlineData(1e9)]
    public void A_senseless_uncertainty_is_refused(double value)
    {
        BenchAnswer answer = BenchCalculators.Find("water-density")!.Answer(BenchInputs.None.With("celsius", 20).With("celsiusUncertainty", value));
        Assert.True(answer.IsRefused);
        Assert.Equal("celsiusUncertainty", Assert.Single(answer.Refusals).Path);
    }
}
