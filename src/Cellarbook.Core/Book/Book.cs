using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>An event of an earlier import, as found in storage.</summary>
public sealed record KnownEvent(long Entry, Imported Operation);

/// <summary>
/// The whole book in memory: entries by number, pages by day, the cellar they add up to. What is to be recorded is first tried on a fork
/// (<see cref="Propose"/>), stored by the host, and then accepted. Not safe for use by several threads while accepting.
/// </summary>
public sealed partial class Book
{
    private readonly EntryList entries = new();
    private readonly Dictionary<string, VesselFacts> vessels = new(StringComparer.Ordinal);
    private readonly Stores.Catalogue materials = new();
    private readonly Checkpoints checkpoints = new();
    private List<Page> pages = [];
    private Cellar now = new();
    private int deeds;
    private int deedsAtCheckpoint;
    private DateOnly? openingDay;
    // The bygone day last asked for, as it ended; a change that reaches it forgets it.
    private volatile Bygone? bygone;

    /// <summary>Finds an imported event by its id; the host looks it up in storage.</summary>
    public Func<string, KnownEvent?> FindEvent { get; init; } = _ => null;

    /// <summary>True for the number of a contact whose text is there; the host keeps them.</summary>
    public Func<int, bool> KnowsContact { get; set; } = _ => false;

    /// <summary>Entries in order of number; entry n stands at n − 1.</summary>
    public IReadOnlyList<Entry> Entries => entries;

    /// <summary>Days of the book, in order.</summary>
    public IReadOnlyList<Page> Pages => pages;

    /// <summary>The state at the end of the book.</summary>
    public Cellar Now => now;

    /// <summary>Vessels made, by code.</summary>
    public IReadOnlyDictionary<string, VesselFacts> Vessels => vessels;

    /// <summary>Every material known: the catalogue's and the maker's own.</summary>
    public Stores.Catalogue Materials => materials;

    /// <summary>Who the book is for; null until said.</summary>
    public Premises? Premises { get; private set; }

    /// <summary>True for a book that answers to no authority.</summary>
    public bool IsHousehold => Premises?.Regimes is null || Premises.Regimes.Contains("household");

    /// <summary>True once an entry stated a price or a cost.</summary>
    public bool HasPrices { get; private set; }

    /// <summary>The last day of the closed period; null while nothing is closed.</summary>
    public DateOnly? ClosedThrough { get; private set; }

    /// <summary>The book's first day; null while it is empty.</summary>
    public DateOnly? FirstDay => pages.Count == 0 ? null : pages[0].Day;

    /// <summary>Number of the last entry.</summary>
    public long LastNumber => entries.Count;

    /// <summary>What statements remember of earlier months; forgotten where a change reaches.</summary>
    internal Statements.MonthMemory Memory { get; } = new();

    /// <summary>The entry of that number, or null.</summary>
    public Entry? Find(long number) => number >= 1 && number <= entries.Count ? entries[(int)number - 1] : null;

    /// <summary>True for an entry that was taken back while its period was open: the fold leaves it out.</summary>
    public bool IsLeftOut(Entry entry) => entry.TakenBackBy is { } by && Find(by)!.LeavesOut;

    /// <summary>Index of the first page on or after a day.</summary>
    public int FirstPageFrom(DateOnly day) => FirstPageFrom(pages, day);

    /// <summary>The state at the end of a day.</summary>
    public Cellar AsOf(DateOnly day)
    {
        if (pages.Count == 0 || day >= pages[^1].Day) return now;
        if (bygone is { } known && known.Day == day) return known.Cellar;
        var (from, cellar) = checkpoints.Before(day.AddDays(1));
        var fork = cellar.Fork();
        var folding = new Folding(fork, _ => null, EffectsOf, materials.Find) { Undosing = deed => Undose(deed, pages.Count, null) };
        var (effects, violations) = (new List<Effect>(), new List<Violation>());
        for (var i = FirstPageFrom(from); i < pages.Count && pages[i].Day <= day; i++)
            foreach (var deed in pages[i].Deeds)
            {
                effects.Clear();
                folding.Apply(deed, effects, violations);
            }
        bygone = new(day, fork);
        return fork;
    }

    /// <summary>What the fold saw an entry do; nothing for one that was taken back while its period was open.</summary>
    public IReadOnlyList<Effect> EffectsOf(long number) =>
        Find(number) is { } entry ? EffectsOf(entry, pages) : [];

    /// <summary>Nominal size of a bottling that is or was in the book.</summary>
    internal Volume SizeOf(string bottling) => now.Bottling(bottling)!.Size;

    /// <summary>Measurements of an entry that no longer agree with what stands before it (law 4).</summary>
    public IEnumerable<Disagreement> DisagreementsOf(Entry entry) =>
        entry.Deeds.Select(deed => deed.Day).Distinct().SelectMany(day => PageOn(pages, day)?.Disagreements ?? []).Where(disagreement => disagreement.Entry == entry.Number);

    /// <summary>
    /// A correction of an entry with what it says unchanged: its differences are found anew against the book as it stands (law 4). Null for an
    /// entry that can't be written again.
    /// </summary>
    /// <param name="number">The entry, such as one that no longer agrees.</param>
    /// <param name="day">The day the correction is filed under.</param>
    public Correct? ReadyCorrection(long number, DateOnly day)
    {
        Operation[] again = [.. Find(number)?.Deeds.Where(deed => deed is { TakesBack: null, Operation: not (null or Imported) }).Select(deed => deed.Operation!) ?? []];
        return again.Length == 0 ? null : new Correct { Day = day, TakesBack = new(number, null), Reason = "What it was measured against has changed.", Write = again };
    }

    /// <summary>Every measurement that no longer agrees.</summary>
    public IEnumerable<Disagreement> Disagreements => pages.SelectMany(page => page.Disagreements);

    /// <summary>
    /// Builds a book from stored entries, in order of number. What breaks a law is reported, not refused: it is there.
    /// </summary>
    public static Book Load(IEnumerable<Entry> stored, Func<string, KnownEvent?>? findEvent, List<Violation> violations)
    {
        var book = findEvent is null ? new Book() : new Book { FindEvent = findEvent };
        var days = new SortedDictionary<DateOnly, List<Deed>>();
        foreach (var entry in stored)
        {
            book.entries.Add(entry);
            book.Note(entry);
            var slots = entry.LeavesOut && entry.TakesBack is { } taken ? TakeOut(book.entries[(int)taken - 1].Deeds, days) : null;
            foreach (var deed in entry.Deeds) Page.Insert(DeedsOn(days, deed.Day), deed, SlotFor(slots, deed));
        }
        var folding = new Folding(book.now, book.CapacityOf, number => EffectsOf(book.entries[(int)number - 1], book.pages), book.materials.Find) { Undosing = deed => book.Undose(deed, book.pages.Count, null) };
        var wanted = Checkpoints.Wanted(days.Values.Sum(list => list.Count));
        foreach (var (day, list) in days)
        {
            if (list.Count == 0) continue;
            if (Checkpoints.IsDue(wanted, book.deeds)) book.Checkpoint(day);
            var page = new Page(day) { Deeds = list };
            book.pages.Add(page);
            foreach (var deed in list) folding.Apply(deed, page.Effects, violations, page.Disagreements);
            book.deeds += list.Count;
            page.Effects.TrimExcess();
        }
        book.openingDay = OpeningDay(book.pages);
        return book;
    }

    /// <summary>Makes a trial part of the book. The host has stored its entries by now.</summary>
    public void Accept(Trial trial)
    {
        if (!trial.IsGood) throw new InvalidOperationException("A refused trial can't be accepted.");
        if (bygone?.Day >= trial.FirstChanged) bygone = null;
        if (trial.Refolded is { } refolded)
        {
            var keep = FirstPageFrom(trial.FirstChanged);
            pages = [.. pages.Take(keep), .. refolded];
            now = trial.After!;
            checkpoints.Forget(trial.FirstChanged);
            deeds = pages.Sum(page => page.Deeds.Count);
            foreach (var (day, cellar) in trial.Checkpoints) checkpoints.Keep(day, pages.Take(FirstPageFrom(day)).Sum(page => page.Deeds.Count), cellar);
            deedsAtCheckpoint = deeds;
        }
        else if (trial.After is { } after)
        {
            foreach (var (day, cellar) in trial.Checkpoints) checkpoints.Keep(day, deeds, cellar);
            if (trial.Checkpoints.Count > 0) deedsAtCheckpoint = deeds;
            else if (deeds - deedsAtCheckpoint >= Checkpoints.Spacing && trial.Appended.Count > 0 && trial.Appended[0].Day > pages[^1].Day) Checkpoint(trial.Appended[0].Day);
            now.Absorb(after);
            foreach (var page in trial.Appended)
            {
                if (pages.Count > 0 && pages[^1].Day == page.Day)
                {
                    pages[^1].Deeds.AddRange(page.Deeds);
                    pages[^1].Effects.AddRange(page.Effects);
                    pages[^1].Disagreements.AddRange(page.Disagreements);
                }
                else pages.Add(page);
                deeds += page.Deeds.Count;
            }
        }
        foreach (var entry in trial.Entries)
        {
            if (entry.IsImported) (entry.Operation, entry.EventId) = (null, null);
            entries.Add(entry);
            Note(entry);
        }
        if (trial.FirstChanged != DateOnly.MaxValue)
        {
            openingDay = OpeningDay(pages);
            Memory.Forget(trial.FirstChanged);
        }
    }

    /// <summary>Takes note of what an entry says about the book itself, and of what it takes back.</summary>
    private void Note(Entry entry)
    {
        if (entry.TakesBack is { } taken) entries.TakenBack(taken, entry.Number);
        if (entry.Operation is Mix or Correct)
            foreach (var mix in entry.Deeds.Select(deed => deed.Operation).OfType<Mix>())
                if (materials.Find(mix.Material!) is null) materials.Put(mix.Made);
        if (entry.Operation is { HasPrice: true } || (entry.Operation as Correct)?.Write?.Any(operation => operation.HasPrice) == true) HasPrices = true;
        switch (entry.Operation)
        {
            case Vessel vessel:
                vessels[vessel.Code!] = vessel.Facts(vessels.GetValueOrDefault(vessel.Code!), entry.Number);
                break;
            case DescribeMaterial described:
                materials.Put(described.Material);
                break;
            case Operations.Premises premises:
                Premises = premises;
                break;
            case StateLimits limits:
                ownLimits[limits.Code!] = limits.Set;
                break;
            case Close { Through: { } through } when ClosedThrough is null || through > ClosedThrough:
                ClosedThrough = through;
                break;
        }
    }

    private Volume? CapacityOf(string vessel) => vessels.GetValueOrDefault(vessel)?.Capacity;

    private void Checkpoint(DateOnly day)
    {
        checkpoints.Keep(day, deeds, now.Flat());
        deedsAtCheckpoint = deeds;
    }

    private sealed record Bygone(DateOnly Day, Cellar Cellar);

    private static IReadOnlyList<Effect> EffectsOf(Entry entry, List<Page> pages)
    {
        var effects = new List<Effect>();
        foreach (var day in entry.Deeds.Select(deed => deed.Day).Distinct()) AddEffects(entry, PageOn(pages, day), effects);
        return effects;
    }

    private static void AddEffects(Entry entry, Page? page, List<Effect> effects)
    {
        if (page is null) return;
        foreach (var effect in page.Effects)
            if (effect.Deed.Entry == entry.Number) effects.Add(effect);
    }

    private static Page? PageOn(List<Page> pages, DateOnly day)
    {
        var at = FirstPageFrom(pages, day);
        return at < pages.Count && pages[at].Day == day ? pages[at] : null;
    }

    private static int FirstPageFrom(List<Page> pages, DateOnly day)
    {
        int low = 0, high = pages.Count;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (pages[middle].Day < day) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    /// <summary>The day stock was brought forward on; it can only be the first.</summary>
    private static DateOnly? OpeningDay(List<Page> pages) =>
        pages.Count > 0 && Opens(pages[0]) ? pages[0].Day : null;

    private static bool Opens(Page page) => page.Deeds.Any(deed => deed.Postings.Any(posting => posting.Category.Code == "OPENING"));

    private static List<Deed> DeedsOn(SortedDictionary<DateOnly, List<Deed>> days, DateOnly day)
    {
        if (!days.TryGetValue(day, out var list)) days.Add(day, list = []);
        return list;
    }

    /// <summary>Takes deeds out of their days, remembering the place where each day's first one stood.</summary>
    private static Dictionary<DateOnly, int> TakeOut(IEnumerable<Deed> leftOut, SortedDictionary<DateOnly, List<Deed>> days)
    {
        var slots = new Dictionary<DateOnly, int>();
        foreach (var deed in leftOut.Where(deed => deed.TakesBack is null))
        {
            var list = DeedsOn(days, deed.Day);
            var at = list.IndexOf(deed);
            if (at < 0) continue;
            list.RemoveAt(at);
            slots.TryAdd(deed.Day, at);
        }
        return slots;
    }

    private static int? SlotFor(Dictionary<DateOnly, int>? slots, Deed deed)
    {
        if (slots is null || !slots.TryGetValue(deed.Day, out var at)) return null;
        slots[deed.Day] = at + 1;
        return at;
    }
}
