using Cellarbook.Core.Book;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Forms;

/// <summary>What an entry moves, said in words a maker uses.</summary>
public static class PostingWords
{
    private static readonly Dictionary<string, string> Ends = new(StringComparer.Ordinal)
    {
        ["BYPRODUCT:LEES"] = "lees", ["BYPRODUCT:MARC"] = "marc", ["LOSS:FERMENT"] = "shrinkage of the ferment", ["LOSS:EVAPORATION"] = "evaporation",
        ["LOSS:SPILL"] = "spilt", ["LOSS:SPILL_MUST"] = "spilt", ["LOSS:FILTER"] = "held in the filter", ["LOSS:BOTTLING"] = "lost at bottling", ["LOSS:BREAKAGE"] = "broken",
        ["LOSS:CASUALTY"] = "lost by accident", ["LOSS:TRANSIT"] = "short on arrival", ["LOSS:CONTRACTION"] = "contraction", ["LOSS:FRUIT"] = "fruit lost",
        ["OUT:FAMILY"] = "own use", ["OUT:GIFT"] = "given away", ["OUT:TASTING"] = "tasting", ["OUT:TESTING"] = "samples", ["OUT:TAXPAID"] = "sold", ["OUT:JUICE"] = "gone as juice",
        ["OUT:BONDED"] = "sent out in bond", ["OUT:EXPORT"] = "sent abroad", ["OUT:DISTILLING"] = "distilling", ["OUT:VINEGAR"] = "vinegar", ["OUT:DESTROYED"] = "poured away", ["OUT:BYPRODUCT"] = "taken away",
        ["ADJ:GAUGE"] = "difference of the gauge", ["ADJ:INVENTORY"] = "difference of the count", ["EQUITY:OPENING"] = "stock brought forward",
        ["EXT:SUPPLIER"] = "the supplier", ["EXT:GROWER"] = "the grower", ["EXT:GRAPES"] = "the fruit", ["EXT:BONDED"] = "another approved place", ["EXT:TAXPAID"] = "bought wine", ["USED:FRUIT"] = "used",
        ["MAT:WATER"] = "water", ["MAT:SUGAR"] = "sugar", ["MAT:SPIRIT"] = "spirit", ["MAT:SWEETENER"] = "sweetener", ["PROC"] = "the process",
    };

    /// <summary>"22.1 L from L1 in V1 to L1 in V2".</summary>
    public static string Say(Posting posting, Show show)
    {
        var stated = posting.Strength is { } strength ? $", {show.Strength(strength)}" : "";
        var amount = Amount(posting, show);
        if (posting.Category.Code == "PRODUCED") return $"{amount} of {Side(posting.From)} become wine{(posting.From.Place == posting.To.Place ? "" : " " + CellarChoices.In(posting.To.Place))}{stated}";
        if (posting.Category.Code is "CLASS_CHANGE" or "CLASS_CHANGE_BOTTLED") return $"{amount} of {Side(posting.From)} stated anew{stated}";
        return $"{amount} from {Side(posting.From)} to {Side(posting.To)}{stated}";
    }

    /// <summary>The amount that moves.</summary>
    public static string Amount(Posting posting, Show show) =>
        posting.Bottles.IsPositive ? $"{show.Bottles(posting.Bottles)} of {show.BottleSize(posting.BottleSize)}" : posting.Weight.Grams > 0 ? show.Weight(posting.Weight) : show.Volume(posting.Volume);

    /// <summary>An account in words.</summary>
    public static string Side(Account account) => account.Section switch
    {
        Section.Must => $"{account.Name} {CellarChoices.In(account.Place)} (must)",
        Section.Bulk => $"{account.Name} {CellarChoices.In(account.Place)} (wine)",
        Section.Bottled => $"bottles {account.Name} {CellarChoices.On(account.Place)}",
        Section.Fruit => $"fruit {account.Name}",
        _ => Ends.GetValueOrDefault(account.Name, account.Name),
    };
}
