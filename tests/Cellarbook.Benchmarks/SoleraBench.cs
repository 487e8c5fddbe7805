using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Cellarbook.Core.Stores;

namespace Cellarbook.Benchmarks;

/// <summary>
/// A solera of 30 casks over 40 years: each month a tenth goes from each cask to the next older one, the oldest gives to the tank, the youngest is
/// filled with new wine that was sulphited from a delivery of its year; every year the tank is bottled.
/// </summary>
internal sealed class SoleraBench(Report report)
{
    private const int Casks = 30;
    private static readonly DateOnly Today = new(2030, 1, 1);

    public void Run()
    {
        var (whole, half) = (Build(480), Build(240));
        // In turns, so that what else the machine does strikes both alike.
        var (full, part) = Timing.Medians(25, () => BottleTrace.Of(whole, "B39"), () => BottleTrace.Of(half, "B19"));
        var sources = BottleTrace.Of(whole, "B39")!.Sources.Count;
        report.Row("a bottle traced back through 480 blends × 30 casks", $"{Report.Time(full)} ({sources} deliveries)", $"{Report.Ratio(full / part)} of 240 blends ({Report.Time(part)})", "< 100 ms, linear in blends");
        var first = Account.Stores("kmbs", "D0");
        var forward = Timing.Median(5, () => whole.TraceOf(first));
        var trace = whole.TraceOf(first)!;
        if (trace.InWine != FineAmount.Of(trace.Uses.Aggregate(MaterialAmount.None, (sum, use) => sum + use.Amount))) throw new InvalidOperationException("The trace doesn't add up.");
        report.Row("the first delivery followed to every cask and bottling of it, to the nanogram", Report.Time(forward), $"{trace.Departures.Count + trace.Holding.Count} places and removals, adding up", "reported");
    }

    private static Book Build(int blends)
    {
        var book = new Book();
        var first = new DateOnly(1985, 1, 1);
        Record(new Vessel { Day = first, Code = "T", CapacityLitres = Volume.OfLitres(5_000) });
        Record(new Vessel { Day = first, Code = "N", CapacityLitres = Volume.OfLitres(100) });
        for (var i = 0; i < Casks; i++)
        {
            Record(new Vessel { Day = first, Code = $"C{i}", CapacityLitres = Volume.OfLitres(225) });
            Record(new Receive { Day = first, What = "bulkWine", Lot = $"S{i}", Vessel = $"C{i}", Litres = Volume.OfLitres(200), Abv = new(1300) });
        }
        for (var blend = 0; blend < blends; blend++)
        {
            var day = first.AddMonths(blend + 1);
            var year = blend / 12;
            if (blend % 12 == 0) Record(new Deliver { Day = day, Items = [new() { Material = "kmbs", Delivery = $"D{year}", Grams = new(1_000_000) }] });
            Move("S0", "C0", $"OUT{year}", "T");
            for (var i = 1; i < Casks; i++) Move($"S{i}", $"C{i}", $"S{i - 1}", $"C{i - 1}");
            Record(new Receive { Day = day, What = "bulkWine", Lot = "NEW", Vessel = "N", Litres = Volume.OfLitres(20), Abv = new(1250) });
            Record(new Add { Day = day, Lot = "NEW", Vessel = "N", Items = [new() { Material = "kmbs", Delivery = $"D{year}", Grams = new(1_500) }] });
            Move("NEW", "N", $"S{Casks - 1}", $"C{Casks - 1}");
            if (blend % 12 == 11) Record(new Bottle { Day = day, Lot = $"OUT{year}", Vessel = "T", Fills = [new() { Bottling = $"B{year}", Bottles = new(300), BottleMl = new(Volume.OfMillilitres(750)) }], Empties = true });

            void Move(string from, string cask, string to, string into) => Record(new Transfer { Day = day, Sources = [new() { Lot = from, Vessel = cask, Litres = Volume.OfLitres(20) }], Targets = [new() { Lot = to, Vessel = into, Litres = Volume.OfLitres(20) }] });
        }
        return book;

        void Record(Operation operation)
        {
            var trial = book.Propose(operation, Today);
            if (!trial.IsGood) throw new InvalidOperationException(trial.Refusals[0].Sentence.ToString());
            book.Accept(trial);
        }
    }
}
