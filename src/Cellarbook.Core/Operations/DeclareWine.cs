using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// Fermentation is over: the measured volume becomes bulk wine of the stated strength. The only door from must to wine. What the must had more
/// is lees, as said, and shrinkage; never hidden.
/// </summary>
public sealed record DeclareWine : Operation
{
    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel; left out: the lot's one place.</summary>
    public string? Vessel { get; init; }

    /// <summary>Measured volume of wine.</summary>
    public Volume? Litres { get; init; }

    /// <summary>Stated strength.</summary>
    public Strength? Abv { get; init; }

    /// <summary>Product kind; still when left out.</summary>
    public ProductKind? Product { get; init; }

    /// <summary>The day fermentation ended, when earlier.</summary>
    public DateOnly? EndedOn { get; init; }

    /// <summary>Lees and other losses.</summary>
    public IReadOnlyList<Loss>? Losses { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (deciding.PlaceOf(Lot, Vessel, "") is not { } place || !deciding.Positive(Litres, "litres", "measured volume")) return;
        if (place.Account.Section != Section.Must)
        {
            deciding.Refuse(RefusalCode.WrongAccount, "lot", $"Lot {Lot} in {place.Account.Place} is wine already. Gauge it, or state its strength anew.");
            return;
        }
        if (place.IsEmpty)
        {
            deciding.Refuse(RefusalCode.MoreThanIsThere, "lot", $"No must of {Lot} is left in {place.Account.Place} on {Day:yyyy-MM-dd}. Check the vessel, or the day.");
            return;
        }
        var must = place.Account;
        var wine = Account.Bulk(must.Name, must.Place);
        deciding.At("litres").Post("PRODUCED", must, wine, Litres!.Value, Abv, Product ?? ProductKind.Still);
        var lost = Volume.None;
        foreach (var (loss, i) in (Losses ?? []).Select((loss, i) => (loss, i)))
        {
            if (!deciding.Positive(loss.Litres, $"losses[{i}].litres")) continue;
            lost += loss.Litres!.Value;
            WaysOut.Post(deciding.At($"losses[{i}].litres"), loss.Kind, must, loss.Litres!.Value, $"losses[{i}].kind");
        }
        var shrinkage = place.Volume - Litres.Value - lost;
        if (shrinkage.IsPositive) deciding.At("litres").Post("FERMENT_VOLUME_CHANGE", must, Account.Shrinkage, shrinkage);
        else if (shrinkage < Volume.None) deciding.At("litres").Post("FERMENT_VOLUME_CHANGE", Account.Shrinkage, must, -shrinkage);
        if (shrinkage < Volume.None) deciding.Raise("more_than_the_must", $"{-shrinkage} more was measured than the must in the book; it counts as negative shrinkage.");
    }

    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed)
    {
        // All of the must was measured: what a late entry adds to or takes from it has to show.
        if (deed.Postings.Count == 0) yield break;
        yield return (deed.Postings[0].From, Volume.None);
    }
}
