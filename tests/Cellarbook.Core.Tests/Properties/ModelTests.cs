using System.Globalization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using CsCheck;
using Xunit;
using static Cellarbook.Core.Tests.Properties.LitreModel;

namespace Cellarbook.Core.Tests.Properties;

/// <summary>The book and the small model of decimal litres are told the same; they must accept, refuse and hold the same.</summary>
public class ModelTests
{
    private static readonly DateOnly First = new(2026, 3, 1);
    private static readonly Dictionary<string, decimal> Capacities = new() { ["V0"] = 10, ["V1"] = 20, ["V2"] = 30, ["V3"] = 45.5m };

    /// <summary>What is told: the operation for the book, the rule for the model.</summary>
    private sealed record Told(Operation Operation, Rule Rule);

    private sealed record Step(int Kind, int Lot, int Vessel, int Target, long Microlitres, int Day, int Which)
    {
        public override string ToString() => $"({Kind}: lot {Lot} in V{Vessel}, to V{Target}, {Microlitres} µL, day {Day}, which {Which})";
    }

    private static readonly Gen<Step> Steps = Gen.Select(
        Gen.Int[0, 11], Gen.Int[0, 1], Gen.Int[0, 3], Gen.Int[0, 3],
        Gen.OneOf(Gen.Long[1, 3], Gen.Long[1, 220].Select(tenths => tenths * 100_000), Gen.OneOf(375_000L, 750_000L, 10_000_000L, 20_000_000L)),
        Gen.Int[0, 5], Gen.Int[0, 20], (kind, lot, vessel, target, amount, day, which) => new Step(kind, lot, vessel, target, amount, day, which));

    [Fact]
    public void The_book_and_the_model_accept_refuse_and_hold_the_same() =>
        Steps.Array[1, 45].Sample(steps =>
        {
            var model = new LitreModel(Capacities);
            var book = new Book.Book();
            foreach (var (code, litres) in Capacities) book.Accept(book.Propose(new Vessel { Day = First, Code = code, CapacityLitres = Microlitres(litres) }, RandomCellar.Today));
            var vessels = book.LastNumber;
            foreach (var step in steps)
            {
                var told = Tell(step);
                var (trial, agreed) = step.Kind switch
                {
                    10 => (book.Propose(new Correct { Day = RandomCellar.Today, TakesBack = new(vessels + step.Which, null), Reason = "never done" }, RandomCellar.Today), model.Correct(step.Which, null)),
                    11 => Rewrite(book, model, vessels, step),
                    _ => (book.Propose(told.Operation, RandomCellar.Today), model.Do(step.Day, told.Rule)),
                };
                Assert.True(trial.IsGood == agreed, $"At {step} the book says {(trial.IsGood ? "yes" : trial.Refusals[0].Sentence)}, the model {(agreed ? "yes" : "no")}.");
                if (trial.IsGood) book.Accept(trial);
                Assert.Equal(Held(model.Now), Held(book));
            }
        }, iter: 250);

    /// <summary>The entry is taken back and a loss of as much written in its place, on its day.</summary>
    private static (Trial, bool) Rewrite(Book.Book book, LitreModel model, long vessels, Step step)
    {
        var day = book.Find(vessels + step.Which) is { Deeds: [var deed, ..] } ? deed.Day : First;
        var told = Tell(step with { Kind = step.Target % 2 == 0 ? 0 : 4 });
        return (book.Propose(new Correct { Day = RandomCellar.Today, TakesBack = new(vessels + step.Which, null), Reason = "misread", Write = [told.Operation with { Day = day }] }, RandomCellar.Today), model.Correct(step.Which, told.Rule));
    }

    private static Told Tell(Step step)
    {
        var (lot, vessel, target, day) = ($"L{step.Lot}", $"V{step.Vessel}", $"V{step.Target}", First.AddDays(step.Day));
        var volume = new Volume(step.Microlitres);
        var litres = step.Microlitres / 1_000_000m;
        var bottles = 1 + step.Microlitres % 5;
        var bottling = $"B{step.Lot}";
        switch (step.Kind)
        {
            case 0:
                return new(new Receive { Day = day, What = "must", Lot = lot, Vessel = vessel, Litres = volume }, _ => [new("", $"must:{lot}:{vessel}", litres)]);
            case 1:
                return new(new Receive { Day = day, What = "bulkWine", Lot = lot, Vessel = vessel, Litres = volume, Abv = new(1200) }, _ => [new("", $"wine:{lot}:{vessel}", litres)]);
            case 2 or 3:
                // A tenth of it is lost on the way.
                var lost = litres / 10 - litres / 10 % 0.000001m;
                Loss[] losses = lost > 0 ? [new() { Kind = "spill", Litres = Microlitres(lost) }] : [];
                return new(new Transfer { Day = day, Sources = [new() { Lot = lot, Vessel = vessel, Litres = volume }], Targets = [new() { Lot = lot, Vessel = target, Litres = Microlitres(litres - lost) }], Losses = losses },
                    before => before.Place(lot, vessel) is { } from ? [new(from, from[..5] + lot + ":" + target, litres - lost), new(from, "", lost)] : null);
            case 4:
                return new(new Lose { Day = day, As = "evaporation", Lot = lot, Vessel = vessel, Litres = volume }, before => before.Place(lot, vessel) is { } from ? [new(from, "", litres)] : null);
            case 5:
                return new(new DeclareWine { Day = day, Lot = lot, Vessel = vessel, Litres = volume, Abv = new(1250) }, before =>
                {
                    if (before.Place(lot, vessel) is not { } from || !from.StartsWith("must", StringComparison.Ordinal) || before[from] == 0) return null;
                    var shrinkage = before[from] - litres;
                    return [new(from, $"wine:{lot}:{vessel}", litres), shrinkage > 0 ? new(from, "", shrinkage) : new("", from, -shrinkage)];
                });
            case 6:
                return new(new Bottle { Day = day, Lot = lot, Vessel = vessel, Fills = [new() { Bottling = bottling, Bottles = new(bottles), BottleMl = new(new(750_000)) }] },
                    before => before.Place(lot, vessel) is { } from && from.StartsWith("wine", StringComparison.Ordinal) ? [new(from, $"bottles:{bottling}", bottles * 0.75m)] : null);
            case 7:
                return new(new Remove { Day = day, As = "sold", Bottling = bottling, Bottles = new(bottles) }, before => before.Litres.ContainsKey($"bottles:{bottling}") ? [new($"bottles:{bottling}", "", bottles * 0.75m)] : null);
            case 8:
                return new(new Unbottle { Day = day, Bottling = bottling, Bottles = new(bottles), Lot = lot, Vessel = vessel }, before => before.Litres.ContainsKey($"bottles:{bottling}") ? [new($"bottles:{bottling}", $"wine:{lot}:{vessel}", bottles * 0.75m)] : null);
            default:
                return new(new Gauge { Day = day, Vessel = vessel, Litres = volume }, before =>
                {
                    if (before.In(vessel) is not { } there) return null;
                    var difference = litres - before[there];
                    return [difference > 0 ? new("", there, difference) : new(there, "", -difference)];
                });
        }
    }

    private static Volume Microlitres(decimal litres) => new((long)(litres * 1_000_000m));

    private static string Held(State state) => string.Join("\n", state.Litres.Where(pair => pair.Value != 0).Select(pair => string.Create(CultureInfo.InvariantCulture, $"{pair.Key} {pair.Value:0.000000}")).Order(StringComparer.Ordinal));

    private static string Held(Book.Book book) => string.Join("\n", book.Now.Places.Where(place => !place.IsEmpty).Select(place => (place.Account.Section switch
    {
        Section.Must => $"must:{place.Account.Name}:{place.Account.Place}",
        Section.Bulk => $"wine:{place.Account.Name}:{place.Account.Place}",
        _ => $"bottles:{place.Account.Name}",
    }) + " " + ExactNumber.WriteFixed(place.Volume.Microlitres, 6)).Order(StringComparer.Ordinal));
}
