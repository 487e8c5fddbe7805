using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using CsCheck;

namespace Cellarbook.Core.Tests.Properties;

/// <summary>
/// Random operations in a small cellar. Each says all it means (lot, vessel, volume, size), so that what it moves doesn't hang on what is there;
/// each has a moment of its own. Must is in lots M, wine in lots W, so that a name never means both.
/// </summary>
public static class RandomCellar
{
    /// <summary>Capacities of the vessels V0 to V4, in litres.</summary>
    private static readonly int[] Capacities = [20, 30, 40, 60, 100];

    public static readonly DateOnly First = new(2026, 1, 30);

    public static readonly DateOnly Today = new(2030, 1, 1);

    /// <summary>What chance decides of an operation; the rest follows from what is there.</summary>
    public sealed record Dice(int Kind, int Source, int Target, int Part, int OtherPart, Strength? Abv);

    /// <summary>Dice for one operation.</summary>
    public static Gen<Dice> Step { get; } = Gen.Select(Gen.Int[0, 28], Gen.Int[0, 1_000], Gen.Int[0, 1_000], Gen.Int[0, 30], Gen.Int[0, 30],
        Gen.Frequency((6, Gen.Int[800, 2300].Select(hundredths => (Strength?)new Strength(hundredths))), (1, Gen.Const((Strength?)null))),
        (kind, source, target, part, other, abv) => new Dice(kind, source, target, part, other, abv));

    /// <summary>A history that mostly can be recorded as it stands: the n-th operation at the n-th moment, four moments a day.</summary>
    public static Gen<Operation[]> History(int most) => Step.Array[most / 2, most].Select(dice =>
    {
        var guide = Empty();
        return dice.Select((one, moment) =>
        {
            var operation = At(moment, one, guide.Now);
            Record(guide, [operation]);
            return operation;
        }).ToArray();
    });

    /// <summary>A history as the API would take it, to be read when a property fails.</summary>
    public static string Told(IEnumerable<Operation> history) => "\n" + string.Join("\n", history.Select(OperationJson.Write));

    public static Book.Book Empty()
    {
        var book = new Book.Book();
        for (var i = 0; i < Capacities.Length; i++)
            book.Accept(book.Propose(new Vessel { Day = First, Code = $"V{i}", CapacityLitres = Volume.OfLitres(Capacities[i]) }, Today));
        return book;
    }

    /// <summary>Records what can be recorded, in the order given; says what could.</summary>
    public static List<Operation> Record(Book.Book book, IEnumerable<Operation> operations)
    {
        var recorded = new List<Operation>();
        foreach (var operation in operations)
        {
            var trial = book.Propose(operation, Today);
            if (!trial.IsGood) continue;
            book.Accept(trial);
            recorded.Add(operation);
        }
        return recorded;
    }

    /// <summary>The operation the dice say, at a moment, drawn from what lies in a cellar.</summary>
    public static Operation At(int moment, Dice dice, Cellar cellar)
    {
        var (day, time) = (First.AddDays(moment / 4), new TimeOnly(6 + 4 * (moment % 4), 0));
        var must = Pick(cellar, Section.Must, dice.Source);
        var wine = Pick(cellar, Section.Bulk, dice.Source);
        var other = Pick(cellar, Section.Bulk, dice.Source + 1 + dice.Target);
        var bottles = Pick(cellar, Section.Bottled, dice.Source);
        OriginStated[] origin = [new() { Variety = $"Variety {dice.Target % 3}", Percent = new(40_000) }, new() { Vintage = "2025", Percent = new(33_333) }];
        switch (dice.Kind)
        {
            case 0 or 1 or 2 when must is not null:
                var (someMust, restOfMust) = Split(must, dice);
                var (toLot, toVessel) = dice.Kind == 2 ? Into(cellar, Section.Bulk, "W", dice) : Into(cellar, Section.Must, "M", dice);
                return new Transfer { Day = day, Time = time, Sources = [new() { Lot = must.Account.Name, Vessel = must.Account.Place, Litres = someMust + restOfMust }], Targets = [new() { Lot = toLot, Vessel = toVessel, Litres = someMust }], Losses = [new() { Kind = "lees", Litres = restOfMust }], Declare = dice.Kind == 2 ? new() { Abv = dice.Abv } : null };
            case 3 or 4 or 5 or 6 when wine is not null && other is not null && wine.Account != other.Account:
                var (some, loss) = Split(wine, dice);
                var (more, lossToo) = Split(other, dice);
                var (lot, vessel) = Into(cellar, Section.Bulk, "W", dice);
                Part[] sources = dice.Kind == 3 ? [Drawn(wine, some + loss)] : [Drawn(wine, some + loss), Drawn(other, more + lossToo)];
                Part[] targets = dice.Kind == 3 ? [new() { Lot = lot, Vessel = vessel, Litres = some }] : [new() { Lot = lot, Vessel = vessel, Litres = more }, new() { Lot = "W9", Vessel = Account.Unplaced, Litres = some }];
                return new Transfer { Day = day, Time = time, Sources = sources, Targets = targets, Losses = [new() { Kind = "filter", Litres = dice.Kind == 3 ? loss : loss + lossToo }] };
            case 7 or 8 when wine is not null:
                return new Transfer { Day = day, Time = time, Sources = [Drawn(wine, wine.Volume)], Targets = [new() { Lot = wine.Account.Name, Vessel = Into(cellar, Section.Bulk, "W", dice).Vessel, Litres = wine.Volume }] };
            case 9 when wine is not null:
                return new Lose { Day = day, Time = time, As = "evaporation", Lot = wine.Account.Name, Vessel = wine.Account.Place, Litres = Split(wine, dice).Some };
            case 10 or 11 or 12 when wine is not null:
                var size = dice.Target % 2 == 0 ? 375_000 : 750_000;
                return new Bottle { Day = day, Time = time, Lot = wine.Account.Name, Vessel = wine.Account.Place, Fills = [new() { Bottling = $"B{size / 1_000}", Bottles = new(1 + Split(wine, dice).Some.Microlitres / size / 2), BottleMl = new(new(size)), Shelf = $"S{dice.Part % 2}", Abv = dice.OtherPart % 3 == 0 ? dice.Abv : null }] };
            case 13 when bottles is not null:
                return new Remove { Day = day, Time = time, As = "sold", Bottling = bottles.Account.Name, Shelf = bottles.Account.Place, Bottles = Few(bottles, dice) };
            case 14 when bottles is not null:
                return new Return { Day = day, Time = time, Bottling = bottles.Account.Name, Shelf = $"S{dice.Part % 3}", Bottles = Few(bottles, dice) };
            case 15 when bottles is not null:
                return new Shelve { Day = day, Time = time, Bottling = bottles.Account.Name, Shelf = bottles.Account.Place, ToShelf = $"S{dice.Part % 3}", Bottles = Few(bottles, dice) };
            case 16 when bottles is not null:
                var (back, tank) = Into(cellar, Section.Bulk, "W", dice);
                return new Unbottle { Day = day, Time = time, Bottling = bottles.Account.Name, Shelf = bottles.Account.Place, Bottles = Few(bottles, dice), Lot = back, Vessel = tank };
            case 17 when wine is not null:
                var (spirit, put) = Split(wine, dice);
                return new Fortify { Day = day, Time = time, Sources = [Drawn(wine, put)], SpiritLitres = new(1 + spirit.Microlitres / 10), SpiritAbv = new(9600), Targets = [new() { Lot = wine.Account.Name, Vessel = wine.Account.Place, Litres = put + new Volume(spirit.Microlitres / 10), Abv = dice.OtherPart % 2 == 0 ? dice.Abv : null }] };
            case 18 when wine is not null && other is not null:
                return new TopUp { Day = day, Time = time, Casks = [new() { Lot = other.Account.Name, Vessel = other.Account.Place, Litres = new(1 + Split(other, dice).Some.Microlitres / 9) }], From = new() { Lot = wine.Account.Name, Vessel = wine.Account.Place } };
            case 19 when wine is not null:
                return new Measure { Day = day, Time = time, Lot = wine.Account.Name, Vessel = wine.Account.Place, Gravity = new("0.995"), SampleLitres = new(1 + wine.Volume.Microlitres / 50) };
            case 24 or 25 when wine is not null || must is not null:
                var dosed = dice.Target % 3 == 0 ? must ?? wine! : wine ?? must!;
                return new Add { Day = day, Time = time, Lot = dosed.Account.Name, Vessel = dosed.Account.Place, Items = [new() { Material = dice.Part % 2 == 0 ? "kmbs" : "potassium-sorbate", Delivery = "unknown", Grams = new(1 + 37 * dice.OtherPart) }] };
            case 26 when wine is not null:
                return new Measure { Day = day, Time = time, Lot = wine.Account.Name, Vessel = wine.Account.Place, TotalSo2MgPerLitre = new($"{dice.Part}.{dice.OtherPart}") };
            case 20 or 21:
                var (mustLot, mustVessel) = Into(cellar, Section.Must, "M", dice);
                return new Receive { Day = day, Time = time, What = "must", Lot = mustLot, Vessel = mustVessel, Litres = new(1 + dice.Source * 17_001L), Origin = origin };
            default:
                var (wineLot, wineVessel) = Into(cellar, Section.Bulk, "W", dice);
                return new Receive { Day = day, Time = time, What = "bulkWine", Lot = wineLot, Vessel = wineVessel, Litres = new(1 + dice.Source * 19_003L), Abv = dice.Abv, Origin = origin };
        }
    }

    private static Part Drawn(Place place, Volume volume) => new() { Lot = place.Account.Name, Vessel = place.Account.Place, Litres = volume };

    private static Place? Pick(Cellar cellar, Section section, int chance)
    {
        var there = cellar.Places.Where(place => place.Account.Section == section && !place.IsEmpty).OrderBy(place => place.Account.ToString(), StringComparer.Ordinal).ToList();
        return there.Count == 0 ? null : there[chance % there.Count];
    }

    /// <summary>An empty vessel or what lies in one already; now and then no vessel at all.</summary>
    private static (string Lot, string Vessel) Into(Cellar cellar, Section section, string letter, Dice dice)
    {
        var lot = letter + dice.Target % 4;
        var open = Enumerable.Range(0, Capacities.Length).Select(i => $"V{i}").Where(vessel => cellar.Vessel(vessel).Accounts.All(account => account.Section == section)).ToList();
        if (open.Count == 0 || dice.Target % 7 == 0) return (lot, Account.Unplaced);
        var vessel = open[dice.Target % open.Count];
        return (cellar.Vessel(vessel).Lot ?? lot, vessel);
    }

    /// <summary>Some of what lies there, and a little more.</summary>
    private static (Volume Some, Volume More) Split(Place place, Dice dice)
    {
        var some = 1 + place.Volume.Microlitres * dice.Part / 32;
        return (new(some), new(dice.OtherPart % 4 == 0 ? 0 : 1 + (place.Volume.Microlitres - some) * dice.OtherPart / 100));
    }

    private static BottleCount Few(Place shelf, Dice dice) => new(1 + shelf.Bottles.Bottles * dice.Part / 32);
}
