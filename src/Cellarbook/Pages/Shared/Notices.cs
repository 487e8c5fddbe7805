using Cellarbook.Core.Quantities;
using Cellarbook.Core.Noticing;

namespace Cellarbook.Pages.Shared;

/// <summary>What stands out, as a sentence with its next action.</summary>
/// <param name="Finding">What was found.</param>
/// <param name="Sentence">For the person in the cellar.</param>
/// <param name="Action">What to do next.</param>
/// <param name="Address">Where that is done.</param>
/// <param name="IsPressing">True for what shouldn't wait.</param>
public sealed record Notice(Finding Finding, Sentence Sentence, Sentence Action, string Address, bool IsPressing)
{
    /// <summary>What it is about: a lot, a bottling, a vessel or a delivery.</summary>
    public string About => Finding.Lot ?? Finding.Bottling?.Code ?? Finding.Vessel ?? Finding.Store?.Place.Account.Place ?? "";

    /// <summary>The page of what it is about.</summary>
    public string Page => Finding.Lot is { } lot ? Links.Lot(lot) : Finding.Bottling is { } bottling ? Links.Bottling(bottling.Code) : Finding.Store is { } store ? Links.Delivery(store.Place.Account) : Links.Vessel(Finding.Vessel ?? "");
}

/// <summary>Words what the core finds.</summary>
public sealed class Notices(Show show)
{
    /// <summary>Findings in words, the most pressing so many; what is the same in several vessels of a lot is said once.</summary>
    /// <param name="findings">What was found.</param>
    /// <param name="most">How many to say.</param>
    /// <param name="more">How many are left unsaid.</param>
    public IReadOnlyList<Notice> Of(IReadOnlyList<Finding> findings, int most, out int more)
    {
        var (firsts, others, together) = (new List<Finding>(), new List<Finding>(), new Dictionary<(Standout, string?), int>());
        foreach (var finding in findings)
        {
            if (finding.What is not (Standout.NotTouched or Standout.StrengthUnstated) || together.TryAdd((finding.What, finding.Lot), firsts.Count))
            {
                firsts.Add(finding);
                continue;
            }
            var first = together[(finding.What, finding.Lot)];
            var isFirst = StandsOut.Pressing.Compare(finding, firsts[first]) < 0;
            others.Add(isFirst ? firsts[first] : finding);
            if (isFirst) firsts[first] = finding;
        }
        more = Math.Max(0, firsts.Count - most);
        var same = others.ToLookup(finding => (finding.What, finding.Lot));
        return [.. firsts.Order(StandsOut.Pressing).Take(most).Select(first => same.Contains((first.What, first.Lot)) ? Together([first, .. same[(first.What, first.Lot)].Order(StandsOut.Pressing)]) : first.Vessels > 1 ? Crowd(first) : Of(first))];
    }

    /// <summary>All of them in words.</summary>
    public IReadOnlyList<Notice> Of(IEnumerable<Finding> findings) => Of([.. findings], int.MaxValue, out _);

    private Notice Crowd(Finding first) =>
        new(first, $"{show.Number(first.Vessels)} vessels in use, {first.Vessel} among them, of which nobody said what they hold when full.", "See them", "/vessels", false);

    private Notice Together(List<Finding> same)
    {
        var places = Sentence.List([.. same.Select(finding => finding.Vessel == Core.Book.Account.Unplaced ? Words.Unplaced : Sentence.Verbatim(finding.Vessel!))]);
        return same[0].What == Standout.NotTouched
            ? new(same[0], $"Nothing written for {Weeks(same.Min(finding => finding.Days))} and more in {places}.", "Top up", Links.Record("top-up", "lot", same[0].Lot), false)
            : new(same[0], $"No stated strength in {places}.", "State it", Links.Record("regauge", "lot", same[0].Lot), false);
    }

    private Notice Of(Finding finding)
    {
        var (lot, vessel) = (finding.Lot, finding.Vessel);
        Sentence place = vessel is null ? Sentence.Empty : $" {Words.In(vessel)}";
        var named = vessel == Core.Book.Account.Unplaced ? null : vessel;
        var reading = finding.Read is { } read ? show.Reading(read.Text) : "";
        return finding.What switch
        {
            Standout.OverLimit => new(finding, $"Over a limit ({Sentence.Seed(finding.Over!.Set.Name)}): {finding.Over.Substance.Said}, {finding.Over.Arithmetic}{(finding.MoreLimits == 0 ? Sentence.Empty : finding.MoreLimits == 1 ? Sentence.Of(" And it is over one more.") : $" And it is over {finding.MoreLimits} more.")}", "See its limits", (lot is not null ? Links.Lot(lot) : Links.Bottling(finding.Bottling!.Value.Code)) + "#limits", true),
            Standout.NoLongerAgrees => new(finding, finding.Bottling is { } bottling
                ? Sentence.Of($"Entry {finding.Disagreement!.Entry} counted {Count(finding.Disagreement.Measured, bottling.Size)}; after later changes the book has {Count(finding.Disagreement.Book, bottling.Size)} there.")
                : $"Entry {finding.Disagreement!.Entry} measured {show.Volume(finding.Disagreement.Measured)}{place}; after later changes the book holds {show.Volume(finding.Disagreement.Book)} there.", "Correct it", Links.Correct(finding.Disagreement.Entry), true),
            Standout.StoodStill => new(finding, $"Gravity has stood at {reading} for {show.Days(finding.Days)}{place}. Sugar is likely left: the ferment may be stuck.", "Read again", Links.Record("measure", "lot", lot, "vessel", named), true),
            Standout.NearlyFull => new(finding, $"Fermenting with {show.Volume(finding.Capacity!.Value - finding.Volume)} of room{place}: it may foam over.", "Rack some off", Links.Record("rack", "lot", lot, "vessel", named), true),
            Standout.NeverDeclared => new(finding, $"Still and dry at {reading} for {show.Days(finding.Days)}{place}, but still must in the book.", "Fermentation is over", Links.Record("declare", "lot", lot, "vessel", named), false),
            Standout.LooksOver => new(finding, $"Gravity has stood at {reading} for {show.Days(finding.Days)}{place}: fermentation looks over.", "Fermentation is over", Links.Record("declare", "lot", lot, "vessel", named), false),
            Standout.NotRead => new(finding, reading.Length > 0 ? Sentence.Of($"Last read {reading}{place}, {show.Days(finding.Days)} ago.") : $"In the ferment{place} for {show.Days(finding.Days)} and never read.", "Read", Links.Record("measure", "lot", lot, "vessel", named), false),
            Standout.Headspace => new(finding, $"{show.Volume(finding.Capacity!.Value - finding.Volume)} of empty room above {show.Volume(finding.Volume)}{place}: air spoils it.", "Top up", Links.Record("top-up", "lot", lot, "vessel", named), false),
            Standout.NotTouched => new(finding, $"Nothing written for {Weeks(finding.Days)}{place}.", "Top up", Links.Record("top-up", "lot", lot, "vessel", named), false),
            Standout.StrengthUnstated => new(finding, $"{show.Volume(finding.Volume)}{place} without a stated strength.", "State it", Links.Record("regauge", "lot", lot, "vessel", named), false),
            Standout.OutOfDate => new(finding, $"{Sentence.Seed(finding.Store!.Material.Name)}: {show.Material(finding.Store.Place.Material, finding.Store.Material.Unit)} in store, best before {show.Day(finding.Store.Place.Delivery!.BestBefore!.Value)}.", "Take it out", Links.Record("take-from-stores", "as", "spoilt", "material", finding.Store.Material.Code, "delivery", finding.Store.Place.Account.Place), false),
            Standout.LowStock => new(finding, finding.Store!.Left.IsPositive
                ? Sentence.Of($"{Sentence.Seed(finding.Store.Material.Name)}: only {show.Material(finding.Store.Left, finding.Store.Material.Unit)} left in store.")
                : $"{Sentence.Seed(finding.Store.Material.Name)}: none left in store.", "Delivery", Links.Record("deliver", "material", finding.Store.Material.Code), false),
            _ => new(finding, $"Vessel {vessel} is in use and nobody said what it holds when full.", "Say it", Links.VesselForm(vessel), false),
        };
    }

    private string Count(Core.Quantities.Volume volume, Core.Quantities.Volume size) => show.Bottles(new(volume.Microlitres / size.Microlitres));

    private string Weeks(int days) => days >= 14 ? show.T[$"{days / 7}\u00A0weeks"] : show.Days(days);
}
