using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>A lot as a line of a list, and what a lot's page says first.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Volume">What is left of it in bulk.</param>
/// <param name="Places">Where it lies now.</param>
/// <param name="FirstDay">The day it came into being.</param>
/// <param name="LastDay">The day of the last entry that touched it.</param>
public sealed record LotLine(string Code, Volume Volume, IReadOnlyList<Place> Places, DateOnly FirstDay, DateOnly LastDay)
{
    /// <summary>A lot of the cellar; null for a code that no lot has.</summary>
    public static LotLine? Of(Cellar cellar, string code)
    {
        var accounts = cellar.AccountsOfLot(code);
        if (accounts.IsEmpty) return null;
        var (volume, first, last) = (Volume.None, DateOnly.MaxValue, DateOnly.MinValue);
        List<Place>? places = null;
        foreach (var account in accounts)
        {
            var place = cellar.At(account);
            if (place.FirstDay < first) first = place.FirstDay;
            if (place.LastDay > last) last = place.LastDay;
            if (place.IsEmpty) continue;
            volume += place.Volume;
            (places ??= []).Add(place);
        }
        return new(code, volume, places ?? [], first, last);
    }

    /// <summary>True when nothing is left of it in bulk.</summary>
    public bool IsEmpty => Places.Count == 0;

    /// <summary>"must", "wine", "must and wine", or "none left".</summary>
    public Sentence Stage
    {
        get
        {
            var (must, wine) = (Places.Any(place => place.Account.Section == Section.Must), Places.Any(place => place.Account.Section == Section.Bulk));
            return must && wine ? Sentence.Of("must and wine") : must ? "must" : wine ? "wine" : "none left in bulk";
        }
    }

    /// <summary>The strength of its wine: the one there is, else mixed; none when a place has none.</summary>
    public Strength? Strength
    {
        get
        {
            var (alcohol, volume) = (default(Alcohol), Volume.None);
            foreach (var place in Places)
            {
                if (place.Account.Section != Section.Bulk) continue;
                if (place.Standing.Strength is not { } strength) return null;
                alcohol += Alcohol.In(place.Volume, strength);
                volume += place.Volume;
            }
            return volume.IsPositive ? alcohol.StrengthIn(volume) : null;
        }
    }

    /// <summary>Origin of all of it, weighed by volume.</summary>
    public OriginMix Origin => OriginMix.Mix([.. Places.Select(place => (place.Origin, place.Volume))]);
}
