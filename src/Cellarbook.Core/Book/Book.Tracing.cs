using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Book;

public sealed partial class Book
{
    /// <summary>Where a delivery went; null when there is none of that account.</summary>
    public DeliveryTrace? TraceOf(Account delivery)
    {
        if (delivery.Section != Section.Stores || !now.Knows(delivery) || materials.Find(delivery.Name) is not { } material) return null;
        var day = now.At(delivery).FirstDay;
        var cellar = AsOf(day.AddDays(-1)).Fork();
        var (effects, unheard, byEntry) = (new List<Effect>(), new List<Violation>(), new Dictionary<long, List<Effect>>());
        // What was taken back since is traced as never dosed: the amounts are those of the book as it stands.
        var traced = new Tracing(delivery) { Never = pages.Skip(FirstPageFrom(day)).SelectMany(page => page.Deeds).Select(deed => deed.TakesBack).OfType<long>().ToHashSet() };
        var folding = new Folding(cellar, _ => null, number => byEntry.GetValueOrDefault(number) ?? EffectsOf(number), materials.Find) { Tracing = traced };
        var (uses, departures, mixes, passed) = (new List<DeliveryUse>(), new List<TracedDeparture>(), new List<Account>(), new HashSet<Account>());
        for (var i = FirstPageFrom(day); i < pages.Count; i++)
            foreach (var deed in pages[i].Deeds)
            {
                effects.Clear();
                folding.Apply(deed, effects, unheard);
                Follow(deed, delivery, uses, mixes, passed);
                if (Follow(deed, effects, traced.Substance, departures, passed)) byEntry[deed.Entry] = [.. byEntry.GetValueOrDefault(deed.Entry) ?? [], .. effects];
            }
        return new()
        {
            Delivery = delivery,
            Material = material,
            Facts = now.At(delivery).Delivery,
            InStore = now.At(delivery).Material,
            Uses = uses,
            Mixes = mixes,
            Passed = [.. passed.OrderBy(account => account.ToString(), StringComparer.Ordinal)],
            Holding = [.. cellar.Places.Select(place => new TracedPlace(place.Account, Amount(place.Carried, traced.Substance))).Where(place => !place.Amount.IsNil).OrderBy(place => place.Account.ToString(), StringComparer.Ordinal)],
            Departures = departures,
        };
    }

    /// <summary>Uses of the delivery in a deed, and mixes that it went into.</summary>
    private static void Follow(Deed deed, Account delivery, List<DeliveryUse> uses, List<Account> mixes, HashSet<Account> passed)
    {
        foreach (var posting in deed.Postings)
        {
            if (!posting.Category.IsOfStores) continue;
            if (posting.To.WineUsedIn is { } wine && (posting.From == delivery || mixes.Contains(posting.From))) passed.Add(wine);
            if (posting.From == delivery) uses.Add(new(new(deed.Entry), deed.Day, posting.To, posting.Category, posting.Material, posting.Category.Code == "MATERIAL_USED_ASSUMED"));
            else if (posting.To == delivery && posting.Category.Code is not ("MATERIAL_DELIVERED" or "MATERIAL_MIXED" or "MATERIAL_FROM_KIT"))
                uses.Add(new(new(deed.Entry), deed.Day, posting.From, posting.Category, -posting.Material, posting.Category.Code == "MATERIAL_USED_ASSUMED"));
            else if (posting.Category.Code == "MATERIAL_MIXED" && !posting.IsTakenBack && deed.Postings.Any(part => part.From == delivery)) mixes.Add(posting.To);
        }
    }

    /// <summary>What of it left or came back with wine in a deed; true when any of it moved at all.</summary>
    private static bool Follow(Deed deed, List<Effect> effects, Substance traced, List<TracedDeparture> departures, HashSet<Account> passed)
    {
        var moved = false;
        foreach (var effect in effects)
        {
            if (effect.Kind != EffectKind.Move || Amount(effect.Carried, traced) is not { IsNil: false } amount) continue;
            moved = true;
            var posting = deed.Postings[effect.Posting];
            if (posting.To.IsStock) passed.Add(posting.To);
            if (posting.From.IsStock && !posting.To.IsStock && posting.To.Section != Section.Process)
                departures.Add(new(new(deed.Entry), deed.Day, posting.From, posting.To, posting.Category, amount, deed.Operation?.Document, deed.Operation?.Recipient));
            else if (!posting.From.IsStock && posting.From.Section != Section.Process && posting.To.IsStock)
                departures.Add(new(new(deed.Entry), deed.Day, posting.To, posting.From, posting.Category, -amount, deed.Operation?.Document, deed.Operation?.Recipient));
        }
        return moved;
    }

    private static FineAmount Amount(Carried? carried, Substance traced) => new(carried?.Of(traced)?.Added.Nanograms ?? 0);
}

/// <summary>Folds with one delivery alone as what is dosed: a substance of its own, a million to its unit.</summary>
internal sealed record Tracing(Account Delivery)
{
    /// <summary>Entries whose doses don't count.</summary>
    public IReadOnlySet<long> Never { get; init; } = new HashSet<long>();

    /// <summary>What stands for it.</summary>
    public Substance Substance { get; } = new("traced", "the delivery", "", "", "", "", "", true, "");
}
