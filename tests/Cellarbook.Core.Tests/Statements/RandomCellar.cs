using System.Globalization;
using Cellarbook.Core.Tests.Diary;
using Cellarbook.Core.Tests.Importing;

namespace Cellarbook.Core.Tests.Statements;

/// <summary>
/// A small cellar at random, wilder than a well-kept one: strengths left out, wines of different classes poured together, rows dated late, taken
/// back, places named or not. What the book refuses is left out; what it takes must add up.
/// </summary>
internal sealed class RandomCellar
{
    private static readonly string[] Lots = ["L1", "L2", "L3", "L4", "L5", "L6"];
    private static readonly (string Code, int Size)[] Bottlings = [("B1", 750), ("B2", 375), ("B3", 187), ("B4", 1500)];
    private static readonly string[] Vessels = ["", "", "", "T1", "T2", "T3"];
    private static readonly string[] Kinds = ["", "", "", "BULK:A16", "BULK:F_CIDER", "BULK:E_SPKL", "BULK:D_CARB"];
    private static readonly string[] BulkOut = ["LEES_REMOVED", "EVAPORATION", "SPILLAGE", "CASUALTY", "REMOVED_TAXPAID_BULK", "SAMPLE_BULK", "INVENTORY_LOSS_BULK", "OWN_USE_BULK"];
    private static readonly string[] BottledOut = ["REMOVED_TAXPAID", "TASTING", "BREAKAGE", "OWN_USE", "SHORTAGE", "CASUALTY"];
    private static readonly string[] MustOut = ["MUST_SOLIDS_REMOVED", "MUST_SPILLED", "FERMENT_VOLUME_CHANGE", "MUST_REMOVED"];

    private readonly Random random;
    private readonly List<(string Id, DateOnly Day, Row[] Rows)> taken = [];
    private readonly HashSet<string> takenBack = [];

    /// <param name="seed">Which cellar.</param>
    /// <param name="tries">How many events are tried.</param>
    /// <param name="asking">Called with the book now and then while it grows.</param>
    public RandomCellar(int seed, int tries = 150, Action<RandomCellar>? asking = null)
    {
        random = new(seed);
        First = new DateOnly(2026, 1, 1).AddDays(random.Next(0, 60));
        var day = First;
        Take("O", day, Opening());
        for (var i = 0; i < tries; i++)
        {
            if (random.Next(3) == 0) day = day.AddDays(random.Next(1, 9));
            // Now and then something turns up late.
            var on = random.Next(6) == 0 ? First.AddDays(random.Next(0, day.DayNumber - First.DayNumber + 1)) : day;
            if (random.Next(12) == 0) TakeBack($"E{i}", on);
            else Take($"E{i}", on, Event());
            if (i % 10 == 9) asking?.Invoke(this);
        }
    }

    public ImportedBook Book { get; } = new();

    public DateOnly First { get; }

    public DateOnly Last => Book.Book.Pages[^1].Day;

    /// <summary>How many events were taken back.</summary>
    public int TakenBack => takenBack.Count;

    /// <summary>What went in, file by file.</summary>
    public IEnumerable<string> Files => taken.Select(item => Text(item.Id, item.Day, item.Rows));

    /// <summary>A range of days in or around the book.</summary>
    public (DateOnly From, DateOnly To) AnyRange()
    {
        var (a, b) = (AnyDay(), AnyDay());
        return a <= b ? (a, b) : (b, a);
    }

    private DateOnly AnyDay() => First.AddDays(random.Next(-40, Last.DayNumber - First.DayNumber + 60));

    private static string Text(string id, DateOnly day, Row[] rows) => ImportedBook.Written([.. rows.Select(row => $"{id},{day:yyyy-MM-dd},{row}")]);

    private bool Take(string id, DateOnly day, Row[] rows)
    {
        var text = Text(id, day, rows);
        if (!Csv.Import(Book.Book, text).IsGood) return false;
        Book.Take(text);
        taken.Add((id, day, rows));
        return true;
    }

    private void TakeBack(string id, DateOnly on)
    {
        var open = taken.Where(item => !takenBack.Contains(item.Id) && item.Rows[0].Reverses.Length == 0).ToArray();
        if (open.Length == 0) return;
        var (original, day, rows) = open[random.Next(open.Length)];
        if (Take(id, on < day ? day : on, [.. rows.Select(row => row.Back(original))])) takenBack.Add(original);
    }

    private static Row[] Opening() =>
    [
        new("OPENING", "", "L1", 84_300) { Abv = "12.5" }, new("OPENING", "", "L2", 31_007) { Abv = "16.01" }, new("OPENING", "", "L3", 55_000) { ToAccount = "MUST" },
        new("OPENING", "", "L5", 60_010) { Abv = "7", ToAccount = "BULK:F_CIDER" }, new("OPENING", "", "L6", 9_999) { ToAccount = "BULK:A16" },
        Filled(new("OPENING", "", "B1") { Abv = "13" }, 60), Filled(new("OPENING", "", "B4") { ToAccount = "BOTTLED:E_SPKL" }, 12),
    ];

    private Row[] Event()
    {
        var (lot, other, bottling) = (One(Lots), One(Lots), One(Bottlings).Code);
        switch (random.Next(15))
        {
            case 0: return [new("MUST_RECEIVED", "", lot, Volume()) { Vessel = One(Vessels) }];
            case 1: return [new(One(MustOut), lot, "", Volume() / 10 + 1)];
            case 2:
                var more = random.Next(3) == 0;
                return [new("PRODUCED", lot, other, Volume()) { Abv = Abv(), Vessel = One(Vessels), ToAccount = One(Kinds) }, new("FERMENT_VOLUME_CHANGE", more ? "" : lot, more ? lot : "", 30)];
            case 3: return [new("RECEIVED_BULK", "", lot, Volume()) { Abv = Abv(), Vessel = One(Vessels), ToAccount = One(Kinds) }];
            case 4 or 5: return [new("LOT_TRANSFER", lot, other, Volume() / 2 + 1) { Abv = random.Next(6) == 0 ? Abv() : "", Vessel = One(Vessels) }];
            case 6: return [new("CLASS_CHANGE", lot, random.Next(2) == 0 ? lot : other, Volume()) { Abv = Abv(), Vessel = One(Vessels), ToAccount = One(Kinds) }];
            case 7: return Blend(lot, other);
            case 8 or 9: return [Filled(new("BOTTLED", lot, bottling) { Abv = random.Next(4) == 0 ? Abv() : "" }, random.Next(1, 40)), new("BOTTLING_LOSS", lot, "", random.Next(1, 900))];
            case 10: return [new(One(BulkOut), lot, "", Volume() / 8 + 1) { Abv = random.Next(8) == 0 ? Abv() : "" }];
            case 11: return [Filled(new(One(BottledOut), bottling, ""), random.Next(1, 9))];
            case 12: return [Filled(new("UNBOTTLED", bottling, lot), random.Next(1, 9))];
            case 13: return [Filled(new(random.Next(2) == 0 ? "RETURNED_TO_BOND" : "INVENTORY_GAIN_BOTTLED", "", bottling), random.Next(1, 5))];
            default: return [Filled(new("CLASS_CHANGE_BOTTLED", bottling, bottling) { Abv = Abv() }, random.Next(1, 60))];
        }
    }

    private Row[] Blend(string lot, string other)
    {
        var (a, b, contraction) = (Volume() / 3 + 1, Volume() / 4 + 21, random.Next(-20, 21));
        Row[] rows = [new("BLEND_USED", lot, "", a), new("BLEND_USED", other, "", b), new("BLEND_MADE", "", One(Lots), a + b - contraction) { Abv = random.Next(2) == 0 ? Abv() : "", Vessel = One(Vessels), ToAccount = One(Kinds) }];
        return contraction == 0 ? rows : [.. rows, new("PROCESS_CONTRACTION", "", "", Math.Abs(contraction))];
    }

    private static Row Filled(Row row, int bottles)
    {
        var size = Bottlings.Single(bottling => bottling.Code == row.From || bottling.Code == row.To).Size;
        return row with { Volume = bottles * size, Bottles = bottles, Size = size };
    }

    private int Volume() => random.Next(1, 60_000);

    private string Abv() => random.Next(5) switch { 0 => "", 1 => "16", 2 => "16.01", 3 => "20.5", _ => random.Next(9, 24).ToString(CultureInfo.InvariantCulture) + ".37" };

    private T One<T>(T[] of) => of[random.Next(of.Length)];

    private sealed record Row(string Category, string From, string To, int Volume = 0)
    {
        public int? Bottles { get; init; }

        public int? Size { get; init; }

        public string Abv { get; init; } = "";

        public string Vessel { get; init; } = "";

        public string Reverses { get; init; } = "";

        public string FromAccount { get; init; } = "";

        public string ToAccount { get; init; } = "";

        public Row Back(string original) => this with { From = To, To = From, Abv = "", Vessel = "", Reverses = original, FromAccount = ToAccount.Split(':')[0] == "MUST" ? "MUST" : "", ToAccount = FromAccount };

        public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Category},{From},,{To},{Vessel},{Volume},{Bottles},{Size},{Abv},{Reverses},{FromAccount},{ToAccount}");
    }
}
