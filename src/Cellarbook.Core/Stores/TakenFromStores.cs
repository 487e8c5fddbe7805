using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>
/// Takes a material out of the stores at an operation's moment of book order: from the delivery chosen, else oldest first, which is then marked
/// as assumed; from nowhere known when nothing of it is in store.
/// </summary>
internal static class TakenFromStores
{
    /// <summary>The word for a delivery that nobody knows any more.</summary>
    public const string UnknownDelivery = "unknown";

    /// <summary>Posts an amount to one account, or shares it over several by weight (largest remainder, the earlier first).</summary>
    public static void Post(Deciding deciding, Material material, string? delivery, MaterialAmount amount, IReadOnlyList<(Account To, long Weight)> targets, string path, string amountAt, string? batch = null)
    {
        if (targets.Any(target => target.To.WineUsedIn is { } wine && !material.GoesInto(wine)))
        {
            deciding.Refuse(RefusalCode.NotForWine, Deciding.Join(path, "material"), material.Role switch
            {
                "cleaning" => (Sentence)$"{material.Said} is for cleaning and doesn't go into wine. Take it from the stores for cleaning; if it got into the wine, say so in an observation and what became of the wine.",
                "kit" => $"{material.Said} is a kit. Start it as a kit: its bag becomes must and its sachets lie in store.",
                _ => $"{material.Said} is packaging and doesn't go into a vessel. Name it when you bottle, or take it from the stores.",
            });
            return;
        }
        var shares = targets.Count == 1 ? [amount.Units] : LargestRemainder.Split(amount.Units, [.. targets.Select(target => target.Weight)]);
        var sources = Sources(deciding, material, delivery, amount, path, amountAt, batch);
        if (sources is null) return;
        var assumed = IsOldest(delivery, sources);
        var at = 0;
        var left = sources.Count == 0 ? 0 : sources[0].Amount.Units;
        for (var i = 0; i < targets.Count; i++)
            for (var needed = shares[i]; needed > 0;)
            {
                while (left == 0) left = sources[++at].Amount.Units;
                var taken = Math.Min(needed, left);
                deciding.PostMaterial(assumed ? "MATERIAL_USED_ASSUMED" : "MATERIAL_USED", sources[at].From, targets[i].To, new(taken), material.Unit);
                needed -= taken;
                left -= taken;
            }
        if (assumed) SayOldest(deciding, material, sources);
    }

    /// <summary>Posts an amount to one account under a category of its own, such as for cleaning.</summary>
    public static void Post(Deciding deciding, Material material, string? delivery, MaterialAmount amount, Account to, string category, string path, string amountAt)
    {
        if (Sources(deciding, material, delivery, amount, path, amountAt) is not { } sources) return;
        foreach (var (from, part) in sources) deciding.PostMaterial(category, from, to, part, material.Unit);
        if (IsOldest(delivery, sources)) SayOldest(deciding, material, sources);
    }

    /// <summary>True when nobody chose a delivery and the oldest in store was taken.</summary>
    private static bool IsOldest(string? delivery, List<(Account From, MaterialAmount Amount)> sources) => delivery is null && sources.Count > 0 && sources[0].From.Section == Section.Stores;

    private static void SayOldest(Deciding deciding, Material material, List<(Account From, MaterialAmount Amount)> sources) =>
        deciding.Assume($"No delivery was named for {material.Said}; the oldest in store was taken: {Sentence.Join(", ", sources.Select(source => Sentence.Of($"{material.Say(source.Amount)} of {source.From.Place}")))}.");

    /// <summary>What of a material lies in store at this moment, oldest first; what this operation itself took already is gone.</summary>
    public static IReadOnlyList<Place> InStore(Deciding deciding, Material material) =>
        [.. deciding.Cellar.DeliveriesOf(material.Code).Select(account => deciding.Left(account)).Where(place => place.Material.IsPositive).OrderBy(place => place.FirstDay)];

    private static List<(Account From, MaterialAmount Amount)>? Sources(Deciding deciding, Material material, string? delivery, MaterialAmount amount, string path, string amountAt, string? batch = null)
    {
        if (delivery is not null && delivery != UnknownDelivery)
        {
            var account = Account.Stores(material.Code, delivery);
            if (!deciding.Cellar.Knows(account))
            {
                var known = InStore(deciding, material);
                deciding.Refuse(RefusalCode.UnknownDelivery, Deciding.Join(path, "delivery"), $"There is no delivery {Names.Shown(delivery)} of {material.Code} on {deciding.Operation.Day:yyyy-MM-dd}. {(known.Count == 0 ? Sentence.Of("Nothing of it is in store.") : $"In store: {string.Join(", ", known.Select(place => place.Account.Place))}.")}");
                return null;
            }
            var there = deciding.Left(account).Material;
            if (amount <= there) return [(account, amount)];
            deciding.Refuse(RefusalCode.MoreThanIsThere, amountAt, $"Of delivery {delivery} {material.Say(there)} are in store, not {material.Say(amount)}. Check the amount, name another delivery for the rest, or count the stores first.");
            return null;
        }
        var stock = delivery is null ? InStore(deciding, material) : [];
        if (stock.Count == 0)
        {
            if (batch is null) deciding.Raise("batch_unknown", $"{material.Say(amount)} of {material.Said} came from no delivery in the book; its batch is unknown.");
            return [(Account.BatchUnknown(material.Code), amount)];
        }
        var taken = new List<(Account From, MaterialAmount Amount)>();
        var needed = amount;
        foreach (var place in stock)
        {
            var part = place.Material < needed ? place.Material : needed;
            taken.Add((place.Account, part));
            needed -= part;
            if (needed.IsNil) return taken;
        }
        deciding.Refuse(RefusalCode.MoreThanIsThere, amountAt, $"{material.Say(amount - needed)} of {material.Said} are in store, not {material.Say(amount)}. Check the amount, enter the delivery that is missing, or say delivery “{Sentence.Verbatim(UnknownDelivery)}”.");
        return null;
    }
}
