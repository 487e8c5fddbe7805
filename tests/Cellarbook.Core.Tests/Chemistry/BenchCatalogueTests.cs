using Cellarbook.Core.Chemistry;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Chemistry;

/// <summary>Law 8 on the bench: every number can be opened, whatever calculator gives it; what can't be given is refused with range and source.</summary>
public class BenchCatalogueTests
{
    public static TheoryData<string> Ids => [.. BenchCalculators.All.Select(c => c.Id)];

    [Fact]
    public void Ids_are_unique_and_found_again()
    {
        Assert.Equal(BenchCalculators.All.Count, BenchCalculators.All.Select(c => c.Id).Distinct().Count());
        Assert.All(BenchCalculators.All, c => Assert.Same(c, BenchCalculators.Find(c.Id)));
        Assert.Null(BenchCalculators.Find("no-such-calculator"));
        Assert.Equal(10, BenchCalculators.All.Select(c => c.Group.ToString()).Distinct().Count(g => g is not "Acid"));
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Every_input_has_label_unit_and_range_and_no_default(string id)
    {
        BenchCalculator calculator = BenchCalculators.Find(id)!;
        Assert.Equal(calculator.Inputs.Count, calculator.Inputs.Select(i => i.Name).Distinct().Count());
        Assert.All(calculator.Inputs, i =>
        {
            Assert.NotEmpty(i.Label.ToString());
            Assert.True(i.IsChoice ? i.Choices.Count > 1 : i.Range.Low < i.Range.High, i.Name);
            Assert.True(i.IsChoice || i.Unit.Length > 0 || i.Name == "refractiveIndex", i.Name + " needs a unit");
        });

        // Nothing given: nothing answered.
        Assert.True(calculator.Answer(BenchInputs.None).IsRefused);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void Any_inputs_within_their_ranges_give_numbers_that_can_be_opened_or_refusals_that_explain(string id)
    {
        BenchCalculator calculator = BenchCalculators.Find(id)!;
        InputsOf(calculator).Sample(inputs =>
        {
            BenchAnswer answer = calculator.Answer(inputs);
            Assert.True(answer.Results.Count + answer.Refusals.Count > 0);
            Assert.Equal(answer.Results.Count, answer.Results.Select(r => r.Name).Distinct().Count());
            Assert.All(answer.Results, r =>
            {
                Assert.True(double.IsFinite(r.Value), r.Name);
                Assert.True(r.Uncertainty is null or >= 0, r.Name);
                Assert.NotEmpty(r.Method.ToString());
                Assert.NotEmpty(r.Source.ToString());
                Assert.NotEmpty(r.Validity.ToString());
                Assert.DoesNotContain("NaN", r.Worked, StringComparison.Ordinal);
                Assert.True(r.Worked.EndsWith("= " + r.Shown, StringComparison.Ordinal) || r.Worked.EndsWith("= " + r.Shown + " " + r.Unit, StringComparison.Ordinal), r.Worked);
            });
            Assert.All(answer.Refusals, r => Assert.True(r.Code.Length > 0 && r.Path.Length > 0 && !r.Sentence.IsEmpty && !r.Valid.IsEmpty && !r.Source.IsEmpty));
        }, iter: 300);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void A_calculator_can_answer_something_and_gives_the_same_answer_twice(string id)
    {
        BenchCalculator calculator = BenchCalculators.Find(id)!;
        int answered = 0;
        InputsOf(calculator).Sample(inputs =>
        {
            BenchAnswer first = calculator.Answer(inputs), second = calculator.Answer(inputs);
            Assert.Equal(first.Results, second.Results);
            Interlocked.Add(ref answered, first.Results.Count);
        }, iter: 3000);
        Assert.True(answered > 0, "no inputs were ever answered");
    }

    /// <summary>Random inputs: what is needed always, the rest now and then; of alternatives one.</summary>
    internal static Gen<BenchInputs> InputsOf(BenchCalculator calculator) => Gen.Select(Gen.Int[0, int.MaxValue - 1], Gen.Double[0, 1]).Select(seed =>
    {
        var random = new Random(seed.Item1);
        BenchInputs inputs = BenchInputs.None;
        List<BenchInput> optional = [.. calculator.Inputs.Where(i => i.Optional)];
        BenchInput? chosen = optional.Count == 0 ? null : optional[random.Next(optional.Count)];
        double further = random.Next(3) * 0.4;
        foreach (BenchInput input in calculator.Inputs.Where(i => !i.Optional || i == chosen || random.NextDouble() < further))
        {
            double share = random.Next(8) switch { 0 => 0, 1 => 1, _ => random.NextDouble() };

            // Rows of a dip table that rise, mostly; else no table would ever be right.
            if (input.Name.StartsWith("dip", StringComparison.Ordinal) && char.IsDigit(input.Name[3]) && random.Next(10) > 0)
            {
                share = (input.Name[3] - '0') / 7d;
            }

            inputs = input.IsChoice
                ? inputs.With(input.Name, input.Choices[random.Next(input.Choices.Count)].Code)
                : inputs.With(input.Name, Math.Clamp(Math.Round(input.Range.Low + (share * (input.Range.High - input.Range.Low)), 4), input.Range.Low, input.Range.High));
            if (!input.IsChoice && random.Next(5) == 0)
            {
                inputs = inputs.With(input.UncertaintyName, Math.Round(0.01 * (input.Range.High - input.Range.Low), 5));
            }
        }

        return inputs;
    });
}
