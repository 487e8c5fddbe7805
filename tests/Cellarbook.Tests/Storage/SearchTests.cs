using Cellarbook.Core.Book;
using Cellarbook.Storage;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 8: what stands behind a figure can be found and opened.</summary>
public sealed class SearchTests
{
    private static void Check(BookQuery query, params long[] expected)
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Import("event_id,date,category,lot_from,volume_ml,note\nIMP_7,2026-06-20,REMOVED_TAXPAID,L1-75,,\n".Replace("volume_ml", "volume_ml,bottles,bottle_ml", StringComparison.Ordinal).Replace("L1-75,,", "L1-75,750,1,750,", StringComparison.Ordinal));
        Assert.Equal(expected, stored.Store.Search(query).Entries.Select(entry => entry.Number));
    }

    [Fact]
    public void By_a_text_in_a_document_or_note() => Check(new() { Text = "WEINGUT Ö" }, 3);

    [Fact]
    public void By_a_text_with_quotes() => Check(new() { Text = "— \"Weingut" }, 3);

    [Fact]
    public void Signs_of_a_pattern_stand_for_themselves() => Check(new() { Text = "IMP%7" });

    [Fact]
    public void By_the_id_of_an_event() => Check(new() { Text = "imp_7" }, 10);

    [Fact]
    public void By_who_recorded_it() => Check(new() { Text = "m.k.", Count = 2 }, 10, 9);

    [Fact]
    public void By_days() => Check(new() { From = new(2026, 3, 2), To = new(2026, 4, 1), NewestFirst = false }, 4, 5, 7);

    [Fact]
    public void By_category() => Check(new() { Category = "LEES_REMOVED", NewestFirst = false }, 6);

    [Fact]
    public void By_bottling() => Check(new() { Account = "L1-75" }, 10, 9, 8);

    [Fact]
    public void By_vessel_not_by_a_part_of_its_name() => Check(new() { Account = "V" });

    [Fact]
    public void By_vessel() => Check(new() { Account = "V2" }, 8, 6);

    [Fact]
    public void By_counter_account() => Check(new() { Account = "BYPRODUCT:LEES", NewestFirst = false }, 5, 6);

    [Fact]
    public void Page_by_page_each_entry_comes_once()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        foreach (var newestFirst in new[] { true, false })
        {
            var seen = new List<long>();
            for (long? next = null, more = 1; more == 1; more = next is null ? 0 : 1)
            {
                var page = stored.Store.Search(new() { Count = 4, NewestFirst = newestFirst, Beyond = next });
                seen.AddRange(page.Entries.Select(entry => entry.Number));
                next = page.Next;
            }
            Assert.Equal(newestFirst ? [9, 8, 7, 6, 5, 4, 3, 2, 1] : [1, 2, 3, 4, 5, 6, 7, 8, 9], seen);
        }
        Assert.Equal([5L, 6], stored.Store.ReadRange(5, 2).Select(entry => entry.Number));
        Assert.Equal([5L, 4], stored.Store.ReadRange(5, 2, newestFirst: true).Select(entry => entry.Number));
    }

    [Fact]
    public void An_entry_is_opened_with_its_postings_and_its_place_in_the_chain()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var entry = stored.Store.Read(6)!;
        Assert.Equal(stored.Book.Find(6)!.Deeds[0].Postings, entry.Postings);
        Assert.Equal(stored.Store.Read(5)!.Hash, entry.PreviousHash);
        Assert.Equal(entry.Hash, stored.Store.Read(7)!.PreviousHash);
        Assert.Equal(new DateOnly(2026, 4, 2), entry.Day);
        Assert.Null(stored.Store.Read(10));
        Assert.Equal(Account.Bulk("L1", "V1"), entry.Postings[0].From);
    }
}
