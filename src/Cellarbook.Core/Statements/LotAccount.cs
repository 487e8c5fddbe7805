using Cellarbook.Core.Book;
using Cellarbook.Core.Passbook;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Statements;

/// <summary>A line of a lot's own account.</summary>
/// <param name="Direction">In or out.</param>
/// <param name="Category">What kind of move.</param>
/// <param name="Other">The lot or bottling it came from or went to; the lots on the other side of a process; empty where there is none.</param>
/// <param name="Volume">How much; negative when more was taken back than done.</param>
/// <param name="Bottles">How many bottles, where bottles moved.</param>
/// <param name="Entries">Numbers of the entries behind it, in book order.</param>
public sealed record LotAccountLine(Direction Direction, Category Category, string Other, Volume Volume, BottleCount Bottles, IReadOnlyList<long> Entries);

/// <summary>
/// A lot's own small account: in by kind, out by kind, what is left. It answers "where did these 14 litres go". Must and wine of the lot are one
/// stock here: declaring its own must wine moves nothing in or out and stands apart, as do moves between its vessels; what was lost on the way is
/// out. A bottling has the same account, in bottles.
/// </summary>
public sealed class LotAccount
{
    private LotAccount(string lot, Period period, Volume opening, Volume left, BottleCount openingBottles, BottleCount leftBottles, IReadOnlyList<LotAccountLine> lines, IReadOnlyList<LotAccountLine> within)
    {
        Lot = lot;
        Period = period;
        Opening = opening;
        Left = left;
        OpeningBottles = openingBottles;
        LeftBottles = leftBottles;
        Lines = lines;
        Within = within;
    }

    /// <summary>The lot or bottling.</summary>
    public string Lot { get; }

    /// <summary>The days it covers.</summary>
    public Period Period { get; }

    /// <summary>On hand when the period begins; nil over the whole life.</summary>
    public Volume Opening { get; }

    /// <summary>On hand when it ends: opening + in − out.</summary>
    public Volume Left { get; }

    /// <summary>Bottles on hand when the period begins.</summary>
    public BottleCount OpeningBottles { get; }

    /// <summary>Bottles on hand when it ends.</summary>
    public BottleCount LeftBottles { get; }

    /// <summary>In, then out; each by category, then by what stands on the other side. What comes to nil with all taken back stays, with its entries.</summary>
    public IReadOnlyList<LotAccountLine> Lines { get; }

    /// <summary>Moves within the lot, which change nothing in all: its must declared wine, racked from vessel to vessel. Direction is in.</summary>
    public IReadOnlyList<LotAccountLine> Within { get; }

    /// <summary>All that came in.</summary>
    public Volume In => Sum(Direction.In);

    /// <summary>All that went out.</summary>
    public Volume Out => Sum(Direction.Out);

    /// <summary>The account of a lot's must and wine in bulk; over its whole life when no period is given.</summary>
    public static LotAccount OfLot(Book.Book book, string lot, Period? period = null) =>
        Build(book, lot, period, inBottles: false, account => account.Section is Section.Must or Section.Bulk && account.Name == lot);

    /// <summary>The account of a bottling's bottles; over its whole life when no period is given.</summary>
    public static LotAccount OfBottling(Book.Book book, string bottling, Period? period = null) =>
        Build(book, bottling, period, inBottles: true, account => account.Section == Section.Bottled && account.Name == bottling);

    /// <summary>The account of a lot over its whole life, its entries found by the index: the same, without leafing through the whole book.</summary>
    public static LotAccount OfLot(Book.Book book, EntryIndex index, string lot) =>
        Build(lot, Whole(book), Volume.None, BottleCount.None, inBottles: false, account => account.Section is Section.Must or Section.Bulk && account.Name == lot, Deeds(book, index.OfLot(book, lot)));

    /// <summary>The account of a bottling over its whole life, its entries found by the index.</summary>
    public static LotAccount OfBottling(Book.Book book, EntryIndex index, string bottling) =>
        Build(bottling, Whole(book), Volume.None, BottleCount.None, inBottles: true, account => account.Section == Section.Bottled && account.Name == bottling, Deeds(book, index.OfBottling(book, bottling)));

    private static IEnumerable<Deed> Deeds(Book.Book book, IReadOnlyList<Entry> entries) => BookOrder.Of(book, entries, _ => true).Where(placed => !placed.IsStruck).Select(placed => placed.Deed);

    private static Period Whole(Book.Book book) => book.Pages.Count == 0 ? default : new(book.Pages[0].Day, book.Pages[^1].Day);

    private Volume Sum(Direction direction) => Lines.Where(line => line.Direction == direction).Aggregate(Volume.None, (sum, line) => sum + line.Volume);

    private static LotAccount Build(Book.Book book, string name, Period? asked, bool inBottles, Func<Account, bool> own)
    {
        var period = asked ?? Whole(book);
        var (opening, openingBottles) = (Volume.None, BottleCount.None);
        if (period.From > book.FirstDay)
            foreach (var place in book.AsOf(period.From.AddDays(-1)).Places.Where(place => own(place.Account))) (opening, openingBottles) = (opening + place.Volume, openingBottles + place.Bottles);
        return Build(name, period, opening, openingBottles, inBottles, own, book.Pages.Skip(book.FirstPageFrom(period.From)).TakeWhile(page => page.Day <= period.To).SelectMany(page => page.Deeds));
    }

    private static LotAccount Build(string name, Period period, Volume opening, BottleCount openingBottles, bool inBottles, Func<Account, bool> own, IEnumerable<Deed> deeds)
    {
        var sums = new Dictionary<(bool Within, Direction Direction, string Category, string Other), Sums>();
        foreach (var deed in deeds)
            foreach (var posting in deed.Postings)
            {
                // What is taken back has its accounts swapped, and counts against the direction of what it undoes.
                var (from, to) = posting.IsTakenBack ? (posting.To, posting.From) : (posting.From, posting.To);
                var (gives, receives) = (own(from), own(to));
                if (!gives && !receives) continue;
                var direction = receives ? Direction.In : Direction.Out;
                var other = gives && receives ? "" : Other(deed, posting, receives ? from : to, receives != posting.IsTakenBack, own);
                var key = (gives && receives, direction, posting.Category.Code, other);
                if (!sums.TryGetValue(key, out var sum)) sums.Add(key, sum = new());
                sum.Add(deed.Entry, posting);
            }

        var lines = sums.OrderBy(sum => sum.Key.Direction).ThenBy(sum => Order(sum.Key.Category)).ThenBy(sum => sum.Key.Other, StringComparer.Ordinal)
            .Select(sum => (sum.Key.Within, Line: new LotAccountLine(sum.Key.Direction, Category.Of(sum.Key.Category), sum.Key.Other, sum.Value.Volume, sum.Value.Bottles, sum.Value.Entries))).ToArray();
        var moves = lines.Where(line => !line.Within).Select(line => line.Line).ToArray();
        var (left, leftBottles) = (opening, openingBottles);
        foreach (var line in moves)
        {
            var into = line.Direction == Direction.In;
            left += into ? line.Volume : -line.Volume;
            if (inBottles) leftBottles += into ? line.Bottles : -line.Bottles;
        }
        return new(name, period, opening, left, openingBottles, leftBottles, moves, [.. lines.Where(line => line.Within).Select(line => line.Line)]);
    }

    /// <summary>What stands on the other side, by name.</summary>
    private static string Other(Deed deed, Posting posting, Account account, bool posted, Func<Account, bool> own)
    {
        if (account.Section != Section.Process) return account.IsStock ? account.Name : "";
        // On the other side of a process: the lots it made of this one, or was made from.
        var sides = posted ? deed.Postings.Where(other => other.To.Section == Section.Process).Select(other => other.From) : deed.Postings.Where(other => other.From.Section == Section.Process).Select(other => other.To);
        return string.Join(", ", sides.Where(side => side.IsStock && !own(side)).Select(side => side.Name).Distinct().Order(StringComparer.Ordinal));
    }

    private static int Order(string code)
    {
        for (var i = 0; i < Category.All.Count; i++)
            if (Category.All[i].Code == code) return i;
        return -1;
    }

    private sealed class Sums
    {
        private readonly List<long> entries = [];

        public Volume Volume { get; private set; }

        public BottleCount Bottles { get; private set; }

        public IReadOnlyList<long> Entries => [.. entries.Distinct()];

        public void Add(long entry, Posting posting)
        {
            Volume += posting.IsTakenBack ? -posting.Volume : posting.Volume;
            Bottles += posting.IsTakenBack ? -posting.Bottles : posting.Bottles;
            if (entries.Count == 0 || entries[^1] != entry) entries.Add(entry);
        }
    }
}
