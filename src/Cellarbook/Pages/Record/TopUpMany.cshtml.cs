using Cellarbook.Core.Operations;
using Cellarbook.Core.Passbook;
using Cellarbook.Forms;
using Cellarbook.Pages.Shared;

namespace Cellarbook.Pages.Record;

/// <summary>A round of topping: every vessel of wine with what went in, all from one source, in one entry.</summary>
public sealed class TopUpManyModel(Desk desk, EntryIndex index) : FormPage(desk)
{
    private const int Most = 100;

    /// <inheritdoc/>
    public override Sentence Title => "Top up many";

    /// <inheritdoc/>
    public override Sentence? Lead => "Say what went into each; leave the others empty. What went in is what had evaporated, and is written as evaporation first. All of it becomes one entry.";

    /// <inheritdoc/>
    protected override string Kind => "topUp";

    /// <summary>Vessels of wine that the page doesn't list.</summary>
    public int Rest { get; private set; }

    /// <inheritdoc/>
    protected override IEnumerable<Group> Questions()
    {
        var wine = (Sent() ?? Cellar.Filled.Where(place => !place.IsMust).OrderBy(place => place.Vessel, StringComparer.Ordinal)).ToArray();
        Rest = Math.Max(0, wine.Length - Most);
        var lines = Desk.Book.Read<Line[]>(book => [.. wine.Take(Most).Select((place, i) => new Line(
        [
            Ask.Along($"casks[{i}].lot", place.Lot), Ask.Along($"casks[{i}].vessel", place.Vessel),
            Ask.Volume($"casks[{i}].litres", place.Vessel == Core.Book.Account.Unplaced ? Sentence.Of($"{place.Lot}, in no named vessel") : $"{place.Vessel} · {place.Lot}", VolumeUnit) with { Hint = Said(book, place) },
        ]))]);
        yield return new("Went in", lines) { IsGrid = true };
        foreach (var group in Parts.ToppedFrom(Cellar)) yield return group;
    }

    /// <inheritdoc/>
    protected override void Complete(Slip slip) => Parts.KeepBought(slip);

    /// <summary>The casks as the form was sent: what stands beside a figure stays beside it, whatever happened meanwhile or on whichever day it was.</summary>
    private IEnumerable<FilledPlace>? Sent() => !Request.HasFormContentType ? null : Enumerable.Range(0, Most)
        .Select(i => (Lot: Request.Form[$"casks[{i}].lot"].ToString(), Vessel: Request.Form[$"casks[{i}].vessel"].ToString())).TakeWhile(cask => cask.Lot.Length > 0)
        .Select(cask => Cellar.Find(cask.Lot, cask.Vessel) ?? new(cask.Lot, cask.Vessel, IsMust: false, Core.Quantities.Volume.None, null));

    private Sentence Said(Core.Book.Book book, FilledPlace place)
    {
        var parts = new List<Sentence> { book.Vessels.GetValueOrDefault(place.Vessel) is VesselFacts { Capacity: { } capacity } ? Sentence.Of($"{Desk.Show.Volume(place.Volume)} of {Desk.Show.Volume(capacity)}") : Sentence.Verbatim(Desk.Show.Volume(place.Volume)) };
        if (LastTopped.Of(book, index, place.Vessel) is { } topped) parts.Add(Words.Topped(topped, Desk.Book.Today));
        return $"{Sentence.Join("; ", parts)}.";
    }
}
