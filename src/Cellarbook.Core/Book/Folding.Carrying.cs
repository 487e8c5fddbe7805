using Cellarbook.Core.Limits;
using Cellarbook.Core.Quantities;

namespace Cellarbook.Core.Book;

/// <summary>How doses travel: with the wine by volume, out to where it went, and back from there as they went.</summary>
internal sealed partial class Folding
{
    /// <summary>What is traced, when the fold is done anew for that; else null, and everything is dosed.</summary>
    public Tracing? Tracing { get; init; }

    private Carried? processCarried;
    private Volume processWine;
    private readonly HashSet<Account> sugared = [];
    private readonly Dictionary<(Account Wine, Substance Substance), SubstanceAmount> dosedByDeed = [];

    /// <summary>What stays in a place when volume goes to that account: what was dosed doesn't evaporate, and shrinkage takes none of it.</summary>
    internal static Stays StaysOf(Account to) =>
        to == Account.Evaporation || to == Account.Shrinkage || to == Account.Contraction ? Stays.Doses : Stays.Nothing;

    /// <summary>What goes along with a posting out of a stock account, and what remains there.</summary>
    private static (Carried? Goes, Carried? Remains) Part(Deed deed, int at, Place place, (bool IsKnown, Carried? Brought) original)
    {
        if (place.Carried is not { } carried) return default;
        var posting = deed.Postings[at];
        if (original.IsKnown) return carried.PartAs(original.Brought, posting.Volume, place.Volume);
        var stays = StaysOf(posting.To);
        var whole = place.Volume;
        if (stays == Stays.Nothing) whole -= ShrinksLater(deed, at, place.Account);
        return carried.Part(posting.Volume, whole, stays);
    }

    /// <summary>What shrinks away from an account later in the same deed: it takes no dose, so its share goes with what is left of the wine.</summary>
    internal static Volume ShrinksLater(Deed deed, int at, Account account)
    {
        var shrinks = Volume.None;
        for (var i = at + 1; i < deed.Postings.Count; i++)
            if (StaysOf(deed.Postings[i].To) == Stays.Doses && deed.Postings[i].From == account) shrinks += deed.Postings[i].Volume;
        return shrinks;
    }

    /// <summary>What comes along from an account that holds no stock: out of the process, or back from where it went.</summary>
    private Carried? ComesFrom(Deed deed, int at, (bool IsKnown, Carried? Brought) original)
    {
        var posting = deed.Postings[at];
        if (posting.From.Section == Section.Process)
        {
            if (processCarried is null || !posting.To.IsStock) return null;
            // Contraction takes nothing, so all that went in is shared by what was measured out.
            var whole = MeasuredOut(deed, processStart, at);
            (var goes, processCarried) = original.IsKnown ? processCarried.PartAs(original.Brought, posting.Volume, whole) : processCarried.Part(posting.Volume, whole, Stays.Nothing);
            return goes;
        }
        if (Ameliorates(deed, posting)) return Tracing is null ? Ameliorating(posting) : null;
        if (!posting.To.IsStock || cellar.GoneTo(posting.From.Name, posting.To.Name) is not { Volume: { IsPositive: true } volume } gone) return null;
        if (original is { IsKnown: true, Brought: null } && !CanReturn(posting.To)) return null;
        var back = posting.Volume < volume ? posting.Volume : volume;
        var (comes, remains) = gone.Carried is not { } there ? default : original.IsKnown ? there.PartAs(original.Brought, back, volume) : there.Part(back, volume, Stays.Nothing);
        cellar.Put(posting.From.Name, posting.To.Name, new(volume - back, remains));
        return comes;
    }

    /// <summary>Water and sugar into must or wine. What makes a concentrate juice again is none.</summary>
    private static bool Ameliorates(Deed deed, Posting posting) => (posting.From == Account.Water || posting.From == Account.Sugar) && !posting.IsTakenBack && deed.Operation?.MakesUpConcentrate != true;

    private static Carried Ameliorating(Posting posting)
    {
        var amount = new SubstanceAmount(posting.Volume.Microlitres);
        return Carried.With(null, Substances.Amelioration, amount, posting.Volume, posting.To.Section == Section.Must, amount)!.Undosed;
    }

    /// <summary>
    /// True for bottles, which may come back as any of those that went: so what goes before anything is dosed counts too. Bulk wine comes back by
    /// a take-back alone, as it went, and a book of volumes keeps nothing of it.
    /// </summary>
    private static bool CanReturn(Account account) => account.Section == Section.Bottled;

    /// <summary>Keeps what went along to an account that holds no stock.</summary>
    private void GoesTo(Posting posting, Carried? carried)
    {
        if (posting.To.Section == Section.Process)
        {
            processCarried = Carried.Meet(processCarried, processWine, carried, UnknownIn(posting));
            processWine += UnknownIn(posting);
            return;
        }
        if (!posting.From.IsStock || posting.From.Section == Section.Stores) return;
        var before = cellar.GoneTo(posting.To.Name, posting.From.Name);
        if (carried is null && before is null && !CanReturn(posting.From)) return;
        before ??= new(Volume.None, null);
        cellar.Put(posting.To.Name, posting.From.Name, new(before.Volume + posting.Volume, Carried.Meet(before.Carried, before.Volume, carried, posting.Volume)));
    }

    /// <summary>What a place carries once a posting has arrived in it.</summary>
    private static Carried? Arrived(Place place, Posting posting, Carried? arriving) =>
        place.Carried is null && arriving is null ? null : Carried.Meet(place.Carried, place.Volume.IsPositive ? place.Volume : Volume.None, arriving, UnknownIn(posting));

    /// <summary>The volume in a posting that nothing is known of where it carries nothing: wine does, water, sugar and a surplus don't.</summary>
    private static Volume UnknownIn(Posting posting) =>
        posting.From is { IsMatter: false, IsAdjustment: false, IsLoss: false } ? posting.Volume : Volume.None;

    /// <summary>The days on which what lies in a place became wine, once a posting has arrived in it.</summary>
    private static ProducedDays ProducedBy(Deed deed, Posting posting, Place place, Place given)
    {
        if (!place.Account.Section.IsWine()) return default;
        var arriving = posting.Category.Code == "PRODUCED" && !posting.IsTakenBack ? new(deed.Day, deed.Day)
            : posting.From.Section.IsWine() ? given.Produced
            : posting.From.IsOutside ? default(ProducedDays?)
            : place.Produced;
        if (posting.From.Section == Section.Process) return place.Volume.IsPositive ? place.Produced.Meet(given.Produced) : given.Produced;
        return place.Volume.IsPositive ? place.Produced.Meet(arriving ?? default) : arriving ?? default;
    }

    /// <summary>The days on which what was put into the process became wine.</summary>
    private ProducedDays ProducedInProcess()
    {
        ProducedDays? days = null;
        foreach (var (_, _, from) in process)
            if (from is { Account.Section: var section } && section.IsWine()) days = days?.Meet(from.Produced) ?? from.Produced;
        return days ?? default;
    }

    /// <summary>A movement of materials: out of and into stores, and as doses into the wine it was used in.</summary>
    private void MoveMaterial(Deed deed, Posting posting, List<Violation> violations)
    {
        if (posting.From.Section == Section.Stores)
        {
            var place = cellar.At(posting.From);
            touched.Add(posting.From);
            cellar.Put(place with { Material = place.Material - posting.Material, FirstDay = place.FirstDay == default ? deed.Day : place.FirstDay, LastDay = deed.Day });
            CheckEnough(cellar.At(posting.From), deed, posting, violations);
        }
        if (posting.To.Section == Section.Stores)
        {
            var place = cellar.At(posting.To);
            touched.Add(posting.To);
            cellar.Put(place with { Material = place.Material + posting.Material, Delivery = (posting.IsTakenBack ? null : deed.Operation?.Brought(posting, deed)) ?? place.Delivery, FirstDay = place.FirstDay == default ? deed.Day : place.FirstDay, LastDay = deed.Day });
        }
        if (posting.To.WineUsedIn is { } wine && posting.From.Material is { } used) PutIn(deed, posting, wine, used, violations);
    }

    private void PutIn(Deed deed, Posting posting, Account wine, string used, List<Violation> violations)
    {
        if (materialOf(used) is not { } material || Tracing?.Never.Contains(deed.Entry) == true || Apart?.Never.Contains(deed.Entry) == true) return;
        var place = cellar.At(wine);
        if (!place.Volume.IsPositive)
        {
            violations.Add(new(deed, RefusalCode.NothingThere, wine, $"Nothing lies in {wine.Place} of {wine.Name} on {deed.Day:yyyy-MM-dd} that {material.Said} could go into. Check the vessel, or the day."));
            return;
        }
        var carried = place.Carried;
        foreach (var (real, brought) in BroughtBy(posting.From, used, posting.Material))
            if (brought.IsPositive && CountsIn(wine, real))
            {
                var substance = Apart?.Entry == deed.Entry ? Apart.StandIn(real) : real;
                NoteSugar(wine, substance, carried);
                var ofEntry = dosedByDeed[(wine, substance)] = dosedByDeed.GetValueOrDefault((wine, substance)) + brought;
                carried = Carried.With(carried, substance, brought, place.Volume, wine.Section == Section.Must, ofEntry);
            }
        foreach (var substance in Tracing is null && Apart?.Entry != deed.Entry ? UnstatedIn(posting.From, material) : [])
            if (CountsIn(wine, substance))
            {
                NoteSugar(wine, substance, carried);
                carried = Carried.WithUnstated(carried, substance, place.Volume);
            }
        if (!ReferenceEquals(carried, place.Carried)) cellar.Put(place with { Carried = carried, LastDay = deed.Day });
    }

    /// <summary>Sugar raises the strength of must alone.</summary>
    private static bool CountsIn(Account wine, Substance substance) => !ReferenceEquals(substance, Substances.Enrichment) || wine.Section == Section.Must;

    /// <summary>Sugar that only its volume was told of, and concentrate poured to must, leave open how far they raise its strength.</summary>
    private void NoteSugarUnweighed(Deed deed)
    {
        if (deed.Operation?.MakesUpConcentrate == true || Tracing is not null || Apart?.Entry == deed.Entry || Apart?.Never.Contains(deed.Entry) == true) return;
        foreach (var posting in deed.Postings)
        {
            if (posting.To.Section != Section.Must || posting.IsTakenBack) continue;
            var must = cellar.At(posting.To);
            var raises = posting.From == Account.Sugar ? !dosedByDeed.ContainsKey((posting.To, Substances.Enrichment)) : must.Volume > posting.Volume && deed.Operation?.BringsConcentrate(posting) == true;
            if (!raises || !must.Volume.IsPositive) continue;
            NoteSugar(posting.To, Substances.Enrichment, must.Carried);
            cellar.Put(must with { Carried = Carried.WithUnstated(must.Carried, Substances.Enrichment, must.Volume), LastDay = deed.Day });
        }
    }

    /// <summary>Remembers a must that sugar goes into for the first time.</summary>
    private void NoteSugar(Account wine, Substance substance, Carried? before)
    {
        if (ReferenceEquals(substance, Substances.Enrichment) && before?.Of(substance) is null) sugared.Add(wine);
    }

    /// <summary>Keeps what a must read when sugar first went in: its natural strength is counted from that, unless yeast was in it already.</summary>
    private void NoteBeforeSugar()
    {
        foreach (var account in sugared)
            if (cellar.At(account) is { Notes: { ReadBeforeSugar: null, ReadUnfermented: { } read } notes } place) cellar.Put(place with { Notes = notes with { ReadBeforeSugar = read } });
    }

    /// <summary>Substances that an amount of a delivery brings; a mix brings what its parts do, by its share of all that was made of it.</summary>
    private IEnumerable<(Substance Substance, SubstanceAmount Amount)> BroughtBy(Account from, string code, MaterialAmount amount)
    {
        if (Tracing?.Delivery == from) return [(Tracing.Substance, new(FineAmount.Of(amount).Millionths))];
        if (cellar.At(from).Delivery is not { MixedFrom.IsEmpty: false } mix) return Tracing is null ? materialOf(code)?.Brings(amount) ?? [] : [];
        return mix.MixedFrom.SelectMany(part => BroughtBy(part.From, part.From.Material!, part.Amount)).Select(brought => (brought.Substance, brought.Amount.Times(amount.Units, mix.Amount.Units)));
    }

    private IEnumerable<Substance> UnstatedIn(Account from, Stores.Material material) =>
        cellar.At(from).Delivery is { MixedFrom.IsEmpty: false } mix ? mix.MixedFrom.SelectMany(part => materialOf(part.From.Material!) is { } inside ? UnstatedIn(part.From, inside) : []).Distinct() : material.Unstated;

    /// <summary>What the packets allow whose content went into a wine stays with it; a kit's box speaks of all that it was made up to.</summary>
    private void NotePackets(Deed deed)
    {
        foreach (var posting in deed.Postings)
        {
            if (!posting.Category.IsOfStores || posting.IsTakenBack || posting.From.Material is not { } code || materialOf(code) is not { } material) continue;
            if ((posting.To.WineUsedIn ?? (material.Kit is null ? null : deed.Postings.FirstOrDefault(other => other.To.Section == Section.Must)?.To)) is not { } wine || cellar.At(wine) is not { IsEmpty: false } place) continue;
            var notes = PacketsIn(posting.From, material).Aggregate(place.Notes, (notes, packet) => notes.Holding(packet));
            if (!ReferenceEquals(notes, place.Notes)) cellar.Put(place with { Notes = notes });
        }
    }

    private IEnumerable<LimitSet> PacketsIn(Account from, Stores.Material material) =>
        (cellar.At(from).Delivery is { MixedFrom.IsEmpty: false } mix ? mix.MixedFrom.SelectMany(part => materialOf(part.From.Material!) is { } inside ? PacketsIn(part.From, inside) : []) : [])
            .Concat(material.Packet is { } packet ? [packet] : []);

    /// <summary>Puts what an analysis found in place of all additions before it.</summary>
    private void Analyse(Operations.Operation operation, Deed deed)
    {
        if (Tracing is not null) return;
        foreach (var (substance, found) in operation.ContentsFound)
            foreach (var account in operation.NotedAt(cellar))
                if (cellar.At(account) is { Volume.IsPositive: true } place)
                    cellar.Put(place with { Carried = Carried.Found(place.Carried, substance, SubstanceAmount.In(found, place.Volume), deed.Entry), LastDay = deed.Day });
    }

    /// <summary>A colour stated with an operation belongs to the wine it was done to, or that it put somewhere.</summary>
    private void Colour(Operations.Operation operation, Deed deed)
    {
        if (operation.Colour is not { } colour) return;
        foreach (var account in deed.Postings.Select(posting => posting.To).Concat(operation.NotedAt(cellar)).Where(account => account.Section is Section.Must or Section.Bulk or Section.Bottled).Distinct().ToArray())
            if (cellar.At(account) is { IsEmpty: false } place) cellar.Put(place with { Notes = place.Notes with { Colour = colour } });
    }
}
