using Cellarbook.Core.Importing;
using Cellarbook.Core.Cautions;
using Cellarbook.Core.Operations;

namespace Cellarbook.Core.Book;

public sealed partial class Book
{
    private const int MostListed = 20;

    /// <summary>
    /// Folds pending deeds into their places of book order on a fork, leaving some out, and everything after them anew. Fills the trial.
    /// </summary>
    private void Fold(Trial trial, IReadOnlyCollection<Pending> pending, IReadOnlyList<Deed> leftOut, List<Refusal> refusals)
    {
        var flags = new List<Flag>();
        if (refusals.Count == 0)
        {
            trial.FirstChanged = pending.Select(item => item.Deed.Day).Concat(leftOut.Select(deed => deed.Day)).Min();
            var violations = new List<Violation>();
            try
            {
                if (leftOut.Count == 0 && IsAppend(pending)) Append(trial, pending, refusals, flags, violations);
                else Refold(trial, pending, leftOut, refusals, flags, violations);
            }
            catch (OverflowException)
            {
                // Sums are checked; the fork is dropped with all that was tried on it.
                refusals.Add(new(RefusalCode.TooLargeNumber, "", "Together this is more than the book can count. Check the figures."));
            }
            Explain(trial, pending, violations, refusals);
            CheckOpening(trial, pending, refusals);
            if (refusals.Count == 0) FlagChanges(trial, pending, flags);
            if (refusals.Count == 0) JudgeLimits(trial, pending, refusals, flags);
            if (refusals.Count == 0) JudgeRelease(trial, pending, refusals, flags);
        }
        trial.Refusals = InOrder(refusals);
        trial.Flags = flags;
    }

    private bool IsAppend(IReadOnlyCollection<Pending> pending)
    {
        if (pages.Count == 0) return pending.All(item => item.Deed.Time is null) || pending.Count == 1;
        var last = pages[^1];
        foreach (var item in pending)
            if (item.Deed.Day < last.Day || (item.Deed.Day == last.Day && item.Deed.Time is { } time && last.Deeds.Exists(deed => deed.Time > time))) return false;
        return pending.Count == 1 || pending.All(item => item.IsImported);
    }

    private void Append(Trial trial, IReadOnlyCollection<Pending> pending, List<Refusal> refusals, List<Flag> flags, List<Violation> violations)
    {
        var fork = now.Fork();
        var folding = new Folding(fork, CapacityOf, number => EffectsWith(trial, number, trial.Appended), materials.Find) { Undosing = deed => trial.Undosed[deed] = Undose(deed, pages.Count, trial.Appended) };
        var wanted = Checkpoints.Wanted(pending.Count);
        var folded = 0;
        Page? page = null;
        foreach (var item in pending)
        {
            if (page is null || page.Day != item.Deed.Day)
            {
                if (page is not null && Checkpoints.IsDue(wanted, folded)) trial.Checkpoints.Add((item.Deed.Day, fork.Flat()));
                page?.Effects.TrimExcess();
                trial.Appended.Add(page = new(item.Deed.Day));
            }
            folded++;
            page.Deeds.Add(item.Deed);
            Step(trial, item, fork, folding, page, refusals, flags, violations);
            if (refusals.Count + violations.Count >= MostListed) break;
        }
        trial.After = fork;
    }

    private void Refold(Trial trial, IReadOnlyCollection<Pending> pending, IReadOnlyList<Deed> leftOut, List<Refusal> refusals, List<Flag> flags, List<Violation> violations)
    {
        var days = new SortedDictionary<DateOnly, List<Deed>>();
        foreach (var day in pending.Select(item => item.Deed.Day).Concat(leftOut.Select(deed => deed.Day)).Distinct())
            days.Add(day, [.. PageOn(pages, day)?.Deeds ?? []]);
        var slots = TakeOut(leftOut, days);
        foreach (var item in pending) Page.Insert(days[item.Deed.Day], item.Deed, SlotFor(slots, item.Deed));

        var (from, cellar) = checkpoints.Before(trial.FirstChanged);
        var fork = cellar.Fork();
        var refolded = trial.Refolding = [];
        var folding = new Folding(fork, CapacityOf, number => EffectsWith(trial, number, refolded), materials.Find) { Undosing = deed => trial.Undosed[deed] = Undose(deed, FirstPageFrom(trial.FirstChanged), refolded) };
        var byDeed = pending.ToDictionary(item => item.Deed);
        var (scratch, unheard) = (new List<Effect>(), new List<Violation>());
        var i = FirstPageFrom(from);
        var wanted = Checkpoints.Wanted(pages.Skip(i).Sum(page => page.Deeds.Count));
        var folded = 0;
        for (; i < pages.Count && pages[i].Day < trial.FirstChanged; i++)
            foreach (var deed in pages[i].Deeds)
            {
                scratch.Clear();
                folding.Apply(deed, scratch, unheard);
                folded++;
            }
        // Old pages and changed days, merged in order.
        using var changed = days.GetEnumerator();
        var more = changed.MoveNext();
        while (i < pages.Count || more)
        {
            List<Deed> list;
            DateOnly day;
            if (more && (i >= pages.Count || changed.Current.Key <= pages[i].Day))
            {
                (day, list) = changed.Current;
                if (i < pages.Count && pages[i].Day == day) i++;
                more = changed.MoveNext();
            }
            else (day, list) = (pages[i].Day, pages[i++].Deeds);
            if (list.Count == 0) continue;
            if (Checkpoints.IsDue(wanted, folded)) trial.Checkpoints.Add((day, fork.Flat()));
            folded += list.Count;
            var page = new Page(day) { Deeds = list };
            refolded.Add(page);
            foreach (var deed in list)
            {
                if (byDeed.TryGetValue(deed, out var item)) Step(trial, item, fork, folding, page, refusals, flags, violations);
                else folding.Apply(deed, page.Effects, violations, page.Disagreements);
            }
            if (refusals.Count > 0 || violations.Count >= MostListed) return;
        }
        trial.Refolded = refolded;
        trial.After = fork.Flat();
    }

    /// <summary>Decides one pending deed on the state before it, applies it, and holds told classes against the result.</summary>
    private void Step(Trial trial, Pending item, Cellar cellar, Folding folding, Page page, List<Refusal> refusals, List<Flag> flags, List<Violation> violations)
    {
        var operation = item.Operation;
        var imported = operation as Imported;
        if (item.Mirrors is { } original)
            item.Deed.Postings = [.. original.Deeds.Where(deed => deed.TakesBack is null).SelectMany(deed => deed.Postings).Select(posting => posting.TakenBack()).Reverse()];
        else
        {
            var deciding = new Deciding(cellar, vessels, materials, operation, item.Prefix);
            operation.Decide(deciding);
            flags.AddRange(deciding.Flags);
            if (deciding.Refused)
            {
                refusals.AddRange(deciding.Refusals);
                return;
            }
            item.Deed.Postings = [.. deciding.Postings];
            if (imported is null)
            {
                trial.Said[item.Deed] = deciding.Said;
                Caution(trial, item, cellar, flags);
                if (operation.Releases) trial.Leaving.AddRange(GivenFrom(deciding.Postings, cellar));
            }
            // What the file stated is stored; in memory only treatments are needed again.
            else if (imported.Rows!.Any(row => Category.Of(row.Category).MovesNothing)) item.Deed.Operation = imported;
        }
        var before = page.Effects.Count;
        folding.Apply(item.Deed, page.Effects, violations, page.Disagreements);
        if (imported?.Told is not null && item.Mirrors is null) refusals.AddRange(ClassesTold.Check(imported, page.Effects.GetRange(before, page.Effects.Count - before)));
    }

    private void Caution(Trial trial, Pending item, Cellar cellar, List<Flag> flags)
    {
        var heeded = CautionSheet.For(item.Operation, cellar, item.Deed.Postings, IsHousehold, materials);
        trial.Cautions = [.. trial.Cautions.UnionBy(heeded, one => one.Caution).OrderByDescending(one => one.IsLoud)];
        if (string.IsNullOrWhiteSpace(item.Operation.Reason))
            foreach (var one in heeded.Where(one => one.IsLoud && one.Caution.AsksReason)) flags.Add(new("reason_asked", $"{one.Caution.Head}: say in the reason why it is safe here."));
    }

    private Entry EntryWith(Trial trial, long number) => Find(number) ?? trial.Entries[(int)(number - LastNumber) - 1];

    private IReadOnlyList<Effect> EffectsWith(Trial trial, long number, List<Page> fresh)
    {
        var entry = EntryWith(trial, number);
        // An entry may lie partly in days that stay and partly in days that are folded anew.
        var effects = new List<Effect>();
        foreach (var day in entry.Deeds.Select(deed => deed.Day).Distinct())
        {
            if (number <= LastNumber && (trial.Refolding is null || day < trial.FirstChanged)) AddEffects(entry, PageOn(pages, day), effects);
            AddEffects(entry, PageOn(fresh, day), effects);
        }
        return effects;
    }

    /// <summary>Turns breaches into refusals: one's own as such, those of later entries as their list.</summary>
    private void Explain(Trial trial, IReadOnlyCollection<Pending> pending, List<Violation> violations, List<Refusal> refusals)
    {
        if (violations.Count == 0) return;
        foreach (var violation in violations.Where(violation => violation.Entry > LastNumber))
        {
            var operation = EntryWith(trial, violation.Entry).Operation as Imported;
            refusals.Add(new(violation.Code, operation is null ? PathOf(violation, trial, pending) : "volume_ml", violation.Sentence) { Row = operation is null ? null : RowOf(operation, violation) });
        }
        var later = violations.Where(violation => violation.Entry <= LastNumber).DistinctBy(violation => violation.Entry).Take(MostListed).ToArray();
        if (later.Length == 0 || refusals.Count > 0) return;
        var list = Sentence.Join("; ", later.Select(violation => Sentence.Of($"entry {violation.Entry} of {DayOf(violation.Entry):yyyy-MM-dd}: {violation.Sentence}")));
        refusals.Add(new(RefusalCode.LaterEntriesNeedIt, pending.Count > 0 && pending.First().Prefix.Length == 0 ? "day" : "takesBack",
            $"Later entries would no longer be possible: {list} Correct those first, or record a gauge on a day before them.") { Entries = [.. later.Select(violation => violation.Entry)] });
    }

    private DateOnly DayOf(long number) => Find(number)!.Day;

    /// <summary>The field that says what went too far: how much is drawn, where there isn't enough; else where it is put.</summary>
    private static string PathOf(Violation violation, Trial trial, IReadOnlyCollection<Pending> pending)
    {
        var item = pending.First(item => ReferenceEquals(item.Deed, violation.Deed));
        if (item.Mirrors is not null) return "takesBack";
        if (violation.Posting is not { } broke) return item.Prefix + (item.Operation.About is null ? "" : "vessel");
        var at = trial.Said[item.Deed][violation.Deed.Postings.ToList().FindIndex(posting => ReferenceEquals(posting, broke))];
        return violation.Code == RefusalCode.MoreThanIsThere ? at.Drawn : at.Put;
    }

    private static int? RowOf(Imported operation, Violation violation)
    {
        if (operation.RowNumbers is null) return null;
        for (var i = operation.Rows!.Count - 1; i >= 0; i--)
            if (operation.Rows[i].LotFrom == violation.Account.Name || operation.Rows[i].LotTo == violation.Account.Name) return operation.RowNumbers[i];
        return operation.RowNumbers[0];
    }

    /// <summary>Stock brought forward stands on the book's first day, and nothing before it.</summary>
    private void CheckOpening(Trial trial, IReadOnlyCollection<Pending> pending, List<Refusal> refusals)
    {
        if (refusals.Count > 0 || pending.Count == 0) return;
        // The first day and the opening as they would be: what is left out may have been the first.
        var keeps = FirstPageFrom(trial.FirstChanged) > 0;
        var first = keeps ? pages[0].Day : (trial.Refolded ?? trial.Appended)[0].Day;
        var opening = openingDay is { } day && (trial.Refolded is null || day < trial.FirstChanged || PageOn(trial.Refolded, day) is { } page && Opens(page)) ? openingDay : null;
        foreach (var item in pending)
        {
            var opens = item.Deed.Postings.Any(posting => posting.Category.Code == "OPENING" && !posting.IsTakenBack);
            if (opens && item.Deed.Day != first) refusals.Add(new(RefusalCode.OpeningNotFirst, item.Prefix + "day", $"Stock brought forward belongs on the book's first day, {first:yyyy-MM-dd}. Record what came later as a receipt, or as found by a count.") { Row = RowOf(item) });
            else if (!opens && opening is { } begins && item.Deed.Day < begins) refusals.Add(new(RefusalCode.OpeningNotFirst, item.Prefix + "day", $"The book begins on {begins:yyyy-MM-dd} with stock brought forward; nothing can be dated before it.") { Row = RowOf(item) });
        }

        static int? RowOf(in Pending item) => (item.Operation as Imported)?.RowNumbers?[0];
    }

    private void FlagChanges(Trial trial, IReadOnlyCollection<Pending> pending, List<Flag> flags)
    {
        var unknown = pending.SelectMany(item => item.Deed.Postings).SelectMany(posting => new[] { posting.From, posting.To })
            .Where(account => account.InVessel && CapacityOf(account.Place) is null).Select(account => account.Place).Distinct();
        foreach (var vessel in unknown.Take(MostListed)) flags.Add(new("capacity_unknown", $"The capacity of {vessel} is not known, so it isn't checked."));
        // A household owes nobody a form, so nothing is asked of it.
        if (!IsHousehold)
            foreach (var item in pending)
                if (item.Mirrors is null && !item.IsImported) flags.AddRange(FactsAsked.Missing(item.Operation, item.Deed.Postings));
        foreach (var item in pending)
            if (!item.IsImported && trial.Undosed.TryGetValue(item.Deed, out var undosed))
                flags.AddRange(TakenOut(item.Deed, undosed).Select(sentence => new Flag("dose_taken_out", sentence)));
        if (trial.Refolded is not { } refolded) return;
        var before = new HashSet<Disagreement>(Disagreements);
        foreach (var disagreement in refolded.SelectMany(page => page.Disagreements).Where(disagreement => !before.Contains(disagreement)).Take(MostListed))
            flags.Add(new("no_longer_agrees", $"Entry {disagreement.Entry} measured {disagreement.Measured} in {disagreement.Account.Place}; the book now holds {disagreement.Book} there after it. Correct that entry with the same measurement to post the difference anew."));
    }
}
