using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Xunit;
using static Cellarbook.Core.Tests.Demo.DemonstrationBook;

namespace Cellarbook.Core.Tests.Demo;

/// <summary>
/// Figures a maker would believe. The ranges are common practice, no source; they guard the diary against slips of the pen, nothing else.
/// </summary>
public class DemonstrationFiguresTests
{
    /// <summary>SO2 in potassium metabisulphite: 2 × 64.06 / 222.32, by molar mass.</summary>
    private const double So2OfMetabisulphite = 0.5763;

    [Fact]
    public void Must_is_read_between_16_and_26_degrees()
    {
        var read = Written.OfType<Measure>().Where(measure => measure is { Gravity: not null, Celsius: not null }).ToList();
        Assert.True(read.Count >= 70);
        Assert.All(read, measure => Assert.InRange(measure.Celsius!.Value.Value, 16, 26));
    }

    [Fact]
    public void Gravity_falls_in_every_place_unless_sugar_went_in_between()
    {
        var operations = Written.OrderBy(operation => operation.Day).ThenBy(operation => operation.Time ?? TimeOnly.MaxValue).ToList();
        foreach (var place in operations.OfType<Measure>().Where(measure => measure.Gravity is not null).GroupBy(measure => (measure.Lot, measure.Vessel)))
        {
            var readings = place.ToList();
            for (var i = 1; i < readings.Count; i++)
            {
                var sugared = operations.OfType<Add>().Any(add => add.Lot == place.Key.Lot && add.Items!.Any(item => item.RiseBy == "sugar") && operations.IndexOf(add) > operations.IndexOf(readings[i - 1]) && operations.IndexOf(add) < operations.IndexOf(readings[i]));
                if (!sugared) Assert.True(readings[i].Gravity!.Value.Value <= readings[i - 1].Gravity!.Value.Value, $"{place.Key} on {readings[i].Day}");
            }
        }
    }

    [Theory]
    [InlineData("W25", 11.7, 1.082, 0.993), InlineData("P25", 12.7, 1.091, 0.994), InlineData("S25", 10.9, 1.078, 0.995)]
    [InlineData("E26", 12.3, 1.092, 0.998), InlineData("W26", 11.3, 1.080, 0.994), InlineData("R26", 12.6, 1.091, 0.995)]
    public void Strength_declared_matches_the_drop_of_gravity(string lot, double abv, double from, double to)
    {
        var stated = Whole.Pages.SelectMany(page => page.Deeds).SelectMany(deed => deed.Postings).First(posting => posting.Category.Code == "PRODUCED" && posting.From.Name == lot).Strength!.Value;
        Assert.Equal(abv, stated.Hundredths / 100.0, 2);
        // (OG − FG) × 131.25, the home maker's rule (from memory). The plum had 13 points of sugar more after its first reading of 1.078.
        Assert.InRange((from - to) * 131.25, abv - 0.15, abv + 0.15);
        var readings = Written.OfType<Measure>().Where(measure => measure.Lot == lot && measure.Gravity is not null).Select(measure => measure.Gravity!.Value.Value).ToList();
        Assert.Equal(to, readings.Min());
        if (lot != "P25") Assert.Equal(from, readings.Max());
    }

    [Theory]
    [InlineData("W25", 444), InlineData("R25", 388), InlineData("W26", 290), InlineData("R26", 210)]
    public void Grapes_yield_60_to_70_per_cent_of_must(string lot, double kilograms)
    {
        var received = Written.OfType<Receive>().Where(receive => receive.What == "fruit" && receive.Origin![0].Vintage == "20" + lot[1..] && receive.Colour == (lot[0] == 'W' ? "white" : "red") && receive.Origin[0].Variety != "plum").Sum(receive => receive.Kilograms!.Value.Grams) / 1000.0;
        Assert.Equal(kilograms, received);
        var crushed = Postings.Where(posting => posting.Category.Code == "GRAPES_CRUSHED" && posting.To.Name == lot).Sum(posting => Litres(posting.Volume));
        var marc = Postings.Where(posting => posting.Category.Code == "MARC_REMOVED" && posting.From.Name == lot).Sum(posting => Litres(posting.Volume));
        Assert.InRange((crushed - marc) / kilograms, 0.60, 0.70);
    }

    [Fact]
    public void Lees_at_a_racking_are_at_most_4_per_cent_and_solids_5()
    {
        var rackings = Written.OfType<Transfer>().Where(transfer => transfer.Losses?.Any(loss => loss.Kind == "lees") == true && transfer.Targets!.Sum(target => Litres(target.Litres!.Value)) > 30).ToList();
        Assert.True(rackings.Count >= 7);
        Assert.All(rackings, transfer => Assert.InRange(transfer.Losses!.Where(loss => loss.Kind == "lees").Sum(loss => Litres(loss.Litres!.Value)) / transfer.Targets!.Sum(target => Litres(target.Litres!.Value)), 0.003, 0.04));
        Assert.All(Written.OfType<Transfer>().Where(transfer => transfer.Losses?.Any(loss => loss.Kind == "solids") == true),
            transfer => Assert.InRange(Litres(transfer.Losses![0].Litres!.Value) / Litres(transfer.Targets![0].Litres!.Value), 0.03, 0.05));
    }

    [Fact]
    public void Sulphite_goes_in_at_15_to_60_mg_per_litre_but_for_the_one_that_is_flagged()
    {
        var seen = 0;
        foreach (var add in Written.OfType<Add>())
            foreach (var item in add.Items!.Where(item => item.Material is "potassium metabisulphite" or "kmbs"))
            {
                // The volume at the end of the day; within the day sugar and water may have come in with it.
                var volume = Whole.AsOf(add.Day).PlacesOfLot(add.Lot!).FirstOrDefault(place => place.Account.Place == add.Vessel)?.Volume;
                if (volume is null) continue;
                var milligrams = item.Grams!.Value.Milligrams * So2OfMetabisulphite / Litres(volume.Value);
                if (add.Flags is null) Assert.InRange(milligrams, 14.5, 60);
                else Assert.InRange(milligrams, 125, 140);
                seen++;
            }
        Assert.True(seen >= 20, $"{seen} seen");
    }

    [Fact]
    public void Evaporation_from_the_cask_is_a_half_to_one_per_cent_a_month() =>
        Assert.All(Written.OfType<TopUp>(), top => Assert.InRange(Litres(top.Casks![0].Litres!.Value) / 109.5, 0.004, 0.01));
}
