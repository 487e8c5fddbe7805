using Cellarbook.Core.Book;

namespace Cellarbook.Pages.Shared;

/// <summary>Sentences that pages say, in one place, so that each is said one way (and can be said in another language).</summary>
public static partial class Words
{
    /// <summary>Of wine without a stated strength.</summary>
    public static readonly Sentence StrengthNotStated = "strength not stated";

    /// <summary>At the foot of every page.</summary>
    public static readonly Sentence Help = "A help for the person in charge: the law and a qualified person decide.";

    /// <summary>Of a ferment in a closed room.</summary>
    public static readonly Sentence CarbonDioxide = "Take care: a ferment fills cellars, pits and tanks with carbon dioxide, which can’t be seen or smelt and kills. Air the room, don’t go in alone, and follow local rules for such rooms.";

    /// <summary>Of bottling too early.</summary>
    public static readonly Sentence BurstingBottles = "Bottles filled before the ferment is over can burst.";

    /// <summary>In the reserved place.</summary>
    public static readonly Sentence Unplaced = "in no named vessel";

    /// <summary>Short plain words for kinds of movement, free of any authority's language.</summary>
    private static readonly Dictionary<string, Sentence> Plain = new(StringComparer.Ordinal)
    {
        ["MUST_RECEIVED"] = "Juice or must came in",
        ["MUST_TRANSFER"] = "Must moved between lots",
        ["MUST_SOLIDS_REMOVED"] = "Lees and solids of must",
        ["MARC_REMOVED"] = "Held in the marc",
        ["FERMENT_VOLUME_CHANGE"] = "Shrinkage in the ferment",
        ["MUST_REMOVED"] = "Must sold or given away",
        ["PRODUCED"] = "Became wine",
        ["LOT_TRANSFER"] = "Moved between lots",
        ["CLASS_CHANGE"] = "Strength or kind stated anew",
        ["CLASS_CHANGE_BOTTLED"] = "Strength or kind stated anew, bottles",
        ["BLEND_USED"] = "Put into a blend",
        ["BOTTLED"] = "Bottled",
        ["BOTTLING_LOSS"] = "Lost in bottling",
        ["LEES_REMOVED"] = "Lees",
        ["FILTER_LOSS"] = "Held in filters and lines",
        ["CASUALTY"] = "Lost by accident",
        ["SAMPLE_BULK"] = "Samples",
        ["SAMPLE_MUST"] = "Samples of must",
        ["SAMPLE_BOTTLED"] = "Sample bottles",
        ["TASTING_BULK"] = "Drawn for tasting",
        ["REMOVED_TAXPAID_BULK"] = "Sold in bulk",
        ["REMOVED_TAXPAID"] = "Sold",
        ["TRANSFER_OUT_BULK"] = "Sent to another cellar, bulk",
        ["TRANSFER_OUT"] = "Sent to another cellar",
        ["EXPORT_BULK"] = "Sent abroad in bulk",
        ["EXPORT"] = "Sent abroad",
        ["OWN_USE_BULK"] = "Drunk by the household, bulk",
        ["OWN_USE"] = "Drunk by the household",
        ["RETURNED_TO_BOND"] = "Came back",
        ["WINE_BOUGHT_BULK"] = "Wine bought, bulk",
        ["WINE_BOUGHT"] = "Wine bought, bottles",
        ["CASED"] = "Moved between shelves, labelled",
        ["TREATMENT"] = "Something added",
    };

    /// <summary>A kind of movement: the trade's own term, or plain words for a household.</summary>
    public static Sentence Category(Category category, bool household) => household ? PlainCategory(category) : Sentence.Seed(category.Term);

    /// <summary>A kind of movement in short plain words, for anybody.</summary>
    public static Sentence PlainCategory(Category category) => Plain.GetValueOrDefault(category.Code) ?? Sentence.Seed(category.Term);

    /// <summary>An account in words: "wine of L1 in V1", "12 bottles' shelf", "lost".</summary>
    public static Sentence Account(Account account) => account.Section switch
    {
        Section.Must => (Sentence)$"must of {account.Name}, {In(account.Place)}",
        Section.Bulk => $"wine of {account.Name}, {In(account.Place)}",
        Section.Bottled => account.Place == Core.Book.Account.Unplaced ? Sentence.Of($"bottles of {account.Name}") : $"bottles of {account.Name}, shelf {account.Place}",
        Section.Fruit => $"fruit {account.Name}",
        Section.Stores => $"{account.Name}, delivery {account.Place}",
        _ when account.WineUsedIn is { } wine => Account(wine),
        _ when account.Material is { } material => $"{material}, batch unknown",
        Section.Process => "the process",
        _ => Counter(account.Name),
    };

    /// <summary>"in V1", or "in no named vessel".</summary>
    public static Sentence In(string place) => place == Core.Book.Account.Unplaced ? Unplaced : $"in {place}";

    /// <summary>"in V1, V2 and V3", the unplaced last.</summary>
    public static Sentence In(IReadOnlyList<string> places)
    {
        var named = places.Where(place => place != Core.Book.Account.Unplaced).ToArray();
        Sentence said = named.Length > 0 ? $"in {Sentence.List([.. named.Select(Sentence.Verbatim)])}" : Sentence.Empty;
        return named.Length == places.Count ? said : named.Length == 0 ? Unplaced : $"{said} and {Unplaced}";
    }

    /// <summary>A section in words.</summary>
    public static Sentence Of(Section section) => section switch
    {
        Core.Book.Section.Must => "Must",
        Core.Book.Section.Bulk => "Wine in bulk",
        Core.Book.Section.Bottled => "Wine in bottles",
        Core.Book.Section.Fruit => "Fruit",
        _ => "",
    };

    /// <summary>A product kind where it is not plain still wine; else empty.</summary>
    public static Sentence Kind(ProductKind kind) => kind == ProductKind.Still ? Sentence.Empty : KindInFull(kind);

    /// <summary>A product kind.</summary>
    public static Sentence KindInFull(ProductKind kind) => kind switch
    {
        ProductKind.Carbonated => "carbonated",
        ProductKind.Sparkling => "sparkling",
        ProductKind.Cider => "cider",
        _ => "still",
    };

    /// <summary>The malolactic state, or empty when nothing was said.</summary>
    public static Sentence Malolactic(Malolactic state) => state switch
    {
        Core.Book.Malolactic.Unwanted => "malolactic fermentation unwanted",
        Core.Book.Malolactic.UnderWay => "malolactic fermentation under way",
        Core.Book.Malolactic.Done => "malolactic fermentation done",
        _ => "",
    };

    private static Sentence Counter(string name) => name[..Math.Max(0, name.IndexOf(':', StringComparison.Ordinal))] switch
    {
        "EXT" => "from outside",
        "EQUITY" => "brought forward",
        "MAT" => "materials",
        "LOSS" => "lost",
        "BYPRODUCT" => "lees and marc",
        "OUT" => "left the cellar",
        "ADJ" => "found by measuring",
        "USED" => "used up",
        _ => Sentence.Verbatim(name),
    };

    /// <summary>"topped up 12 days ago", or "filled today".</summary>
    public static Sentence Topped(Core.Passbook.LastTopped last, DateOnly today) =>
        last.WasToppedUp ? Sentence.Of($"topped up {Ago(last.Day, today)}") : $"filled {Ago(last.Day, today)}";

    /// <summary>"today", "yesterday", "12 days ago".</summary>
    public static Sentence Ago(DateOnly day, DateOnly today) => (today.DayNumber - day.DayNumber) switch { 0 => Sentence.Of("today"), 1 => "yesterday", var days => $"{days}\u00A0days ago" };
}
