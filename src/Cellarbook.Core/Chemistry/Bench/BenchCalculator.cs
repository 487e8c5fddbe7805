namespace Cellarbook.Core.Chemistry;

/// <summary>One calculator of the bench: its inputs and a pure function from them to explained results or refusals.</summary>
/// <param name="Id">Stable id, part of its address.</param>
/// <param name="Group">Group in which it is listed.</param>
/// <param name="Title">Title.</param>
/// <param name="Purpose">One sentence: what it answers.</param>
/// <param name="Inputs">What it asks for.</param>
/// <param name="Work">Fills a sheet from checked inputs.</param>
public sealed record BenchCalculator(string Id, Sentence Group, Sentence Title, Sentence Purpose, IReadOnlyList<BenchInput> Inputs, Action<BenchSheet> Work)
{
    private const string Suffix = "Uncertainty";

    /// <summary>Checks the inputs, works, and carries given uncertainties of readings to every result.</summary>
    public BenchAnswer Answer(BenchInputs typed)
    {
        List<BenchRefusal> wrong = Check(typed);
        if (wrong.Count > 0)
        {
            return new BenchAnswer([], wrong);
        }

        List<BenchInput> uncertain = [.. Inputs.Where(i => typed.Number(i.Name) is not null && typed.Number(i.UncertaintyName) is > 0)];
        BenchAnswer answer = Run(typed, uncertain.Count > 0);
        return uncertain.Count == 0 || answer.IsRefused ? answer : Carry(typed, uncertain, answer);
    }

    private BenchAnswer Run(BenchInputs inputs, bool uncertaintyGiven)
    {
        var sheet = new BenchSheet(Inputs, inputs, uncertaintyGiven);
        Work(sheet);
        return sheet.Answer();
    }

    /// <summary>Moves each uncertain input up and down by its uncertainty and adds the halves of what the results do in squares.</summary>
    private BenchAnswer Carry(BenchInputs typed, List<BenchInput> uncertain, BenchAnswer answer)
    {
        var squares = new double[answer.Results.Count];
        var lost = new bool[answer.Results.Count];
        foreach (BenchInput input in uncertain)
        {
            double centre = typed.Number(input.Name)!.Value, step = typed.Number(input.UncertaintyName)!.Value;
            BenchAnswer above = Run(typed.With(input.Name, centre + step), true), below = Run(typed.With(input.Name, centre - step), true);
            for (int i = 0; i < squares.Length; i++)
            {
                double here = answer.Results[i].Value;
                double? up = above.Find(answer.Results[i].Name)?.Value, down = below.Find(answer.Results[i].Name)?.Value;
                double? change = (up, down) switch
                {
                    (double u, double d) => (u - d) / 2,
                    (double u, null) => u - here,
                    (null, double d) => here - d,
                    _ => null,
                };
                squares[i] += change * change ?? 0;
                lost[i] |= change is null;
            }
        }

        Sentence basis = $"carried from {Sentence.Join(", ", uncertain.Select(i => Sentence.Of($"{i.Label} ± {Show.Typed(typed.Number(i.UncertaintyName)!.Value)}{(i.Unit.Length == 0 ? "" : " " + i.Unit)}")))} as root of the sum of squares";
        var results = new Explained[squares.Length];
        for (int i = 0; i < results.Length; i++)
        {
            Explained result = answer.Results[i];
            results[i] = lost[i]
                ? result with { Uncertainty = null, UncertaintyBasis = "cannot say: the uncertainty leads outside the validity of the method" }
                : result with
                {
                    Uncertainty = Chemistry.Uncertainty.Combined(Math.Sqrt(squares[i]), result.Uncertainty ?? 0),
                    UncertaintyBasis = result.UncertaintyBasis is null ? basis : $"{basis}, with {result.UncertaintyBasis}",
                };
        }

        return answer with { Results = results };
    }

    private List<BenchRefusal> Check(BenchInputs typed)
    {
        var wrong = new List<BenchRefusal>();
        foreach (string name in typed.Names)
        {
            if (!Inputs.Any(i => i.Name == name || (!i.IsChoice && i.UncertaintyName == name)))
            {
                var known = Sentence.Verbatim(string.Join(", ", Inputs.Select(i => i.Name)));
                wrong.Add(new BenchRefusal(RefusalCodes.UnknownInput, name, $"\"{name}\" is no input of this calculator; the unit is part of the name. It takes {known}.", known, Title));
            }
        }

        foreach (BenchInput input in Inputs)
        {
            if ((input.IsChoice ? CheckChoice(input, typed) : CheckNumber(input, typed) ?? CheckUncertainty(input, typed)) is { } refusal)
            {
                wrong.Add(refusal);
            }
        }

        return wrong;
    }

    private BenchRefusal? CheckNumber(BenchInput input, BenchInputs typed)
    {
        Sentence valid = input.Range.Said;
        if (typed.Number(input.Name) is not double value)
        {
            return typed.Choice(input.Name) is not null
                ? new BenchRefusal(RefusalCodes.NotANumber, input.Name, $"{input.Label} must be a number in {Sentence.Seed(input.Unit)}.", valid, Title)
                : input.Optional ? null : new BenchRefusal(RefusalCodes.MissingInput, input.Name, $"{input.Label} is missing: give a number from {valid}.", valid, Title);
        }

        return !double.IsFinite(value)
            ? new BenchRefusal(RefusalCodes.NotANumber, input.Name, $"{input.Label} must be a finite number.", valid, Title)
            : input.Range.Contains(value)
                ? null
                : new BenchRefusal(RefusalCodes.OutOfRange, input.Name, $"{input.Label} {Show.Typed(value)} is outside {valid}.", valid, Title);
    }

    private BenchRefusal? CheckUncertainty(BenchInput input, BenchInputs typed)
    {
        if (typed.Number(input.UncertaintyName) is not double value)
        {
            return typed.Choice(input.UncertaintyName) is null ? null
                : new BenchRefusal(RefusalCodes.NotANumber, input.UncertaintyName, $"The uncertainty of {input.Label} must be a number.", "0 or more", Title);
        }

        double most = input.Range.High - input.Range.Low;
        return double.IsFinite(value) && value >= 0 && value <= most
            ? null
            : new BenchRefusal(RefusalCodes.OutOfRange, input.Name + Suffix, $"The uncertainty of {input.Label} must be a number from 0 to {Show.Typed(most)}.", $"0 to {Show.Typed(most)}", Title);
    }

    private BenchRefusal? CheckChoice(BenchInput input, BenchInputs typed)
    {
        var valid = Sentence.Verbatim(string.Join(", ", input.Choices.Select(c => c.Code)));
        string? code = typed.Choice(input.Name) ?? (typed.Number(input.Name) is double number ? Show.Typed(number) : null);
        return code is null
            ? input.Optional ? null : new BenchRefusal(RefusalCodes.MissingInput, input.Name, $"{input.Label} is missing: choose one of {valid}.", valid, Title)
            : typed.Choice(input.Name) is not null && input.Choices.Any(c => c.Code == code)
                ? null
                : new BenchRefusal(RefusalCodes.UnknownChoice, input.Name, $"{input.Label} \"{code}\" is not one of {valid}.", valid, Title);
    }
}
