using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 9: what was acknowledged is kept. The book read back is the book that was written, entry by entry and effect by effect.</summary>
public sealed class RoundTripTests
{
    private static void Check(StoredBook stored)
    {
        var before = stored.Book;
        stored.Close();
        stored.Open();
        Assert.Equal(before.Entries.Select(Told), stored.Book.Entries.Select(Told));
        Assert.Equal(before.Entries.SelectMany(entry => entry.Deeds).Select(Told), stored.Book.Entries.SelectMany(entry => entry.Deeds).Select(Told));
        Assert.Equal(before.Pages.Select(Told), stored.Book.Pages.Select(Told));
        Assert.Equal(before.ClosedThrough, stored.Book.ClosedThrough);
        Assert.Equal(before.Premises?.Name, stored.Book.Premises?.Name);
        Assert.Equal(before.Vessels.Values.OrderBy(vessel => vessel.Code), stored.Book.Vessels.Values.OrderBy(vessel => vessel.Code));
        Assert.True(stored.Store.Verify().Sound);
    }

    private static string Text(Operation? operation) => operation is null ? "-" : OperationJson.Write(operation);

    private static string Told(Entry entry) => $"{entry.Number} {entry.Day} {entry.EventId} {entry.TakesBack} {entry.LeavesOut} {entry.TakenBackBy} {entry.Deeds.Count} {Text(entry.Operation)}";

    private static string Told(Deed deed) => $"{deed.Entry}.{deed.Index} {deed.Day} {deed.Time} {deed.TakesBack} {Text(deed.Operation)} {string.Join("; ", deed.Postings)}";

    private static string Told(Page page) => $"{page.Day}: {string.Join(", ", page.Deeds.Select(deed => $"{deed.Entry}.{deed.Index}"))} {string.Join("; ", page.Effects.Select(effect => $"{effect.Kind} {effect.Deed.Entry} {effect.Posting} {effect.Account} {effect.Before} {effect.After} {effect.Volume}"))}";

    [Fact]
    public void A_lot_lives_from_must_to_bottle_and_is_read_back_the_same()
    {
        using var stored = new StoredBook();
        stored.Record("""{"kind":"premises","day":"2026-01-01","name":"Under the stairs","regimes":["household"],"timeZone":"Europe/Vienna","owner":"m.k."}""");
        stored.LiveALittle();
        Check(stored);
    }

    [Fact]
    public void A_correction_in_an_open_period_leaves_the_original_out()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var removal = stored.Book.LastNumber;
        stored.Record($$"""{"kind":"correct","day":"2026-06-12","takesBack":{{removal}},"reason":"It was three, and a day later","write":[{"kind":"remove","day":"2026-06-11","as":"ownUse","bottling":"L1-75","bottles":3}]}""");
        Assert.True(stored.Book.Entries[^1].LeavesOut);
        Check(stored);
        stored.Record($$"""{"kind":"correct","day":"2026-06-13","takesBack":{{removal + 1}},"reason":"None was drunk after all","write":null}""");
        Check(stored);
        Assert.Empty(stored.Book.Entries[^1].Deeds);
        Assert.Equal(removal + 2, stored.Book.Find(removal + 1)!.TakenBackBy);
    }

    [Fact]
    public void A_correction_of_a_closed_period_is_postings_of_its_own_day()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var removal = stored.Book.LastNumber;
        stored.Record("""{"kind":"close","day":"2026-07-01","through":"2026-06-30"}""");
        stored.Record($$"""{"kind":"correct","day":"2026-07-02","time":"09:15","takesBack":{{removal}},"reason":"They were a gift","write":[{"kind":"remove","day":"2026-07-02","as":"gift","bottling":"L1-75","bottles":1},{"kind":"remove","day":"2026-07-03","as":"tasting","bottling":"L1-75","bottles":1}]}""");
        var correction = stored.Book.Entries[^1];
        Assert.Equal([removal, null, null], correction.Deeds.Select(deed => deed.TakesBack));
        Assert.True(correction.Deeds[0].Postings[0].IsTakenBack);
        Check(stored);
    }

    [Fact]
    public void Fruit_is_weighed_crushed_and_pressed()
    {
        using var stored = new StoredBook();
        stored.Record("""{"kind":"receive","day":"2025-09-20","what":"fruit","lot":"G1","kilograms":100.5,"origin":[{"variety":"Zweigelt","vintage":"2025"}]}""");
        stored.Record("""{"kind":"crush","day":"2025-09-20","fruit":[{"parcel":"G1","kilograms":100.5}],"targets":[{"lot":"R1","vessel":"unplaced","litres":72.25}]}""");
        Check(stored);
        Assert.Contains(stored.Book.Entries.SelectMany(entry => entry.Deeds).SelectMany(deed => deed.Postings), posting => posting.Weight.Grams == 100_500);
    }

    [Fact]
    public void The_worked_quarter_is_imported_and_read_back_the_same()
    {
        using var stored = new StoredBook();
        stored.Import(StoredBook.WorkedPeriod());
        Assert.Contains(stored.Book.Entries, entry => entry.IsImported && entry.TakesBack is not null);
        Check(stored);
        var again = stored.ProposeImport(StoredBook.WorkedPeriod());
        Assert.Empty(again.Entries);
        Assert.True(again.Skipped > 60);
    }

    [Fact]
    public void An_event_taken_back_is_written_anew_in_the_event_that_takes_it_back()
    {
        using var stored = new StoredBook();
        stored.Import("""
            event_id,date,category,lot_from,lot_to,volume_ml,abv_pct,reverses,note
            A,2025-09-01,OPENING,,L1,10000,12.0,,
            B,2025-09-02,SAMPLE_BULK,L1,,100,,,
            C,2025-09-03,TREATMENT,L1,,,,,sulphite
            D,2025-09-04,SAMPLE_BULK,,L1,100,,B,
            D,2025-09-04,SAMPLE_BULK,L1,,50,,,it was half of that
            """);
        var mixed = stored.Book.Entries[^1];
        Assert.Equal([2L, null], mixed.Deeds.Select(deed => deed.TakesBack));
        Assert.NotNull(stored.Book.Entries[2].Deeds[0].Operation);
        Check(stored);
        stored.Record("""{"kind":"correct","day":"2025-09-05","takesBack":"C","reason":"Nothing was put in","write":null}""");
        Check(stored);
    }

    [Fact]
    public void What_is_stored_is_the_canonical_text_of_the_operation()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        foreach (var entry in stored.Book.Entries) Assert.Equal(OperationJson.Write(entry.Operation!), stored.Store.Read(entry.Number)!.InPlain);
    }

    [Fact]
    public void Every_account_is_read_as_it_is_written()
    {
        Account[] accounts = [Account.Must("L1", "V1"), Account.Bulk("L 2/ä", Account.Unplaced), Account.Bottled("L1-75", "shelf 3"), Account.Fruit("G1"), Account.Process, Account.Counter("LOSS:SPILL"), Account.Counter("EXT")];
        foreach (var account in accounts) Assert.Equal(account, Cellarbook.Storage.AccountText.Read(account.ToString()));
        foreach (var wrong in new[] { "BULK:L1", "BULK::V1", "MUST:L1:", "BOTTLED:a:b:c", "" }) Assert.Null(Cellarbook.Storage.AccountText.Read(wrong));
        Assert.Same(Account.Process, Cellarbook.Storage.AccountText.Read("PROC"));
    }
}
