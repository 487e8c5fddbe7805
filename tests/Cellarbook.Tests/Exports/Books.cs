using System.Text;
using Cellarbook.Core.Book;
using Cellarbook.Core.Importing;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Statements;
using Cellarbook.Exports;
using Xunit;

namespace Cellarbook.Tests.Exports;

/// <summary>Books to write out.</summary>
internal static class Books
{
    public static readonly DateOnly Today = new(2027, 1, 1);
    public static readonly Period Quarter = new(new(2025, 9, 1), new(2025, 11, 30));
    public static readonly AboutFacts About = new("Rauhbach & Daughters", "kitchen-table book", 12, "0f3c", new DateTimeOffset(2026, 12, 24, 8, 30, 0, TimeSpan.Zero), "Europe/Vienna");

    /// <summary>The worked quarter.</summary>
    public static Book Worked()
    {
        var book = new Book();
        var records = CsvText.Records(File.ReadAllText(CsvText.DataFile("worked_period.csv")));
        var refusals = new List<Refusal>();
        var reader = new JournalReader(JournalColumns.Read(records[0], refusals)!);
        foreach (var record in records.Skip(1)) reader.Add(record);
        var trial = book.ProposeImport(reader.Events(Today), Today);
        Assert.Empty(refusals.Concat(reader.Refusals));
        Assert.Empty(trial.Refusals);
        book.Accept(trial);
        return book;
    }

    /// <summary>
    /// A household's year in small: elderflower and grapes, figures down to the microlitre, odd half litres, codes with blanks and umlauts, an entry
    /// taken back and written again, bottles given away and come back.
    /// </summary>
    public static Book Household()
    {
        var book = new Book();
        Record(book, """{"kind":"vessel","day":"2026-03-01","code":"Ballon 1","capacityLitres":25}""");
        Record(book, """{"kind":"vessel","day":"2026-03-01","code":"V2","capacityLitres":12}""");
        Record(book, """{"kind":"receive","day":"2026-03-01","what":"must","lot":"Grüner 26","vessel":"Ballon 1","litres":23.5}""");
        Record(book, """{"kind":"receive","day":"2026-03-01","what":"fruit","lot":"holler","kilograms":3.25}""");
        Record(book, """{"kind":"receive","day":"2026-03-02","what":"must","lot":"007","vessel":"V2","litres":10.000001}""");
        Record(book, """{"kind":"declareWine","day":"2026-04-05","lot":"Grüner 26","vessel":"Ballon 1","litres":22.6,"abv":12.5,"losses":[{"kind":"lees","litres":0.3}]}""");
        Record(book, """{"kind":"declareWine","day":"2026-04-06","lot":"007","vessel":"V2","litres":9.5,"abv":17.25}""");
        Record(book, """{"kind":"bottle","day":"2026-05-01","lot":"Grüner 26","vessel":"Ballon 1","fills":[{"bottling":"G26-75","bottles":20,"bottleMl":750,"shelf":"kühl"},{"bottling":"G26-18","bottles":8,"bottleMl":187.5}],"losses":[{"kind":"bottling","litres":0.35}]}""");
        Record(book, """{"kind":"remove","day":"2026-05-20","as":"gift","bottling":"G26-75","bottles":3,"note":"=1+1","document":"@x"}""");
        Record(book, """{"kind":"remove","day":"2026-05-21","as":"ownUse","bottling":"G26-18","bottles":1,"note":"-2","document":"00123"}""");
        Record(book, """{"kind":"lose","day":"2026-06-01","as":"spill","lot":"007","vessel":"V2","litres":0.123456,"note":"+3","document":"\t4"}""");
        Record(book, """{"kind":"correct","day":"2026-06-02","takesBack":9,"reason":"it was two","write":{"kind":"remove","day":"2026-05-20","as":"gift","bottling":"G26-75","bottles":2,"note":"=1+1","document":"@x"}}""");
        Record(book, """{"kind":"return","day":"2026-06-10","bottling":"G26-75","bottles":1,"shelf":"kühl"}""");
        Record(book, """{"kind":"gauge","day":"2026-06-30","vessel":"V2","litres":9.3}""");
        return book;
    }

    /// <summary>Records an operation; it must be good.</summary>
    public static void Record(Book book, string json) => Assert.Empty(Try(book, json));

    /// <summary>Records an operation when it can be.</summary>
    public static IReadOnlyList<Refusal> Try(Book book, string json)
    {
        var refusals = new List<Refusal>();
        var operation = OperationJson.Read(Encoding.UTF8.GetBytes(json), refusals);
        if (operation is null || refusals.Count > 0) return refusals;
        var trial = book.Propose(operation, Today);
        if (trial.IsGood) book.Accept(trial);
        return trial.Refusals;
    }

    public static StatementDocument Document(Book book, Period period, bool us) => StatementDocument.Of(book, period, us, About);

    public static async Task<string> Text(Func<Stream, Task> write)
    {
        using var stream = new MemoryStream();
        await write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
