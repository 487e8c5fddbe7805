using Cellarbook.Core.Limits;
using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Book;

public sealed partial class Book
{
    private readonly SortedDictionary<string, LimitSet> ownLimits = new(StringComparer.Ordinal);

    /// <summary>Limit sets of the maker's own, the newest of each code, expired ones included.</summary>
    public IReadOnlyCollection<LimitSet> OwnLimits => ownLimits.Values;

    /// <summary>
    /// The sets that the book's wine answers to: the laws of its regimes, and its own sets that haven't expired. A household answers to packets
    /// and house rules alone.
    /// </summary>
    /// <param name="day">The day it is asked on.</param>
    /// <param name="withLaw">True to hold it against every law and recommendation too, whether or not the book answers to it.</param>
    public IReadOnlyList<LimitSet> LimitsInForce(DateOnly day, bool withLaw = false) =>
    [
        .. LawSets.All.Where(set => withLaw || (Premises?.Regimes ?? []).Intersect(set.Regimes).Any()),
        .. ownLimits.Values.Where(set => set.Expires is null || set.Expires >= day),
    ];

    /// <summary>Every limit set there is: laws and recommendations, the maker's own, what packets allow.</summary>
    public IEnumerable<LimitSet> EveryLimitSet => LawSets.All.Concat(OwnLimits).Concat(PacketLimits);

    /// <summary>What packets allow: those of which something is in wine that lies here, and those of the maker's own materials.</summary>
    public IReadOnlyList<LimitSet> PacketLimits => [.. PacketsHeld.Concat(materials.All.Where(material => material.IsOwn).Select(material => material.Packet).OfType<LimitSet>()).Distinct().OrderBy(set => set.Code, StringComparer.Ordinal)];

    /// <summary>What the packets allow of which something is in wine that lies here: they hold for that wine by themselves.</summary>
    public IEnumerable<LimitSet> PacketsHeld => now.Places.Where(place => !place.IsEmpty).SelectMany(place => place.Notes.Packets).Distinct();

    /// <summary>Goes through the deeds of some days in book order, each with the cellar before and after it.</summary>
    internal void Walk(DateOnly from, DateOnly to, Action<Deed, Cellar> before, Action<Deed, Cellar> after)
    {
        var (start, cellar) = checkpoints.Before(from);
        var fork = cellar.Fork();
        var folding = new Folding(fork, _ => null, EffectsOf, materials.Find) { Undosing = deed => Undose(deed, pages.Count, null) };
        var (effects, violations) = (new List<Effect>(), new List<Violation>());
        for (var i = FirstPageFrom(start); i < pages.Count && pages[i].Day <= to; i++)
            foreach (var deed in pages[i].Deeds)
            {
                effects.Clear();
                if (pages[i].Day >= from) before(deed, fork);
                folding.Apply(deed, effects, violations);
                if (pages[i].Day >= from) after(deed, fork);
            }
    }

    /// <summary>Holds what a trial touched against the limits, before and after: what becomes an excess needs a reason (law 11), and is flagged.</summary>
    private void JudgeLimits(Trial trial, IReadOnlyCollection<Pending> pending, List<Refusal> refusals, List<Flag> flags)
    {
        if (trial.After is not { } after || pending.Count == 0 || pending.All(item => item.IsImported)) return;
        var day = pending.Max(item => item.Deed.Day);
        var sets = LimitsInForce(day);
        var touched = new HashSet<Account>();
        foreach (var item in pending)
        {
            foreach (var posting in item.Deed.Postings)
            {
                Touch(posting.From);
                Touch(posting.To);
                if (posting.To.WineUsedIn is { } wine) Touch(wine);
            }
            foreach (var account in item.Operation.NotedAt(after)) Touch(account);
        }
        // A late entry reaches further than its own accounts.
        if (trial.Refolded is not null)
            foreach (var place in after.Places)
                if (place.Carried is not null && !ReferenceEquals(place.Carried, now.At(place.Account).Carried)) Touch(place.Account);
        if (!touched.Any(account => after.At(account) is var place && Speaks(place) && (sets.Count > 0 || !place.Notes.Packets.IsEmpty))) return;

        var before = Standing(now, touched, sets);
        var judged = Standing(after, touched, sets);
        // What was over and only shrinks, moves or is blended needs no new reason; what is added to it does.
        var adds = pending.Any(item => item.Deed.Postings.Any(posting => posting.To.WineUsedIn is not null));
        var over = judged.Values.Where(verdict => verdict.Kind == VerdictKind.Over && before.GetValueOrDefault(Key(verdict)) is var known && (known?.Kind != VerdictKind.Over || (adds && IsWorse(verdict, known)))).ToArray();
        trial.Limits = [.. judged.Values];
        foreach (var verdict in over.Take(MostListed)) flags.Add(new("over_limit", Judged(verdict)));
        foreach (var verdict in judged.Values.Where(verdict => verdict.Kind == VerdictKind.Near && before.GetValueOrDefault(Key(verdict))?.Kind is not (VerdictKind.Near or VerdictKind.Over)).Take(MostListed))
            flags.Add(new("near_limit", Judged(verdict)));
        foreach (var verdict in judged.Values.Where(verdict => verdict.Kind == VerdictKind.CannotSay && verdict.Row is null or { Kind: LimitKind.Max or LimitKind.Prohibited } && IsInOne(verdict.Substance) && before.GetValueOrDefault(Key(verdict))?.Kind != VerdictKind.CannotSay).Take(MostListed))
            flags.Add(new("limit_unknown", Judged(verdict)));
        AskReason(trial, pending, over, refusals, flags);

        // What nobody added or measured is open all along; it isn't said again with every entry.
        bool IsInOne(Substance substance) => touched.Any(account => after.At(account).Carried?.Of(substance) is not null);

        void Touch(Account account)
        {
            if (account.Section is Section.Must or Section.Bulk or Section.Bottled) touched.Add(account);
        }
    }

    private static void AskReason(Trial trial, IEnumerable<Pending> pending, IReadOnlyList<Verdict> over, List<Refusal> refusals, List<Flag> flags)
    {
        if (over.Count == 0) return;
        // A slip of the unit is told before a reason is made up for it.
        Sentence said = flags.Find(flag => flag.Code == "dose_above_usual") is { } unusual ? $"{unusual.Sentence} {Judged(over[0])}" : Judged(over[0]);
        foreach (var item in pending)
            if (NeedsReason(item.Operation) && string.IsNullOrWhiteSpace(item.Operation.Reason) && item.Operation.Flags?.Any(flag => flag.Code == "over_limit" && !string.IsNullOrWhiteSpace(flag.Reason)) != true && string.IsNullOrWhiteSpace((trial.Entries[0].Operation as Correct)?.Reason))
                refusals.Add(new(RefusalCode.ReasonNeeded, item.Prefix + "reason", $"{said} Give a reason and it is recorded."));
    }

    /// <summary>
    /// Holds what goes to other people against the limits as for the market: an excess is flagged each time and needs its reason each time, and
    /// what was only added and never measured can't be said. Nothing that is only missing stands in the way (law 11).
    /// </summary>
    private void JudgeRelease(Trial trial, IReadOnlyCollection<Pending> pending, List<Refusal> refusals, List<Flag> flags)
    {
        if (trial.Leaving.Count == 0) return;
        var released = pending.Where(item => item.Mirrors is null && item.Operation.Releases).ToArray();
        var verdicts = Released(trial.Leaving, LimitsInForce(released.Max(item => item.Deed.Day)));
        trial.Limits = [.. trial.Limits.Where(verdict => !verdicts.ContainsKey(Key(verdict))), .. verdicts.Values];
        flags.AddRange(ReleaseFlags(verdicts.Values));
        var over = verdicts.Values.Where(verdict => verdict.Kind == VerdictKind.Over).ToArray();
        AskReason(trial, released, over, refusals, flags);
    }

    /// <summary>What was remarked of an entry by which wine went to other people, found again: as the wine stood then, against the limits of that day.</summary>
    public IReadOnlyList<Flag> ReleaseFlags(EntryNumber number)
    {
        var leaving = new List<Place>();
        foreach (var deed in Find(number.Number)?.Deeds.Where(deed => deed.Operation?.Releases == true) ?? [])
            Walk(deed.Day, deed.Day, (other, cellar) =>
            {
                if (other == deed) leaving.AddRange(GivenFrom(deed.Postings, cellar));
            }, (_, _) => { });
        return leaving.Count == 0 ? [] : [.. ReleaseFlags(Released(leaving, LimitsInForce(Find(number.Number)!.Day)).Values)];
    }

    /// <summary>The worst verdict on each limit among places whose wine goes out.</summary>
    private static Dictionary<(string, Substance, LimitBasis, Substance?, bool, string?), Verdict> Released(IEnumerable<Place> leaving, IReadOnlyList<LimitSet> sets)
    {
        return Worst(leaving.Where(place => sets.Count > 0 || !place.Notes.Packets.IsEmpty).DistinctBy(place => place.Account), sets, forRelease: true);
    }

    /// <summary>What of stock some postings give from, as it lies.</summary>
    private static IEnumerable<Place> GivenFrom(IEnumerable<Posting> postings, Cellar cellar) =>
        postings.Select(posting => posting.From).Where(from => from.Section is Section.Must or Section.Bulk or Section.Bottled).Select(cellar.At);

    private static IEnumerable<Flag> ReleaseFlags(IReadOnlyCollection<Verdict> verdicts)
    {
        foreach (var verdict in verdicts.Where(verdict => verdict.Kind == VerdictKind.Over).Take(MostListed)) yield return new("over_limit", Judged(verdict));
        foreach (var set in verdicts.Where(verdict => verdict.Kind == VerdictKind.CannotSay).GroupBy(verdict => verdict.Set))
            yield return new("release_unknown", $"{Sentence.Seed(set.Key.Name)}: for wine that goes to other people it can't be said without: {Sentence.Join("; ", set.SelectMany(Lacking).Distinct())}.");
    }

    /// <summary>What is missing, in words of the cellar: a measurement by what it is of, a fact by its name.</summary>
    private static IEnumerable<Sentence> Lacking(Verdict verdict) => verdict.Missing.DefaultIfEmpty(verdict.Substance.Said)
        .Select(missing => verdict.Substance.Reading.Length > 0 && missing.ToString().EndsWith($"({verdict.Substance.Reading})", StringComparison.Ordinal) ? (Sentence)$"{verdict.Substance.Said}, measured" : missing);

    // What is only read, told or moved about the book makes no excess; an analysis finds one and can't be sent away.
    private static bool NeedsReason(Operation operation) => operation is not (Imported or Measure or Describe or Observe or Correct or Gauge or Regauge or Count or DeclareWine or Open);

    private static bool Speaks(Place place) => place.Carried is not null || !place.Notes.Readings.IsEmpty;

    private static (string, Substance, LimitBasis, Substance?, bool, string?) Key(Verdict verdict) => (verdict.Set.Code, verdict.Substance, verdict.Basis, verdict.Row?.With, verdict.Row?.Kind == LimitKind.Min, verdict.Row?.Scheme);

    /// <summary>The worst verdict on each limit among some places, as they stand in a cellar.</summary>
    private static Dictionary<(string, Substance, LimitBasis, Substance?, bool, string?), Verdict> Standing(Cellar cellar, IEnumerable<Account> accounts, IReadOnlyList<LimitSet> sets) =>
        Worst(accounts.Select(cellar.At).Where(Speaks), sets, forRelease: false);

    private static Dictionary<(string, Substance, LimitBasis, Substance?, bool, string?), Verdict> Worst(IEnumerable<Place> places, IReadOnlyList<LimitSet> sets, bool forRelease)
    {
        var worst = new Dictionary<(string, Substance, LimitBasis, Substance?, bool, string?), Verdict>();
        foreach (var wine in places.Select(WineOfPlace.Of).OfType<WineRecord>())
            foreach (var verdict in Judgement.Of(sets, wine, forRelease).SelectMany(set => set.Verdicts))
                if (!worst.TryGetValue(Key(verdict), out var known) || IsWorse(verdict, known)) worst[Key(verdict)] = verdict;
        return worst;
    }

    private static bool IsWorse(Verdict verdict, Verdict? known) =>
        known is null || verdict.Kind > known.Kind || (verdict.Kind == known.Kind && (verdict.Excess?.NanogramsPerLitre ?? 0) > (known.Excess?.NanogramsPerLitre ?? 0));

    private static Sentence Judged(Verdict verdict) => $"{Sentence.Seed(verdict.Set.Name)}: {verdict.Substance.Said} {LimitWords.Spoken(verdict.Basis)}: {verdict.Arithmetic}";
}
