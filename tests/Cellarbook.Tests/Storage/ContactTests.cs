using System.Globalization;
using System.Text;
using Cellarbook.Core.Operations;
using Cellarbook.Storage;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;
using Microsoft.Extensions.DependencyInjection;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 10: people stand in entries by number and salted hash, so a name can be blanked and the seal holds; a name changed is noticed.</summary>
public sealed class ContactTests
{
    private const string Sold = """{"kind":"remove","day":"2026-06-11","as":"sold","bottling":"L1-75","bottles":1,"recipient":"Orla Finch","witness":"Tilda Marsh"}""";

    private static StoredBook Named()
    {
        var stored = new StoredBook().LiveALittle();
        stored.Record(Sold);
        stored.Record("""{"kind":"remove","day":"2026-06-12","as":"gift","bottling":"L1-75","bottles":1,"recipient":"Tilda Marsh","doneBy":"Orla Finch"}""");
        return stored;
    }

    private static string Everything(string folder) => string.Concat(Directory.GetFiles(folder, "book.db*").Where(file => !file.EndsWith("-shm", StringComparison.Ordinal)).Select(file =>
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        using var reader = new StreamReader(stream, Encoding.Latin1);
        return reader.ReadToEnd();
    }));

    [Fact]
    public void A_name_is_kept_once_beside_the_content_which_refers_to_it()
    {
        using var stored = Named();
        Assert.Equal([new Contact(1, "Orla Finch"), new Contact(2, "Tilda Marsh")], stored.Store.Contacts.OrderBy(contact => contact.Text, StringComparer.Ordinal).Select((contact, i) => contact with { Id = i + 1 }));
        var (sold, gift) = (stored.Store.Read(10)!, stored.Store.Read(11)!);
        Assert.DoesNotContain("Orla", sold.Content, StringComparison.Ordinal);
        Assert.Contains("\"recipient\":\"Orla Finch\"", sold.InPlain, StringComparison.Ordinal);
        Assert.Contains("\"doneBy\":\"Orla Finch\"", gift.InPlain, StringComparison.Ordinal);
        // One reference for one name, whoever writes it and in whatever field.
        Assert.Equal(Reference(sold.Content, "recipient"), Reference(gift.Content, "doneBy"));
        Assert.Equal([10L], stored.Store.Search(new() { Text = "orla", To = new(2026, 6, 11) }).Entries.Select(entry => entry.Number));
    }

    private static string Reference(string content, string field) => content.Split($"\"{field}\":\"")[1].Split('"')[0];

    [Fact]
    public void The_same_said_twice_in_one_book_has_one_content_hash_and_in_another_book_another()
    {
        const string Seen = """{"kind":"observe","day":"2026-04-03","lot":"L1","vessel":"V2","what":"stirred","witness":"Orla Finch"}""";
        using var one = new StoredBook().LiveALittle();
        using var other = new StoredBook().LiveALittle();
        foreach (var stored in new[] { one, one, other }) stored.Record(Seen);
        Assert.Equal(one.Store.Read(10)!.ContentHash, one.Store.Read(11)!.ContentHash);
        // Salts are drawn by lot: who knows the name can't find it in a book whose salt is gone.
        Assert.NotEqual(one.Store.Read(10)!.ContentHash, other.Store.Read(10)!.ContentHash);
    }

    [Fact]
    public void A_blanked_name_is_gone_from_the_file_and_the_seal_holds()
    {
        using var stored = Named();
        var hashes = stored.Store.ReadRange(1, 11).Select(entry => entry.Hash).ToArray();
        Assert.Contains("Orla Finch", Everything(stored.Folder), StringComparison.Ordinal);
        var orla = stored.Store.Contacts.Single(contact => contact.Text == "Orla Finch").Id;
        stored.Record($$"""{"kind":"blankContact","day":"2026-07-01","contact":{{orla}},"reason":"Asked for"}""");
        Assert.DoesNotContain("Orla Finch", Everything(stored.Folder), StringComparison.Ordinal);
        var report = stored.Store.Verify();
        Assert.True(report.Sound);
        Assert.Contains(report.Checked, part => part.What.ToString().StartsWith("contacts blanked", StringComparison.Ordinal) && part.Count == 1);
        stored.Close();
        stored.Open();
        Assert.Equal(hashes, stored.Store.ReadRange(1, 11).Select(entry => entry.Hash));
        Assert.Equal(("(blanked)", "Tilda Marsh"), (stored.Book.Find(10)!.Operation!.Recipient, stored.Book.Find(10)!.Operation!.Witness));
        Assert.Empty(stored.Store.Search(new() { Text = "orla" }).Entries);
        // Named again, it is a new contact; the old one stays blank.
        stored.Record("""{"kind":"remove","day":"2026-07-02","as":"gift","bottling":"L1-75","bottles":1,"recipient":"Orla Finch"}""");
        Assert.Equal(3, stored.Store.Contacts.Single(contact => contact.Text == "Orla Finch").Id);
        Assert.Contains(stored.Propose($$"""{"kind":"blankContact","day":"2026-07-02","contact":{{orla}}}""").Refusals, refusal => refusal.Path == "contact");
        Assert.True(stored.Store.Verify().Sound);
    }

    [Theory]
    [InlineData("UPDATE contact SET text = 'Orla Flinch' WHERE text = 'Orla Finch'", "is not what was recorded")]
    [InlineData("UPDATE contact SET salt = randomblob(16) WHERE id = 1", "is not what was recorded")]
    [InlineData("UPDATE contact SET text = NULL, salt = NULL WHERE id = 1", "no entry blanked it")]
    [InlineData("DELETE FROM contact WHERE id = 2", "a contact that isn't there")]
    [InlineData("DELETE FROM contact WHERE id = 1", "Contact 1 is missing")]
    [InlineData("INSERT INTO contact SELECT 3, hash, salt, text FROM contact WHERE id = 1", "named by no entry")]
    [InlineData("UPDATE contact SET hash = (SELECT hash FROM contact WHERE id = 2), salt = (SELECT salt FROM contact WHERE id = 2), text = (SELECT text FROM contact WHERE id = 2) WHERE id = 1", "isn't the one recorded")]
    public void A_name_changed_or_removed_from_outside_is_noticed(string sql, string said)
    {
        using var stored = Named();
        stored.Close();
        Assert.Throws<SqliteException>(() => stored.FromOutside(sql.Replace("text = NULL, salt = NULL", "text = 'x', salt = NULL", StringComparison.Ordinal).Replace("SELECT 3,", "SELECT 7,", StringComparison.Ordinal)));
        stored.FromOutside(sql, dropGuards: true);
        using (var connection = stored.Bare())
            foreach (var guard in Guards.ByName.Values) StoredBook.Run(connection, guard);
        Assert.Contains(BookStore.Verify(stored.DatabaseFile).Findings, finding => finding.Sentence.ToString().Contains(said, StringComparison.Ordinal));
    }

    [Fact]
    public void A_name_put_back_after_it_was_blanked_is_noticed()
    {
        using var stored = Named();
        using (var connection = stored.Bare()) StoredBook.Run(connection, "CREATE TEMP TABLE kept AS SELECT * FROM contact");
        var kept = Path.Combine(stored.Folder, "kept.db");
        stored.Store.Backup(kept);
        stored.Record("""{"kind":"blankContact","day":"2026-07-01","contact":1}""");
        stored.Close();
        stored.FromOutside($"ATTACH '{kept}' AS kept; DROP TRIGGER contact_blank_only; UPDATE contact SET salt = (SELECT salt FROM kept.contact WHERE id = 1), text = (SELECT text FROM kept.contact WHERE id = 1) WHERE id = 1; {Guards.ByName["contact_blank_only"]};");
        Assert.Contains(BookStore.Verify(stored.DatabaseFile).Findings, finding => finding.Sentence.ToString().Contains("a text stands there again", StringComparison.Ordinal));
    }

    [Fact]
    public void What_fails_to_be_recorded_leaves_no_contact()
    {
        using var stored = Named();
        var trial = stored.Propose("""{"kind":"remove","day":"2026-06-13","as":"gift","bottling":"L1-75","bottles":1,"recipient":"Ned Alder"}""");
        Assert.Throws<InvalidOperationException>(() => stored.Store.Append(trial.Entries, "m.k.", "gravity-1", StoredBook.Moment));
        Assert.Equal(2, stored.Store.Contacts.Count);
        stored.Record("""{"kind":"remove","day":"2026-06-13","as":"gift","bottling":"L1-75","bottles":1,"recipient":"Wim Sedge"}""");
        Assert.Equal("Wim Sedge", stored.Store.Contacts.Single(contact => contact.Id == 3).Text);
        Assert.True(stored.Store.Verify().Sound);
    }

    [Fact]
    public void What_an_import_states_of_who_entered_it_is_a_contact_too_and_the_file_goes_in_again_without_harm_when_it_is_blanked()
    {
        const string File = "event_id,date,category,lot_from,volume_ml,bottles,bottle_ml,entered_on,entered_by,note\nI1,2026-06-20,REMOVED_TAXPAID,L1-75,750,1,750,2026-06-21,Orla Finch,\"says \"\"enteredBy\"\":\"\"9:x\"\"\"\n";
        using var stored = new StoredBook().LiveALittle();
        stored.Import(File);
        stored.Close();
        stored.Open();
        Assert.True(stored.Store.Verify().Sound);
        Assert.Equal(1, stored.ProposeImport(File).Skipped);
        stored.Record("""{"kind":"blankContact","day":"2026-07-01","contact":1}""");
        Assert.Equal(1, stored.ProposeImport(File).Skipped);
        Assert.True(stored.Store.Verify().Sound);
    }

    [Fact]
    public void A_figure_typed_under_the_name_of_such_a_field_is_no_name()
    {
        using var stored = new StoredBook().LiveALittle();
        stored.Record("""{"kind":"remove","day":"2026-06-11","as":"gift","bottling":"L1-75","bottles":1,"typed":{"recipient":"7 of them"},"note":"\"recipient\":\"3:ab\""}""");
        Assert.Empty(stored.Store.Contacts);
        Assert.True(stored.Store.Verify().Sound);
        Assert.Contains("7 of them", stored.Store.Read(10)!.InPlain, StringComparison.Ordinal);
    }

    [Fact]
    public void A_book_of_form_1_is_brought_up_to_date_and_keeps_its_names_as_they_were_written()
    {
        using var stored = new StoredBook(empty: true);
        using (var context = new BookContext(BookContext.OptionsFor($"Data Source={stored.DatabaseFile};Pooling=False")))
            context.GetInfrastructure().GetRequiredService<IMigrator>().Migrate(BookFile.Known[1]);
        using (var connection = stored.Bare()) WriteAsForm1(connection, """{"kind":"observe","day":"2026-03-01","vessel":"V1","what":"cleaned","witness":"Orla Finch"}""");
        using (BookStore.Open(stored.Folder)) { }
        stored.Open();
        Assert.Equal("Orla Finch", stored.Book.Find(1)!.Operation!.Witness);
        stored.Record("""{"kind":"vessel","day":"2026-03-02","code":"V1","doneBy":"Orla Finch"}""");
        Assert.Equal([1, 2], stored.Store.ReadRange(1, 9).Select(entry => entry.Form));
        Assert.All(stored.Store.ReadRange(1, 9), entry => Assert.Contains("Orla Finch", entry.InPlain, StringComparison.Ordinal));
        Assert.True(stored.Store.Verify().Sound);
    }

    /// <summary>Writes a first entry as programs before contacts did.</summary>
    private static void WriteAsForm1(SqliteConnection connection, string content)
    {
        var form = new HashedForm();
        var (contentHash, hash, none) = (new byte[32], new byte[32], new byte[32]);
        form.Text("2026-03-01"u8);
        form.Text(Encoding.UTF8.GetBytes(content));
        form.EndLine();
        form.Sum(contentHash);
        form.Clear();
        form.Number(1);
        form.Number(1);
        form.Hash(none);
        form.Text("2026-03-01T08:00:00.000Z"u8);
        form.Text("m.k."u8);
        form.Nothing();
        form.Nothing();
        form.Nothing();
        form.Number(0);
        form.Hash(contentHash);
        form.EndLine();
        form.Sum(hash);
        Assert.Equal(content, OperationJson.Write(OperationJson.Stored(content)));
        StoredBook.Run(connection, "INSERT INTO entry VALUES (1, 1, $none, '2026-03-01T08:00:00.000Z', 'm.k.', NULL, '2026-03-01', NULL, NULL, 0, $content, $contentHash, $hash)", ("$none", none), ("$content", content), ("$contentHash", contentHash), ("$hash", hash));
        StoredBook.Run(connection, "UPDATE head SET number = 1, hash = $hash", ("$hash", hash));
    }
}
