using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Cellarbook.Storage;
using Microsoft.Data.Sqlite;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>Law 10: the hashed form is written down; whoever has the file and the form can work out every hash without this program.</summary>
public sealed class HashedFormTests
{
    [Fact]
    public void Every_hash_can_be_worked_out_from_the_rows_by_the_documented_form()
    {
        using var stored = new StoredBook();
        stored.Import(StoredBook.WorkedPeriod());
        stored.LiveALittle();
        stored.Record($$"""{"kind":"correct","day":"2026-06-12","takesBack":{{stored.Book.LastNumber}},"reason":"Not those","write":null}""");
        using var connection = stored.Bare();
        var previous = new byte[32];
        foreach (var entry in Rows(connection, "SELECT * FROM entry ORDER BY number"))
        {
            var content = new StringBuilder($"{Text(entry["day"])}\t{Text(entry["content"])}\n");
            foreach (var posting in Rows(connection, $"SELECT * FROM posting WHERE entry = {entry["number"]} ORDER BY line"))
                content.Append(string.Join('\t', new[] { "line", "deed", "taken_back", "category", "from_account", "to_account", "volume_ul", "bottles", "bottle_ul", "grams", "strength", "kind" }.Concat(posting["unit"] is DBNull ? [] : ["material", "unit"]).Select(column => Field(posting[column])))).Append('\n');
            Assert.Equal(Sum(content.ToString()), Hex(entry["content_hash"]));
            var heading = string.Join('\t', new[] { "form", "number", "previous_hash", "recorded_at", "actor", "key", "event_id", "takes_back", "leaves_out", "content_hash" }.Select(column => Field(entry[column]))) + "\n";
            Assert.Equal(Sum(heading), Hex(entry["hash"]));
            Assert.Equal(previous, (byte[])entry["previous_hash"]);
            previous = (byte[])entry["hash"];
        }
        Assert.Equal(stored.Store.Head(), new ChainHead(stored.Book.LastNumber, Hex(previous)));
    }

    [Fact]
    public void Version_1_never_changes()
    {
        // Worked out once with Python's hashlib from the text below; a book written today must be checked by every later program.
        var form = new HashedForm();
        form.Number(-7);
        form.Text("Öl:\t1"u8);
        form.Nothing();
        form.Hash([0xab, 0x01]);
        form.EndLine();
        Assert.Equal("-7\t6:Öl:\t1\t-\tab01\n"u8.ToArray(), form.Written.ToArray());
        var hash = new byte[32];
        form.Sum(hash);
        Assert.Equal("8cee2068db5afb23fea4a9fef8b0c03c11ffd053d9c89d7e12f6ec93360dc258", Hex(hash));
    }

    private static string Field(object value) => value switch
    {
        DBNull => "-",
        long number => number.ToString(CultureInfo.InvariantCulture),
        byte[] hash => Hex(hash),
        _ => Text(value),
    };

    private static string Text(object value) => $"{Encoding.UTF8.GetByteCount((string)value)}:{value}";

    private static string Hex(object hash) => Convert.ToHexStringLower((byte[])hash);

    private static string Sum(string text) => Hex(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    private static List<Dictionary<string, object>> Rows(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var reader = command.ExecuteReader();
        var rows = new List<Dictionary<string, object>>();
        while (reader.Read()) rows.Add(Enumerable.Range(0, reader.FieldCount).ToDictionary(reader.GetName, reader.GetValue));
        return rows;
    }
}
