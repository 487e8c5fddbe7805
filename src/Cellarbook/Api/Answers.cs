using Cellarbook.Core.Book;
using Cellarbook.Core.Cautions;
using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Recording;
using Cellarbook.Storage;

namespace Cellarbook.Api;

/// <summary>A posting as answered: from, to, a positive quantity, a category.</summary>
public sealed record PostingAnswer(string From, string To, string Category)
{
    /// <summary>Volume moved, also of bottles (count × size).</summary>
    public Volume? Litres { get; init; }

    /// <summary>Bottles moved.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>Nominal size of those bottles.</summary>
    public Millilitres? BottleMl { get; init; }

    /// <summary>Grams of fruit or material moved.</summary>
    public Mass? Grams { get; init; }

    /// <summary>Millilitres of material moved.</summary>
    public Millilitres? Millilitres { get; init; }

    /// <summary>Pieces of material moved.</summary>
    public long? Pieces { get; init; }

    /// <summary>Strength stated with it.</summary>
    public Strength? Abv { get; init; }

    /// <summary>Kind stated with it.</summary>
    public ProductKind? Product { get; init; }

    /// <summary>True when it takes an earlier posting back.</summary>
    public bool? TakenBack { get; init; }

    /// <summary>A posting of the core as answered.</summary>
    public static PostingAnswer Of(Posting posting) => new(posting.From.ToString(), posting.To.ToString(), posting.Category.Code)
    {
        Litres = posting.Volume.IsNil ? null : posting.Volume,
        Bottles = posting.Bottles.IsPositive ? posting.Bottles : null,
        BottleMl = posting.Bottles.IsPositive ? new(posting.BottleSize) : null,
        Grams = posting.Weight.Grams != 0 ? new Mass(posting.Weight.Grams * 1_000) : posting.MaterialUnit == MaterialUnit.Milligrams ? new Mass(posting.Material.Units) : null,
        Millilitres = posting.MaterialUnit == MaterialUnit.Microlitres ? new(new(posting.Material.Units)) : null,
        Pieces = posting.MaterialUnit == MaterialUnit.Pieces ? posting.Material.Units : null,
        Abv = posting.Strength,
        Product = posting.Kind,
        TakenBack = posting.IsTakenBack ? true : null,
    };
}

/// <summary>A flag as answered.</summary>
public sealed record FlagAnswer(string Code, string Sentence)
{
    /// <summary>A flag of the core as answered.</summary>
    public static FlagAnswer Of(Flag flag) => new(flag.Code, flag.Sentence.ToString());
}

/// <summary>A usual caution as answered: a reminder, not advice.</summary>
/// <param name="Code">Its code.</param>
/// <param name="Head">In a few words.</param>
/// <param name="Sentence">What to do.</param>
/// <param name="Loud">True when the circumstances make it stand out.</param>
/// <param name="Source">Where it is from.</param>
public sealed record CautionAnswer(string Code, Sentence Head, Sentence Sentence, bool Loud, Sentence Source)
{
    /// <summary>A caution of the core as answered.</summary>
    public static CautionAnswer Of(Heeded heeded) => new(heeded.Caution.Code, heeded.Caution.Head, heeded.Caution.Sentence, heeded.IsLoud, heeded.Caution.Source);
}

/// <summary>What became of an operation.</summary>
public sealed record OperationAnswer(long? Entry, DateOnly Day, string Kind, IReadOnlyList<PostingAnswer> Postings, IReadOnlyList<FlagAnswer> Flags)
{
    /// <summary>The usual cautions for it, the loud ones first; in the first answer only.</summary>
    public IReadOnlyList<CautionAnswer>? Cautions { get; init; }

    /// <summary>What it touched, held against the limits the book answers to: all that is not plainly within; in a check, all.</summary>
    public IReadOnlyList<VerdictAnswer>? Limits { get; init; }

    /// <summary>Hash of the entry, which seals it and all before it.</summary>
    public string? Hash { get; init; }

    /// <summary>When it was recorded.</summary>
    public DateTimeOffset? RecordedAt { get; init; }

    /// <summary>Who recorded it.</summary>
    public string? Actor { get; init; }

    /// <summary>The entry it takes back.</summary>
    public long? TakesBack { get; init; }

    /// <summary>The operation itself, as it stands in the book.</summary>
    public Operation? Operation { get; init; }

    /// <summary>An entry as it stands in storage.</summary>
    public static OperationAnswer Of(StoredEntry entry, IReadOnlyList<Flag> flags, bool whole = false)
    {
        var operation = OperationJson.Stored(entry.InPlain);
        return new(entry.Number, entry.Day, OperationJson.KindOf(operation), [.. entry.Postings.Select(PostingAnswer.Of)], [.. flags.Select(FlagAnswer.Of)])
        {
            Hash = entry.Hash,
            RecordedAt = entry.RecordedAt,
            Actor = entry.Actor,
            TakesBack = entry.TakesBack,
            Operation = whole ? operation : null,
        };
    }

    /// <summary>What was just written, or a check found it would write.</summary>
    public static OperationAnswer Of(Recorded recorded, Operation operation)
    {
        var entry = recorded.Trial!.Entries[0];
        return new(recorded.Number, operation.Day, OperationJson.KindOf(operation), [.. entry.Deeds.SelectMany(deed => deed.Postings).Select(PostingAnswer.Of)], [.. recorded.Flags.Select(FlagAnswer.Of)])
        {
            Cautions = recorded.Trial.Cautions is { Count: > 0 } heeded ? [.. heeded.Select(CautionAnswer.Of)] : null,
            Limits = recorded.Trial.Limits.Where(verdict => recorded.Written is null || verdict.Kind is VerdictKind.Near or VerdictKind.Over).Select(verdict => VerdictAnswer.Of(verdict)).ToArray() is { Length: > 0 } limits ? limits : null,
            Hash = recorded.Written?.Hash,
            RecordedAt = recorded.RecordedAt,
            Actor = recorded.Actor,
            TakesBack = entry.TakesBack,
        };
    }
}

/// <summary>A vessel and what it holds.</summary>
public sealed record VesselAnswer(string Code, string Name, Volume? CapacityLitres, string? Sort, string? Location, string? Lot, string? Stage, Volume Litres, DateOnly? Since)
{
    /// <summary>A vessel of the book.</summary>
    public static VesselAnswer? Of(Book book, string code)
    {
        var facts = book.Vessels.GetValueOrDefault(code);
        if (facts is null && !book.Now.KnowsVessel(code)) return null;
        var hold = book.Now.Vessel(code);
        var stage = hold.Accounts.IsEmpty ? null : hold.Accounts[0].Section == Section.Must ? "must" : "wine";
        return new(code, facts?.Name ?? code, facts?.Capacity, facts?.Sort, facts?.Location, hold.Lot, stage, hold.Held, hold.LastDay == default ? null : hold.LastDay);
    }
}

/// <summary>A part of origin.</summary>
public sealed record OriginAnswer(string Variety, string Vintage, string Place, string Purchase, double Percent);

/// <summary>One place of a lot.</summary>
public sealed record PlaceAnswer(string Vessel, string Stage, Volume Litres)
{
    /// <summary>Stated strength, or mixed from stated ones.</summary>
    public Strength? Abv { get; init; }

    /// <summary>"stated", or "mixed": worked out from the pure alcohol of what met.</summary>
    public string? AbvFrom { get; init; }

    /// <summary>Product kind.</summary>
    public ProductKind? Product { get; init; }

    /// <summary>Origins.</summary>
    public IReadOnlyList<OriginAnswer> Origin { get; init; } = [];

    /// <summary>Latest reading of each measure.</summary>
    public IReadOnlyDictionary<string, NotedReading> Readings { get; init; } = new Dictionary<string, NotedReading>();

    /// <summary>Cultures pitched into this wine.</summary>
    public IReadOnlyList<string> Cultures { get; init; } = [];

    /// <summary>Malolactic state.</summary>
    public Malolactic Malolactic { get; init; }

    /// <summary>A place of the cellar.</summary>
    public static PlaceAnswer Of(Place place) => new(place.Account.Place, place.Account.Section == Section.Must ? "must" : "wine", place.Volume)
    {
        Abv = place.Account.Section == Section.Must ? null : place.Standing.Strength,
        AbvFrom = place.Account.Section == Section.Must || place.Standing.Strength is null ? null : place.StrengthIsMixed ? "mixed" : "stated",
        Product = place.Account.Section == Section.Must ? null : place.Standing.Kind,
        Origin = [.. place.Origin.Shares.Select(share => new OriginAnswer(share.Origin.Variety, share.Origin.Vintage, share.Origin.Place, share.Origin.Purchase, share.Parts / (OriginMix.Whole / 100.0)))],
        Readings = place.Notes.Readings,
        Cultures = [.. place.Notes.Cultures],
        Malolactic = place.Notes.Malolactic,
    };
}

/// <summary>A lot: what is left of it, and where.</summary>
public sealed record LotAnswer(string Code, string Stage, Volume Litres, Strength? Abv, IReadOnlyList<PlaceAnswer> Places, IReadOnlyList<string> Bottlings, DateOnly? Since, DateOnly? LastDay)
{
    /// <summary>A lot of the book, or null.</summary>
    public static LotAnswer? Of(Cellar cellar, string code)
    {
        var accounts = cellar.AccountsOfLot(code);
        if (accounts.IsEmpty) return null;
        var all = accounts.Select(cellar.At).ToArray();
        var places = all.Where(place => !place.IsEmpty).ToArray();
        var litres = places.Aggregate(Volume.None, (sum, place) => sum + place.Volume);
        var sections = (places.Length > 0 ? places : all).Select(place => place.Account.Section).Distinct().ToArray();
        var stage = sections.Length > 1 ? places.Length > 0 ? "mustAndWine" : "wine" : sections[0] == Section.Must ? "must" : "wine";
        return new(code, stage, litres, Strength(places), [.. places.Select(PlaceAnswer.Of)], [.. cellar.Bottlings.Where(bottling => bottling.Lots.Contains(code)).Select(bottling => bottling.Code).Order(StringComparer.Ordinal)],
            all.Min(place => place.FirstDay), all.Max(place => place.LastDay));
    }

    /// <summary>The strength of all its wine: the one there is, else mixed; none when a place has none.</summary>
    private static Strength? Strength(Place[] places)
    {
        var wine = places.Where(place => place.Account.Section == Section.Bulk).ToArray();
        if (wine.Length == 0 || wine.Any(place => place.Standing.Strength is null)) return null;
        var alcohol = wine.Aggregate(default(Alcohol), (sum, place) => sum + Alcohol.In(place.Volume, place.Standing.Strength!.Value));
        return alcohol.StrengthIn(wine.Aggregate(Volume.None, (sum, place) => sum + place.Volume));
    }
}

/// <summary>A bottling: what is left of it, and on which shelves.</summary>
public sealed record BottlingAnswer(string Code, Millilitres BottleMl, IReadOnlyList<string> Lots, DateOnly Since, BottleCount Filled, BottleCount Bottles, Volume Litres, Strength? Abv, ProductKind Product, IReadOnlyList<ShelfAnswer> Shelves)
{
    /// <summary>A bottling of the book, or null.</summary>
    public static BottlingAnswer? Of(Cellar cellar, string code)
    {
        if (cellar.Bottling(code) is not { } facts) return null;
        var shelves = cellar.ShelvesOfBottling(code).Select(cellar.At).ToArray();
        var standing = (shelves.FirstOrDefault(shelf => !shelf.IsEmpty) ?? shelves[0]).Standing;
        return new(code, new(facts.Size), [.. facts.Lots], facts.FirstDay, facts.Filled, shelves.Aggregate(BottleCount.None, (sum, shelf) => sum + shelf.Bottles), shelves.Aggregate(Volume.None, (sum, shelf) => sum + shelf.Volume),
            standing.Strength, standing.Kind, [.. shelves.Where(shelf => !shelf.IsEmpty).Select(shelf => new ShelfAnswer(shelf.Account.Place, shelf.Bottles))]);
    }
}

/// <summary>Bottles on a shelf.</summary>
public sealed record ShelfAnswer(string Shelf, BottleCount Bottles);
