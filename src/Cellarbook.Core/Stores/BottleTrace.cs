using Cellarbook.Core.Book;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Stores;

/// <summary>A delivery, or a material whose batch is unknown, that is in a bottling.</summary>
/// <param name="From">The delivery, or the counter-account of what came from none.</param>
/// <param name="Material">The material; null where the book no longer knows it.</param>
/// <param name="About">How much of it is in all bottles filled, to the nearest millionth of a unit; shares of shares, so about.</param>
/// <param name="Unit">What it is counted in.</param>
/// <param name="Entries">The entries that used it.</param>
/// <param name="Assumed">True when in one of them nobody named the delivery.</param>
/// <param name="Through">The mix it came in; null when it was used as it is.</param>
public sealed record BottleSource(Account From, Material? Material, FineAmount About, MaterialUnit Unit, IReadOnlyList<EntryNumber> Entries, bool Assumed, Account? Through)
{
    /// <summary>What is known of the delivery; null for a batch that is unknown.</summary>
    public DeliveryFacts? Facts { get; init; }
}

/// <summary>Must or wine from outside that is in a bottling.</summary>
/// <param name="Entry">The entry that received it.</param>
/// <param name="Day">Its day.</param>
/// <param name="Into">Where it went.</param>
/// <param name="Category">As what it came.</param>
/// <param name="About">How much of it is in the bottles, to the nearest microlitre.</param>
/// <param name="Supplier">From whom, where said.</param>
/// <param name="Document">The paper, where given.</param>
public sealed record BottleReceipt(EntryNumber Entry, DateOnly Day, Account Into, Category Category, Volume About, string? Supplier, string? Document);

/// <summary>What is in a bottling: every delivery of material, and every receipt of must or wine.</summary>
/// <param name="Bottling">The bottling.</param>
/// <param name="Sources">Deliveries, by material and delivery.</param>
/// <param name="Receipts">Receipts, in book order.</param>
public sealed record BottleTrace(string Bottling, IReadOnlyList<BottleSource> Sources, IReadOnlyList<BottleReceipt> Receipts)
{
    /// <summary>The trace of a bottling; null when there is none of that code.</summary>
    public static BottleTrace? Of(Book.Book book, string bottling)
    {
        if (book.Now.Bottling(bottling) is null) return null;
        var way = new WayIntoBottles(bottling);
        foreach (var page in book.Pages)
            foreach (var deed in page.Deeds) way.Read(deed);
        var sums = new Dictionary<(Account From, Account? Through), (double Units, MaterialUnit Unit, SortedSet<long> Entries, bool Assumed)>();
        var receipts = new List<BottleReceipt>();
        way.GoBack(
            (deed, posting, share) => Use(deed, posting, posting.From, null, posting.Material.Units * share, posting.MaterialUnit!.Value),
            (deed, posting, share) =>
            {
                var volume = new Volume((long)Math.Round(posting.Volume.Microlitres * share));
                if (volume.IsPositive) receipts.Add(new(new(deed.Entry), deed.Day, posting.To, posting.Category, volume, deed.Operation?.Supplier, deed.Operation?.Document));
            });
        receipts.Reverse();
        return new(bottling,
            [.. sums.Select(pair => new BottleSource(pair.Key.From, book.Materials.Find(pair.Key.From.Material!), new((long)Math.Round(pair.Value.Units * 1_000_000)), pair.Value.Unit, [.. pair.Value.Entries.Select(entry => new EntryNumber(entry))], pair.Value.Assumed, pair.Key.Through)
                { Facts = book.Now.At(pair.Key.From).Delivery }).Where(source => !source.About.IsNil).OrderBy(source => source.From.ToString(), StringComparer.Ordinal)],
            receipts);

        void Use(Deed deed, Posting posting, Account from, Account? through, double units, MaterialUnit unit)
        {
            var key = (from, through);
            var (sum, _, entries, assumed) = sums.TryGetValue(key, out var known) ? known : (0, unit, [], false);
            entries.Add(deed.Entry);
            sums[key] = (sum + units, unit, entries, assumed || posting.Category.Code == "MATERIAL_USED_ASSUMED");
            if (book.Now.At(from).Delivery is not { MixedFrom.IsEmpty: false } mix) return;
            // Of a mix each part is in it by its share of all that was made.
            foreach (var part in mix.MixedFrom)
                Use(deed, posting, part.From, from, units * part.Amount.Units / mix.Amount.Units, book.Materials.Find(part.From.Material!)?.Unit ?? unit);
        }
    }
}

/// <summary>
/// Goes back from a bottling over all postings before it: of what lay in a place, so much ended in these bottles. One share a place, so it costs a
/// step a posting, however many deliveries there are. The rules are the fold's: by volume, but nothing dosed evaporates.
/// </summary>
internal sealed class WayIntoBottles(string bottling)
{
    private readonly List<Step> steps = [];
    private readonly Dictionary<(string Name, string Place, Section Section), int> numbers = [];
    private readonly List<long> volumes = [];
    private readonly List<bool> ends = [];
    private readonly HashSet<long> takenBack = [];

    private enum Way : byte
    {
        Moves,
        StartsProcess,
        Use,
        Receipt,
    }

    private readonly record struct Step(Deed Deed, int At, int From, int To, double Part, Way Way);

    /// <summary>Reads a deed, in book order.</summary>
    public void Read(Deed deed)
    {
        if (deed.TakesBack is { } taken) takenBack.Add(taken);
        Int128 balance = 0;
        var start = 0;
        var shrinks = deed.Postings.Any(posting => Folding.StaysOf(posting.To) == Stays.Doses);
        for (var i = 0; i < deed.Postings.Count; i++)
        {
            var posting = deed.Postings[i];
            if (posting.Category.IsOfStores)
            {
                if (posting.To.WineUsedIn is { } wine) steps.Add(new(deed, i, Number(wine), 0, 0, Way.Use));
                continue;
            }
            if (posting.Volume.IsNil) continue;
            var volume = posting.Volume.Microlitres;
            var (from, to) = (Side(posting.From, posting.To), Side(posting.To, posting.From));
            if (posting.From.Section == Section.Process)
            {
                balance -= volume;
                if (posting.To.IsStock) steps.Add(new(deed, i, from, to, Share(volume, Folding.MeasuredOut(deed, start, i).Microlitres), Way.Moves));
            }
            else if (posting.From.IsStock)
            {
                var starts = posting.To.Section == Section.Process && balance == 0;
                if (starts) start = i;
                var stays = Folding.StaysOf(posting.To) == Stays.Doses && volume < volumes[from];
                var whole = !shrinks || Folding.StaysOf(posting.To) == Stays.Doses ? volumes[from] : volumes[from] - Folding.ShrinksLater(deed, i, posting.From).Microlitres;
                if (!stays) steps.Add(new(deed, i, from, to, Share(volume, whole), starts ? Way.StartsProcess : Way.Moves));
                volumes[from] -= volume;
            }
            else
            {
                var pool = volumes[from];
                if (pool > 0 && posting.To.IsStock) steps.Add(new(deed, i, from, to, Share(volume, pool), Way.Moves));
                if (posting.To.IsStock && posting.From.IsOutside) steps.Add(new(deed, i, to, 0, 0, Way.Receipt));
                volumes[from] = Math.Max(0, pool - volume);
            }
            if (posting.To.Section == Section.Process) balance += volume;
            else volumes[to] += volume;
        }
    }

    /// <summary>Walks back; tells each use and each receipt with the share of it that ended in the bottles.</summary>
    public void GoBack(Action<Deed, Posting, double> use, Action<Deed, Posting, double> receipt)
    {
        var shares = new double[volumes.Count];
        for (var i = 0; i < shares.Length; i++) shares[i] = ends[i] ? 1 : 0;
        for (var k = steps.Count - 1; k >= 0; k--)
        {
            var (deed, at, from, to, part, way) = steps[k];
            if (way is Way.Use or Way.Receipt)
            {
                if (shares[from] == 0) continue;
                if (way == Way.Receipt) receipt(deed, deed.Postings[at], shares[from]);
                // What was taken back is in no bottle, wherever the wine went meanwhile.
                else if (!takenBack.Contains(deed.Entry)) use(deed, deed.Postings[at], shares[from]);
                continue;
            }
            if (!ends[from]) shares[from] = (1 - part) * shares[from] + part * shares[to];
            // What lay in the process before it began was nothing.
            if (way == Way.StartsProcess) shares[to] = 0;
        }
    }

    private static double Share(long part, long whole) => whole <= 0 || part >= whole ? 1 : (double)part / whole;

    private int Number(Account account) => Number((account.Name, account.Place, account.Section), account.Section == Section.Bottled && account.Name == bottling);

    /// <summary>A stock account, the process, or what went of one lot to one counter-account.</summary>
    private int Side(Account account, Account other) =>
        account.IsStock || account.Section == Section.Process ? Number(account) : Number((account.Name, other.IsStock ? other.Name : "", Section.None), false);

    private int Number((string Name, string Place, Section Section) key, bool isEnd)
    {
        if (numbers.TryGetValue(key, out var number)) return number;
        numbers.Add(key, number = volumes.Count);
        volumes.Add(0);
        ends.Add(isEnd);
        return number;
    }
}
