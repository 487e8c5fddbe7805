using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Forms;

/// <summary>A strength proposed when fermentation is over, for the maker to take or change.</summary>
/// <param name="Strength">The strength.</param>
/// <param name="Typed">As it stands in the field.</param>
/// <param name="Sentence">What it was worked out from.</param>
public sealed record StrengthProposal(Strength Strength, string Typed, Sentence Sentence)
{
    /// <summary>What the lot's readings and additions tell of its must in a vessel; nothing where they can't say.</summary>
    public static StrengthProposal? For(Book book, string lot, string? vessel, Pages.Shared.Show show)
    {
        var must = book.Now.PlacesOfLot(lot).FirstOrDefault(place => place.Account.Section == Section.Must && (vessel is null || place.Account.Place == vessel));
        if (must is null || Core.LotFigures.StrengthProposal.For(book, must) is not { Abv: { } strength, Figure: { } figure }) return null;
        var margin = figure.Result.Uncertainty is { } uncertainty ? $" ± {show.Mark(uncertainty.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture))}" : "";
        return new(strength, show.Mark(strength.Percent), $"{show.Mark(strength.Percent)}{margin} % vol, {figure.Result.Label:small}: from {(figure.Readings.Count == 1 ? Sentence.Of("entry") : "entries")} {string.Join(", ", figure.Readings.Select(reading => reading.Entry).Distinct().Take(6))}. State what you know better.");
    }
}
