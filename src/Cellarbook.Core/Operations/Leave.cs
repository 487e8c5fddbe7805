using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>One line of what left: a volume of a lot in a vessel, or bottles of a bottling, or a weight of fruit.</summary>
public sealed record Leaving
{
    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel.</summary>
    public string? Vessel { get; init; }

    /// <summary>How much.</summary>
    public Volume? Litres { get; init; }

    /// <summary>The bottling.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf.</summary>
    public string? Shelf { get; init; }

    /// <summary>How many bottles.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>The parcel of fruit.</summary>
    public string? Parcel { get; init; }

    /// <summary>The weight of fruit.</summary>
    public FruitWeight? Kilograms { get; init; }
}

/// <summary>Something leaves: as one line in the operation itself, or as several in <see cref="Lines"/>.</summary>
public abstract record LeaveOperation : Operation
{
    /// <summary>Where it went, in the maker's words.</summary>
    public string? As { get; init; }

    /// <summary>The lot.</summary>
    public string? Lot { get; init; }

    /// <summary>The vessel.</summary>
    public string? Vessel { get; init; }

    /// <summary>How much.</summary>
    public Volume? Litres { get; init; }

    /// <summary>The bottling.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf.</summary>
    public string? Shelf { get; init; }

    /// <summary>How many bottles.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>The parcel of fruit.</summary>
    public string? Parcel { get; init; }

    /// <summary>The weight of fruit.</summary>
    public FruitWeight? Kilograms { get; init; }

    /// <summary>Several lines at once.</summary>
    public IReadOnlyList<Leaving>? Lines { get; init; }

    private protected abstract IReadOnlySet<string> Words { get; }

    internal override IEnumerable<string> SaidWords => As is null ? [] : [As];

    internal override void Decide(Deciding deciding)
    {
        if (As is not null && WaysOut.Words.Contains(As) && !Words.Contains(As))
        {
            deciding.Refuse(RefusalCode.UnknownWord, "as", $"“{As}” isn't said here. Use one of {string.Join(", ", Words)}.");
            return;
        }
        var single = Lot is not null || Bottling is not null || Parcel is not null;
        if (!single && Lines is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "lot", "Name the lot, the bottling or the fruit.");
        if (single) Line(deciding, new Leaving { Lot = Lot, Vessel = Vessel, Litres = Litres, Bottling = Bottling, Shelf = Shelf, Bottles = Bottles, Parcel = Parcel, Kilograms = Kilograms }, "");
        foreach (var (line, i) in (Lines ?? []).Select((line, i) => (line, i))) Line(deciding, line, $"lines[{i}]");
    }

    private void Line(Deciding deciding, Leaving line, string path)
    {
        if (line.Parcel is not null)
        {
            var fruit = Account.Fruit(line.Parcel);
            if (!deciding.Cellar.Knows(fruit)) deciding.Refuse(RefusalCode.UnknownLot, Deciding.Join(path, "parcel"), $"There is no fruit {Names.Shown(line.Parcel)}.");
            else if (line.Kilograms is not { Grams: > 0 }) deciding.Refuse(RefusalCode.NotPositive, Deciding.Join(path, "kilograms"), "Give the weight.");
            else deciding.At(Deciding.Join(path, "kilograms")).PostFruit("FRUIT_LOST", fruit, Account.Counter("LOSS:FRUIT"), line.Kilograms.Value);
        }
        else if (line.Bottling is not null)
        {
            if (deciding.ShelfOf(line.Bottling, line.Shelf, path) is not { } shelf) return;
            if (line.Bottles is not { IsPositive: true } bottles)
            {
                deciding.Refuse(line.Bottles is null ? RefusalCode.Missing : RefusalCode.NotPositive, Deciding.Join(path, "bottles"), "Give the number of bottles.");
                return;
            }
            if (WaysOut.Resolve(deciding, As, Section.Bottled, "as") is { } category)
                deciding.At(Deciding.Join(path, "bottles")).PostBottles(category.Code, shelf.Account, Account.Counter(category.To.Counters[0]), bottles, shelf.BottleSize);
        }
        else if (deciding.PlaceOf(line.Lot, line.Vessel, path) is { } place && deciding.Positive(line.Litres, Deciding.Join(path, "litres")))
            WaysOut.Post(deciding.At(Deciding.Join(path, "litres")), As, place.Account, line.Litres!.Value, "as");
    }
}

/// <summary>Something was lost: evaporation, spill, breakage, lees, filter, casualty …</summary>
public sealed record Lose : LeaveOperation
{
    private static readonly HashSet<string> Ways = ["lees", "solids", "marc", "filter", "evaporation", "spill", "breakage", "casualty", "transit", "bottling", "shrinkage"];

    private protected override IReadOnlySet<string> Words => Ways;
}

/// <summary>Something leaves on purpose: sold, given away, drunk, tasted, analysed, destroyed, exported, sent in bond, for distilling or vinegar.</summary>
public sealed record Remove : LeaveOperation
{
    internal override bool Releases => WaysOut.IsRelease(As);

    private static readonly HashSet<string> Ways = ["sold", "gift", "ownUse", "tasting", "analysis", "sample", "destroyed", "export", "inBond", "distilling", "vinegar"];

    private protected override IReadOnlySet<string> Words => Ways;
}

/// <summary>Bottles come back from the market: a receipt, not a negative sale.</summary>
public sealed record Return : Operation
{
    /// <summary>The bottling.</summary>
    public string? Bottling { get; init; }

    /// <summary>The shelf they go to; left out: where the bottling lies.</summary>
    public string? Shelf { get; init; }

    /// <summary>How many.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>Several bottlings at once.</summary>
    public IReadOnlyList<Leaving>? Lines { get; init; }

    internal override bool NeedsKnownBottling => true;

    internal override void Decide(Deciding deciding)
    {
        if (Bottling is null && Lines is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "bottling", "Name the bottling that came back.");
        if (Bottling is not null) Line(deciding, Bottling, Shelf, Bottles, "");
        foreach (var (line, i) in (Lines ?? []).Select((line, i) => (line, i))) Line(deciding, line.Bottling, line.Shelf, line.Bottles, $"lines[{i}]");
    }

    private static void Line(Deciding deciding, string? bottling, string? shelf, BottleCount? bottles, string path)
    {
        if (!deciding.NameOk(bottling, Deciding.Join(path, "bottling"), "bottling")) return;
        if (deciding.Cellar.Bottling(bottling!) is not { } known)
        {
            deciding.Refuse(RefusalCode.UnknownBottling, Deciding.Join(path, "bottling"), $"There is no bottling {bottling} on {deciding.Operation.Day:yyyy-MM-dd}. Check the code, or the day.");
            return;
        }
        if (bottles is not { IsPositive: true })
        {
            deciding.Refuse(bottles is null ? RefusalCode.Missing : RefusalCode.NotPositive, Deciding.Join(path, "bottles"), "Give the number of bottles.");
            return;
        }
        if (shelf is not null && !deciding.NameOk(shelf, Deciding.Join(path, "shelf"), "shelf")) return;
        var account = shelf is null ? deciding.ShelfOf(bottling, null, path)?.Account : Account.Bottled(bottling!, shelf);
        if (account is not null) deciding.At(Deciding.Join(path, "bottles"), Deciding.Join(path, "bottling")).PostBottles("RETURNED_TO_BOND", Account.Counter("OUT:TAXPAID"), account, bottles.Value, known.Size);
    }
}

/// <summary>Lees or marc leave the premises, with their destination.</summary>
public sealed record TakeAway : Operation
{
    /// <summary>lees or marc.</summary>
    public string? What { get; init; }

    /// <summary>How much.</summary>
    public Volume? Litres { get; init; }

    /// <summary>Weight, where weighed.</summary>
    public FruitWeight? Kilograms { get; init; }

    internal override void Decide(Deciding deciding)
    {
        if (What is not ("lees" or "marc")) deciding.Refuse(What is null ? RefusalCode.Missing : RefusalCode.UnknownWord, "what", "Say lees or marc.");
        else if (deciding.Positive(Litres, "litres")) deciding.Post("BYPRODUCT_OUT", Account.Counter(What == "lees" ? "BYPRODUCT:LEES" : "BYPRODUCT:MARC"), Account.Counter("OUT:BYPRODUCT"), Litres!.Value);
    }
}
