using Cellarbook.Core.Quantities;
using Cellarbook.Core.Today;

namespace Cellarbook.Pages.Shared;

/// <summary>What stands out, as a sentence with its next action.</summary>
/// <param name="Finding">What was found.</param>
/// <param name="Sentence">For the person in the cellar.</param>
/// <param name="Action">What to do next.</param>
/// <param name="Address">Where that is done.</param>
/// <param name="IsPressing">True for what shouldn't wait.</param>
public sealed record Notice(Finding Finding, string Sentence, string Action, string Address, bool IsPressing);

/// <summary>Words what the core finds.</summary>
public sealed class Notices(Show show)
{
    /// <summary>A finding in words.</summary>
    public Notice Of(Finding finding)
    {
        var (lot, vessel) = (finding.Lot, finding.Vessel);
        var place = vessel is null ? "" : " " + Words.In(vessel);
        var named = vessel == Core.Book.Account.Unplaced ? null : vessel;
        var reading = finding.Read is { } read ? show.Reading(read.Text) : "";
        return finding.What switch
        {
            Standout.NoLongerAgrees => new(finding, $"Entry {finding.Disagreement!.Entry} measured {show.Volume(finding.Disagreement.Measured)}{place}; after later changes the book holds {show.Volume(finding.Disagreement.Book)} there.", "Correct it", Links.Correct(finding.Disagreement.Entry), true),
            Standout.StoodStill => new(finding, $"Gravity has stood at {reading} for {Show.Days(finding.Days)}{place}. Sugar is likely left: the ferment may be stuck.", "Read again", Links.Record("measure", "lot", lot, "vessel", named), true),
            Standout.NearlyFull => new(finding, $"Fermenting with {show.Volume(finding.Capacity!.Value - finding.Volume)} of room{place}: it may foam over.", "Rack some off", Links.Record("rack", "lot", lot, "vessel", named), true),
            Standout.NeverDeclared => new(finding, $"Still and dry at {reading} for {Show.Days(finding.Days)}{place}, but still must in the book.", "Fermentation is over", Links.Record("declare", "lot", lot, "vessel", named), false),
            Standout.LooksOver => new(finding, $"Gravity has stood at {reading} for {Show.Days(finding.Days)}{place}: fermentation looks over.", "Fermentation is over", Links.Record("declare", "lot", lot, "vessel", named), false),
            Standout.NotRead => new(finding, reading.Length > 0 ? $"Last read {reading}, {Show.Days(finding.Days)} ago{place}." : $"In the ferment{place} for {Show.Days(finding.Days)} and never read.", "Read", Links.Record("measure", "lot", lot, "vessel", named), false),
            Standout.Headspace => new(finding, $"{show.Volume(finding.Capacity!.Value - finding.Volume)} of empty room above {show.Volume(finding.Volume)}{place}: air spoils it.", "Top up", Links.Record("top-up", "lot", lot, "vessel", named), false),
            Standout.NotTouched => new(finding, $"Nothing written for {Weeks(finding.Days)}{place}.", "Top up", Links.Record("top-up", "lot", lot, "vessel", named), false),
            Standout.StrengthUnstated => new(finding, $"{show.Volume(finding.Volume)}{place} without a stated strength.", "State it", Links.Record("regauge", "lot", lot, "vessel", named), false),
            _ => new(finding, $"Vessel {vessel} is in use and nobody said what it holds when full.", "Say it", Links.VesselForm(vessel), false),
        };
    }

    private static string Weeks(int days) => days >= 14 ? $"{days / 7}\u00A0weeks" : Show.Days(days);
}
