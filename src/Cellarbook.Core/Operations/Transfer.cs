using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// From one or more places to one or more places, with losses by kind: racking, settling, splitting, blending, filtering. Sources are targets
/// plus losses. With several of each, targets then losses in order are each drawn from what is left of the sources in proportion.
/// </summary>
public sealed record Transfer : Operation
{
    /// <summary>Drawn from; a source without a volume is drawn whole.</summary>
    public IReadOnlyList<Part>? Sources { get; init; }

    /// <summary>Put into.</summary>
    public IReadOnlyList<Part>? Targets { get; init; }

    /// <summary>Lost on the way.</summary>
    public IReadOnlyList<Loss>? Losses { get; init; }

    /// <summary>"Fermentation is over": must drawn here is declared wine, as it goes.</summary>
    public Declared? Declare { get; init; }

    /// <summary>Kind of the result, where wines of different kinds meet.</summary>
    public ProductKind? Product { get; init; }

    /// <summary>What declaring inside a racking or bottling states.</summary>
    public sealed record Declared
    {
        /// <summary>Stated strength.</summary>
        public Strength? Abv { get; init; }

        /// <summary>Product kind; still when left out.</summary>
        public ProductKind? Product { get; init; }
    }

    /// <summary>A source found in the cellar, with the volume drawn and the field that says so.</summary>
    internal sealed record Drawn(Place Place, Volume Volume, string Path);

    internal override void Decide(Deciding deciding)
    {
        if (Sources is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "sources", "Say what it was drawn from.");
        if (Targets is null or { Count: 0 } && Losses is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "targets", "Say where it went.");
        if (deciding.Refused) return;
        var drawn = FindSources(deciding, Sources!);
        if (deciding.Refused) return;
        Move(deciding, drawn, Targets ?? [], Losses ?? [], Declare, Product);
    }

    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed)
    {
        // Must that was declared whole: what a late entry adds to it has to show.
        if (Declare is null) yield break;
        foreach (var must in deed.Postings.Where(posting => posting.Category.Code == "PRODUCED").Select(posting => posting.From).Distinct())
            if (Sources!.Any(source => source.Litres is null && source.Lot == must.Name && (source.Vessel is null || source.Vessel == must.Place))) yield return (must, Volume.None);
    }

    internal static List<Drawn> FindSources(Deciding deciding, IReadOnlyList<Part> sources)
    {
        var drawn = new List<Drawn>();
        foreach (var (source, i) in sources.Select((source, i) => (source, i)))
        {
            if (deciding.PlaceOf(source.Lot, source.Vessel, $"sources[{i}]") is not { } place) continue;
            var volume = source.Litres ?? place.Volume;
            if (deciding.Positive(volume, $"sources[{i}].litres")) drawn.Add(new(place, volume, $"sources[{i}].litres"));
        }
        return drawn;
    }

    /// <summary>Posts the targets and losses, each drawn from what is left of the sources in proportion (largest remainder).</summary>
    internal static void Move(Deciding deciding, List<Drawn> drawn, IReadOnlyList<Part> targets, IReadOnlyList<Loss> losses, Declared? declare, ProductKind? product = null)
    {
        for (var i = 0; i < targets.Count; i++) deciding.Positive(targets[i].Litres, $"targets[{i}].litres");
        for (var i = 0; i < losses.Count; i++)
            if (losses[i].Litres is null) deciding.Refuse(RefusalCode.Missing, $"losses[{i}].litres", "Give the volume lost.");
            else if (losses[i].Litres < Volume.None) deciding.Refuse(RefusalCode.NotPositive, $"losses[{i}].litres", "A loss can't be below nil.");
        if (deciding.Refused) return;

        var total = drawn.Aggregate(Volume.None, (sum, source) => sum + source.Volume);
        var put = targets.Aggregate(Volume.None, (sum, target) => sum + target.Litres!.Value);
        var lost = losses.Aggregate(Volume.None, (sum, loss) => sum + loss.Litres!.Value);
        var rest = total - put - lost;
        var declaring = declare is not null && drawn.TrueForAll(source => source.Place.Account.Section == Section.Must);
        if (declare is not null && !declaring) deciding.Refuse(RefusalCode.WrongAccount, "declare", "Only must can be declared wine; something drawn here is wine already.");
        else if (rest < Volume.None || (rest.IsPositive && !declaring))
            deciding.Refuse(RefusalCode.DoesNotAddUp, "targets", $"{total} was drawn, but {put} received and {lost} lost make {put + lost}. Give the difference as a loss, or check the figures.");
        if (deciding.Refused) return;

        var left = drawn.Select(source => source.Volume.Microlitres).ToArray();
        for (var i = 0; i < targets.Count; i++)
        {
            var target = targets[i];
            foreach (var (source, volume) in Draw(drawn, left, target.Litres!.Value)) Put(deciding, source, target, volume, $"targets[{i}]", declare, product);
            if (deciding.Refused) return;
        }
        var all = rest.IsPositive ? losses.Append(new Loss { Kind = "shrinkage", Litres = rest }) : losses;
        foreach (var (loss, i) in all.Select((loss, i) => (loss, i)))
            foreach (var (source, volume) in Draw(drawn, left, loss.Litres!.Value)) WaysOut.Post(deciding.At(source.Path), loss.Kind, source.Place.Account, volume, $"losses[{i}].kind");
    }

    private static IEnumerable<(Drawn Source, Volume Volume)> Draw(List<Drawn> drawn, long[] left, Volume volume)
    {
        if (!volume.IsPositive) yield break;
        var parts = LargestRemainder.Split(volume.Microlitres, left);
        for (var i = 0; i < parts.Length; i++)
        {
            left[i] -= parts[i];
            if (parts[i] > 0) yield return (drawn[i], new(parts[i]));
        }
    }

    private static void Put(Deciding deciding, Drawn drawn, Part target, Volume volume, string path, Declared? declare, ProductKind? product)
    {
        var source = drawn.Place.Account;
        var section = source.Section == Section.Must && declare is null ? Section.Must : Section.Bulk;
        var lot = target.Lot ?? source.Name;
        if (deciding.Destination(section, lot, target.Vessel, path) is not { } account) return;
        var lying = account.InVessel ? deciding.Cellar.Vessel(account.Place).Accounts.FirstOrDefault(there => there != account && there != source) : null;
        if (lying is { Section: Section.Must } && section == Section.Bulk)
        {
            deciding.Refuse(RefusalCode.WineIntoMust, path, $"{account.Place} holds must of {lying.Name}: wine can't go into must. Declare that must wine first.");
            return;
        }
        if (lying is { Section: Section.Bulk } && section == Section.Must)
        {
            deciding.Refuse(RefusalCode.MustIntoWine, path, $"{account.Place} holds wine of {lying.Name}: must can't go into wine. Say that fermentation is over first.");
            return;
        }
        deciding.At(drawn.Path, path + ".vessel");
        if (source.Section == Section.Must && declare is not null) deciding.Post("PRODUCED", source, account, volume, target.Abv ?? declare.Abv, declare.Product ?? ProductKind.Still);
        else if (section == Section.Must) deciding.Post("MUST_TRANSFER", source, account, volume);
        else deciding.Post("LOT_TRANSFER", source, account, volume, target.Abv, product);
    }
}
