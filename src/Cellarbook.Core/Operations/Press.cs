using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>Fruit crushed: a weight of it becomes an (often estimated) volume of must, on or off the skins.</summary>
public sealed record Crush : Operation
{
    /// <summary>Fruit crushed, by parcel and weight.</summary>
    public IReadOnlyList<FruitPart>? Fruit { get; init; }

    /// <summary>Must that came of it.</summary>
    public IReadOnlyList<Part>? Targets { get; init; }

    internal override void Decide(Deciding deciding) => Pressing.Fruit(deciding, Fruit, Targets, null);
}

/// <summary>
/// Fruit or must on skins pressed: free run and press wine (several lots), marc. Of must on skins, what is neither must nor marc nor a named
/// loss must be nil.
/// </summary>
public sealed record Press : Operation
{
    /// <summary>Fruit pressed, by parcel and weight.</summary>
    public IReadOnlyList<FruitPart>? Fruit { get; init; }

    /// <summary>Must on skins pressed; a source without a volume is pressed whole.</summary>
    public IReadOnlyList<Part>? Sources { get; init; }

    /// <summary>Must that came of it.</summary>
    public IReadOnlyList<Part>? Targets { get; init; }

    /// <summary>Liquid held in the marc; left out when pressing must on skins: the rest.</summary>
    public Volume? MarcLitres { get; init; }

    /// <summary>Weight of the marc.</summary>
    public FruitWeight? MarcKilograms { get; init; }

    /// <summary>Other losses.</summary>
    public IReadOnlyList<Loss>? Losses { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (Sources is { Count: > 0 }) Pressing.Skins(deciding, Sources, Targets, MarcLitres, Losses);
        else Pressing.Fruit(deciding, Fruit, Targets, MarcLitres);
    }
}

/// <summary>A weight of a parcel of fruit.</summary>
public sealed record FruitPart
{
    /// <summary>The parcel, as received.</summary>
    public string? Parcel { get; init; }

    /// <summary>The weight used; left out: all of it.</summary>
    public FruitWeight? Kilograms { get; init; }
}

/// <summary>How fruit and must on skins become must.</summary>
internal static class Pressing
{
    public static void Fruit(Deciding deciding, IReadOnlyList<FruitPart>? fruit, IReadOnlyList<Part>? targets, Volume? marc)
    {
        if (targets is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "targets", "Say how much must came of it, and where it went.");
        foreach (var (part, i) in (fruit ?? []).Select((part, i) => (part, i)))
        {
            if (!deciding.NameOk(part.Parcel, $"fruit[{i}].parcel", "parcel of fruit")) continue;
            var account = Account.Fruit(part.Parcel!);
            if (!deciding.Cellar.Knows(account)) deciding.Refuse(RefusalCode.UnknownLot, $"fruit[{i}].parcel", $"There is no fruit {part.Parcel} on {deciding.Operation.Day:yyyy-MM-dd}. Receive it first.");
            else if (part.Kilograms is { Grams: <= 0 }) deciding.Refuse(RefusalCode.NotPositive, $"fruit[{i}].kilograms", "The weight must be above nil.");
            else if (part.Kilograms is null && deciding.Cellar.At(account).IsEmpty) deciding.Refuse(RefusalCode.MoreThanIsThere, $"fruit[{i}].kilograms", $"Nothing of the fruit {part.Parcel} is left on {deciding.Operation.Day:yyyy-MM-dd}.");
            else deciding.At($"fruit[{i}].kilograms").PostFruit("FRUIT_USED", account, Account.Counter("USED:FRUIT"), part.Kilograms ?? deciding.Cellar.At(account).Weight);
        }
        foreach (var (target, i) in (targets ?? []).Select((target, i) => (target, i)))
            if (deciding.Destination(Section.Must, target.Lot, target.Vessel, $"targets[{i}]") is { } must && deciding.Positive(target.Litres, $"targets[{i}].litres"))
                deciding.At($"targets[{i}].litres", $"targets[{i}].vessel").Post("GRAPES_CRUSHED", Account.Counter("EXT:GRAPES"), must, target.Litres!.Value);
        if (marc is not null) deciding.Raise("marc_not_counted", "Liquid in the marc of fruit pressed at once never was must in the book; its volume is kept with the entry and moves nothing.");
    }

    public static void Skins(Deciding deciding, IReadOnlyList<Part> sources, IReadOnlyList<Part>? targets, Volume? marc, IReadOnlyList<Loss>? losses)
    {
        var drawn = Transfer.FindSources(deciding, sources);
        if (deciding.Refused) return;
        if (drawn.Find(source => source.Place.Account.Section != Section.Must) is { Place: not null } wine)
        {
            deciding.Refuse(RefusalCode.WrongAccount, "sources", $"{wine.Place.Account.Name} is wine by now. Record it as a transfer with lees.");
            return;
        }
        var total = drawn.Aggregate(Volume.None, (sum, source) => sum + source.Volume);
        var made = (targets ?? []).Aggregate(Volume.None, (sum, target) => sum + (target.Litres ?? Volume.None));
        var lost = (losses ?? []).Aggregate(Volume.None, (sum, loss) => sum + (loss.Litres ?? Volume.None));
        var held = marc ?? total - made - lost;
        if (held < Volume.None || made + lost + held != total)
        {
            deciding.Refuse(RefusalCode.DoesNotAddUp, "sources", $"{made} must, {held} in the marc and {lost} lost are not the {total} pressed. If more came out than the book holds, gauge the vessel first.");
            return;
        }
        IReadOnlyList<Loss> all = held.IsPositive ? [.. losses ?? [], new Loss { Kind = "marc", Litres = held }] : losses ?? [];
        Transfer.Move(deciding, drawn, targets ?? [], all, null);
    }
}
