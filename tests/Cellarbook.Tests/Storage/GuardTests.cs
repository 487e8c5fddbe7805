using Cellarbook.Storage;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Laws 4 and 10: entries are never changed or removed, not even by another program; and a guard that is gone is missed.</summary>
public sealed class GuardTests
{
    [Theory]
    [InlineData("UPDATE entry SET actor = 'x' WHERE number = 2", "never changed")]
    [InlineData("UPDATE posting SET volume_ul = volume_ul + 1", "never changed")]
    [InlineData("DELETE FROM entry WHERE number = 9", "never removed")]
    [InlineData("DELETE FROM posting WHERE entry = 3", "never removed")]
    [InlineData("DELETE FROM head", "never removed")]
    [InlineData("UPDATE head SET number = 8, hash = (SELECT hash FROM entry WHERE number = 8)", "follows the last entry")]
    [InlineData("UPDATE head SET id = 2", "head")]
    [InlineData("UPDATE head SET number = 10", "follows the last entry")]
    // The trap: REPLACE deletes without a delete trigger when recursive_triggers is off, as it is for other programs.
    [InlineData("INSERT OR REPLACE INTO entry SELECT number, form, previous_hash, recorded_at, 'x', key, day, event_id, takes_back, leaves_out, content, content_hash, hash FROM entry WHERE number = 2", "next number")]
    [InlineData("REPLACE INTO entry SELECT 10, form, previous_hash, recorded_at, 'x', key, day, event_id, takes_back, leaves_out, content, content_hash, hash FROM entry WHERE key = 'gravity-1'", "new key")]
    [InlineData("INSERT OR REPLACE INTO posting SELECT entry, line, deed, taken_back, category, from_account, to_account, volume_ul + 1, bottles, bottle_ul, grams, strength, kind, material, unit FROM posting WHERE entry = 3", "no further postings")]
    [InlineData("INSERT INTO posting SELECT entry, line, deed, taken_back, category, from_account, to_account, 5, bottles, bottle_ul, grams, strength, kind, material, unit FROM posting WHERE entry = 3 ON CONFLICT DO UPDATE SET volume_ul = 5", "no further postings")]
    [InlineData("INSERT INTO posting SELECT entry, line + 100, deed, taken_back, category, from_account, to_account, volume_ul, bottles, bottle_ul, grams, strength, kind, material, unit FROM posting WHERE entry = 3", "no further postings")]
    [InlineData("INSERT OR REPLACE INTO head VALUES (1, 0, zeroblob(32))", "one head")]
    [InlineData("INSERT INTO entry SELECT 12, form, previous_hash, recorded_at, actor, NULL, day, NULL, takes_back, leaves_out, content, content_hash, hash FROM entry WHERE number = 2", "next number")]
    public void Another_program_can_not_change_what_was_recorded(string sql, string said)
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Close();
        var fault = Assert.Throws<SqliteException>(() => stored.FromOutside(sql));
        Assert.Contains(said, fault.Message, StringComparison.Ordinal);
        stored.Open();
        Assert.Equal(9, stored.Store.Head().Number);
    }

    [Fact]
    public void A_known_event_is_not_replaced_under_a_new_number()
    {
        using var stored = new StoredBook();
        stored.Import(StoredBook.WorkedPeriod());
        stored.Close();
        var fault = Assert.Throws<SqliteException>(() => stored.FromOutside("REPLACE INTO entry SELECT (SELECT max(number) + 1 FROM entry), form, previous_hash, recorded_at, actor, key, day, event_id, takes_back, leaves_out, content, content_hash, hash FROM entry WHERE event_id = 'E010'"));
        Assert.Contains("new event id", fault.Message, StringComparison.Ordinal);
        stored.Open();
    }

    public static TheoryData<string> EveryGuard => [.. Guards.ByName.Keys];

    [Theory]
    [MemberData(nameof(EveryGuard))]
    public void A_guard_that_is_gone_is_named_at_start_and_the_book_takes_no_entries(string guard)
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        var next = stored.Propose("""{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"L1-75","bottles":1}""");
        stored.Close();
        stored.FromOutside($"DROP TRIGGER {guard}");
        using var store = BookStore.Open(stored.Folder);
        Assert.False(store.IsSound);
        Assert.Equal($"The guard {guard} is missing.", Assert.Single(store.Findings).Sentence);
        Assert.Equal(BookFault.Unsound, Assert.Throws<BookWriteException>(() => store.Append(next.Entries, "m.k.", null, StoredBook.Moment)).Fault);
        Assert.Equal(9, store.Load().Entries.Count());
        Assert.Contains($"The guard {guard} is missing.", BookStore.Verify(stored.DatabaseFile).Findings.Select(finding => finding.Sentence));
    }

    [Fact]
    public void A_guard_with_another_text_is_missed()
    {
        using var stored = new StoredBook();
        stored.Close();
        stored.FromOutside("DROP TRIGGER entry_no_delete; CREATE TRIGGER entry_no_delete BEFORE DELETE ON entry WHEN 0 BEGIN SELECT RAISE(ABORT, 'entries are never removed'); END");
        using var store = BookStore.Open(stored.Folder);
        Assert.Equal("The guard entry_no_delete is not as this program made it.", Assert.Single(store.Findings).Sentence);
    }

    [Fact]
    public void A_rebuilt_table_has_lost_its_guards_and_that_is_noticed()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Close();
        stored.FromOutside("""
            PRAGMA foreign_keys = OFF;
            CREATE TABLE copy (entry INTEGER NOT NULL, line INTEGER NOT NULL, deed INTEGER, taken_back INTEGER, category TEXT, from_account TEXT, to_account TEXT, volume_ul INTEGER, bottles INTEGER, bottle_ul INTEGER, grams INTEGER, strength INTEGER, kind TEXT, material INTEGER, unit TEXT, PRIMARY KEY (entry, line));
            INSERT INTO copy SELECT * FROM posting;
            DROP TABLE posting;
            ALTER TABLE copy RENAME TO posting;
            """);
        using var store = BookStore.Open(stored.Folder);
        Assert.Equal(["The guard posting_no_delete is missing.", "The guard posting_no_update is missing.", "The guard posting_unsealed_only is missing.", "The table posting is not as this program made it."],
            store.Findings.Select(finding => finding.Sentence.ToString()).Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("CREATE TRIGGER helpful AFTER INSERT ON entry BEGIN SELECT 1; END", "The trigger helpful is not this program's.")]
    [InlineData("CREATE TABLE notes (text TEXT)", "The table notes is not this program's.")]
    [InlineData("DROP INDEX entry_by_key", "The index entry_by_key is missing.")]
    [InlineData("ALTER TABLE entry ADD COLUMN more TEXT", "The table entry is not as this program made it.")]
    public void A_schema_that_is_not_ours_is_noticed(string sql, string said)
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Close();
        stored.FromOutside(sql);
        using var store = BookStore.Open(stored.Folder);
        Assert.Equal(said, Assert.Single(store.Findings).Sentence);
    }

    [Theory]
    [InlineData("UPDATE posting SET volume_ul = 0.5", 3091)]
    [InlineData("UPDATE posting SET volume_ul = 'much'", 3091)]
    [InlineData("UPDATE posting SET volume_ul = 0, grams = 0", 275)]
    [InlineData("UPDATE posting SET volume_ul = -1", 275)]
    [InlineData("UPDATE posting SET kind = 'strong'", 275)]
    [InlineData("UPDATE entry SET takes_back = number", 275)]
    [InlineData("UPDATE entry SET hash = zeroblob(31)", 275)]
    [InlineData("UPDATE entry SET day = '1.3.2026'", 275)]
    public void Columns_take_only_what_they_are_for_even_without_guards(string sql, int code)
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        stored.Close();
        Assert.Equal(code, Assert.Throws<SqliteException>(() => stored.FromOutside(sql, dropGuards: true)).SqliteExtendedErrorCode);
    }

    [Fact]
    public void Law_1_a_posting_belongs_to_an_entry()
    {
        using var stored = new StoredBook();
        Assert.Equal(787, Assert.Throws<SqliteException>(() => StoredBook.Run(stored.Store.Connection, "INSERT INTO posting VALUES (1, 0, 0, 0, 'SAMPLE_BULK', 'BULK:L1:V1', 'LOSS:SAMPLE', 1, 0, 0, 0, NULL, NULL, 0, NULL)")).SqliteExtendedErrorCode);
    }

    [Fact]
    public void Nothing_is_changed_through_EF_either()
    {
        using var stored = new StoredBook();
        stored.LiveALittle();
        using var context = new BookContext(BookContext.OptionsFor(Pragmas.ConnectionString(stored.DatabaseFile, SqliteOpenMode.ReadWrite, pooling: false)));
        Assert.Equal(1811, Assert.Throws<SqliteException>(() => context.Entries.Where(row => row.Number == 9).ExecuteDelete()).SqliteExtendedErrorCode);
        context.Update(context.Postings.First()).Entity.VolumeUl++;
        Assert.IsType<SqliteException>(Assert.Throws<DbUpdateException>(() => context.SaveChanges()).InnerException);
    }
}
