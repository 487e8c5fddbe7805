using Cellarbook.Core.Book;
using Cellarbook.Core.Noticing;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Tests.Properties;
using CsCheck;
using Xunit;

namespace Cellarbook.Core.Tests.Noticing;

/// <summary>What stands out is found by short ways; on any history, late entries and take-backs too, the long way finds the same.</summary>
public class StandsOutProperties
{
    private static readonly Gen<(Operation[] History, int[] Order)> Told = Gen.Select(RandomCellar.History(40), Gen.Shuffle(Enumerable.Range(0, 40).ToArray()), (history, order) => (history, order));

    /// <summary>A book that grows out of order, with readings of what lies there and every seventh entry taken back; seen after each step.</summary>
    private static IEnumerable<Book.Book> Growing((Operation[] History, int[] Order) told)
    {
        var book = RandomCellar.Empty();
        foreach (var i in told.Order.Where(i => i < told.History.Length).Concat(told.Order.Where(i => i < told.History.Length)))
        {
            var operation = told.History[i];
            RandomCellar.Record(book, [operation]);
            foreach (var place in book.Now.Places.Where(place => place is { IsEmpty: false, Account.Section: Section.Must or Section.Bulk }).Skip(i % 4).Take(1).ToArray())
                RandomCellar.Record(book, [new Measure { Day = operation.Day.AddDays(i % 9), Lot = place.Account.Name, Vessel = i % 3 == 0 ? null : place.Account.Place, Gravity = new($"1.0{10 + i % 2}") }]);
            if (i % 7 == 0) RandomCellar.Record(book, [new Correct { Day = RandomCellar.Today, TakesBack = new(1 + i * 5 % book.LastNumber, null), Reason = "never done" }]);
            yield return book;
        }
    }

    [Fact]
    public void Readings_of_a_lot_are_those_that_leafing_through_the_days_finds() => Told.Sample(told =>
    {
        var index = new EntryIndex();
        foreach (var book in Growing(told))
            foreach (var lot in book.Now.Lots)
                Assert.Equal(
                    book.Pages.SelectMany(page => page.Deeds).Where(deed => deed.Operation is Measure { Gravity: not null } measure && measure.Lot == lot).Select(deed => $"{deed.Entry} {((Measure)deed.Operation!).Gravity!.Value.Text}"),
                    GravityRun.Of(book, index, lot, Habits.Usual).Reads.Select(read => $"{read.Entry} {read.Text}"));
    }, iter: 40);

    [Fact]
    public void What_stands_out_of_the_cellar_is_what_stands_out_of_its_lots_on_any_day() => Told.Sample(told =>
    {
        var index = new EntryIndex();
        foreach (var book in Growing(told))
            foreach (var today in new[] { 3, 12, 80 }.Select(RandomCellar.First.AddDays))
            {
                var lots = book.Now.Lots.SelectMany(lot => StandsOut.Of(book, new EntryIndex(), lot, today, Habits.Usual)).Where(IsOfPlace)
                    .OrderBy(finding => finding.What).ThenByDescending(finding => finding.Days).ThenBy(finding => finding.Lot, StringComparer.Ordinal).ThenBy(finding => finding.Vessel, StringComparer.Ordinal);
                Assert.Equal(lots, StandsOut.Find(book, index, today, Habits.Usual).Where(IsOfPlace).Order(StandsOut.Pressing));
            }
    }, iter: 15);

    // Over a limit a lot is said once in the cellar, and each limit on its own page; vessels and stores are of no lot.
    private static bool IsOfPlace(Finding finding) => finding.What is not (Standout.OverLimit or Standout.NoLongerAgrees or Standout.CapacityUnknown or Standout.OutOfDate or Standout.LowStock);
}
