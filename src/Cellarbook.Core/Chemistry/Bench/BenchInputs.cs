namespace Cellarbook.Core.Chemistry;

/// <summary>What somebody put in: numbers and choices by name. Reading them from text or JSON is the host's matter.</summary>
public sealed class BenchInputs
{
    /// <summary>Nothing yet.</summary>
    public static readonly BenchInputs None = new([], []);

    private readonly Dictionary<string, double> numbers;
    private readonly Dictionary<string, string> choices;

    private BenchInputs(Dictionary<string, double> numbers, Dictionary<string, string> choices) => (this.numbers, this.choices) = (numbers, choices);

    /// <summary>Names of everything put in.</summary>
    public IEnumerable<string> Names => numbers.Keys.Concat(choices.Keys);

    /// <summary>The same with one number more, or another in its place.</summary>
    public BenchInputs With(string name, double value) => new(new Dictionary<string, double>(numbers, StringComparer.Ordinal) { [name] = value }, choices);

    /// <summary>The same with one choice more, or another in its place.</summary>
    public BenchInputs With(string name, string code) => new(numbers, new Dictionary<string, string>(choices, StringComparer.Ordinal) { [name] = code });

    /// <summary>The number of that name, or null.</summary>
    public double? Number(string name) => numbers.TryGetValue(name, out double value) ? value : null;

    /// <summary>The choice of that name, or null.</summary>
    public string? Choice(string name) => choices.GetValueOrDefault(name);
}
