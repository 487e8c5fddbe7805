using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Pages.Shared;

/// <summary>A vessel and what lies in it now.</summary>
public sealed record VesselLine(string Code, string Name, string? Sort, string? Location, Volume? Capacity, Volume Held, Volume Peak, string? Lot, Sentence Stage, DateOnly? LastDay)
{
    /// <summary>Every vessel made, filled or named, by code.</summary>
    public static IEnumerable<string> Codes(Book book) => book.Vessels.Keys.Concat(book.Now.Vessels.Select(vessel => vessel.Code)).Distinct().Order(StringComparer.Ordinal);

    /// <summary>A vessel of the book; null when there is none of that code.</summary>
    public static VesselLine? Of(Book book, string code)
    {
        var facts = book.Vessels.GetValueOrDefault(code);
        if (facts is null && !book.Now.KnowsVessel(code)) return null;
        var hold = book.Now.Vessel(code);
        var stage = hold.Accounts.IsEmpty ? Sentence.Empty : hold.Accounts[0].Section == Section.Must ? "must" : "wine";
        return new(code, facts?.Name ?? code, facts?.Sort, facts?.Location, facts?.Capacity, hold.Held, hold.Peak, hold.Lot, stage, hold.LastDay == default ? null : hold.LastDay);
    }

    /// <summary>How full, in whole per cent, cut down; null while the capacity isn't known.</summary>
    public long? Percent => Capacity is { } capacity ? (long)((Int128)Held.Microlitres * 100 / capacity.Microlitres) : null;
}
