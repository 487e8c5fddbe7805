using System.Globalization;
using System.Text;

namespace Cellarbook.Benchmarks;

/// <summary>
/// Writes a journal of a plausible cellar, from a seed: lots with lives (received, sampled, declared, racked, topped, bottled, sold), spread
/// over years, not random noise. The same seed gives the same file.
/// </summary>
public sealed class CellarGenerator(int seed)
{
    private readonly Random random = new(seed);
    private readonly List<(DateOnly Date, string Rows)> events = [];
    private int number;

    /// <summary>The file's head.</summary>
    public const string Head = "row,event_id,date,entered_by,category,lot_from,lot_to,volume_ml,bottles,bottle_ml,abv_pct,document";

    /// <summary>Writes about <paramref name="rows"/> rows over so many days; returns how many.</summary>
    public int Write(TextWriter writer, int rows, int days, DateOnly first)
    {
        var made = 0;
        for (var lot = 1; made < rows; lot++) made += Life($"L{lot:D6}", first, days);
        writer.Write(Head + "\n");
        var row = 0;
        foreach (var (_, text) in events.OrderBy(one => one.Date))
            foreach (var line in text.Split('\n'))
                writer.Write(string.Create(CultureInfo.InvariantCulture, $"{++row},{line}\n"));
        return row;
    }

    /// <summary>One lot from must to the last bottle: some sixty rows over two years.</summary>
    private int Life(string lot, DateOnly first, int days)
    {
        var before = number;
        var day = first.AddDays(random.Next(Math.Max(1, days - 200)));
        long must = random.Next(200, 3_000) * 1_000L;
        Event(day, Row("MUST_RECEIVED", "", lot, must, document: $"DN-{random.Next(10_000)}"));
        day = day.AddDays(1);
        var solids = must * random.Next(15, 40) / 1_000;
        Event(day, Row("MUST_SOLIDS_REMOVED", lot, "", solids));
        must -= solids;
        for (var i = 0; i < 6; i++)
        {
            day = day.AddDays(random.Next(1, 4));
            Event(day, Row("SAMPLE_MUST", lot, "", 100));
            must -= 100;
        }
        day = day.AddDays(random.Next(3, 10));
        var lees = must * random.Next(10, 40) / 1_000;
        var shrink = must * random.Next(2, 9) / 1_000;
        var wine = must - lees - shrink;
        var strength = random.Next(1_050, 1_480) / 100m;
        Event(day, Row("PRODUCED", lot, lot, wine, abv: strength) + "\n" + Row("MUST_SOLIDS_REMOVED", lot, "", lees, same: true) + "\n" + Row("FERMENT_VOLUME_CHANGE", lot, "", shrink, same: true));
        for (var i = 0; i < 14; i++)
        {
            day = day.AddDays(random.Next(10, 35));
            switch (random.Next(4))
            {
                case 0:
                    var lost = Math.Max(1, wine * random.Next(4, 15) / 1_000);
                    Event(day, Row("LEES_REMOVED", lot, "", lost));
                    wine -= lost;
                    break;
                case 1:
                    var gone = Math.Max(1, wine * random.Next(1, 6) / 1_000);
                    Event(day, Row("EVAPORATION", lot, "", gone));
                    Event(day, Row("LOT_TRANSFER", lot, lot, gone));
                    wine -= gone;
                    break;
                default:
                    Event(day, Row("SAMPLE_BULK", lot, "", 250));
                    wine -= 250;
                    break;
            }
        }
        day = day.AddDays(random.Next(5, 20));
        var bottles = Math.Max(1, wine * 97 / 100 / 750);
        var rest = wine - bottles * 750;
        var bottling = lot + "-75";
        Event(day, Row("BOTTLED", lot, bottling, bottles * 750, bottles: bottles) + (rest > 0 ? "\n" + Row("BOTTLING_LOSS", lot, "", rest, same: true) : ""));
        while (bottles > 0 && day < first.AddDays(days))
        {
            day = day.AddDays(random.Next(1, 15));
            var sold = Math.Min(bottles, random.Next(6, 90));
            var category = random.Next(12) switch { 0 => "TASTING", 1 => "OWN_USE", 2 => "BREAKAGE", _ => "REMOVED_TAXPAID" };
            if (category != "REMOVED_TAXPAID") sold = Math.Min(sold, 2);
            Event(day, Row(category, bottling, "", sold * 750, bottles: sold, document: category == "REMOVED_TAXPAID" ? $"INV-{random.Next(100_000)}" : ""));
            bottles -= sold;
        }
        return number - before;
    }

    private void Event(DateOnly date, string rows) =>
        events.Add((date, rows.Replace("\u0001", date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), StringComparison.Ordinal)));

    private string Row(string category, string from, string to, long volume, long bottles = 0, decimal abv = 0, string document = "", bool same = false)
    {
        number++;
        if (!same) eventNumber++;
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"E{eventNumber:D7},\u0001,cellar hand,{category},{from},{to},{volume},");
        if (bottles > 0) text.Append(CultureInfo.InvariantCulture, $"{bottles},750,"); else text.Append(",,");
        if (abv > 0) text.Append(CultureInfo.InvariantCulture, $"{abv}");
        return text.Append(',').Append(document).ToString();
    }

    private int eventNumber;
}
