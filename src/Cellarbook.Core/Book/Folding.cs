using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>A law broken after an entry in book order (laws 2 and 3, kinds that meet, a process not cleared).</summary>
public sealed record Violation(Deed Deed, RefusalCode Code, Account Account, Sentence Sentence)
{
    /// <summary>The entry.</summary>
    public long Entry => Deed.Entry;

    /// <summary>The posting that broke it; null where none did by itself.</summary>
    public Posting? Posting { get; init; }
}

/// <summary>
/// Applies deeds to a cellar, one after the other in book order: moves quantities, mixes standings and origins where wines meet, carries notes
/// along, and checks the laws after each. It never stops at a breach: it says what broke, so that a refusal can list every entry in the way.
/// </summary>
/// <param name="cellar">The state it works on.</param>
/// <param name="capacityOf">Known capacity of a vessel, or null.</param>
/// <param name="effectsOf">Effects of an earlier entry, to give a take-back the standings of what it takes back.</param>
/// <param name="materialOf">A material of that code, or null.</param>
internal sealed partial class Folding(Cellar cellar, Func<string, Volume?> capacityOf, Func<long, IReadOnlyList<Effect>> effectsOf, Func<string, Stores.Material?> materialOf)
{
    private readonly List<Mixing> mixings = [];
    private readonly HashSet<Account> touched = [];
    private readonly HashSet<Account> overdrawn = [];
    private readonly List<(Volume Volume, Standing? Standing, Place? From)> process = [];
    private Int128 processBalance;
    private int processStart;

    /// <summary>Applies one deed, adding what happened to <paramref name="effects"/> and what broke to <paramref name="violations"/>.</summary>
    public void Apply(Deed deed, List<Effect> effects, List<Violation> violations, List<Disagreement>? disagreements = null)
    {
        touched.Clear();
        overdrawn.Clear();
        dosedByDeed.Clear();
        sugared.Clear();
        process.Clear();
        (processBalance, processStart) = (0, 0);
        (processCarried, processWine) = (null, Volume.None);
        Undose(deed);
        var originals = deed.TakesBack is { } taken ? Originals(taken, deed.Postings.Count) : null;
        for (var i = 0; i < deed.Postings.Count; i++)
        {
            var posting = deed.Postings[i];
            if (posting.Category.IsOfStores)
            {
                MoveMaterial(deed, posting, violations);
                effects.Add(new(EffectKind.Move, deed, i, null, Standing.Unstated, Standing.Unstated, Volume.None));
                continue;
            }
            var before = Give(deed, i, originals?[i], effects, violations);
            var after = Receive(deed, posting, originals?[i], before, effects, violations);
            effects.Add(new(EffectKind.Move, deed, i, null, before.Standing, after, posting.Volume, before.Carried));
        }
        while (mixings.Count > 0) Settle(mixings[^1].Account, deed, effects, violations);
        NotePackets(deed);
        NoteSugarUnweighed(deed);
        NoteBeforeSugar();
        Note(deed, violations);
        Check(deed, violations);
        if (disagreements is not null && deed.Operation is not null)
            foreach (var (account, measured) in deed.Operation.Measured(cellar, deed))
                if (cellar.At(account).Volume is var held && held != measured) disagreements.Add(new(deed.Entry, account, measured, held));
    }

    /// <summary>The moves that a take-back undoes, in its own (reversed) order: standing given, standing received, what went along.</summary>
    private Original[]? Originals(long entry, int count)
    {
        var moves = effectsOf(entry).Where(effect => effect.Kind == EffectKind.Move && effect.Deed.TakesBack is null).Select(effect => new Original(effect.Before, effect.After, effect.Carried)).ToArray();
        if (moves.Length != count) return null;
        Array.Reverse(moves);
        return moves;
    }

    private Place Give(Deed deed, int at, Original? original, List<Effect> effects, List<Violation> violations)
    {
        var posting = deed.Postings[at];
        var account = posting.From;
        var brought = (original is not null, original?.Carried);
        if (account.Section == Section.Process) processBalance -= posting.Volume.Microlitres;
        if (!account.IsStock) return new Place(account) { Carried = ComesFrom(deed, at, brought) };
        Settle(account, deed, effects, violations);
        touched.Add(account);
        CheckSize(deed, account, posting, violations);
        var place = cellar.At(account);
        if (account.Section.IsWine() && !posting.IsTakenBack && !posting.To.Section.IsWine() && (posting.Strength is not null || posting.Kind is not null))
        {
            var stated = new Standing(posting.Kind ?? place.Standing.Kind, posting.Strength ?? place.Standing.Strength);
            Restate(deed, account, place.Volume, place.Standing, stated, effects);
            place = place with { Standing = stated, LastMix = null, StrengthIsMixed = false };
        }
        var given = place;
        if (original is { Received: var own } && account.Section.IsWine())
        {
            // What is taken back keeps its own standing; what stays goes back to what it stood at before the two met, where that is known.
            Restate(deed, account, posting.Volume, place.Standing, own, effects);
            given = place with { Standing = own };
            // A move within one place took nothing of what it met there, so it parts nothing either.
            if (posting.From != posting.To && place.LastMix is { } mix && mix.Entry == deed.TakesBack)
            {
                Restate(deed, account, place.Volume - posting.Volume, place.Standing, mix.Before, effects);
                place = place with { Standing = mix.Before, LastMix = null };
            }
        }
        var regauges = deed.Operation?.StatesAllThatLies == true;
        if (regauges) place = Regauged(deed, posting, place, effects);
        var (goes, remains) = Part(deed, at, place, brought);
        given = given with { Carried = goes };
        cellar.Put(place with
        {
            Volume = place.Volume - posting.Volume,
            Carried = remains,
            Bottles = account.Section == Section.Bottled ? place.Bottles - posting.Bottles : place.Bottles,
            Weight = place.Weight - posting.Weight,
            FirstDay = place.FirstDay == default ? deed.Day : place.FirstDay,
            LastDay = deed.Day,
        });
        if (posting.IsTakenBack && account.Section == Section.Bottled && FillsAnew(posting.To) && cellar.Bottling(account.Name) is { } facts) cellar.Put(facts with { Filled = facts.Filled - posting.Bottles });
        // Wine can't be given before it is there, not even within one entry: it would be given at a standing that nothing has.
        if (!regauges && (account.Section.IsWine() || posting.From == posting.To)) CheckEnough(cellar.At(account), deed, posting, violations);
        StartAnew(posting, at);
        if (posting.To.Section == Section.Process) process.Add((posting.Volume, account.Section.IsWine() ? given.Standing : null, given));
        return given;
    }

    /// <summary>What goes into a process that is nil begins another: several casks thinned in one entry don't mix.</summary>
    private void StartAnew(Posting posting, int at)
    {
        if (posting.To.Section != Section.Process || processBalance != 0) return;
        process.Clear();
        processStart = at;
    }

    /// <summary>What is measured out of the process that began with a posting, from another on.</summary>
    internal static Volume MeasuredOut(Deed deed, int start, int from)
    {
        Int128 balance = 0;
        var measured = Volume.None;
        for (var i = start; i < deed.Postings.Count; i++)
        {
            var posting = deed.Postings[i];
            if (posting.To.Section == Section.Process) balance += posting.Volume.Microlitres;
            if (posting.From.Section != Section.Process) continue;
            balance -= posting.Volume.Microlitres;
            if (i >= from && posting.To.IsStock) measured += posting.Volume;
            if (balance == 0 && i >= from) break;
        }
        return measured;
    }

    /// <summary>
    /// A re-gauge says of all that lies there how strong it is: also of what was entered late before it, while of what was taken out late it
    /// changes nothing.
    /// </summary>
    private static Place Regauged(Deed deed, Posting posting, Place place, List<Effect> effects)
    {
        var rest = place.Volume - posting.Volume;
        var stated = new Standing(posting.Kind ?? place.Standing.Kind, posting.Strength ?? place.Standing.Strength);
        Restate(deed, place.Account, rest, place.Standing, stated, effects);
        Restate(deed, place.Account, -rest, stated, place.Standing, effects);
        return place with { Standing = stated, LastMix = null, StrengthIsMixed = place.StrengthIsMixed && posting.Strength is null };
    }

    private Standing Receive(Deed deed, Posting posting, Original? original, Place given, List<Effect> effects, List<Violation> violations)
    {
        var account = posting.To;
        if (account.Section == Section.Process)
        {
            processBalance += posting.Volume.Microlitres;
            GoesTo(posting, given.Carried);
            // A contraction the other way is no wine, water or spirit.
            if (!posting.From.IsStock && !posting.From.IsLoss)
                process.Add((posting.Volume, posting.Strength is { } spirit ? new(ProductKind.Still, spirit) : posting.From == Account.Spirit ? null : new(ProductKind.Still, Strength.Nil), null));
            return posting.From.Section.IsWine() ? given.Standing : Standing.Unstated;
        }
        if (!account.IsStock)
        {
            GoesTo(posting, given.Carried);
            return posting.From.Section.IsWine() ? given.Standing : Standing.Unstated;
        }

        touched.Add(account);
        CheckSize(deed, account, posting, violations);
        var place = cellar.At(account);
        var mixing = mixings.Find(pending => pending.Account == account);
        if (mixing is null) mixings.Add(mixing = new(account, place));
        var arriving = Standing.Unstated;
        if (account.Section.IsWine())
        {
            var usual = posting.From.Section switch
            {
                Section.Bulk or Section.Bottled => given.Standing,
                Section.Process => ProcessStanding(deed),
                _ => Usual(posting, place).Standing,
            };
            arriving = original?.Given ?? new(posting.Kind ?? usual.Kind, posting.Strength ?? usual.Strength);
        }
        mixing.Add(arriving, posting, OriginOf(deed, posting, given, place), given, NotesOf(posting, given));
        cellar.Put(place with
        {
            Volume = place.Volume + posting.Volume,
            Carried = Arrived(place, posting, given.Carried),
            Produced = ProducedBy(deed, posting, place, posting.From.Section == Section.Process ? given with { Produced = ProducedInProcess() } : given),
            Bottles = account.Section == Section.Bottled ? place.Bottles + posting.Bottles : place.Bottles,
            BottleSize = account.Section == Section.Bottled ? posting.BottleSize : place.BottleSize,
            Weight = place.Weight + posting.Weight,
            FirstDay = place.FirstDay == default ? deed.Day : place.FirstDay,
            LastDay = deed.Day,
        });
        if (account.Section == Section.Bottled) MarkBottling(deed, posting);
        return arriving;
    }

    /// <summary>What lies, or last lay, where something from outside arrives; bottles that come back to a new shelf are what they were elsewhere.</summary>
    private Place Usual(Posting posting, Place place)
    {
        if (place.FirstDay != default || place.Account.Section != Section.Bottled || !posting.From.IsTaker) return place;
        var elsewhere = cellar.ShelvesOfBottling(place.Account.Name).Select(cellar.At).ToArray();
        return elsewhere.FirstOrDefault(shelf => !shelf.IsEmpty) ?? elsewhere.LastOrDefault() ?? place;
    }

    private void CheckSize(Deed deed, Account account, Posting posting, List<Violation> violations)
    {
        if (account.Section != Section.Bottled) return;
        var facts = cellar.Bottling(account.Name);
        if (facts is null && deed.Operation?.NeedsKnownBottling == true)
            violations.Add(new(deed, RefusalCode.UnknownBottling, account, $"There is no bottling {account.Name} on {deed.Day:yyyy-MM-dd} that could come back.") { Posting = posting });
        else if (facts is not null && facts.Size != posting.BottleSize)
            violations.Add(new(deed, RefusalCode.OtherBottleSize, account, $"Bottling {account.Name} is of {ExactNumber.Write(facts.Size.Microlitres, 3)} mL, not {ExactNumber.Write(posting.BottleSize.Microlitres, 3)} mL. A bottling has one size; give the other size a code of its own.") { Posting = posting });
    }

    /// <summary>True for what bottles newly come from: not the market, and not another shelf.</summary>
    private static bool FillsAnew(Account from) => from.Section != Section.Bottled && !from.IsTaker;

    private void MarkBottling(Deed deed, Posting posting)
    {
        var code = posting.To.Name;
        var facts = cellar.Bottling(code) ?? new BottlingFacts(code, posting.BottleSize) { FirstDay = deed.Day };
        if (posting.From.Section == Section.Bottled && posting.From.Name == code) return;
        if (posting.From.Section == Section.Bulk && !facts.Lots.Contains(posting.From.Name)) facts = facts with { Lots = facts.Lots.Add(posting.From.Name) };
        if (!posting.IsTakenBack && FillsAnew(posting.From)) facts = facts with { Filled = facts.Filled + posting.Bottles };
        cellar.Put(facts);
    }

    /// <summary>
    /// Litres of pure alcohol put in over litres measured out: a contraction takes volume and no alcohol. Unstated when a part is.
    /// </summary>
    private Standing ProcessStanding(Deed deed)
    {
        var kind = process.Where(part => part.From is { Account.Section: Section.Bulk }).Select(part => part.Standing?.Kind).FirstOrDefault() ?? ProductKind.Still;
        Alcohol alcohol = default;
        foreach (var (v, standing, _) in process)
        {
            if (standing?.Strength is not { } strength) return new(kind, null);
            alcohol += Alcohol.In(v, strength);
        }
        var volume = MeasuredOut(deed, processStart, processStart);
        return new(kind, volume.IsPositive ? alcohol.StrengthIn(volume) : null);
    }

    private OriginMix? OriginOf(Deed deed, Posting posting, Place given, Place place)
    {
        if (posting.From.IsStock) return given.Origin;
        if (posting.From.Section == Section.Process)
        {
            var parts = process.Where(part => part.From is not null).Select(part => (part.From!.Origin, part.Volume)).ToArray();
            return parts.Length == 0 ? null : OriginMix.Mix(parts);
        }
        if (deed.Operation?.OriginBrought(posting) is { } brought) return brought;
        if (posting.Category.Code == "GRAPES_CRUSHED")
        {
            var fruit = deed.Postings.Where(p => p.From.Section == Section.Fruit).Select(p => (cellar.At(p.From).Origin, new Volume(p.Weight.Grams))).ToArray();
            if (fruit.Length > 0) return OriginMix.Mix(fruit);
        }
        // Water, sugar and spirit bring no origin; a surplus and what comes back is taken to be what lies there.
        return posting.From.IsOutside ? OriginMix.Unstated : place.IsEmpty && place.FirstDay == default ? Usual(posting, place).Origin : null;
    }

    private WineNotes? NotesOf(Posting posting, Place given)
    {
        if (posting.From.IsStock) return given.Notes;
        if (posting.From.Section != Section.Process) return null;
        return process.Where(part => part.From is not null).Select(part => part.From!.Notes).Aggregate((WineNotes?)null, (met, notes) => met is null ? notes : met.Meet(notes));
    }

    /// <summary>Where wines met in an account: rounds their mix once, and says so where it can matter to a class.</summary>
    private void Settle(Account account, Deed deed, List<Effect> effects, List<Violation> violations)
    {
        var at = mixings.FindIndex(pending => pending.Account == account);
        if (at < 0) return;
        var mixing = mixings[at];
        mixings.RemoveAt(at);
        var place = cellar.At(account);
        var lying = Amount(mixing.Before).IsPositive ? mixing.Before : null;
        var mixed = place with { Origin = mixing.Origin(lying), Notes = mixing.Notes(lying) };
        if (account.Section.IsWine())
        {
            var parts = mixing.Parts(lying);
            var result = parts[0].Standing;
            if (parts.Count > 1)
            {
                result = Mix(parts, mixing.KindStated, account, deed, violations);
                foreach (var part in parts) effects.Add(new(EffectKind.MetPart, deed, -1, account, part.Standing, result, part.Volume));
                effects.Add(new(EffectKind.MetResult, deed, -1, account, result, result, place.Volume));
                mixed = mixed with { StrengthIsMixed = true, LastMix = lying is null ? null : new(deed.Entry, lying.Standing) };
            }
            // What a take-back brings into an emptied place is still the mix it takes apart.
            else if (lying is null) mixed = mixed with { StrengthIsMixed = mixing.AnyMixed, LastMix = deed.TakesBack is { } taken && place.LastMix?.Entry == taken ? place.LastMix : null };
            mixed = mixed with { Standing = result };
        }
        cellar.Put(mixed);
    }

    private static Standing Mix(List<(Standing Standing, Volume Volume)> parts, ProductKind? kindStated, Account account, Deed deed, List<Violation> violations)
    {
        var kind = kindStated ?? parts[0].Standing.Kind;
        if (kindStated is null && parts.Exists(part => part.Standing.Kind != kind))
            violations.Add(new(deed, RefusalCode.KindsMeet, account, $"Wines of different kinds would meet in {Say(account)}; state the kind of the result, or record it as a process.") { Posting = LastInto(deed, account) });
        Volume volume = default;
        Alcohol alcohol = default;
        foreach (var (standing, v) in parts)
        {
            if (standing.Strength is not { } strength) return new(kind, null);
            volume += v;
            alcohol += Alcohol.In(v, strength);
        }
        return new(kind, alcohol.StrengthIn(volume));
    }

    /// <summary>What weighs in a mix: volume, or weight for fruit.</summary>
    private static Volume Amount(Place place) => place.Account.Section == Section.Fruit ? new(place.Weight.Grams) : place.Volume;

    private static void Restate(Deed deed, Account account, Volume volume, Standing before, Standing after, List<Effect> effects)
    {
        if (before != after && volume.IsPositive) effects.Add(new(EffectKind.Restated, deed, -1, account, before, after, volume));
    }

    private void Note(Deed deed, List<Violation> violations)
    {
        if (deed.Operation is not { } operation) return;
        // What was read of or added to wine must be wine that was there, or it would belong to nothing.
        if (operation.About is var (lot, vessel) && !cellar.AccountsOfLot(lot).Any(account => vessel is null || account.Place == vessel))
            violations.Add(new(deed, RefusalCode.MoreThanIsThere, Account.Bulk(lot, vessel ?? Account.Unplaced), vessel is null ? (Sentence)$"Lot {lot} doesn't lie in any vessel on {deed.Day:yyyy-MM-dd}." : $"Lot {lot} doesn't lie in {vessel} on {deed.Day:yyyy-MM-dd}."));
        foreach (var account in operation.NotedAt(cellar))
        {
            var place = cellar.At(account);
            cellar.Put(place with { Notes = operation.NotesAfter(place.Notes, deed), LastDay = deed.Day });
        }
        Analyse(operation, deed);
        Colour(operation, deed);
    }

    private void Check(Deed deed, List<Violation> violations)
    {
        if (processBalance != 0)
            violations.Add(new(deed, RefusalCode.ProcessNotCleared, Account.Process, $"The process is not nil at the end: {new Volume((long)processBalance)} went in that did not come out. Give the contraction or the measured result."));
        foreach (var account in touched)
        {
            CheckEnough(cellar.At(account), deed, null, violations);
            if (account.InVessel) CheckVessel(account, deed, violations);
        }
    }

    private void CheckEnough(Place place, Deed deed, Posting? last, List<Violation> violations)
    {
        if ((place.Volume >= Volume.None && place.Bottles.Bottles >= 0 && place.Weight.Grams >= 0 && place.Material >= MaterialAmount.None) || !overdrawn.Add(place.Account)) return;
        violations.Add(Short(place, deed, last));
    }

    private Violation Short(Place place, Deed deed, Posting? last)
    {
        var account = place.Account;
        Violation Of(Sentence sentence, long left, Func<Posting, long> amount) =>
            new(deed, RefusalCode.MoreThanIsThere, account, sentence) { Posting = Turning(deed, last, -left, posting => (posting.From == account ? amount(posting) : 0) - (posting.To == account ? amount(posting) : 0)) };
        if (place.Bottles.Bottles < 0) return Of($"{-place.Bottles} bottles more would leave {Say(account)} than are there on {deed.Day:yyyy-MM-dd}. Check the count, or record a stock-take first.", place.Bottles.Bottles, posting => posting.Bottles.Bottles);
        if (place.Volume < Volume.None) return Of($"{-place.Volume} more would leave {Say(account)} than is there on {deed.Day:yyyy-MM-dd}. Check the figure, or gauge the vessel first.", place.Volume.Microlitres, posting => posting.Volume.Microlitres);
        if (place.Material < MaterialAmount.None) return Of($"{materialOf(account.Name)?.Say(-place.Material)} more of {account.Name}, delivery {account.Place}, would be used than is in store on {deed.Day:yyyy-MM-dd}. Check the amount, or count the stores first.", place.Material.Units, posting => posting.Material.Units);
        return Of($"More fruit of {account.Name} would be used than is there on {deed.Day:yyyy-MM-dd}. Check the weight.", place.Weight.Grams, posting => posting.Weight.Grams);
    }

    private void CheckVessel(Account account, Deed deed, List<Violation> violations)
    {
        var hold = cellar.Vessel(account.Place);
        cellar.MarkPeak(account.Place);
        if (hold.Accounts.Length > 1)
            violations.Add(new(deed, RefusalCode.VesselHoldsAnother, account, $"Vessel {account.Place} would hold {Sentence.List([.. hold.Accounts.Select(Say).OrderBy(said => said.ToString(), StringComparer.Ordinal)])}. A vessel holds one lot, of must or of wine; empty it first, or put the wine into the lot that lies there as a top-up or blend.") { Posting = LastInto(deed, account) });
        if (capacityOf(account.Place) is { } capacity && hold.Held > capacity) violations.Add(TooFull(account, hold.Held, capacity, deed));
    }

    private static Violation TooFull(Account account, Volume held, Volume capacity, Deed deed) =>
        new(deed, RefusalCode.OverCapacity, account, $"Vessel {account.Place} would hold {held}, but its capacity is {capacity}. Check the figure, or use a larger vessel too.")
        {
            Posting = Turning(deed, null, (held - capacity).Microlitres, posting => (Lies(posting.To, account.Place) ? posting.Volume.Microlitres : 0) - (Lies(posting.From, account.Place) ? posting.Volume.Microlitres : 0)),
        };

    // Closures stand in methods of their own, so that a sound book, folded a million times, makes none.
    private static Posting? LastInto(Deed deed, Account account) => deed.Postings.LastOrDefault(posting => posting.To == account || Lies(posting.To, account.Place));

    private static bool Lies(Account account, string vessel) => account.InVessel && account.Place == vessel;

    /// <summary>The posting that went too far: back from the last one applied, the first before which nothing was in excess.</summary>
    private static Posting? Turning(Deed deed, Posting? last, Int128 excess, Func<Posting, long> adds) =>
        deed.Postings.Reverse().SkipWhile(posting => last is not null && !ReferenceEquals(posting, last)).FirstOrDefault(posting => (excess -= adds(posting)) <= 0);

    private static Sentence Say(Account account) => account.Section switch
    {
        Section.Must => (Sentence)$"must of lot {account.Name} in {account.Place}",
        Section.Bulk => (Sentence)$"wine of lot {account.Name} in {account.Place}",
        Section.Stores => (Sentence)$"{account.Name} of delivery {account.Place}",
        Section.Bottled => account.Place == Account.Unplaced ? Sentence.Of($"bottling {account.Name}") : (Sentence)$"bottling {account.Name} on {account.Place}",
        _ => Sentence.Verbatim(account.Name),
    };

    /// <summary>A move that is taken back: at what standing it was given and received, and what went along.</summary>
    private sealed record Original(Standing Given, Standing Received, Carried? Carried);

    /// <summary>What arrives in one account within one deed.</summary>
    private sealed class Mixing(Account account, Place before)
    {
        private readonly List<(Standing Standing, Volume Volume, OriginMix? Origin, WineNotes? Notes)> arrivals = [];

        public Account Account => account;

        public Place Before => before;

        public ProductKind? KindStated { get; private set; }

        public bool AnyMixed { get; private set; }

        public void Add(Standing standing, Posting posting, OriginMix? origin, Place given, WineNotes? notes)
        {
            arrivals.Add((standing, account.Section == Section.Fruit ? new(posting.Weight.Grams) : posting.Volume, origin, notes));
            KindStated ??= posting.Kind;
            AnyMixed |= posting.Strength is null && (given.StrengthIsMixed || posting.From.Section == Section.Process);
        }

        public List<(Standing Standing, Volume Volume)> Parts(Place? lying)
        {
            var parts = new List<(Standing Standing, Volume Volume)>();
            if (lying is not null) parts.Add((lying.Standing, lying.Volume));
            foreach (var (standing, volume, _, _) in arrivals)
            {
                var at = parts.FindIndex(part => part.Standing == standing);
                if (at < 0) parts.Add((standing, volume));
                else parts[at] = (standing, parts[at].Volume + volume);
            }
            return parts;
        }

        public OriginMix Origin(Place? lying)
        {
            var parts = new List<(OriginMix, Volume)>();
            if (lying is not null) parts.Add((lying.Origin, Amount(lying)));
            foreach (var (_, volume, origin, _) in arrivals)
                if (origin is not null && volume.IsPositive) parts.Add((origin, volume));
            return parts.Count == 0 ? before.Origin : OriginMix.Mix(parts);
        }

        public WineNotes Notes(Place? lying)
        {
            var notes = lying?.Notes;
            foreach (var (_, _, _, arriving) in arrivals)
                if (arriving is not null) notes = notes is null ? arriving : notes.Meet(arriving);
            return notes ?? WineNotes.None;
        }
    }
}
