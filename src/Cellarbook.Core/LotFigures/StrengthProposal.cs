using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.LotFigures;

/// <summary>A strength to propose when fermentation is over: never taken for the user, only shown, with what it rests on.</summary>
/// <param name="Abv">The strength in whole 0.01 % vol, half up; null when nothing can be proposed.</param>
/// <param name="Figure">The figure it was taken from; null when nothing can be proposed.</param>
/// <param name="CannotSay">Why nothing can be proposed, and what would help; null when something is.</param>
public sealed record StrengthProposal(Strength? Abv, LotFigure? Figure, Sentence? CannotSay)
{
    /// <summary>What to propose for must in a place: a measured strength that holds or was carried on, else the estimate from gravities.</summary>
    public static StrengthProposal For(Book.Book book, Place place, DateOnly? on = null)
    {
        var figures = PlaceFigures.Of(book, place, on);
        var figure = figures.Find("abvMeasured") ?? figures.Find("abvCarried") ?? figures.Find("abvEstimated");
        if (figure is null) return new(null, null, figures.CannotSay.First(refusal => refusal.Path == "abvEstimated").Sentence);
        // Rounding: nearest hundredth, half up. A tiny rise before keeps 12.345 at 12.35, which as a binary fraction lies a hair below.
        return new(new((int)Math.Floor((figure.Result.Value * 100) + 0.5 + 1e-9)), figure, null);
    }
}
