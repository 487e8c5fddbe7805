using Cellarbook.Core.Chemistry;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace Cellarbook.Pages.Bench;

/// <summary>The calculators by group; a word finds those that speak of it.</summary>
public sealed class IndexModel(Shared.Show show) : PageModel
{
    /// <summary>The word looked for.</summary>
    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Word { get; set; }

    /// <summary>How many calculators there are.</summary>
    public static int Count => BenchCalculators.All.Count;

    /// <summary>What is listed, by group.</summary>
    public IReadOnlyList<IGrouping<Sentence, BenchCalculator>> Groups { get; private set; } = [];

    /// <summary>Lists what the word finds; everything without one.</summary>
    public void OnGet()
    {
        var words = (Word ?? "").Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Groups = [.. BenchCalculators.All.Where(calculator => words.All(word => Says(calculator, word))).GroupBy(calculator => calculator.Group)];
    }

    /// <summary>The anchor of a group.</summary>
    public static string Anchor(Sentence group) => group.ToString().ToLowerInvariant().Replace(' ', '-');

    private bool Says(BenchCalculator calculator, string word) =>
        new[] { calculator.Title, calculator.Purpose, calculator.Group }.Concat(calculator.Inputs.Select(input => input.Label)).Concat(calculator.Inputs.SelectMany(input => input.Choices.Select(choice => choice.Label)))
            .Any(text => show.T[text].Contains(word, StringComparison.OrdinalIgnoreCase));
}
