using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Forms;

/// <summary>A strength proposed from gravities, for the maker to take or change.</summary>
/// <param name="Strength">The strength.</param>
/// <param name="Typed">As it stands in the field.</param>
/// <param name="Sentence">What it was worked out from.</param>
public sealed record StrengthProposal(Strength Strength, string Typed, string Sentence)
{
    /// <summary>% vol for each point of 1 by which the gravity fell. Common practice, no source; good to about half a per cent.</summary>
    private const double PercentPerGravity = 131.25;

    /// <summary>
    /// A simple estimate from the highest and the latest gravity read of a lot; nothing where fewer than two were read. It knows nothing of sugar,
    /// water or spirit added in between.
    /// </summary>
    public static StrengthProposal? For(Book book, string lot, Pages.Shared.Show show)
    {
        var gravities = book.Pages.SelectMany(page => page.Deeds).Select(deed => deed.Operation).OfType<Measure>()
            .Where(measure => measure.Lot == lot && measure.Gravity is not null).Select(measure => measure.Gravity!.Value).ToArray();
        if (gravities.Length < 2) return null;
        var (first, last) = (gravities.MaxBy(gravity => gravity.Value), gravities[^1]);
        var percent = (first.Value - last.Value) * PercentPerGravity;
        if (percent is <= 0 or > 25) return null;
        var text = percent.ToString("0.0", CultureInfo.InvariantCulture);
        return Strength.ReadPercent(text, out var strength) == ExactNumber.Fault.None
            ? new(strength, show.Mark(text), $"Estimated from gravities {show.Mark(first.Text)} and {show.Mark(last.Text)}, × 131.25: common practice, right to about half a per cent, and blind to sugar, water or wine added in between. State what you know better.")
            : null;
    }
}
