using Cellarbook.Core.Book;
using Cellarbook.Core.Stores;

namespace Cellarbook.Core.Operations;

/// <summary>Materials that left the stores for anything but wine: used for cleaning, spoilt, given away.</summary>
public sealed record TakeFromStores : Operation
{
    private static readonly Dictionary<string, (string Category, string To)> Ways = new(StringComparer.Ordinal)
    {
        ["cleaning"] = ("MATERIAL_CLEANING", "USED:CLEANING"), ["spoilt"] = ("MATERIAL_SPOILT", "LOSS:STORES"), ["gift"] = ("MATERIAL_GIVEN", "OUT:GIFT"),
    };

    /// <summary>cleaning, spoilt or gift.</summary>
    public string? As { get; init; }

    /// <summary>What was taken.</summary>
    public IReadOnlyList<MaterialUse>? Items { get; init; }

    internal override IEnumerable<string> SaidWords => As is null ? [] : [As];

    internal override IEnumerable<string> MaterialsNamed => (Items ?? []).Select(item => item.Material ?? "");

    internal override void Decide(Deciding deciding)
    {
        if (As is null || !Ways.TryGetValue(As, out var way))
        {
            deciding.Refuse(As is null ? RefusalCode.Missing : RefusalCode.UnknownWord, "as", $"Say where it went: {string.Join(", ", Ways.Keys)}.");
            return;
        }
        if (Items is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "items", "Say what was taken.");
        foreach (var (item, i) in (Items ?? []).Select((item, i) => (item, i)))
            if (item.Find(deciding, $"items[{i}]") is { } found) TakenFromStores.Post(deciding, found.Material, item.Delivery, found.Amount, Account.Counter(way.To), way.Category, $"items[{i}]", found.At);
    }
}

/// <summary>A stock-take of the stores: what each delivery counted holds; the difference is posted, not adjusted away.</summary>
public sealed record CountStores : Operation
{
    /// <summary>What was counted; nil is a count too.</summary>
    public IReadOnlyList<MaterialUse>? Lines { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (Lines is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "lines", "Say what was counted.");
        var seen = new HashSet<Account>();
        foreach (var (line, i) in (Lines ?? []).Select((line, i) => (line, i)))
        {
            var path = $"lines[{i}]";
            if (line.Find(deciding, path, mayBeNil: true) is not { } found) continue;
            var account = Account.Stores(found.Material.Code, line.Delivery ?? "");
            if (line.Delivery is null) deciding.Refuse(RefusalCode.Missing, path + ".delivery", "Say which delivery was counted.");
            else if (!deciding.Cellar.Knows(account)) deciding.Refuse(RefusalCode.UnknownDelivery, path + ".delivery", $"There is no delivery {Names.Shown(line.Delivery)} of {found.Material.Code} on {Day:yyyy-MM-dd}. Enter the delivery first.");
            else if (!seen.Add(account)) deciding.Refuse(RefusalCode.DoesNotAddUp, path + ".delivery", $"{line.Delivery} of {found.Material.Code} stands twice on this sheet. Add the two up.");
            else
            {
                var held = deciding.Cellar.At(account).Material;
                var adjustment = Account.Counter("ADJ:STORES");
                deciding.PostMaterial("MATERIAL_SHORT", account, adjustment, held - found.Amount, found.Material.Unit);
                deciding.PostMaterial("MATERIAL_OVER", adjustment, account, found.Amount - held, found.Material.Unit);
            }
        }
    }
}
