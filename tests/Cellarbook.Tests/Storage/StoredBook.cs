using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Operations;
using Cellarbook.Storage;
using Microsoft.Data.Sqlite;
using Xunit;

namespace Cellarbook.Tests.Storage;

/// <summary>A book in a throw-away folder, kept like a diary: what is written here goes through the core and into the file.</summary>
public sealed class StoredBook : IDisposable
{
    private static readonly DateOnly Today = new(2030, 1, 1);
    private BookStore? store;
    private Book? book;

    public StoredBook(bool empty = false)
    {
        if (!empty) Open();
    }

    /// <summary>A moment to record at.</summary>
    public static DateTimeOffset Moment { get; } = new(2030, 1, 1, 8, 30, 0, 125, TimeSpan.Zero);

    public string Folder { get; } = Directory.CreateTempSubdirectory("cellarbook-").FullName;

    public string DatabaseFile => Path.Combine(Folder, "book.db");

    public BookStore Store => store ?? throw new InvalidOperationException("The book is closed.");

    public Book Book => book ?? throw new InvalidOperationException("The book is closed.");

    /// <summary>Opens the folder's book and loads it; it must be sound.</summary>
    public StoredBook Open()
    {
        store = BookStore.Open(Folder);
        var load = store.Load();
        book = load.ToBook(store.FindEvent);
        book.KnowsContact = store.KnowsContact;
        Assert.Empty(load.Findings);
        return this;
    }

    public void Close()
    {
        store?.Dispose();
        (store, book) = (null, null);
    }

    /// <summary>Records an operation; it must be good.</summary>
    public Entry Record(string json, string? key = null)
    {
        var trial = Propose(json);
        Assert.Empty(trial.Refusals);
        Store.Append(trial.Entries, "m.k.", key, Moment);
        Book.Accept(trial);
        return trial.Entries[0];
    }

    public Trial Propose(string json)
    {
        var refusals = new List<Refusal>();
        var operation = OperationJson.Read(Encoding.UTF8.GetBytes(json), refusals);
        Assert.Empty(refusals);
        return Book.Propose(operation!, Today);
    }

    /// <summary>Imports a journal of volumes.</summary>
    public Trial Import(string csv, string? key = null)
    {
        var trial = ProposeImport(csv);
        Assert.Empty(trial.Refusals);
        Store.Append(trial.Entries, "m.k.", key, Moment);
        Book.Accept(trial);
        return trial;
    }

    public Trial ProposeImport(string csv)
    {
        var rows = csv.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(Fields).ToList();
        var refusals = new List<Refusal>();
        var reader = new JournalReader(JournalColumns.Read(rows[0], refusals)!);
        foreach (var row in rows.Skip(1)) reader.Add(row);
        var events = reader.Events(Today);
        Assert.Empty(refusals.Concat(reader.Refusals));
        return Book.ProposeImport(events, Today);
    }

    /// <summary>The worked quarter, an invented history of 104 rows.</summary>
    public static string WorkedPeriod() => File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "data/records/worked_period.csv"));

    /// <summary>A little life of a lot: vessels, must, wine, bottles, and a late reading.</summary>
    public StoredBook LiveALittle()
    {
        Record("""{"kind":"vessel","day":"2026-03-01","code":"V1","name":"Old bucket","capacityLitres":30}""");
        Record("""{"kind":"vessel","day":"2026-03-01","code":"V2","capacityLitres":25}""");
        Record("""{"kind":"receive","day":"2026-03-01","what":"must","lot":"L1","vessel":"V1","litres":23,"document":"Invoice 7 — \"Weingut Ödland\"","origin":[{"variety":"Riesling","vintage":"2025"}]}""");
        Record("""{"kind":"measure","day":"2026-03-02","time":"18:30","lot":"L1","vessel":"V1","gravity":1.085,"celsius":19.5}""", key: "gravity-1");
        Record("""{"kind":"declareWine","day":"2026-04-01","lot":"L1","vessel":"V1","litres":22.6,"abv":12.5,"losses":[{"kind":"lees","litres":0.3}]}""");
        Record("""{"kind":"transfer","day":"2026-04-02","sources":[{"lot":"L1","vessel":"V1","litres":22.6}],"targets":[{"lot":"L1","vessel":"V2","litres":22.1}],"losses":[{"kind":"lees","litres":0.5}]}""");
        Record("""{"kind":"measure","day":"2026-03-20","lot":"L1","vessel":"V1","gravity":1.010,"celsius":18}""");
        Record("""{"kind":"bottle","day":"2026-06-01","lot":"L1","vessel":"V2","fills":[{"bottling":"L1-75","bottles":28,"bottleMl":750}],"losses":[{"kind":"bottling","litres":0.35}]}""");
        Record("""{"kind":"remove","day":"2026-06-10","as":"ownUse","bottling":"L1-75","bottles":2}""");
        return this;
    }

    /// <summary>A connection such as any other program would open: no settings of ours.</summary>
    public SqliteConnection Bare()
    {
        var connection = new SqliteConnection($"Data Source={DatabaseFile};Pooling=False");
        connection.Open();
        return connection;
    }

    /// <summary>Does something to the file from outside, guards dropped first where wanted.</summary>
    public void FromOutside(string sql, bool dropGuards = false)
    {
        using var connection = Bare();
        if (dropGuards) DropGuards(connection);
        Run(connection, sql);
    }

    public static void DropGuards(SqliteConnection connection)
    {
        foreach (var guard in Column(connection, "SELECT name FROM sqlite_master WHERE type = 'trigger'")) Run(connection, $"DROP TRIGGER \"{guard}\"");
    }

    public static int Run(SqliteConnection connection, string sql, params (string Name, object Value)[] values)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        foreach (var (name, value) in values) command.Parameters.AddWithValue(name, value);
        return command.ExecuteNonQuery();
    }

    public static List<string> Column(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        using var rows = command.ExecuteReader();
        var found = new List<string>();
        while (rows.Read()) found.Add(rows.GetString(0));
        return found;
    }

    public void Dispose()
    {
        Close();
        Directory.Delete(Folder, recursive: true);
    }

    private static List<string> Fields(string line)
    {
        var fields = new List<string>();
        var (field, quoted) = (new StringBuilder(), false);
        foreach (var c in line.TrimEnd('\r'))
        {
            if (c == '"') quoted = !quoted;
            else if (c == ',' && !quoted)
            {
                fields.Add(field.ToString());
                field.Clear();
            }
            else field.Append(c);
        }
        fields.Add(field.ToString());
        return fields;
    }
}
