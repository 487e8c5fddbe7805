using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Importing;

/// <summary>
/// A row of a journal file as it waits for its event. A million of them wait together, so that texts stand by number in
/// <see cref="ImportedEvents"/>, nil for none, and an amount that was left out is nil.
/// </summary>
internal readonly record struct PackedRow
{
    public required DateOnly Date { get; init; }

    /// <summary>Its place in the file, from 1.</summary>
    public required int Place { get; init; }

    /// <summary>Its own number where it has one, else its place: the order within a day.</summary>
    public required long Order { get; init; }

    /// <summary>Its event's id, by number.</summary>
    public required int Event { get; init; }

    /// <summary>What its account columns told, by number.</summary>
    public required int Told { get; init; }

    /// <summary>The day it was entered; the first of all days for none.</summary>
    public required DateOnly EnteredOn { get; init; }

    public required int EnteredBy { get; init; }

    public required int Category { get; init; }

    public required int LotFrom { get; init; }

    public required int VesselFrom { get; init; }

    public required int LotTo { get; init; }

    public required int VesselTo { get; init; }

    public required int Reverses { get; init; }

    public required int Document { get; init; }

    public required int Note { get; init; }

    public required int Section { get; init; }

    public required Volume Volume { get; init; }

    public required Volume BottleSize { get; init; }

    public required BottleCount Bottles { get; init; }

    public required Strength? Abv { get; init; }

    public required bool? Backwards { get; init; }
}
