namespace Cellarbook.Core.Chemistry;

/// <summary>The sheet a calculator works on: checked inputs on one side, results and refusals on the other.</summary>
public sealed class BenchSheet
{
    private readonly IReadOnlyList<BenchInput> asked;
    private readonly BenchInputs inputs;
    private readonly List<Explained> results = [];
    private readonly List<BenchRefusal> refusals = [];

    internal BenchSheet(IReadOnlyList<BenchInput> asked, BenchInputs inputs, bool uncertaintyGiven) => (this.asked, this.inputs, UncertaintyGiven) = (asked, inputs, uncertaintyGiven);

    /// <summary>True when the uncertainty of a reading was given and will be carried through.</summary>
    public bool UncertaintyGiven { get; }

    /// <summary>A number that is needed, hence there; asking for another is a bug.</summary>
    public double this[string name] => inputs.Number(name) ?? throw new InvalidOperationException("No number " + name + " on this sheet.");

    /// <summary>What a person reads beside an input, in quotation marks.</summary>
    public Sentence Label(string name) => $"“{asked.First(i => i.Name == name).Label}”";

    /// <summary>True when the input was given.</summary>
    public bool Has(string name) => inputs.Number(name) is not null || inputs.Choice(name) is not null;

    /// <summary>A number that may be left out.</summary>
    public double? Maybe(string name) => inputs.Number(name);

    /// <summary>A choice that is needed.</summary>
    public string Choice(string name) => inputs.Choice(name) ?? throw new InvalidOperationException("No choice " + name + " on this sheet.");

    /// <summary>A choice that may be left out.</summary>
    public string? MaybeChoice(string name) => inputs.Choice(name);

    /// <summary>Adds a result; one that is no number becomes a refusal with the validity of its formula.</summary>
    public void Add(Explained result)
    {
        if (double.IsFinite(result.Value))
        {
            results.Add(result);
        }
        else
        {
            refusals.Add(new BenchRefusal(RefusalCodes.OutsideValidity, result.Name,
                $"{result.Label}: cannot say, the figures are outside what \"{result.Method}\" holds for.", result.Validity, result.Source));
        }
    }

    /// <summary>Adds all of another answer.</summary>
    public void Add(BenchAnswer answer)
    {
        results.AddRange(answer.Results);
        refusals.AddRange(answer.Refusals);
    }

    /// <summary>Refuses one figure or the whole.</summary>
    public void Refuse(string code, string path, Sentence sentence, Sentence valid, Sentence source) => refusals.Add(new BenchRefusal(code, path, sentence, valid, source));

    /// <summary>The one input given of several that say the same thing; null (and a refusal) when none or more than one is.</summary>
    public string? OneOf(params ReadOnlySpan<string> names)
    {
        string? found = null;
        int given = 0;
        foreach (string name in names)
        {
            if (inputs.Number(name) is not null)
            {
                found = name;
                given++;
            }
        }

        if (given == 1)
        {
            return found;
        }

        string all = string.Join(", ", names!), read = string.Join(", ", names.ToArray().Select(Label));
        Refuse(given == 0 ? RefusalCodes.MissingInput : RefusalCodes.Impossible, names[0],
            given == 0 ? (Sentence)$"Give one of {read}." : (Sentence)$"Give only one of {read}; the others follow from it.", $"exactly one of {all}", "this calculator");
        return null;
    }

    /// <summary>True when the two are in order; else a refusal.</summary>
    public bool Ordered(string lowName, string highName, Sentence sentence)
    {
        if (this[lowName] <= this[highName])
        {
            return true;
        }

        Refuse(RefusalCodes.Impossible, lowName, sentence, $"{Label(lowName)} not above {Label(highName)} ({Show.Typed(this[highName])})", "physics");
        return false;
    }

    internal BenchAnswer Answer() => new(results, refusals);
}
