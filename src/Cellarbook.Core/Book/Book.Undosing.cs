using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

public sealed partial class Book
{
    /// <summary>
    /// Where the doses of an entry lie just before the deed that takes it back: the book is folded anew from the entry's days, its doses told
    /// apart from all others, by the same rules. What else was taken back by then counts as never dosed.
    /// </summary>
    /// <param name="back">The take-back.</param>
    /// <param name="kept">How many of the accepted pages come before what is being folded.</param>
    /// <param name="fresh">Pages that are being folded, after those; null for none.</param>
    private Undosed Undose(Deed back, int kept, IReadOnlyList<Page>? fresh)
    {
        var entry = back.TakesBack!.Value;
        var day = FirstDayOf(entry);
        if (fresh is [var first, ..] && first.Day < day) day = first.Day;
        DateOnly from;
        Cellar start;
        Deed[] deedsBefore;
        // An entry taken back meanwhile may have dosed before that: then the folding begins there, or its doses would count as highest ones.
        do
        {
            (from, start) = checkpoints.Before(day);
            var at = FirstPageFrom(from);
            deedsBefore = [.. pages.Skip(at).Take(Math.Max(0, kept - at)).Concat(fresh ?? []).SelectMany(page => page.Deeds).TakeWhile(deed => deed != back)];
            day = deedsBefore.Where(IsUndosing).Select(deed => FirstDayOf(deed.TakesBack!.Value)).Append(from).Min();
        }
        while (day < from);
        var taken = deedsBefore.Select(deed => deed.TakesBack).OfType<long>().ToHashSet();
        var apart = new Apart(entry, taken);
        var (cellar, effects, unheard, byEntry) = (start.Fork(), new List<Effect>(), new List<Violation>(), new Dictionary<long, List<Effect>>());
        var folding = new Folding(cellar, _ => null, number => byEntry.GetValueOrDefault(number) ?? EffectsOf(entries[(int)number - 1], pages), materials.Find) { Apart = apart };
        foreach (var deed in deedsBefore)
        {
            effects.Clear();
            folding.Apply(deed, effects, unheard);
            if (taken.Contains(deed.Entry)) byEntry[deed.Entry] = [.. byEntry.GetValueOrDefault(deed.Entry) ?? [], .. effects];
        }
        return new(apart, cellar);
    }

    /// <summary>
    /// What a take-back after its period was closed took out of wine that had moved on, in sentences: where it lay by then, and what had left the
    /// cellar with wine. Empty for any other entry, and where nothing had moved.
    /// </summary>
    public IReadOnlyList<Sentence> UndosedBy(EntryNumber number)
    {
        if (Find(number.Number) is not { TakesBack: not null, LeavesOut: false } entry || entry.Deeds.FirstOrDefault(deed => deed.TakesBack is not null) is not { } back) return [];
        return IsUndosing(back) ? TakenOut(back, Undose(back, pages.Count, null)) : [];
    }

    /// <summary>True for what takes an addition back by postings of its own, or sugar and must of which it wasn't said how much sugar they brought.</summary>
    internal static bool IsUndosing(Deed deed) => deed.TakesBack is not null
        && deed.Postings.Any(posting => posting.Category.IsOfStores ? posting.From.WineUsedIn is not null : posting.To == Account.Sugar || posting is { From.Section: Section.Must, Category.Code: "MUST_RECEIVED" });

    private DateOnly FirstDayOf(long entry) => entries[(int)entry - 1].Deeds.Where(deed => deed.TakesBack is null).Min(deed => deed.Day);

    private static IReadOnlyList<Sentence> TakenOut(Deed back, Undosed undosed)
    {
        var first = back.Postings.Where(posting => posting.Category.IsOfStores).Select(posting => posting.From.WineUsedIn).OfType<Account>().ToHashSet();
        var said = new List<Sentence>();
        foreach (var (real, standIn) in undosed.Apart.Brought.Where(pair => pair.Real.Unit == MaterialUnit.Milligrams && pair.Real.Towards.Count > 0 || pair.Real.Role is not ("product" or "practice")).OrderBy(pair => pair.Real.Code, StringComparer.Ordinal))
        {
            var lies = undosed.Cellar.Places.Select(place => (place.Account, Amount: place.Carried?.Of(standIn)?.Added ?? default)).Where(pair => pair.Amount.IsPositive).OrderBy(pair => pair.Account.ToString(), StringComparer.Ordinal).ToArray();
            var left = undosed.Cellar.AllGone.Aggregate(SubstanceAmount.None, (sum, gone) => sum + (gone.Carried?.Of(standIn)?.Added ?? default));
            if (lies.All(pair => first.Contains(pair.Account)) && left.IsNil) continue;
            if (lies.Length > 0) said.Add($"{real.Said}: taken out where the wine had carried it: {Core.Sentence.Join(", ", lies.Select(pair => (Sentence)$"{Grams(pair.Amount):figure} g {Where(pair.Account)}"))}.");
            if (left.IsPositive) said.Add($"{real.Said}: {Grams(left):figure} g had left the cellar with wine by then. The book takes it out of that too; papers that went with the wine stand as they were.");
        }
        return said;
    }

    private static string Grams(SubstanceAmount amount) => ExactNumber.Write((amount.Nanograms + 500_000) / 1_000_000, 3);

    private static Sentence Where(Account account) => account.Section == Section.Bottled ? $"in bottles {account.Name}" : account.Place == Account.Unplaced ? $"in {account.Name}" : (Sentence)$"in {account.Name}, {account.Place}";
}
