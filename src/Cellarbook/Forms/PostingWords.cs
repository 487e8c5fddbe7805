using Cellarbook.Core.Book;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Forms;

/// <summary>What an entry moves, said in words a maker uses.</summary>
public static class PostingWords
{
    private static readonly Dictionary<string, Sentence> Ends = new(StringComparer.Ordinal)
    {
        ["BYPRODUCT:LEES"] = "lees", ["BYPRODUCT:MARC"] = "marc", ["LOSS:FERMENT"] = "shrinkage of the ferment", ["LOSS:EVAPORATION"] = "evaporation",
        ["LOSS:SPILL"] = "a spill", ["LOSS:SPILL_MUST"] = "a spill", ["LOSS:FILTER"] = "the filter", ["LOSS:BOTTLING"] = "losses at bottling", ["LOSS:BREAKAGE"] = "breakage",
        ["LOSS:CASUALTY"] = "an accident", ["LOSS:TRANSIT"] = "losses on the way", ["LOSS:CONTRACTION"] = "contraction", ["LOSS:FRUIT"] = "losses of fruit",
        ["OUT:FAMILY"] = "own use", ["OUT:GIFT"] = "a gift", ["OUT:TASTING"] = "a tasting", ["OUT:TESTING"] = "samples", ["OUT:TAXPAID"] = "a buyer", ["OUT:JUICE"] = "a taker of juice",
        ["OUT:BONDED"] = "another approved place, in bond", ["OUT:EXPORT"] = "a place abroad", ["OUT:DISTILLING"] = "distilling", ["OUT:VINEGAR"] = "vinegar", ["OUT:DESTROYED"] = "the drain, on purpose", ["OUT:BYPRODUCT"] = "where they were taken",
        ["ADJ:GAUGE"] = "the difference of the gauge", ["ADJ:INVENTORY"] = "the difference of the count", ["EQUITY:OPENING"] = "stock brought forward",
        ["EXT:SUPPLIER"] = "the supplier", ["EXT:GROWER"] = "the grower", ["EXT:GRAPES"] = "the fruit", ["EXT:BONDED"] = "another approved place", ["EXT:TAXPAID"] = "bought wine", ["USED:FRUIT"] = "the must",
        ["MAT:WATER"] = "water", ["MAT:SUGAR"] = "sugar", ["MAT:SPIRIT"] = "spirit", ["MAT:SWEETENER"] = "sweetener", ["PROC"] = "the process", ["USED:CLEANING"] = "cleaning", ["USED:BOTTLING"] = "bottling", ["LOSS:STORES"] = "spoilt material", ["ADJ:STORES"] = "the difference of the count",
    };

    /// <summary>"22.1 L from L1 in V1 to L1 in V2".</summary>
    public static Sentence Say(Posting posting, Show show)
    {
        var stated = posting.Strength is { } strength ? $", {show.Strength(strength)}" : "";
        var amount = Amount(posting, show);
        if (posting.Category.Code == "PRODUCED") return $"{amount} of {Side(posting.From)} become wine{(posting.From.Place == posting.To.Place ? Sentence.Empty : $" {CellarChoices.In(posting.To.Place)}")}{stated}";
        if (posting.Category.Code is "CLASS_CHANGE" or "CLASS_CHANGE_BOTTLED") return $"{amount} of {Side(posting.From)} stated anew{stated}";
        return $"{amount} from {Side(posting.From)} to {Side(posting.To)}{stated}";
    }

    /// <summary>The amount that moves.</summary>
    public static Sentence Amount(Posting posting, Show show) =>
        posting.Bottles.IsPositive ? (Sentence)$"{show.Bottles(posting.Bottles)} of {show.BottleSize(posting.BottleSize)}"
            : Sentence.Verbatim(posting.MaterialUnit is { } unit ? show.Material(posting.Material, unit) : posting.Weight.Grams > 0 ? show.Weight(posting.Weight) : show.Volume(posting.Volume));

    /// <summary>An account in words.</summary>
    public static Sentence Side(Account account) => account.Section switch
    {
        Section.Must => $"{account.Name} {CellarChoices.In(account.Place)} (must)",
        Section.Bulk => $"{account.Name} {CellarChoices.In(account.Place)} (wine)",
        Section.Bottled => $"bottles {account.Name} {CellarChoices.On(account.Place)}",
        Section.Fruit => $"fruit {account.Name}",
        Section.Stores => $"{account.Name}, delivery {account.Place}",
        _ when account.WineUsedIn is { } wine => Side(wine),
        _ when account.Name.StartsWith("MIXED:", StringComparison.Ordinal) => "the mix",
        _ when account.Name.StartsWith("KITS:", StringComparison.Ordinal) => "the box",
        _ when account.Material is { } material => $"{material}, batch unknown",
        _ => Ends.GetValueOrDefault(account.Name) ?? Sentence.Verbatim(account.Name),
    };
}
