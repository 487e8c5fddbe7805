using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>A material that an operation says was used: by code, name or free text, from a delivery or none named, so much of it.</summary>
internal sealed record UsedMaterial(string Word, string? Delivery, SaidAmount Said)
{
    /// <summary>The supplier's batch, where it was written down without a delivery.</summary>
    public string? Batch { get; init; }

    /// <summary>True where free text is the usual thing, as for a culture: only what is missing is said.</summary>
    public bool AsPackets { get; init; }

    /// <summary>
    /// Posts the use into wine, shared by volume over its places. A word that is no material of the catalogue, or names one by chance in another
    /// unit, stays free text: no dose is counted, and that is said.
    /// </summary>
    public static void Use(Deciding deciding, UsedMaterial used, IReadOnlyList<(Account Account, Volume Volume)> places, string path)
    {
        if (Find(deciding, used, path) is not { } material) return;
        var volume = places.Aggregate(Volume.None, (sum, place) => sum + place.Volume);
        if (used.Said.Of(deciding, material, volume, path) is not { } amount) return;
        if (material.Band is { } band && (Int128)amount.Units * 100_000_000 > (Int128)band.High.Units * volume.Microlitres)
            deciding.Raise("dose_above_usual", $"{material.Say(amount)} of {material.Said} in {volume} is more than the usual {material.Say(band.Low)} to {material.Say(band.High)} in 100 L ({band.Source}). Check the figure and its unit.");
        TakenFromStores.Post(deciding, material, used.Delivery, amount, [.. places.Select(place => (Account.UsedIn(place.Account), place.Volume.Microlitres))], path, Deciding.Join(path, used.Said.Leaf), used.Batch);
    }

    /// <summary>The material meant; null, and said or refused, when there is none.</summary>
    public static Material? Find(Deciding deciding, UsedMaterial used, string path)
    {
        if (deciding.Materials.Find(used.Word) is { } coded) return coded;
        if (used.Delivery is not null and not TakenFromStores.UnknownDelivery && deciding.Materials.Meant(used.Word) is null)
        {
            deciding.Refuse(RefusalCode.UnknownMaterial, Deciding.Join(path, "material"), $"There is no material {Names.Shown(used.Word)}, so it has no delivery. Choose one of the catalogue, make one of your own, or leave the delivery out.");
            return null;
        }
        if (deciding.Materials.Meant(used.Word) is { } meant && used.Said.Suits(meant))
        {
            deciding.Assume($"“{Names.Shown(used.Word)}” was taken to be {meant.Code}, {meant.Said}.");
            return meant;
        }
        if (used.Batch is null && !used.AsPackets) deciding.Raise("batch_unknown", $"“{Names.Shown(used.Word)}” is kept as written: its batch is unknown, and no dose is counted for it.");
        return null;
    }
}
