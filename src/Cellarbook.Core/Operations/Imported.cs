using System.Text.Json.Serialization;
using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Operations;

/// <summary>
/// One event of an imported journal of volumes: rows that moved together. Written by the import alone; the rows are kept as stated.
/// </summary>
public sealed record Imported : Operation
{
    /// <summary>The event's own id in the file it came from.</summary>
    public string? EventId { get; init; }

    /// <summary>Its rows, in order.</summary>
    public IReadOnlyList<ImportedRow>? Rows { get; init; }

    /// <summary>Classes the file told in its account columns: checked, never kept.</summary>
    [JsonIgnore]
    internal IReadOnlyList<ToldAccounts>? Told { get; init; }

    /// <summary>Row numbers in the file, for refusals.</summary>
    [JsonIgnore]
    internal IReadOnlyList<int>? RowNumbers { get; init; }

    /// <summary>The event this one takes back, if its rows say so.</summary>
    internal string? TakesBackEvent => Rows?.FirstOrDefault(row => row.Reverses is not null)?.Reverses;

    /// <summary>Rows that moved nothing: what was added then, as the file tells it.</summary>
    internal IEnumerable<ImportedRow> Treatments => (Rows ?? []).Where(row => row.Reverses is null && Book.Category.Of(row.Category).MovesNothing);

    /// <summary>The places that such a row treated.</summary>
    internal static IEnumerable<Account> TreatedBy(ImportedRow row, Cellar cellar)
    {
        if ((row.LotFrom ?? row.LotTo) is not { } lot) return [];
        var named = row.VesselFrom ?? row.VesselTo;
        return cellar.AccountsOfLot(lot).Concat(cellar.ShelvesOfBottling(lot)).Where(account => named is null ? !cellar.At(account).IsEmpty : account.Place == named);
    }

    internal override IEnumerable<Account> NotedAt(Cellar cellar) => [.. Treatments.SelectMany(row => TreatedBy(row, cellar)).Distinct()];

    internal override WineNotes NotesAfter(WineNotes notes, Deed deed) => notes with { Additions = notes.Additions.Add(deed.Entry) };

    internal override void Decide(Deciding deciding) => new EventPostings(deciding, this).Decide();
}

/// <summary>A row of an imported event, as stated.</summary>
public sealed record ImportedRow
{
    /// <summary>Category code.</summary>
    public string Category { get; init; } = "";

    /// <summary>Lot or bottling given from.</summary>
    public string? LotFrom { get; init; }

    /// <summary>Vessel or shelf given from.</summary>
    public string? VesselFrom { get; init; }

    /// <summary>Lot or bottling put to.</summary>
    public string? LotTo { get; init; }

    /// <summary>Vessel or shelf put to.</summary>
    public string? VesselTo { get; init; }

    /// <summary>Volume.</summary>
    public Millilitres? VolumeMl { get; init; }

    /// <summary>Bottles.</summary>
    public BottleCount? Bottles { get; init; }

    /// <summary>Size of a bottle.</summary>
    public Millilitres? BottleMl { get; init; }

    /// <summary>Strength stated.</summary>
    public Strength? Abv { get; init; }

    /// <summary>Kind told by the account column, where nothing else tells it.</summary>
    public ProductKind? Product { get; init; }

    /// <summary>The event taken back.</summary>
    public string? Reverses { get; init; }

    /// <summary>Document.</summary>
    public string? Document { get; init; }

    /// <summary>Note.</summary>
    public string? Note { get; init; }

    /// <summary>The section, for a category that may touch several.</summary>
    public string? Section { get; init; }

    /// <summary>Whether the row runs against its category without taking anything back (shrinkage and contraction may); null where the event tells it.</summary>
    public bool? Backwards { get; init; }
}

/// <summary>What the two account columns of a row told.</summary>
internal sealed record ToldAccounts(ToldAccount? From, ToldAccount? To);
