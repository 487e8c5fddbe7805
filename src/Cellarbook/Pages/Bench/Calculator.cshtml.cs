using Cellarbook.Core.Chemistry;
using Cellarbook.Forms;
using Cellarbook.Pages.Shared;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Bench;

/// <summary>One calculator. The form goes by its address alone, so that a result can be kept as a bookmark and needs no script.</summary>
public sealed class CalculatorModel(Shared.Show show) : PageModel
{
    private readonly Dictionary<string, List<Sentence>> faults = new(StringComparer.Ordinal);

    /// <summary>The calculator.</summary>
    public BenchCalculator Calculator { get; private set; } = null!;

    /// <summary>What it answers; null before anything was filled in, or when a figure can't be read.</summary>
    public BenchAnswer? Answer { get; private set; }

    /// <summary>Refusals that belong to no field.</summary>
    public IReadOnlyList<BenchRefusal> Refusals { get; private set; } = [];

    /// <summary>Cautions that several results share: said once, above them.</summary>
    public IReadOnlyList<Sentence> Shared => [.. (Answer?.Results ?? []).Where(result => result.Caution is not null).GroupBy(result => result.Caution!).Where(same => same.Count() > 1).Select(same => same.Key)];

    /// <summary>True when a field was wrong.</summary>
    public bool HasFaults => faults.Count > 0;

    /// <summary>True when an uncertainty was given or is wrong: then its part of the form stands open.</summary>
    public bool ShowsUncertainty => Calculator.Inputs.Any(input => !input.IsChoice && (Typed(input.UncertaintyName).Length > 0 || FaultsOf(input.UncertaintyName).Count > 0));

    /// <summary>Works out what the address says.</summary>
    public IActionResult OnGet(string id)
    {
        if (BenchCalculators.Find(id) is not { } calculator) return NotFound();
        Calculator = calculator;
        if (Request.Query.Count == 0) return Page();
        var inputs = Read();
        Answer = calculator.Answer(inputs);
        foreach (var refusal in Answer.Refusals.Where(refusal => IsField(refusal.Path) && Answer.IsRefused))
            // A figure that can't be read is said to be so, not to be missing as well.
            if (FaultsOf(refusal.Path).Count == 0) Fault(refusal.Path, refusal.Sentence);
        Refusals = [.. Answer.Refusals.Where(refusal => !Answer.IsRefused || !IsField(refusal.Path))];
        if (HasFaults)
        {
            Answer = null;
            Response.StatusCode = StatusCodes.Status422UnprocessableEntity;
        }
        return Page();
    }

    /// <summary>What was typed into a field.</summary>
    public string Typed(string name) => Request.Query[name].ToString();

    /// <summary>What is wrong with a field.</summary>
    public IReadOnlyList<Sentence> FaultsOf(string name) => faults.TryGetValue(name, out var found) ? found : [];

    /// <summary>What a field takes, in words.</summary>
    public string Takes(BenchInput input)
    {
        // A bound that only keeps figures finite tells nobody anything.
        var range = input.Range.High >= 1e5 ? "" : Marked(input.Range.Said);
        return range.Length > 0 && input.Note is not null ? range + "; " + Marked(input.Note) : range + (input.Note is null ? "" : Marked(input.Note));
    }

    /// <summary>A text of the bench with the reader's own decimal mark.</summary>
    public string Marked(Sentence text) => Decimals.Marked(show.T[text], show);

    private bool IsField(string name) => Calculator.Inputs.Any(input => input.Name == name || (!input.IsChoice && input.UncertaintyName == name));

    private BenchInputs Read()
    {
        var inputs = BenchInputs.None;
        foreach (var input in Calculator.Inputs)
        {
            if (input.IsChoice)
            {
                if (Typed(input.Name) is { Length: > 0 } code) inputs = inputs.With(input.Name, code);
                continue;
            }
            inputs = ReadNumber(inputs, input.Name, input.Range);
            inputs = ReadNumber(inputs, input.UncertaintyName, new ValidRange(0, input.Range.High - input.Range.Low, input.Unit));
        }
        return inputs;
    }

    private BenchInputs ReadNumber(BenchInputs inputs, string name, ValidRange range)
    {
        if (Typed(name).Trim() is not { Length: > 0 } text) return inputs;
        if (Figure.Read(text, show.Preferences.DecimalComma, read => range.Contains(read.Number), out var figure) is { } fault)
        {
            Fault(name, fault);
            return inputs;
        }
        return inputs.With(name, figure.Number);
    }

    private void Fault(string name, Sentence sentence)
    {
        if (!faults.TryGetValue(name, out var found)) faults.Add(name, found = []);
        found.Add(sentence);
    }
}
