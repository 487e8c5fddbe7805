using System.Text.Json;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Statements;
using Xunit;
using static Cellarbook.Core.Tests.Demo.DemonstrationBook;

namespace Cellarbook.Core.Tests.Demo;

/// <summary>The demonstration book is accepted whole, keeps the laws, and shows what the program can do.</summary>
public class DemonstrationBookTests
{
    [Fact]
    public void Every_line_is_recorded_in_an_empty_book_and_line_n_is_entry_n()
    {
        Assert.InRange(Lines.Count, 220, 360);
        Assert.Equal(Lines.Count, Whole.LastNumber);
        for (var i = 0; i < Lines.Count; i++)
        {
            Assert.Equal(i + 1, Whole.Entries[i].Number);
            Assert.Equal(OperationJson.KindOf(Whole.Entries[i].Operation!), JsonDocument.Parse(Lines[i]).RootElement.GetProperty("kind").GetString());
        }
    }

    [Fact]
    public void It_runs_over_fourteen_months_and_ends_on_a_fixed_day_that_is_past()
    {
        Assert.Equal(First, Whole.FirstDay);
        Assert.Equal(Last, Whole.Pages[^1].Day);
        Assert.All(Whole.Entries, entry => Assert.InRange(entry.Day, First, Last));
        Assert.All(Whole.Entries, entry => Assert.True(entry.Operation!.EnteredOn is null || entry.Operation.EnteredOn <= Last));
        // No long silence: something is written in every month.
        for (var month = First; month < Last; month = month.AddMonths(1)) Assert.Contains(Whole.Entries, entry => entry.Day.Year == month.Year && entry.Day.Month == month.Month);
    }

    [Fact]
    public void Lines_stand_in_the_order_in_which_they_were_written_down()
    {
        var written = Whole.Entries.Select(entry => entry.Operation!.EnteredOn ?? entry.Day).ToList();
        Assert.Equal(written.Order(), written);
    }

    [Fact]
    public void Every_line_reads_back_from_its_own_canonical_text() =>
        Assert.All(Whole.Entries, entry => Assert.Equal(OperationJson.Write(entry.Operation!), OperationJson.Write(OperationJson.Stored(OperationJson.Write(entry.Operation!)))));

    [Fact]
    public void Law_2_no_vessel_ever_held_more_than_it_can_and_all_are_between_10_and_300_litres()
    {
        Assert.All(Whole.Vessels.Values, vessel =>
        {
            Assert.InRange(Litres(vessel.Capacity!.Value), 10, 300);
            Assert.True(Whole.Now.Vessel(vessel.Code).Peak <= vessel.Capacity);
        });
        Assert.All(Whole.Now.Vessels, hold => Assert.True(Whole.Vessels.ContainsKey(hold.Code), hold.Code));
    }

    [Fact]
    public void Law_3_each_vessel_holds_one_lot_at_the_end() =>
        Assert.All(Whole.Now.Vessels, hold => Assert.True(hold.Accounts.Length <= 1, hold.Code));

    [Fact]
    public void Law_4_a_late_spill_made_a_gauge_disagree_and_a_correction_put_it_right()
    {
        var spill = Whole.Entries.Single(entry => entry.Operation is Lose { As: "spill", EnteredOn: not null });
        var before = Record([.. Lines.Take((int)spill.Number - 1)]);
        Assert.Empty(before.Disagreements);
        var trial = Good(before, Lines[(int)spill.Number - 1], (int)spill.Number);
        Assert.Contains(trial.Flags, flag => flag.Code == "no_longer_agrees");
        before.Accept(trial);
        Assert.Single(before.Disagreements);
        Assert.Empty(Whole.Disagreements);
    }

    [Fact]
    public void Law_4_before_the_closing_a_correction_stands_in_place_and_after_it_is_postings_of_its_own_day()
    {
        var closing = Whole.Entries.Single(entry => entry.Operation is Close);
        Assert.Equal(new DateOnly(2025, 12, 31), Whole.ClosedThrough);
        var onFiled = Assert.Single(Whole.Entries, entry => entry is { TakesBack: not null, LeavesOut: false });
        Assert.True(onFiled.Number > closing.Number && onFiled.Day > Whole.ClosedThrough);
        Assert.True(Whole.Find(onFiled.TakesBack!.Value)!.Day <= Whole.ClosedThrough);
        Assert.NotEmpty(Whole.EffectsOf(onFiled.TakesBack.Value));
        Assert.Contains(Postings, posting => posting.IsTakenBack);
        foreach (var inPlace in Whole.Entries.Where(entry => entry.LeavesOut)) Assert.Empty(Whole.EffectsOf(inPlace.TakesBack!.Value));
    }

    [Fact]
    public void Law_5_nothing_more_can_be_dated_in_the_closed_period()
    {
        var late = new Remove { Day = Whole.ClosedThrough!.Value, As = "ownUse", Bottling = "W24-75", Bottles = new(1) };
        Assert.Equal(RefusalCode.PeriodClosed, Whole.Propose(late, DemonstrationBook.Today).Refusals[0].Code);
        Assert.True(Whole.Propose(late with { Day = Whole.ClosedThrough.Value.AddDays(1) }, DemonstrationBook.Today).IsGood);
    }

    [Fact]
    public void Law_6_every_months_statement_balances_and_each_closing_is_the_next_opening()
    {
        var closings = new Dictionary<(Section, string), (long Volume, long Bottles)>();
        for (var month = First; month <= Last; month = month.AddMonths(1))
        {
            var plain = PlainStatement.Build(Whole, new(month, month.AddMonths(1).AddDays(-1)), ClassScheme.Default);
            var next = new Dictionary<(Section, string), (long, long)>();
            foreach (var column in plain.Lines.GroupBy(line => (line.Section, line.Class)))
            {
                (long Volume, long Bottles) Sum(Direction direction) => (column.Where(line => line.Direction == direction).Sum(line => line.Volume.Microlitres), column.Where(line => line.Direction == direction).Sum(line => line.Bottles.Bottles));
                var (opening, come, gone, closing) = (Sum(Direction.Opening), Sum(Direction.In), Sum(Direction.Out), Sum(Direction.Closing));
                Assert.Equal(closing.Volume, opening.Volume + come.Volume - gone.Volume);
                Assert.Equal(closing.Bottles, opening.Bottles + come.Bottles - gone.Bottles);
                if (month != First) Assert.Equal((month, column.Key, closings.GetValueOrDefault(column.Key)), (month, column.Key, opening));
                next[column.Key] = closing;
            }
            foreach (var (column, _) in closings.Where(pair => pair.Value.Volume > 0)) Assert.Contains(column, next.Keys);
            closings = next;
        }
        // The last closing is what lies in the cellar, summed apart.
        foreach (var section in new[] { Section.Must, Section.Bulk, Section.Bottled })
            Assert.Equal(Whole.Now.Places.Where(place => place.Account.Section == section).Sum(place => place.Volume.Microlitres), closings.Where(pair => pair.Key.Item1 == section).Sum(pair => pair.Value.Volume));
    }

    [Fact]
    public void Law_6_every_months_form_balances_in_litres_and_in_whole_gallons()
    {
        var closed = new Dictionary<(string, string), long>();
        for (var month = First; month <= Last; month = month.AddMonths(1))
        {
            var form = UsStatement.Build(Whole, new(month, month.AddMonths(1).AddDays(-1)));
            Assert.NotEmpty(form.Figures);
            foreach (var column in form.Figures.GroupBy(figure => (Section: figure.Section, figure.Class)))
            {
                UsFigure At(FormLine line) => column.Single(figure => figure.Line == line);
                var (upper, lower) = (At(column.Key.Section.UpperTotal), At(column.Key.Section.LowerTotal));
                Assert.Equal(upper.Volume, lower.Volume);
                Assert.Equal(upper.WholeGallons, lower.WholeGallons);
                var key = (column.Key.Section.Name, column.Key.Class);
                if (closed.TryGetValue(key, out var before)) Assert.Equal((month, key, before), (month, key, At(column.Key.Section.Opening).WholeGallons));
                closed[key] = At(column.Key.Section.Closing).WholeGallons;
            }
        }
        Assert.Equal(["A16", "B21", "E_SPKL"], closed.Keys.Select(key => key.Item2).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Law_7_shares_of_origin_add_up_to_one_and_the_cask_still_tells_its_vintages()
    {
        Assert.All(Whole.Now.Places, place => Assert.Equal(OriginMix.Whole, place.Origin.Shares.Sum(share => share.Parts)));
        var cask = Whole.Now.At(Account.Bulk("R25", "K1"));
        Assert.Contains(cask.Origin.Shares, share => share.Origin is { Variety: "Regent", Vintage: "2025" });
        Assert.Contains(cask.Origin.Shares, share => share.Origin is { Variety: "Pinot noir", Vintage: "2024" });
        Assert.Contains(cask.Origin.Shares, share => share.Origin == Origin.Unstated);
    }

    [Fact]
    public void Law_11_an_overdose_is_recorded_with_its_reason_and_stays_flagged()
    {
        var flagged = Assert.Single(Whole.Entries, entry => entry.Operation!.Flags is { Count: > 0 });
        var flag = Assert.Single(flagged.Operation!.Flags!);
        Assert.Equal("over_limit", flag.Code);
        Assert.NotEmpty(flag.Reason);
        Assert.Null(flagged.TakenBackBy);
    }

    [Fact]
    public void Law_12_a_figure_typed_in_another_unit_is_kept_beside_the_one_posted() =>
        Assert.Contains(Written, operation => operation is Measure { Celsius: not null } && operation.Typed?.GetValueOrDefault("celsius")?.EndsWith("°F", StringComparison.Ordinal) == true);
}
