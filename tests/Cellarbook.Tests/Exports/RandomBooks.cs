using System.Globalization;
using Cellarbook.Core.Book;

namespace Cellarbook.Tests.Exports;

/// <summary>
/// Books of random operations through the same door as everything else. What the book refuses is left; what it takes must come out the same at the
/// judges. Days run on, sometimes back.
/// </summary>
internal static class RandomBooks
{
    public const int Kinds = 11;

    private static readonly string[] Lots = ["L1", "Süß 2", "n/3", "L.4 b"];
    private static readonly string[] Vessels = ["V1", "V2", "Faß 3", "V4", "V5"];
    private static readonly string[] Shelves = ["unplaced", "hinten"];
    private static readonly (string Code, string Millilitres)[] Sizes = [("75", "750"), ("37", "375"), ("18", "187.5")];

    public static Book Of(IReadOnlyList<(int Kind, int A, int B)> steps)
    {
        var book = new Book();
        foreach (var vessel in Vessels) Books.Record(book, $$"""{"kind":"vessel","day":"2026-01-01","code":"{{vessel}}","capacityLitres":90}""");
        Books.Record(book, """{"kind":"receive","day":"2026-01-01","what":"fruit","lot":"plums","kilograms":40}""");
        for (var i = 0; i < steps.Count; i++)
        {
            // Three steps a day; every eleventh is entered late.
            var day = new DateOnly(2026, 1, 2).AddDays(i / 3 - (steps[i].B % 11 == 0 ? 9 : 0));
            if (day < new DateOnly(2026, 1, 2)) day = new(2026, 1, 2);
            Books.Try(book, Step(book, steps[i], i, day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)));
        }
        return book;
    }

    private static string Step(Book book, (int Kind, int A, int B) step, int index, string day)
    {
        var (kind, a, b) = step;
        // Operations mostly concern what is there.
        var filled = book.Now.Vessels.Where(vessel => vessel.Lot is not null).OrderBy(vessel => vessel.Code, StringComparer.Ordinal).ToArray();
        var vessel = filled.Length == 0 ? book.Now.Vessel(Vessels[0]) : filled[a % filled.Length];
        var lot = vessel.Lot ?? Lots[0];
        var part = Litres(vessel.Held.Microlitres * (b % 1000) / 1000);
        var bottlings = book.Now.Places.Where(place => place.Account.Section == Section.Bottled && place.Bottles.IsPositive).OrderBy(place => place.Account.ToString(), StringComparer.Ordinal).ToArray();
        var other = Vessels[b % Vessels.Length];
        if (bottlings.Length == 0 && kind is 5 or 6 or 7) kind = 4;
        var stack = bottlings.Length == 0 ? null : bottlings[a % bottlings.Length];
        var bottling = stack is null ? "" : $"\"bottling\":\"{stack.Account.Name}\",\"shelf\":\"{stack.Account.Place}\",\"bottles\":{1 + b % Math.Max(1, stack.Bottles.Bottles)}";
        return kind switch
        {
            0 => $$"""{"kind":"receive","day":"{{day}}","what":"must","lot":"{{Lots[a % Lots.Length]}}","vessel":"{{other}}","litres":{{Litres(1_000_000 + a * 37L)}}}""",
            1 => $$"""{"kind":"receive","day":"{{day}}","what":"bulkWine","lot":"{{Lots[a % Lots.Length]}}","vessel":"{{other}}","litres":{{Litres(1_000_000 + a * 41L)}},"abv":{{9 + b % 12}}}""",
            2 => $$"""{"kind":"declareWine","day":"{{day}}","lot":"{{lot}}","vessel":"{{vessel.Code}}","litres":{{Litres(vessel.Held.Microlitres * 9 / 10)}},"abv":{{9 + b % 9}},"losses":[{"kind":"lees","litres":{{Litres(vessel.Held.Microlitres / 50)}}}]}""",
            3 => $$"""{"kind":"transfer","day":"{{day}}","sources":[{"lot":"{{lot}}","vessel":"{{vessel.Code}}","litres":{{part}}}],"targets":[{"lot":"{{lot}}","vessel":"{{other}}","litres":{{part}}}]}""",
            4 => $$"""{"kind":"bottle","day":"{{day}}","lot":"{{lot}}","vessel":"{{vessel.Code}}","fills":[{"bottling":"B{{index}}-{{Sizes[b % 3].Code}}","bottles":{{1 + b % 30}},"bottleMl":{{Sizes[b % 3].Millilitres}},"shelf":"{{Shelves[a % 2]}}"}],"losses":[{"kind":"bottling","litres":0.2}]}""",
            5 => $$"""{"kind":"remove","day":"{{day}}","as":"{{(b % 2 == 0 ? "gift" : "ownUse")}}",{{bottling}}}""",
            6 => $$"""{"kind":"unbottle","day":"{{day}}",{{bottling}},"lot":"{{lot}}","vessel":"{{vessel.Code}}"}""",
            7 => $$"""{"kind":"shelve","day":"{{day}}",{{bottling}},"toShelf":"{{Shelves[b % 2]}}"}""",
            8 => $$"""{"kind":"lose","day":"{{day}}","as":"spill","lot":"{{lot}}","vessel":"{{vessel.Code}}","litres":{{part}}}""",
            9 => $$"""{"kind":"gauge","day":"{{day}}","vessel":"{{vessel.Code}}","litres":{{Litres(vessel.Held.Microlitres + b % 2001 - 1000)}}}""",
            _ => $$"""{"kind":"correct","day":"{{day}}","takesBack":{{1 + (long)a * b % Math.Max(1, book.LastNumber)}},"reason":"it was less","write":null}""",
        };
    }

    private static string Litres(long microlitres) => (microlitres / 1_000_000m).ToString(CultureInfo.InvariantCulture);
}
