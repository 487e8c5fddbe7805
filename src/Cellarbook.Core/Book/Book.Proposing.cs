using Cellarbook.Core.Cautions;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

public sealed partial class Book
{
    /// <summary>Works out what recording an operation would do. Changes nothing.</summary>
    /// <param name="operation">What was done.</param>
    /// <param name="today">Today in the book's time zone; a later day is refused.</param>
    public Trial Propose(Operation operation, DateOnly today)
    {
        var number = LastNumber + 1;
        var refusals = new List<Refusal>();
        CheckDay(operation, today, refusals, "");
        CheckCurrency(operation, refusals, "");
        switch (operation)
        {
            case Imported:
                throw new InvalidOperationException("Imported events come in by ProposeImport.");
            case Correct correct:
                return ProposeCorrection(correct, today, refusals);
            case { IsAboutTheBook: true }:
                var deciding = new Deciding(now, vessels, materials, operation);
                operation.Decide(deciding);
                refusals.AddRange(deciding.Refusals);
                if (operation is not Close) CheckOpen(operation.Day, refusals, "day");
                if (operation is Close { Through: { } through } && through <= ClosedThrough) refusals.Add(new(RefusalCode.PeriodClosed, "through", $"The book is closed through {ClosedThrough:yyyy-MM-dd} already."));
                if (operation is BlankContact { Contact: { } contact } && !KnowsContact(contact)) refusals.Add(new(RefusalCode.UnknownContact, "contact", $"There is no contact {contact} with a text. Look its number up in the list of contacts; one that was blanked is gone."));
                return new([new Entry { Number = number, Operation = operation, Day = operation.Day, Deeds = [] }]) { Refusals = InOrder(refusals), Flags = deciding.Flags, Cautions = CautionSheet.For(operation, now, [], IsHousehold, materials) };
        }
        CheckOpen(operation.Day, refusals, "day");
        var deed = new Deed { Entry = number, Index = 0, Day = operation.Day, Time = operation.Time, Operation = operation };
        var trial = new Trial([new Entry { Number = number, Operation = operation, Day = operation.Day, Deeds = [deed] }]);
        Fold(trial, [new(deed, operation, "")], [], refusals);
        return trial;
    }

    /// <summary>
    /// Works out what a whole imported history would do, all or nothing, judged in book order once all its rows are in. Events known with the
    /// same content are skipped.
    /// </summary>
    public Trial ProposeImport(IReadOnlyList<Imported> events, DateOnly today)
    {
        var refusals = new List<Refusal>();
        var fresh = new ImportedEntries(LastNumber + 1, events);
        // Only what a later event takes back need be found again.
        var wanted = events.Select(imported => imported.TakesBackEvent).OfType<string>().ToHashSet(StringComparer.Ordinal);
        var earlier = new Dictionary<string, Entry>(StringComparer.Ordinal);
        var takenBack = new HashSet<long>();
        var skipped = 0;
        for (var i = 0; i < events.Count; i++)
        {
            var imported = events[i];
            if (FindEvent(imported.EventId!) is { } known)
            {
                if (SameContent(imported, known)) skipped++;
                else refusals.Add(new(RefusalCode.EventDiffers, "event_id", $"Event {imported.EventId} is in the book already (entry {known.Entry}) with other content. Give the new one an id of its own, or take the old one back.") { Row = imported.RowNumbers?[0] });
                continue;
            }
            if (imported.Day > today) continue;
            CheckOpen(imported.Day, refusals, "date", imported.RowNumbers?[0]);
            var number = LastNumber + 1 + fresh.Count;
            Entry? original = null;
            if (imported.TakesBackEvent is { } taken && !TakesBackWhole(imported, taken, earlier, takenBack, refusals, out original)) continue;
            Deed? back = null, deed = null;
            if (original is not null)
            {
                takenBack.Add(original.Number);
                // Its postings are found in the fold, once those of the original are known; they mirror it, last first.
                back = new() { Entry = number, Index = 0, Day = imported.Day, TakesBack = original.Number };
            }
            if (original is null || imported.Rows!.Any(row => row.Reverses is null))
                deed = new() { Entry = number, Index = back is null ? 0 : 1, Day = imported.Day };
            fresh.Add(i, back, deed);
            if (wanted.Contains(imported.EventId!)) earlier.Add(imported.EventId!, fresh[^1]);
        }
        var trial = new Trial(fresh) { Skipped = skipped };
        if (refusals.Count > 0) trial.Refusals = InOrder(refusals);
        else if (fresh.Count > 0) Fold(trial, new PendingImport(this, fresh), [], refusals);
        return trial;
    }

    /// <summary>The lots, vessels and bottlings that a trial brings in.</summary>
    public Newcomers NewIn(Trial trial) => trial.After is not { } after
        ? Newcomers.None
        : new(
            [.. after.Lots.Where(lot => now.AccountsOfLot(lot).IsEmpty).Order(StringComparer.Ordinal)],
            [.. after.Vessels.Select(hold => hold.Code).Where(code => !now.KnowsVessel(code) && !vessels.ContainsKey(code)).Order(StringComparer.Ordinal)],
            [.. after.Bottlings.Select(bottling => bottling.Code).Where(code => now.Bottling(code) is null).Order(StringComparer.Ordinal)]);

    private Trial ProposeCorrection(Correct correct, DateOnly today, List<Refusal> refusals)
    {
        var number = LastNumber + 1;
        var deciding = new Deciding(now, vessels, materials, correct);
        correct.Decide(deciding);
        refusals.AddRange(deciding.Refusals);
        var writes = correct.Write ?? [];
        var original = correct.TakesBack is { } reference ? FindOriginal(reference, refusals) : null;
        var target = original?.Deeds.Where(deed => deed.TakesBack is null).ToArray() ?? [];
        var leavesOut = original is { IsImported: false } && target.All(deed => ClosedThrough is null || deed.Day > ClosedThrough);
        CheckOpen(correct.Day, refusals, "day");
        if (original is not null && !leavesOut)
        {
            if (target.Length > 0 && correct.Day < target.Max(deed => deed.Day)) refusals.Add(new(RefusalCode.EnteredBeforeItHappened, "day", $"Entry {original.Number} happened on {target.Max(deed => deed.Day):yyyy-MM-dd}; it can't be taken back on an earlier day."));
        }
        for (var i = 0; i < writes.Count; i++)
        {
            CheckDay(writes[i], today, refusals, $"write[{i}].");
            CheckCurrency(writes[i], refusals, $"write[{i}].");
            CheckOpen(writes[i].Day, refusals, $"write[{i}].day");
        }
        var all = new List<Deed>();
        var pending = new List<Pending>();
        if (original is not null && !leavesOut)
        {
            var back = new Deed { Entry = number, Index = 0, Day = correct.Day, Time = correct.Time, TakesBack = original.Number };
            all.Add(back);
            pending.Add(new(back, correct, "") { Mirrors = original });
        }
        for (var i = 0; i < writes.Count; i++)
        {
            var deed = new Deed { Entry = number, Index = all.Count, Day = writes[i].Day, Time = writes[i].Time, Operation = writes[i] };
            all.Add(deed);
            pending.Add(new(deed, writes[i], $"write[{i}]."));
        }
        var trial = new Trial([new Entry { Number = number, Operation = correct, Day = correct.Day, Deeds = all, TakesBack = original?.Number, LeavesOut = leavesOut }]);
        if (refusals.Count > 0) trial.Refusals = InOrder(refusals);
        else Fold(trial, pending, leavesOut ? target : [], refusals);
        return trial;
    }

    private Entry? FindOriginal(EntryReference reference, List<Refusal> refusals)
    {
        var original = reference.Number is { } n ? Find(n) : FindEvent(reference.EventId!) is { } known ? Find(known.Entry) : null;
        if (original is null) refusals.Add(new(RefusalCode.UnknownEntry, "takesBack", $"There is no entry {Names.Shown(reference.ToString())}."));
        else if (original.TakenBackBy is { } by) refusals.Add(new(RefusalCode.AlreadyTakenBack, "takesBack", $"Entry {original.Number} was taken back by entry {by} already.") { Entries = [by] });
        else if (original.IsImported && original.TakesBack is not null) refusals.Add(new(RefusalCode.CantBeTakenBack, "takesBack", $"Entry {original.Number} is a take-back itself. Enter what happened again instead."));
        else if (original.Deeds.All(deed => deed.TakesBack is not null))
            refusals.Add(new(RefusalCode.CantBeTakenBack, "takesBack", original.Operation is Correct ? (Sentence)$"Entry {original.Number} is a correction that wrote nothing; there is nothing in it to take back. Enter what happened again instead." : (Sentence)$"Entry {original.Number} is about the book itself. Change it by a further entry."));
        else return original;
        return null;
    }

    /// <summary>The book has one currency; a price in another one says nothing about its costs.</summary>
    private void CheckCurrency(Operation operation, List<Refusal> refusals, string prefix)
    {
        if (!operation.HasPrice) return;
        var (stated, own) = (operation.PriceCurrency, Premises?.Currency);
        if (stated is null && own is null) refusals.Add(new(RefusalCode.Missing, prefix + "currency", "Say in which currency, such as EUR; or state the book's currency in Settings once."));
        else if (stated is not null && own is not null && stated != own) refusals.Add(new(RefusalCode.DoesNotAddUp, prefix + "currency", $"This book is kept in {own}. Convert the price at the day's rate and note the rate."));
        else if (stated is not null && (stated.Length != 3 || !stated.All(char.IsAsciiLetterUpper))) refusals.Add(new(RefusalCode.UnknownWord, prefix + "currency", "Give the currency as three letters, such as EUR."));
    }

    private static void CheckDay(Operation operation, DateOnly today, List<Refusal> refusals, string prefix)
    {
        if (operation.Day > today) refusals.Add(new(RefusalCode.DayToCome, prefix + "day", $"{operation.Day:yyyy-MM-dd} is still to come; today is {today:yyyy-MM-dd} in the book's time zone."));
        if (operation.EnteredOn is { } entered && entered < operation.Day) refusals.Add(new(RefusalCode.EnteredBeforeItHappened, prefix + "enteredOn", $"Entered on {entered:yyyy-MM-dd}, before it happened on {operation.Day:yyyy-MM-dd}."));
        if (operation.EnteredOn > today) refusals.Add(new(RefusalCode.DayToCome, prefix + "enteredOn", $"{operation.EnteredOn:yyyy-MM-dd} is still to come."));
    }

    private void CheckOpen(DateOnly day, List<Refusal> refusals, string path, int? row = null)
    {
        if (day <= ClosedThrough) refusals.Add(new(RefusalCode.PeriodClosed, path, $"The book is closed through {ClosedThrough:yyyy-MM-dd}. Date the entry after it and say in a note when it happened.") { Row = row });
    }

    /// <summary>True when every row of the take-back mirrors a row of the event it names, and all of them do.</summary>
    private bool TakesBackWhole(Imported imported, string taken, Dictionary<string, Entry> earlier, HashSet<long> takenBack, List<Refusal> refusals, out Entry? original)
    {
        original = null;
        void Refuse(RefusalCode code, Sentence sentence) => refusals.Add(new(code, "reverses", sentence) { Row = imported.RowNumbers?[0] });
        var back = imported.Rows!.Where(row => row.Reverses is not null).ToArray();
        if (back.Any(row => row.Reverses != taken))
        {
            Refuse(RefusalCode.TakeBackNotWhole, $"Event {imported.EventId} takes back more than one event. Give each an event of its own.");
            return false;
        }
        Imported? operation;
        if (earlier.TryGetValue(taken, out var inFile)) (original, operation) = (inFile, (Imported)inFile.Operation!);
        else if (FindEvent(taken) is { } known) (original, operation) = (Find(known.Entry)!, known.Operation);
        else
        {
            Refuse(RefusalCode.UnknownEntry, $"There is no event {Names.Shown(taken)} before this one to take back.");
            return false;
        }
        if (original.TakesBack is not null) Refuse(RefusalCode.CantBeTakenBack, $"Event {taken} is a take-back itself. Enter what happened again instead.");
        else if (original.TakenBackBy is not null || takenBack.Contains(original.Number)) Refuse(RefusalCode.AlreadyTakenBack, $"Event {taken} was taken back already.");
        else if (original.Day > imported.Day) Refuse(RefusalCode.EnteredBeforeItHappened, $"Event {taken} happened on {original.Day:yyyy-MM-dd}; it can't be taken back on an earlier day.");
        else if (!Mirrors(back, operation.Rows!)) Refuse(RefusalCode.TakeBackNotWhole, $"The rows don't mirror event {taken}: each of its rows comes back with from and to swapped, the same category and amount.");
        else return true;
        return false;
    }

    private static bool Mirrors(ImportedRow[] back, IReadOnlyList<ImportedRow> rows)
    {
        if (back.Length != rows.Count) return false;
        var left = rows.ToList();
        foreach (var row in back)
        {
            var at = left.FindIndex(other => other.Category == row.Category && other.LotFrom == row.LotTo && other.LotTo == row.LotFrom && other.VolumeMl == row.VolumeMl && other.Bottles == row.Bottles && other.BottleMl == row.BottleMl);
            if (at < 0) return false;
            left.RemoveAt(at);
        }
        return true;
    }

    /// <summary>The same event again: all that was stated is the same; account columns may tell less, or what is known.</summary>
    private bool SameContent(Imported imported, KnownEvent known)
    {
        var stored = known.Operation;
        if (imported.Day != stored.Day || imported.EnteredOn != stored.EnteredOn || !People.SameName(stored.EnteredBy, imported.EnteredBy) || imported.Rows!.Count != stored.Rows!.Count) return false;
        for (var i = 0; i < imported.Rows.Count; i++)
            if (imported.Rows[i] with { Product = null } != stored.Rows[i] with { Product = null }) return false;
        return imported.Told is null || !Importing.ClassesTold.Check(imported, EffectsOf(known.Entry)).Any();
    }

    private static IReadOnlyList<Refusal> InOrder(IEnumerable<Refusal> refusals) => [.. refusals.OrderBy(refusal => refusal.Code).ThenBy(refusal => refusal.Row ?? 0)];
}
