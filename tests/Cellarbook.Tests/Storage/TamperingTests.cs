using Cellarbook.Storage;
using Microsoft.Data.Sqlite;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 10: any change to stored history from outside is noticed, by verify and at start. The guards are put back after each change, so that it is the chain that notices.</summary>
public sealed class TamperingTests
{
    private static readonly string[] Tables = ["entry", "posting", "contact", "head"];

    /// <summary>A book with every sort of field filled somewhere.</summary>
    private static StoredBook Whole()
    {
        var stored = new StoredBook();
        stored.Import(StoredBook.WorkedPeriod(), key: "quarter");
        stored.LiveALittle();
        stored.Record("""{"kind":"receive","day":"2027-12-01","what":"bulkWine","lot":"S1","vessel":"V1","litres":20,"abv":11.5,"product":"cider"}""");
        stored.Record($$"""{"kind":"correct","day":"2027-12-02","takesBack":{{stored.Book.LastNumber - 1}},"reason":"It was a gift","write":[{"kind":"remove","day":"2026-06-10","as":"gift","bottling":"L1-75","bottles":2}]}""");
        stored.Record("""{"kind":"remove","day":"2027-12-03","as":"sold","bottling":"L1-75","bottles":1,"recipient":"Inn at the Weir","witness":"Tilda Marsh","doneBy":"Tilda Marsh"}""");
        stored.Record("""{"kind":"remove","day":"2027-12-03","as":"gift","bottling":"L1-75","bottles":1,"recipient":"Orla Finch"}""");
        stored.Record($$"""{"kind":"blankContact","day":"2027-12-04","contact":{{stored.Store.Contacts.Single(contact => contact.Text == "Orla Finch").Id}}}""");
        stored.Close();
        return stored;
    }

    private static bool Noticed(StoredBook stored, Action<SqliteConnection> change, out string said)
    {
        var folder = Directory.CreateTempSubdirectory("cellarbook-").FullName;
        try
        {
            var copy = Path.Combine(folder, "book.db");
            File.Copy(stored.DatabaseFile, copy);
            using (var connection = new SqliteConnection($"Data Source={copy};Pooling=False"))
            {
                connection.Open();
                StoredBook.Run(connection, "PRAGMA foreign_keys=OFF; PRAGMA ignore_check_constraints=ON; PRAGMA synchronous=OFF");
                StoredBook.DropGuards(connection);
                change(connection);
                StoredBook.Run(connection, string.Join(";\n", Guards.ByName.Values));
            }
            var report = BookStore.Verify(copy);
            using var store = BookStore.Open(folder);
            store.Load().ToBook(store.FindEvent);
            said = string.Join(" ", report.Findings);
            Assert.Equal(report.Sound, store.IsSound);
            return !report.Sound;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public void An_untouched_copy_is_sound()
    {
        using var stored = Whole();
        Assert.False(Noticed(stored, _ => { }, out var said), said);
    }

    [Fact]
    public void Every_column_of_every_table_changed_in_the_first_a_middle_and_the_last_row_is_noticed()
    {
        using var stored = Whole();
        var (tried, missed) = (0, new List<string>());
        foreach (var (table, column, rowid, value) in Fields(stored))
        {
            var sql = $"UPDATE {table} SET {column} = $value WHERE {rowid}";
            foreach (var spoilt in Spoilt(value))
            {
                var made = false;
                var noticed = Noticed(stored, connection =>
                {
                    try { made = StoredBook.Run(connection, sql, ("$value", spoilt)) == 1; }
                    catch (SqliteException fault) when (fault.SqliteErrorCode is 19 or 20) { /* STRICT, NOT NULL and keys hold even without guards. */ }
                }, out var said);
                if (made) tried++;
                if (made != noticed) missed.Add($"{table}.{column} {value} → {spoilt}: {said}");
            }
        }
        Assert.Empty(missed);
        Assert.True(tried > 150, $"only {tried} tried");
    }

    private static List<(string Table, string Column, string Where, object Value)> Fields(StoredBook stored)
    {
        var fields = new List<(string, string, string, object)>();
        using var connection = stored.Bare();
        foreach (var table in Tables)
        {
            var key = table switch { "entry" => "number", "head" or "contact" => "id", _ => "entry, line" };
            var count = int.Parse(StoredBook.Column(connection, $"SELECT count(*) FROM {table}")[0], System.Globalization.CultureInfo.InvariantCulture);
            foreach (var at in new[] { 0, count / 2, count - 2, count - 1 }.Where(at => at >= 0).Distinct())
            {
                using var command = connection.CreateCommand();
                command.CommandText = $"SELECT * FROM {table} ORDER BY {key} LIMIT 1 OFFSET {at}";
                using var row = command.ExecuteReader();
                Assert.True(row.Read());
                var where = string.Join(" AND ", key.Split(", ").Select(part => $"{part} = {row[part]}"));
                for (var i = 0; i < row.FieldCount; i++) fields.Add((table, row.GetName(i), where, row[i]));
            }
        }
        return fields;
    }

    private static IEnumerable<object> Spoilt(object value) => value switch
    {
        long number => [number + 1, number == 0 ? 7L : 0L, DBNull.Value],
        string text => [text[..^1] + (text[^1] == '1' ? '2' : '1'), text + " ", DBNull.Value],
        byte[] hash => [hash.Select((b, i) => i == 0 ? (byte)(b ^ 1) : b).ToArray(), DBNull.Value],
        _ => [1L, "x"],
    };

    [Theory]
    [InlineData("DELETE FROM entry WHERE number = 40")]
    [InlineData("DELETE FROM entry WHERE number = 40; DELETE FROM posting WHERE entry = 40")]
    [InlineData("DELETE FROM posting WHERE entry = 40")]
    [InlineData("DELETE FROM posting WHERE entry = 3 AND line = 0")]
    [InlineData("DELETE FROM head")]
    [InlineData("DELETE FROM entry; DELETE FROM posting")]
    [InlineData("INSERT INTO posting SELECT entry, line + 50, deed, taken_back, category, from_account, to_account, volume_ul, bottles, bottle_ul, grams, strength, kind, material, unit FROM posting WHERE entry = 3")]
    [InlineData("INSERT INTO posting SELECT entry + 1000, line, deed, taken_back, category, from_account, to_account, volume_ul, bottles, bottle_ul, grams, strength, kind, material, unit FROM posting WHERE entry = 3")]
    [InlineData("INSERT INTO entry SELECT number + 1, form, hash, recorded_at, actor, 'other', day, 'other', takes_back, leaves_out, content, content_hash, hash FROM entry ORDER BY number DESC LIMIT 1")]
    [InlineData("UPDATE entry SET number = 1000 WHERE number = 40; UPDATE entry SET number = 40 WHERE number = 41; UPDATE entry SET number = 41 WHERE number = 1000")]
    [InlineData("UPDATE posting SET entry = 41, line = line + 20 WHERE entry = 40")]
    [InlineData("UPDATE posting SET from_account = to_account, to_account = from_account WHERE entry = 40")]
    [InlineData("DELETE FROM posting WHERE entry > 60; DELETE FROM entry WHERE number > 60")]
    public void Rows_dropped_added_moved_or_swapped_are_noticed(string sql)
    {
        using var stored = Whole();
        Assert.True(Noticed(stored, connection => StoredBook.Run(connection, sql), out _));
    }

    [Fact]
    public void The_entry_is_named()
    {
        using var stored = Whole();
        Assert.True(Noticed(stored, connection => StoredBook.Run(connection, "UPDATE posting SET volume_ul = volume_ul - 1 WHERE entry = 5 AND line = 0"), out var said));
        Assert.Contains("Entry 5: Its content is not what was recorded", said, StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_content_with_its_hashes_made_to_fit_breaks_the_chain_after_it()
    {
        using var stored = Whole();
        Assert.True(Noticed(stored, connection =>
        {
            StoredBook.Run(connection, "UPDATE entry SET actor = 'x' WHERE number = 5");
            Rechain(connection, 5);
        }, out var said));
        Assert.Contains("Entry 6: It doesn't follow the entry before it", said, StringComparison.Ordinal);
    }

    [Fact]
    public void Entries_cut_off_with_the_head_made_to_fit_are_noticed_against_a_head_noted_elsewhere()
    {
        using var stored = Whole();
        var noted = BookStore.Verify(stored.DatabaseFile).Head;
        stored.FromOutside("DELETE FROM contact WHERE text IS NULL OR text IN ('Inn at the Weir', 'Tilda Marsh'); DELETE FROM posting WHERE entry > 60; DELETE FROM entry WHERE number > 60; UPDATE head SET number = 60, hash = (SELECT hash FROM entry WHERE number = 60)", dropGuards: true);
        using (var connection = stored.Bare())
            foreach (var guard in Guards.ByName.Values) StoredBook.Run(connection, guard);
        var report = BookStore.Verify(stored.DatabaseFile);
        Assert.True(report.Sound);
        Assert.NotEqual(noted, report.Head);
        Assert.Equal(60, report.Head!.Number);
    }

    [Fact]
    public void A_spoilt_page_of_the_file_is_noticed_and_reading_goes_as_far_as_it_can()
    {
        using var stored = Whole();
        var size = new FileInfo(stored.DatabaseFile).Length;
        using (var file = new FileStream(stored.DatabaseFile, FileMode.Open, FileAccess.Write))
        {
            file.Position = size / 4096 * 3 / 4 * 4096;
            file.Write(new byte[2048]);
        }
        Assert.False(BookStore.Verify(stored.DatabaseFile).Sound);
        using var store = BookStore.Open(stored.Folder);
        store.Load().ToBook(store.FindEvent);
        Assert.False(store.IsSound);
    }

    [Fact]
    public void An_entry_of_a_hashed_form_to_come_is_not_taken_for_sound()
    {
        using var stored = Whole();
        Assert.True(Noticed(stored, connection => StoredBook.Run(connection, "UPDATE entry SET form = 3 WHERE number = 7"), out var said));
        Assert.Contains("hashed form 3", said, StringComparison.Ordinal);
    }

    /// <summary>What someone would do who knows the form: works the entry's hash out anew, but not the ones after it.</summary>
    private static void Rechain(SqliteConnection connection, long number)
    {
        using var command = connection.CreateCommand();
        command.CommandText = $"SELECT previous_hash, recorded_at, actor, key, event_id, content_hash FROM entry WHERE number = {number}";
        byte[] hash = new byte[32];
        using (var row = command.ExecuteReader())
        {
            row.Read();
            var form = new HashedForm();
            form.Number(HashedForm.Version);
            form.Number(number);
            form.Hash((byte[])row[0]);
            form.Text(System.Text.Encoding.UTF8.GetBytes(row.GetString(1)));
            form.Text(System.Text.Encoding.UTF8.GetBytes(row.GetString(2)));
            form.Nothing();
            form.Nothing();
            form.Nothing();
            form.Number(0);
            form.Hash((byte[])row[5]);
            form.EndLine();
            form.Sum(hash);
        }
        StoredBook.Run(connection, $"UPDATE entry SET hash = $hash WHERE number = {number}", ("$hash", hash));
    }
}
