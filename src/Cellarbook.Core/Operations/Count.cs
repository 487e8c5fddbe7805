using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// A stock-take: what was found, line by line; the difference is posted with the count sheet (the document), not adjusted away. Gain and loss
/// are never set against each other.
/// </summary>
public sealed record Count : Operation
{
    /// <summary>What was found.</summary>
    public IReadOnlyList<Found>? Lines { get; init; }

    /// <summary>One line of the count sheet.</summary>
    public sealed record Found
    {
        /// <summary>The lot.</summary>
        public string? Lot { get; init; }

        /// <summary>The vessel.</summary>
        public string? Vessel { get; init; }

        /// <summary>The volume found; nil when nothing.</summary>
        public Volume? Litres { get; init; }

        /// <summary>The bottling.</summary>
        public string? Bottling { get; init; }

        /// <summary>The shelf.</summary>
        public string? Shelf { get; init; }

        /// <summary>The bottles found; nil when none.</summary>
        public BottleCount? Bottles { get; init; }
    }

    internal override void Decide(Deciding deciding)
    {
        if (Lines is null or { Count: 0 }) deciding.Refuse(RefusalCode.Missing, "lines", "Say what was found.");
        if (string.IsNullOrWhiteSpace(Document)) deciding.Refuse(RefusalCode.Missing, "document", "Name the count sheet.");
        var counted = new HashSet<Account>();
        foreach (var (line, i) in (Lines ?? []).Select((line, i) => (line, i)))
        {
            var account = line.Bottling is not null ? Bottles(deciding, line, $"lines[{i}]") : Liquid(deciding, line, $"lines[{i}]");
            if (account is not null && !counted.Add(account)) deciding.Refuse(RefusalCode.DoesNotAddUp, $"lines[{i}]", $"{account.Name} in {account.Place} stands on the sheet twice. Give what was found there in one line.");
        }
        if (!deciding.Refused && deciding.Postings.Count == 0) deciding.Raise("agrees", "The count agrees with the book; nothing moves.");
    }

    internal override IEnumerable<(Account Account, Volume Measured)> Measured(Cellar cellar, Deed deed)
    {
        foreach (var line in Lines ?? [])
        {
            if (line.Bottling is not null)
            {
                var shelf = OnlyOne(cellar, [.. cellar.ShelvesOfBottling(line.Bottling).Where(account => line.Shelf is null || account.Place == line.Shelf)]);
                if (shelf is not null && line.Bottles is { } bottles) yield return (shelf, bottles * cellar.At(shelf).BottleSize);
            }
            else if (line.Litres is { } litres && Meant(cellar, line.Lot, line.Vessel) is { } account) yield return (account, litres);
        }
    }

    private static Account? Liquid(Deciding deciding, Found line, string path)
    {
        var lot = line.Lot ?? (line.Vessel is null ? null : deciding.Cellar.Vessel(line.Vessel).Lot);
        if (lot is null && line.Vessel is not null)
        {
            if (deciding.VesselKnown(line.Vessel, path + ".vessel")) deciding.Refuse(RefusalCode.MoreThanIsThere, path + ".vessel", $"{line.Vessel} is empty in the book. Name the lot that was found in it.");
            return null;
        }
        if (deciding.PlaceOf(lot, line.Vessel, path) is not { } place) return null;
        if (line.Litres is not { } found || found < Volume.None)
        {
            deciding.Refuse(line.Litres is null ? RefusalCode.Missing : RefusalCode.NotPositive, path + ".litres", "Give the volume found; nil when nothing.");
            return null;
        }
        var must = place.Account.Section == Section.Must ? "_MUST" : "_BULK";
        var adjustment = Account.Counter("ADJ:INVENTORY");
        if (found > place.Volume) deciding.At(path + ".litres").Post("INVENTORY_GAIN" + must, adjustment, place.Account, found - place.Volume);
        else deciding.At(path + ".litres").Post("INVENTORY_LOSS" + must, place.Account, adjustment, place.Volume - found);
        return place.Account;
    }

    private static Account? Bottles(Deciding deciding, Found line, string path)
    {
        if (deciding.ShelfOf(line.Bottling, line.Shelf, path) is not { } shelf) return null;
        if (line.Bottles is not { Bottles: >= 0 } found)
        {
            deciding.Refuse(line.Bottles is null ? RefusalCode.Missing : RefusalCode.NotPositive, path + ".bottles", "Give the bottles found; nil when none.");
            return null;
        }
        var adjustment = Account.Counter("ADJ:INVENTORY");
        if (found.Bottles > shelf.Bottles.Bottles) deciding.At(path + ".bottles").PostBottles("INVENTORY_GAIN_BOTTLED", adjustment, shelf.Account, found - shelf.Bottles, shelf.BottleSize);
        else deciding.At(path + ".bottles").PostBottles("SHORTAGE", shelf.Account, adjustment, shelf.Bottles - found, shelf.BottleSize);
        return shelf.Account;
    }
}
